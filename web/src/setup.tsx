// Set-up: the farm by forms that are made from its own field tables, with the
// faults shown where they are. A new farm begins with the first hour.
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { askAllAgain, path, useGet } from './api';
import { meetFarm, useFarm } from './farm';
import { FirstHour } from './firsthour';
import { Icon } from './icons';
import { type Outcome, readTable, type TableFault, type TableField, type TableLine, type TableRow, type TableSheet, writeTable } from './tables';
import { Button, Field, Said, Title, Trouble, Waiting } from './ui';
import { languageCode, number, t } from './words';

/** Tables in the order in which a farm is told. */
const GROUPS: [string, string[]][] = [
  ['site', ['farm', 'climate', 'forecast', 'sources', 'tunnels']],
  ['water', ['loops', 'pumps', 'zones', 'links', 'tanks', 'aerators', 'heaters', 'readings']],
  ['growing', ['beds', 'crops', 'ways', 'trays', 'nursery', 'plants', 'bases', 'figures']],
  ['fish', ['fish', 'fish_sources', 'feeds']],
  ['selling', ['buyers', 'products', 'parts', 'prices', 'orders', 'stores', 'closures']],
  ['people', ['hands', 'tasks', 'contacts']],
];

/** A table by its name, or what it holds where the page speaks no English. */
interface Named { name: string; meaning: string }
const plain = (table: Named) => table.name.replace(/_/g, ' ');
const tableTitle = (table: Named) => languageCode() === 'en' ? plain(table) : table.meaning;
const tableUnder = (table: Named) => languageCode() === 'en' ? table.meaning : plain(table);

export function Setup({ facts }: PageProps) {
  const table = facts.get('table');
  if (table !== null) return <OneTable key={table} name={table} />;
  if (facts.has('hour')) return <FirstHour />;
  return <AllTables />;
}

function AllTables() {
  const got = useGet<{ tables: TableLine[] }>('/api/tables');
  const check = useGet<{ fault_count: number; faults: TableFault[]; notices: (string | { text: string })[] }>('/api/check');
  const lines = got.data?.tables ?? [];
  const isBlank = lines.some((l) => l.needed && l.rows === 0);
  const known = new Set(GROUPS.flatMap(([, names]) => names));
  const rest = lines.filter((l) => !known.has(l.name) && !l.name.startsWith('plan')).map((l) => l.name);
  return (
    <>
      <Title of="setup">{check.data === null ? undefined : t('setup_under', { n: check.data.fault_count })}</Title>
      {isBlank && (
        <section class="card first-hour">
          <h2>{t('first_hour')}</h2>
          <p>{t('first_hour_more')}</p>
          <a class="button is-strong" href="#/setup?hour=1">{t('begin')}</a>
        </section>
      )}
      <Waiting got={got} />
      {[...GROUPS, ['other', rest] as [string, string[]]].map(([group, names]) => {
        const ours = names.flatMap((name) => lines.find((l) => l.name === name) ?? []);
        return ours.length === 0 ? null : (
          <section key={group}>
            <h2 class="sub">{t(`setup.${group}` as 'setup.site')}</h2>
            <ul class="doors tables">
              {ours.map((l) => (
                <li key={l.name}><a href={path('#/setup', { table: l.name })}>
                  <span><b><Said text={tableTitle(l)} /></b><small><Said text={tableUnder(l)} /></small></span>
                  <span class="table-state">{l.faults > 0 ? <strong class="bad">{t('n_faults', { n: l.faults })}</strong>
                    : t('n_rows', { n: l.rows })}</span></a></li>))}
            </ul>
          </section>
        );
      })}
      {(check.data?.faults ?? []).length > 0 && (
        <section class="card"><h2>{t('faults')}</h2>
          <ul>{check.data?.faults.slice(0, 20).map((f, i) => (
            <li key={i}><a href={path('#/setup', { table: f.file.replace(/\.csv$/, '') })}>{f.file}{f.line ? `:${f.line}` : ''} {f.column}</a>{' '}
              <Said text={f.expected} /></li>))}</ul></section>
      )}
    </>
  );
}

/* ---- One table ------------------------------------------------------------ */

const shownName = (row: TableRow, fields: TableField[], i: number) => {
  const key = ['name', 'id', 'order', 'product', 'month', 'tank', 'quantity'].find((k) =>
    fields.some((f) => f.name === k) && row[k] !== undefined && row[k] !== '');
  return key === undefined ? String(i + 1) : String(row[key]);
};

function OneTable({ name }: { name: string }) {
  const [sheet, setSheet] = useState<TableSheet | null>(null);
  const [rows, setRows] = useState<TableRow[]>([]);
  const [open, setOpen] = useState<number | null>(null);
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const [error, setError] = useState<Error | null>(null);
  const [find, setFind] = useState('');
  const { farm } = useFarm();
  const load = () => readTable(name).then((s) => {
    setSheet(s);
    setRows(s.rows.length === 0 && s.single ? [{}] : s.rows);
    if (s.single) setOpen(0);
  }, setError);
  useEffect(() => { void load(); }, [name]);
  if (sheet === null) {
    return <><Title of="setup" />{error === null ? <p class="quiet">{t('fetching')}</p> : <Trouble error={error} />}</>;
  }
  const isChanged = JSON.stringify(rows) !== JSON.stringify(sheet.rows);
  const faults = outcome?.fate === 'refused' ? outcome.faults
    : outcome?.fate === 'written' ? outcome.written.faults : [];
  const ours = faults.filter((f) => f.file === `${name}.csv`);
  const save = async (mayLack = false) => {
    try {
      const next = await writeTable(name, sheet.hash, rows, mayLack);
      setOutcome(next);
      setError(null);
      if (next.fate === 'written') {
        setSheet({ ...sheet, hash: next.written.hash, rows });
        askAllAgain();
        if (farm === null || name === 'farm') await meetFarm();
      } else if (next.fate === 'refused') {
        const at = next.faults.find((f) => f.file === `${name}.csv` && typeof f.row === 'number');
        if (typeof at?.row === 'number') setOpen(at.row);
      }
    } catch (trouble) { setError(trouble as Error); }
  };
  const shown = rows.map((row, i) => ({ row, i })).filter(({ row }) => find === '' ||
    Object.values(row).some((v) => String(v).toLowerCase().includes(find.toLowerCase())));
  return (
    <>
      <header class="title"><p><a href="#/setup">{t('setup')}</a></p>
        <h1 tabIndex={-1}><Said text={tableTitle({ name, meaning: sheet.meaning })} /></h1><p class="under"><Said text={tableUnder({ name, meaning: sheet.meaning })} /></p></header>
      {outcome?.fate === 'conflict' && <ConflictBox body={outcome.body} onTheirs={() => { setOutcome(null); void load(); }} />}
      {error !== null && <Trouble error={error} />}
      {faults.filter((f) => f.file !== `${name}.csv` || f.row == null).length > 0 && (
        <details class="faults" open={outcome?.fate === 'refused'}><summary>{t('n_faults', { n: faults.length })}</summary>
          {outcome?.fate === 'refused' && <Button onClick={() => save(true)}>{t('save_lacking')}</Button>}
          <ul>{faults.filter((f) => f.file !== `${name}.csv` || f.row == null).slice(0, 20).map((f, i) => (
            <li key={i}>{f.file} {f.column} <Said text={f.expected} /></li>))}</ul></details>
      )}
      {rows.length > 12 && <Field label={t('search')}>{(id) => <input id={id} type="search" value={find}
        onInput={(e) => setFind(e.currentTarget.value)} />}</Field>}
      <ol class="plain rows">
        {shown.map(({ row, i }) => (
          <li key={i} class="card row">
            {!sheet.single && (
              <button type="button" class="row-head" aria-expanded={open === i} onClick={() => setOpen(open === i ? null : i)}>
                <b>{shownName(row, sheet.fields, i)}</b>
                <small>{Object.entries(row).filter(([k]) => k !== 'name' && k !== 'id').slice(0, 4).map(([, v]) => v).join(' · ')}</small>
                {ours.some((f) => f.row === i) && <strong class="bad">{t('mend')}</strong>}
              </button>
            )}
            {open === i && (
              <>
                <div class="grid-2 fields">
                  {sheet.fields.map((field) => (
                    <OneField key={field.name} field={field} value={row[field.name]}
                      fault={ours.find((f) => f.row === i && f.column === field.name)?.expected}
                      onChange={(value) => setRows(rows.map((r, j) => j === i ? withCell(r, field.name, value) : r))} />))}
                </div>
                {!sheet.single && <Button onClick={() => { setRows(rows.filter((_, j) => j !== i)); setOpen(null); }}>{t('take_out_row')}</Button>}
              </>
            )}
          </li>
        ))}
      </ol>
      {!sheet.single && (
        <Button onClick={() => { setRows([...rows, {}]); setOpen(rows.length); }}><Icon name="plus" /> {t('one_more')}</Button>
      )}
      <div class="save-bar">
        <p role="status">{outcome?.fate === 'written' && !isChanged ? t('saved')
          : outcome?.fate === 'refused' ? t('not_saved_faults') : isChanged ? t('changed') : t('n_rows', { n: rows.length })}</p>
        <Button class="button is-strong" id="table-save" onClick={() => save()} disabled={!isChanged}>{t('save')}</Button>
      </div>
    </>
  );
}

function withCell(row: TableRow, name: string, value: string): TableRow {
  const next = { ...row };
  if (value === '') delete next[name];
  else next[name] = value;
  return next;
}

interface OneFieldProps {
  field: TableField; value: TableRow[string] | undefined; fault: string | undefined; onChange: (v: string) => void;
}
function OneField({ field, value, fault, onChange }: OneFieldProps) {
  const refs = useGet<TableSheet>(field.kind === 'ref' && field.table ? path('/api/table', { name: field.table }) : null);
  const options = useMemo(() => field.words ?? (field.kind === 'flag' ? ['yes', 'no']
    : refs.data?.rows.map((r) => String(r['id'] ?? '')).filter((id) => id !== '')), [field, refs.data]);
  const text = value === undefined || value === null ? '' : String(value);
  const usual = field.usual === null ? '' : typeof field.usual === 'number' ? number(field.usual) : field.usual;
  const isMany = field.kind === 'words';
  // A column's name is English, and what it means in the page's language.
  const name = field.name.replace(/_/g, ' ');
  const [label, hint] = languageCode() === 'en' ? [name, field.meaning] : [field.meaning, name];
  return (
    <Field label={`${label}${field.needed ? ' *' : ''}`} fault={fault} foreign
      hint={<Said text={`${hint}${usual === '' ? '' : ` (${t('usual')} ${usual})`}`} />}>
      {(id, described) => options !== undefined && !isMany
        ? (
          <select id={id} aria-describedby={described} value={text} onChange={(e) => onChange(e.currentTarget.value)}>
            <option value="">–</option>
            {[...new Set([...options, ...(text === '' ? [] : [text])])].map((o) => <option key={o} value={o}>{o}</option>)}
          </select>
        ) : <input id={id} aria-describedby={described} type={field.kind === 'date' ? 'date' : 'text'} autocomplete="off"
          inputMode={['number', 'count', 'amount', 'money'].includes(field.kind) ? 'decimal' : 'text'}
          value={text} onInput={(e) => onChange(e.currentTarget.value)} />}
    </Field>
  );
}

/** Somebody else wrote it meanwhile: both versions stay, nothing is merged. */
function ConflictBox({ body, onTheirs }: { body: Record<string, unknown>; onTheirs: () => void }) {
  const rows = (v: unknown) => Array.isArray(v) ? v as TableRow[]
    : ((v as { rows?: TableRow[] } | undefined)?.rows ?? []);
  const theirs = rows(body['theirs'] ?? body['now'] ?? body['rows']);
  const mine = rows(body['yours'] ?? body['wanted'] ?? body['mine']);
  const line = (r: TableRow) => Object.values(r).join(' · ');
  const onlyTheirs = theirs.filter((r) => !mine.some((m) => line(m) === line(r)));
  const onlyMine = mine.filter((r) => !theirs.some((m) => line(m) === line(r)));
  return (
    <section class="ask" role="alert">
      <h2>{t('conflict')}</h2><p>{t('conflict_more')}</p>
      <h3>{t('theirs')}</h3><ul>{onlyTheirs.map((r, i) => <li key={i}>{line(r)}</li>)}</ul>
      <h3>{t('yours')}</h3><ul>{onlyMine.map((r, i) => <li key={i}>{line(r)}</li>)}</ul>
      <Button onClick={onTheirs}>{t('read_theirs')}</Button>
    </section>
  );
}
