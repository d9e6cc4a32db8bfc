// Journal: what was told, newest first; what still waits on this device above
// it. A mistake is struck through with a reason; both stay readable.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { useFarm } from './farm';
import { Icon } from './icons';
import { KINDS } from './kinds';
import {
  dropRefused, type Entry, type Pending, send, strike, tell, usePending, useStruckUids,
} from './outbox';
import { Button, Choice, Field, Plate, Said, Sheet, Title, Waiting } from './ui';
import { amount } from './units';
import { clock, dayLong, dayShort, t, word } from './words';

export interface Told extends Entry {
  number: number; told_at?: number; told_on?: string;
  struck_by?: number; struck_why?: string; struck_who?: string;
}
interface Page { entries: Told[]; has_more: boolean }
const PER_PAGE = 100;

interface Filter { from: string; until: string; kind: string; place: string; who: string }

export function Journal({ facts }: PageProps) {
  const { farm } = useFarm();
  const [filter, setFilter] = useState<Filter>({
    from: facts.get('from') ?? '', until: facts.get('until') ?? '',
    kind: facts.get('kind') ?? '', place: facts.get('place') ?? '', who: facts.get('who') ?? '',
  });
  const [before, setBefore] = useState<number[]>([]);
  const [striking, setStriking] = useState<Told | null>(null);
  const last = before[before.length - 1];
  const question = { ...filter, limit: PER_PAGE, before: last };
  const got = useGet<Page>(farm === null ? null : path('/api/journal', question));
  const entries = got.data?.entries ?? [];
  const oldest = entries.reduce((least, e) => Math.min(least, e.number), Infinity);
  return (
    <>
      <Title of="journal">{t('journal_under')}</Title>
      <Unsent />
      {farm !== null && <Settle />}
      <Filters filter={filter} set={(f) => { setFilter(f); setBefore([]); }} />
      <Waiting got={got} />
      {got.data !== null && entries.length === 0 && <p class="quiet">{t('nothing_told')}</p>}
      <Days entries={entries} onStrike={setStriking} />
      <div class="row-buttons">
        {got.data?.has_more === true &&
          <Button onClick={() => setBefore([...before, oldest])}>{t('older')}</Button>}
        {before.length > 0 && <Button onClick={() => setBefore(before.slice(0, -1))}>{t('newer')}</Button>}
        <Button onClick={() => print()}><Icon name="print" /> {t('print')}</Button>
        <Button onClick={() => download(entries)}>{t('as_csv')}</Button>
      </div>
      {striking !== null && <Strike entry={striking} onClose={() => setStriking(null)} />}
    </>
  );
}

interface Step { day: string; kind: string; batch: string; place: string; to_place: string; count: number; text: string }
interface ToSettle { to_settle: Step[]; doubts: { number: number; day: string; text: string }[] }

/** Planned steps of the past that nobody told of, and what does not add up. */
function Settle() {
  const got = useGet<ToSettle>('/api/settle');
  const pending = usePending();
  const steps = (got.data?.to_settle ?? []).filter((s) => !pending.some((p) =>
    p.entry.batch === s.batch && (p.entry.kind === 'undone' || p.entry.kind === s.kind)));
  const doubts = got.data?.doubts ?? [];
  if (steps.length === 0 && doubts.length === 0) return null;
  const answer = (s: Step, kind: string) => tell([{
    kind, happened_on: s.day, happened_at: undefined as unknown as number,
    ...(s.batch === '' ? {} : { batch: s.batch }), ...(s.place === '' ? {} : { place: s.place }),
    ...(kind === 'undone' ? {} : {
      ...(s.to_place === '' ? {} : { to_place: s.to_place }), ...(s.count > 0 ? { count: s.count } : {}),
    }),
  }]);
  return (
    <details class="card settle">
      <summary>{t('to_settle', { n: steps.length + doubts.length })}</summary>
      <p>{t('to_settle_more')}</p>
      <ul class="plain">
        {doubts.map((d) => <li key={d.number}><b>{t('doubts')}</b> {dayShort(d.day)}: <Said text={d.text} /></li>)}
        {steps.slice(0, 60).map((s, i) => (
          <li key={i} class="tray-row"><span>{dayShort(s.day)}: <b>{word('kind', s.kind)}</b> {s.place !== '' && <Plate id={s.place} />} <Said text={s.text} /></span>
            <Button onClick={() => answer(s, s.kind)}>{t('was_done')}</Button>
            <Button onClick={() => answer(s, 'undone')}>{t('was_not_done')}</Button></li>))}
      </ul>
    </details>
  );
}

function Unsent() {
  const pending = usePending();
  const struck = useStruckUids();
  if (pending.length === 0) return null;
  return (
    <section class="card unsent-list">
      <h2><Icon name="boat" /> {t('n_not_sent', { n: pending.length })}</h2>
      <p>{t('unsent_more')}</p>
      <ol class="plain entries">
        {pending.map((p) => (
          <li key={p.seq} class={struck.has(p.entry.uid) ? 'is-struck' : ''}>
            <Line entry={p.entry} />
            {p.refused !== undefined && <Refusal pending={p} />}
            {p.entry.kind !== 'struck' && p.refused === undefined && !struck.has(p.entry.uid) &&
              <button type="button" class="link"
                onClick={() => strike({ uid: p.entry.uid }, t('tapped_wrong'))}>{t('strike')}</button>}
          </li>
        ))}
      </ol>
      <Button class="button is-strong" onClick={send}>{t('send_now')}</Button>
    </section>
  );
}

function Refusal({ pending }: { pending: Pending }) {
  return (
    <p class="bad" role="alert">{t('not_taken')}: <Said text={pending.refused ?? ''} />
      <button type="button" class="link" onClick={() => dropRefused(pending.seq)}>{t('put_aside')}</button>
    </p>
  );
}

function Filters({ filter, set }: { filter: Filter; set: (f: Filter) => void }) {
  const { farm } = useFarm();
  const isOn = Object.values(filter).some((v) => v !== '');
  return (
    <details class="filters" open={isOn}>
      <summary>{t('search')}</summary>
      <div class="grid-2">
        <Field label={t('from')}>{(id) => <input id={id} type="date" value={filter.from}
          onInput={(e) => set({ ...filter, from: e.currentTarget.value })} />}</Field>
        <Field label={t('until')}>{(id) => <input id={id} type="date" value={filter.until}
          onInput={(e) => set({ ...filter, until: e.currentTarget.value })} />}</Field>
        <Choice label={t('what')} value={filter.kind} onChange={(kind) => set({ ...filter, kind })}
          options={[{ value: '', text: t('everything') }, { value: 'as_usual', text: t('as_usual') },
            ...KINDS.map((k) => ({ value: k.name, text: word('kind', k.name) })),
            { value: 'struck', text: word('kind', 'struck') }]} />
        <Field label={t('field.place')}>{(id) => <input id={id} type="text" value={filter.place}
          placeholder="H1-S1" onChange={(e) => set({ ...filter, place: e.currentTarget.value.trim() })} />}</Field>
        <Choice label={t('who')} value={filter.who} onChange={(who) => set({ ...filter, who })}
          options={[{ value: '', text: t('everybody') },
            ...(farm?.people ?? []).map((p) => ({ value: p.id, text: p.name || p.id }))]} />
      </div>
    </details>
  );
}

function Days({ entries, onStrike }: { entries: Told[]; onStrike: (e: Told) => void }) {
  const days = [...new Set(entries.map((e) => e.happened_on))];
  return (
    <>
      {days.map((day) => (
        <section key={day} class="day">
          <h2 class="sub">{dayLong(day)}</h2>
          <ol class="plain entries">
            {entries.filter((e) => e.happened_on === day).map((e) => (
              <li key={e.number} class={e.struck_by ? 'is-struck' : ''}>
                <Line entry={e} />
                {e.told_on !== undefined && e.told_on > e.happened_on &&
                  <span class="quiet">{t('told_late', { day: dayShort(e.told_on) })}</span>}
                {e.struck_by
                  ? <span class="why">{t('struck_because')} <Said text={e.struck_why ?? ''} /> {e.struck_who}</span>
                  : e.kind !== 'struck' && <button type="button" class="link" onClick={() => onStrike(e)}
                    aria-label={`${t('strike')}: ${summary(e)}`}>{t('strike')}</button>}
              </li>
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

/** One entry in one line: what, where, how much, who. */
export function Line({ entry }: { entry: Entry }) {
  return (
    <span class="entry">
      <span class="entry-at">{entry.happened_at === undefined || entry.happened_at < 0 ? ''
        : clock(entry.happened_at)}</span>
      <span class="entry-what">
        <b>{word('kind', entry.kind)}</b>
        {entry.place && <> <Plate id={entry.place} /></>}
        {entry.to_place && <> → <Plate id={entry.to_place} /></>}
        {' '}{figures(entry).join(' · ')}
        {entry.text && <> <bdi class="quiet">{entry.text}</bdi></>}
        {entry.blob && <Attached entry={entry} />}
      </span>
      <bdi class="entry-who">{entry.who ?? ''}</bdi>
    </span>
  );
}
function Attached({ entry }: { entry: Entry }) {
  if (!/^[0-9a-f]{64}$/.test(entry.blob ?? '')) return null;
  return <a class="link" href={`/api/blob?sha256=${entry.blob}`} target="_blank" rel="noopener">
    {t('open')}</a>;
}
function figures(e: Entry): string[] {
  const parts: string[] = [];
  if (e.kind === 'as_usual' && e.stop) parts.push(e.stop);
  if (e.quantity_key !== undefined) {
    const unit = e.quantity_key.replace(/^(air|temp|store|outside)_(min_|max_)?degc$/, 'degc')
      .replace(/^.*_mg_l$/, 'mg_l');
    parts.push(`${word('quantity', e.quantity_key)} ${amount(e.value ?? 0, unit)}`);
  } else if (e.value !== undefined) parts.push(amount(e.value, e.unit ?? ''));
  if (e.count !== undefined && e.count >= 0) parts.push(amount(e.count, 'count'));
  if (e.grams !== undefined) parts.push(amount(e.grams, 'g'));
  if (e.mean_g !== undefined) parts.push(`${t('each')} ${amount(e.mean_g, 'g')}`);
  if (e.quantity !== undefined) parts.push(amount(e.quantity, e.unit ?? ''));
  for (const key of ['product', 'way', 'batch', 'buyer'] as const) {
    const text = e[key];
    if (text) parts.push(text);
  }
  if (e.cause) parts.push(word('cause', e.cause));
  return parts;
}
const summary = (e: Entry) =>
  [word('kind', e.kind), e.place ?? '', ...figures(e)].join(' ');

function Strike({ entry, onClose }: { entry: Told; onClose: () => void }) {
  const [why, setWhy] = useState('');
  const reasons = ['tapped_wrong', 'wrong_number', 'wrong_place', 'told_twice'] as const;
  const act = async (reason: string) => {
    await strike({ number: entry.number }, reason);
    onClose();
  };
  return (
    <Sheet title={t('strike')} onClose={onClose}>
      <p class="big">{summary(entry)}</p>
      <p>{t('strike_more')}</p>
      <div class="tiles">
        {reasons.map((r) => (
          <button type="button" class="tile" key={r} onClick={() => act(t(r))}>{t(r)}</button>))}
      </div>
      <Field label={t('another_reason')}>
        {(id) => <input id={id} type="text" value={why}
          onInput={(e) => setWhy(e.currentTarget.value)} />}
      </Field>
      <Button class="button is-strong" disabled={why.trim() === ''}
        onClick={() => act(why.trim())}>{t('strike')}</Button>
    </Sheet>
  );
}

/** The entries shown, as a table that a spreadsheet opens. */
function download(entries: Told[]) {
  const keys = [...new Set(entries.flatMap((e) => Object.keys(e)))];
  // A cell that a spreadsheet would run as a formula begins with a quote.
  const cell = (v: unknown) => {
    const text = v === undefined ? '' : String(v);
    const safe = typeof v === 'string' && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
    return /[",\n\r]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
  };
  const lines = [keys.join(','), ...entries.map((e) =>
    keys.map((k) => cell((e as unknown as Record<string, unknown>)[k])).join(','))];
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([`${lines.join('\r\n')}\r\n`], { type: 'text/csv' }));
  link.download = 'journal.csv';
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
