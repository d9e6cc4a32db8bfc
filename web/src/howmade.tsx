// How a figure was made: the equation in words and symbols, the numbers put in,
// each with where it comes from, and the sources in full. An input that is a
// figure itself opens in its turn.
import { useState } from 'preact/hooks';
import { path, useGet } from './api';
import { Icon } from './icons';
import type { Which } from './opens';
import { Said, Sheet, Waiting } from './ui';
import { amount } from './units';
import { dayYear, locale, t, word } from './words';

type Value = number | string | null;
interface Source { key: string; text: string | null }
interface Input {
  symbol: string | null; name: string; value: Value; low: Value; high: Value; unit: string; from: string; on: string | null;
  sources: Source[]; note: string | null; opens: Which | null;
}
interface Working {
  day: string; of: string; id: string; figure: string; name: string; value: Value; low: Value; high: Value; unit: string;
  words: string; symbols: string; inputs: Input[]; notes: string[]; sources: Source[];
}

const UNITS: Record<string, string> = {
  degC: '°C', 'degC d': '°C d', m3: 'm³', 'kg/m3': 'kg/m³', m2: 'm²', '1/m2': '/m²', 'mol/m2/d': 'mol/m²/d', mg_l: 'mg/L',
};
/** Four figures of it, however large or small. */
const plain = (value: number) => new Intl.NumberFormat(locale(), {
  maximumSignificantDigits: Math.abs(value) >= 1000 ? 6 : 4 }).format(value);
const bare = (value: Value) => value === null ? '–' : typeof value === 'string' ? dayYear(value) : plain(value);
const named = (unit: string) => UNITS[unit] ?? (unit === '' ? '' : word('unit', unit));
const withUnit = (value: Value, unit: string) =>
  typeof value === 'string' || unit === '' ? bare(value) : `${bare(value)} ${named(unit)}`;

export function HowMade({ first, known, onClose }: { first: Which; known?: Which[] | undefined; onClose: () => void }) {
  const [way, setWay] = useState<Which[]>([first]);
  const which = way[way.length - 1] ?? first;
  const own = known?.find((k) => k.of === which.of && k.id === which.id && k.figure === which.figure) as Working | undefined;
  const got = useGet<Working>(own !== undefined ? null : path('/api/working', { of: which.of, id: which.id, figure: which.figure }));
  const made = own ?? got.data;
  return (
    <Sheet title={made === null ? t('how_made') : <Said text={made.name} />} onClose={onClose}>
      {way.length > 1 && <button type="button" class="button" onClick={() => setWay(way.slice(0, -1))}>{t('back')}</button>}
      {own === undefined && <Waiting got={got} />}
      {made !== null && <Made made={made} onOpen={(next) => setWay([...way, next])} />}
    </Sheet>
  );
}

/** "low to high" where there is a range. */
function Range({ of }: { of: { value: Value; low: Value; high: Value; unit: string } }) {
  if (of.low === of.high || of.low === null || of.high === null) return null;
  return <small class="quiet"> ({t('low_to_high', { low: bare(of.low), high: bare(of.high) })})</small>;
}

function Made({ made, onOpen }: { made: Working; onOpen: (next: Which) => void }) {
  const head = typeof made.value === 'number' && ['g', 'kg', 'degC'].includes(made.unit)
    ? amount(made.value, made.unit) : withUnit(made.value, made.unit);
  return (
    <section class="made" aria-live="polite">
      <p class="big"><b>{head}</b><Range of={made} /></p>
      <p><Said text={made.words} /></p>
      <p class="formula" dir="ltr">{signs(made.symbols)}</p>
      <PutIn made={made} />
      <h3 class="wrong">{t('goes_in')}</h3>
      <ul class="plain goes-in">
        {made.inputs.map((put, i) => <OneInput key={i} put={put} onOpen={onOpen} />)}
      </ul>
      {made.notes.map((note) => <p key={note}><Said text={note} /></p>)}
      {made.sources.length > 0 && <><h3 class="wrong">{t('source')}</h3>
        <ul class="plain">{made.sources.map((s) => (
          <li key={s.key} class="quiet"><b><bdi>{s.key}</bdi></b>{s.text !== null && <> <Said text={s.text} /></>}</li>))}</ul></>}
    </section>
  );
}

const signs = (text: string) => text.replace(/ x /g, ' × ').replace(/ - /g, ' − ');
/** The equation with its numbers, and what comes out. */
function PutIn({ made }: { made: Working }) {
  const values = new Map(made.inputs.filter((p) => p.symbol !== null).map((p) => [p.symbol, p.value]));
  const right = made.symbols.split(' = ').slice(1).join(' = ');
  const filled = right.replace(/[A-Za-z_]\w*/g, (symbol) =>
    values.has(symbol) ? bare(values.get(symbol) ?? null) : symbol);
  return <p class="formula" dir="ltr">{signs(filled)} = <b>{withUnit(made.value, made.unit)}</b></p>;
}

function OneInput({ put, onOpen }: { put: Input; onOpen: (next: Which) => void }) {
  const { opens } = put;
  const from = put.on !== null && put.from === 'told' ? t('from_told_on', { day: dayYear(put.on) }) : word('from', put.from);
  const body = (
    <>
      <code class="sign" dir="ltr">{put.symbol ?? ''}</code>
      <span class="goes-name"><Said text={put.name} />
        <small class={`from is-${put.from}`}>{from}{put.sources.map((s) => <bdi key={s.key}> {s.key}</bdi>)}
          {put.note !== null && put.note !== '' && <>: {put.note}</>}</small></span>
      <span class="goes-value"><bdi>{withUnit(put.value, put.unit)}</bdi><Range of={put} /></span>
    </>
  );
  return opens === null ? <li>{body}</li>
    : <li><button type="button" onClick={() => onOpen(opens)}>{body}<Icon name="next" size={20} /></button></li>;
}
