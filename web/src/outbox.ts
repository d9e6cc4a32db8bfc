// What was told and has not reached the server yet. Entries wait in the
// browser's store, survive a closed tab, and go out in the order told. The
// server adds an entry once however often it comes, by its uid; so an answer
// lost on the way does no harm.
import { useEffect, useState } from 'preact/hooks';
import { ask, askAllAgain, NoSignal, Refused } from './api';
import { keepAdd, keepAll, keepDrop, keepGet, keepPut, keepSwap } from './keep';

export interface Entry {
  uid: string;
  kind: string;
  happened_on: string;
  happened_at?: number;
  who?: string;
  device?: string;
  job?: string;
  stop?: string;
  place?: string;
  section?: number;
  edge?: boolean;
  batch?: string;
  to_place?: string;
  way?: string;
  product?: string;
  lot?: string;
  count?: number;
  mean_g?: number;
  grams?: number;
  quantity?: number;
  unit?: string;
  quantity_key?: string;
  value?: number;
  cause?: string;
  supplier?: string;
  buyer?: string;
  minutes?: number;
  text?: string;
  blob?: string;
  strikes?: number;
}
/** What a page tells; who, when and which are added here. */
export type Telling = Partial<Entry> & { kind: string };

interface Waiting {
  seq?: number;
  entry: Entry;
  strikesUid?: string; // the entry struck through, where it has no number yet
  refused?: string; // the server's reason
}

const BATCH = 50;
const RETRY_MS = 15000;

let waiting: Waiting[] = [];
let isSending = false;
let todayIs: () => string = () => new Date().toISOString().slice(0, 10);
let whoIs: () => string | undefined = () => undefined;
const listeners = new Set<() => void>();
const doubts = new Set<(texts: string[]) => void>();

/** The farm's day and the person, known to the frame. */
export function outboxKnows(today: () => string, who: () => string | undefined) {
  todayIs = today;
  whoIs = who;
}
export function whenDoubted(act: (texts: string[]) => void) { doubts.add(act); }

/** 128 random bits; randomUUID() is missing on a page without TLS. */
export function newUid(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, '0')).join('');
}

function device(): string {
  try {
    let name = localStorage.getItem('device');
    if (name === null) {
      name = newUid().slice(0, 8);
      localStorage.setItem('device', name);
    }
    return name;
  } catch {
    return 'unnamed';
  }
}

function tellListeners() { for (const act of listeners) act(); }

async function readBack() {
  waiting = await keepAll<Waiting>('outbox');
  tellListeners();
}

function completed(telling: Telling): Entry {
  const now = new Date();
  const who = telling.who ?? whoIs();
  const day = telling.happened_on ?? todayIs();
  return {
    uid: newUid(), happened_on: day, device: device(),
    // The hour is known only of what happens now.
    ...(day === todayIs()
      ? { happened_at: now.getHours() * 60 + now.getMinutes() } : {}),
    ...(who === undefined ? {} : { who }), ...telling,
  };
}

/** Keeps the entries in the browser's store, then tries to send. */
export async function tell(tellings: Telling[]): Promise<Entry[]> {
  const entries = tellings.map(completed);
  await keepAdd('outbox', entries.map((entry) => ({ entry })));
  await readBack();
  void send();
  return entries;
}

/** Strikes an entry through; one that still waits is struck once it has its
 * number, so that both stay readable. */
export async function strike(
  which: { number?: number; uid?: string }, reason: string,
): Promise<void> {
  const entry = completed({ kind: 'struck', text: reason });
  if (which.number !== undefined) entry.strikes = which.number;
  await keepAdd('outbox', [{
    entry,
    ...(which.number === undefined ? { strikesUid: which.uid } : {}),
  }]);
  await readBack();
  void send();
}

/** Keeps a photo or a voice note under its hash and gives the hash. */
export async function keepBlob(blob: Blob): Promise<string> {
  const name = newUid();
  await keepPut('blobs', blob, name);
  return name;
}

interface Added {
  added: { uid: string; number: number }[];
  doubts?: (string | { text: string })[];
}

async function sendBlob(entry: Entry): Promise<Entry> {
  if (entry.blob === undefined || /^[0-9a-f]{64}$/.test(entry.blob)) return entry;
  const blob = await keepGet<Blob>('blobs', entry.blob);
  if (blob === undefined) {
    const { blob: _lost, ...rest } = entry;
    return rest;
  }
  const { sha256 } = await ask<{ sha256: string }>('POST', '/api/blob', blob,
    60000);
  return { ...entry, blob: sha256 };
}

/** An entry with everything that it waited for; null while that is missing. */
async function ready(item: Waiting): Promise<Entry | null> {
  if (item.strikesUid !== undefined) {
    const number = await keepGet<number>('facts', `sent.${item.strikesUid}`);
    return number === undefined ? null : { ...item.entry, strikes: number };
  }
  return sendBlob(item.entry);
}

async function sendSome(): Promise<boolean> {
  const batch: Waiting[] = [];
  const entries: Entry[] = [];
  for (const item of waiting.filter((w) => w.refused === undefined)) {
    const entry = await ready(item);
    if (entry === null || batch.length === BATCH) break;
    batch.push(item);
    entries.push(entry);
  }
  if (entries.length === 0) return false;
  try {
    const answer = await ask<Added>('POST', '/api/journal', { entries });
    const numbers = new Map(answer.added.map((a) => [a.uid, a.number]));
    const done = batch.filter((item) => numbers.has(item.entry.uid));
    await keepSwap(done.map((item) => item.seq as number),
      done.map((item) => [`sent.${item.entry.uid}`,
        numbers.get(item.entry.uid)]));
    const texts = (answer.doubts ?? []).map((d) =>
      typeof d === 'string' ? d : d.text);
    if (texts.length > 0) for (const act of doubts) act(texts);
    await readBack();
    return done.length > 0;
  } catch (error) {
    if (!(error instanceof Refused) || ![400, 404, 413].includes(error.status)) {
      throw error;
    }
    return refuse(batch, error);
  }
}

/** One bad entry must not hold up the others: sends them one by one, and what
 * is refused stays, shown with the reason. */
async function refuse(batch: Waiting[], error: Refused): Promise<boolean> {
  if (batch.length === 1) {
    const item = { ...(batch[0] as Waiting), refused: error.fault.text };
    await keepPut('outbox', item);
    await readBack();
    return true;
  }
  for (const item of batch) {
    const entry = await ready(item);
    if (entry === null) return false;
    try {
      const answer = await ask<Added>('POST', '/api/journal',
        { entries: [entry] });
      const number = answer.added[0]?.number;
      await keepSwap([item.seq as number], [[`sent.${entry.uid}`, number]]);
    } catch (one) {
      if (!(one instanceof Refused) || ![400, 404, 413].includes(one.status)) {
        throw one;
      }
      await keepPut('outbox', { ...item, refused: one.fault.text });
    }
  }
  await readBack();
  return true;
}

/** Sends what waits, in order, until nothing does or the signal goes. */
export async function send(): Promise<void> {
  if (isSending) return;
  isSending = true;
  let sentAny = false;
  try {
    while (await sendSome()) sentAny = true;
  } catch (error) {
    if (!(error instanceof NoSignal || error instanceof Refused)) throw error;
  } finally {
    isSending = false;
  }
  if (sentAny) askAllAgain();
}

/** Puts a refused entry aside for good, at the person's wish. */
export async function dropRefused(seq: number): Promise<void> {
  await keepDrop('outbox', seq);
  await readBack();
}

export async function outboxStart(): Promise<void> {
  await readBack();
  addEventListener('online', () => void send());
  addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void readBack().then(send);
  });
  setInterval(() => { if (waiting.length > 0) void send(); }, RETRY_MS);
  void send();
}

export interface Pending { entry: Entry; seq: number; refused?: string }

/** What waits, in order. */
export function usePending(): Pending[] {
  const [now, set] = useState(waiting);
  useEffect(() => {
    const act = () => set(waiting);
    listeners.add(act);
    act();
    return () => { listeners.delete(act); };
  }, []);
  return now.map((w) => ({
    entry: w.entry, seq: w.seq ?? 0,
    ...(w.refused === undefined ? {} : { refused: w.refused }),
  }));
}

/** The uids that waiting entries strike through. */
export function useStruckUids(): Set<string> {
  usePending();
  return new Set(waiting.flatMap((w) => w.strikesUid ?? []));
}
