// The farm's tables as the server knows them: read, written with the hash they
// were read with, so that nobody's change is lost.
import { ask, get, path, Refused } from './api';

export interface TableField {
  name: string; kind: string; needed: boolean; least: number | null; most: number | null;
  usual: number | string | null; expects: string; meaning: string; words?: string[]; table?: string;
}
export type TableRow = Record<string, string | number | boolean | null>;
export interface TableSheet {
  name: string; meaning: string; needed: boolean; single: boolean; hash: string;
  fields: TableField[]; rows: TableRow[];
}
export interface TableLine {
  name: string; meaning: string; needed: boolean; single: boolean; there: boolean; rows: number; faults: number;
}
export interface TableFault {
  file: string; line?: number | null; row?: number | null; column?: string | null; value?: string; expected: string;
}
export interface Written { hash: string; rows: number; faults: TableFault[]; notices?: string[]; doubts?: string[] }
export interface Conflict { now: TableRow[]; hash: string }

export const readTable = async (name: string) =>
  (await get<TableSheet>(path('/api/table', { name }))).data;

export type Outcome =
  | { fate: 'written'; written: Written }
  | { fate: 'refused'; faults: TableFault[] }
  | { fate: 'conflict'; body: Record<string, unknown> };

/** mayLack: a farm that is being set up may lack for now what other tables will
 * hold; a cell that cannot be read is refused all the same. */
export async function writeTable(
  name: string, hash: string, rows: TableRow[], mayLack = false,
): Promise<Outcome> {
  try {
    const written = await ask<Written>('PUT', path('/api/table', { name }), {
      hash, rows, ...(mayLack ? { may_lack: true } : {}),
    }, 30000);
    return { fate: 'written', written };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const body = error.body as Record<string, unknown>;
    if (error.status === 409 && body['theirs'] !== undefined) return { fate: 'conflict', body };
    const faults = body['faults'] as TableFault[] | undefined;
    if (faults === undefined) throw error;
    return { fate: 'refused', faults };
  }
}

/** Writes rows over whatever stands in a table. */
export async function replaceTable(name: string, rows: TableRow[]): Promise<Outcome> {
  const sheet = await ask<TableSheet>('GET', path('/api/table', { name }));
  return writeTable(name, sheet.hash, rows, true);
}
