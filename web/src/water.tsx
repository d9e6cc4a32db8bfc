// Water: what was read and what it means, what to stop, doses in small steps,
// whether the fish carry the beds; and the sums behind all of it.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { FeedChart } from './feedchart';
import { today, useFarm } from './farm';
import { Icon } from './icons';
import { READINGS } from './kinds';
import { tell, type Telling } from './outbox';
import { Opens, type Which } from './opens';
import { Button, Dial, Plate, Said, Title, Waiting } from './ui';
import { amount } from './units';
import { dayShort, number, t, weekDay, word } from './words';
import { Sums } from './sums';

export interface Finding {
  id: string; class: string; means: string; act: string | null;
  feed_again: string | null; test_next: string | null; source: string;
}
interface ReadingAnswer {
  where: string; when: string; feed: string; findings: Finding[]; test_next: string[];
  dose_waits_for: string | null; notices: string[];
  quantities: Record<string, number | null>;
}
/** What was last read of each water, beside what suits its fish. */
interface WaterDay {
  places: { id: string; feed: string; findings: { rule: string; class: string; means: string; act: string | null }[];
    readings: { quantity: string; value: number | null; age_h: number | null; foreseen: number | null; low: number | null; high: number | null; mark: string }[] }[];
}
type Tab = 'reading' | 'dose' | 'carry' | 'sums';

export function Water({ facts }: PageProps) {
  const { farm } = useFarm();
  const [tab, setTab] = useState<Tab>(facts.has('sum') ? 'sums' : facts.has('carry') ? 'carry' : 'reading');
  const loops = ((farm?.['loops'] as { id: string }[] | undefined) ?? []).map((l) => l.id);
  const tanks = (farm?.tanks ?? []).map((x) => x.id);
  const [place, setPlace] = useState<string | null>(facts.get('place') ?? facts.get('carry'));
  const where = place ?? loops[0] ?? '';
  const isTank = tanks.includes(where);
  const loop = isTank ? farm?.tanks?.find((x) => x.id === where)?.loop ?? loops[0] ?? '' : where;
  return (
    <>
      <Title of="water" />
      <div class="tabs" role="group" aria-label={t('water')}>
        {(['reading', 'dose', 'carry', 'sums'] as Tab[]).map((x) => (
          <button type="button" key={x} aria-pressed={x === tab} onClick={() => setTab(x)}>{t(`water.${x}`)}</button>))}
      </div>
      {tab !== 'sums' && (
        <div class="tabs" role="group" aria-label={t('where.water')}>
          {[...loops, ...(tab === 'reading' ? tanks : [])].map((id) => (
            <button type="button" key={id} class="is-plate" aria-pressed={id === where} onClick={() => setPlace(id)}>{id}</button>))}
        </div>
      )}
      {where !== '' && tab === 'reading' && <Readings key={where} where={where} isTank={isTank} />}
      {where !== '' && tab === 'dose' && <Dose key={loop} loop={loop} />}
      {where !== '' && tab === 'carry' && <Carry loop={loop} />}
      {tab === 'sums' && <Sums first={facts.get('sum')} />}
    </>
  );
}

function Readings({ where, isTank }: { where: string; isTank: boolean }) {
  const [values, setValues] = useState<Record<string, number | null>>({});
  const [open, setOpen] = useState<string | null>(null);
  const [told, setTold] = useState(false);
  const typed = Object.fromEntries(Object.entries(values).filter(([, v]) => v !== null));
  const count = Object.keys(typed).length;
  // What the tables and the journal know is taken by the server beside these.
  const got = useGet<ReadingAnswer>(count === 0 ? null
    : path('/api/reading', { [isTank ? 'tank' : 'loop']: where, ...typed }));
  const day = useGet<WaterDay>('/api/water');
  const here = day.data?.places.find((p) => p.id === where);
  const last = (key: string) => here?.readings.find((r) => r.quantity === key && r.value !== null);
  const save = async () => {
    await tell(Object.entries(typed).map(([quantity_key, value]) => ({
      kind: 'read', place: where, quantity_key, value, happened_on: today(),
    }) as Telling));
    setTold(true);
  };
  return (
    <>
      <ul class="chips">
        {READINGS.map((r) => {
          const value = values[r.key] ?? null;
          const before = last(r.key);
          return (
            <li key={r.key}>
              <button type="button" class={value === null ? 'chip' : 'chip is-told'} aria-expanded={open === r.key}
                onClick={() => {
                  setTold(false);
                  if (value === null) setValues({ ...values, [r.key]: before?.value ?? r.start });
                  setOpen(open === r.key ? null : r.key);
                }}>
                <span>{word('quantity', r.key)}</span>
                <small>{value !== null ? amount(value, r.unit)
                  : before === undefined ? t('not_read') : `${amount(before.value ?? 0, r.unit)} · ${t('hours_ago', { n: number(before.age_h ?? 0, 0) })}`}</small>
                {value === null && before !== undefined && <small>{suits(before.low, before.high)}{before.mark !== 'in range' && <b> !</b>}</small>}
              </button>
            </li>
          );
        })}
      </ul>
      {READINGS.filter((r) => r.key === open).map((r) => (
        <div class="card" key={r.key}>
          <Dial id="reading-value" label={word('quantity', r.key)} unit={r.unit} value={values[r.key] ?? null}
            onChange={(v) => { setTold(false); setValues({ ...values, [r.key]: v }); }} />
          <Known place={where} of={here?.readings.find((x) => x.quantity === r.key)} unit={r.unit} />
          <button type="button" class="button" onClick={() => { setValues({ ...values, [r.key]: null }); setOpen(null); }}>{t('not_read')}</button>
        </div>
      ))}
      {count > 0 && (told
        ? <p class="told-line" role="status"><Icon name="do" /> {t('told')}</p>
        : <Button class="button is-strong" id="reading-tell" onClick={save}><Icon name="do" /> {t('tell_readings', { n: count })}</Button>)}
      {count === 0 ? <><p class="quiet">{t('read_one')}</p><Waiting got={day} /></> : <Waiting got={got} />}
      {count === 0 && here !== undefined && <Findings feed={here.feed}
        findings={here.findings.map((f) => ({ ...f, id: f.rule, feed_again: null, test_next: null, source: '' }))} />}
      {got.data !== null && <Meaning answer={got.data} />}
    </>
  );
}

/** What is known of a reading's place: each figure opens to how it was made. */
function Known({ place, of, unit }: { place: string; of: WaterDay['places'][0]['readings'][0] | undefined; unit: string }) {
  if (of === undefined) return null;
  const figure = (end: 'value' | 'foreseen' | 'low' | 'high') => of[end] === null ? null
    : <Opens of="water" id={place} figure={`${of.quantity}_${end}`}>{amount(of[end] ?? 0, unit)}</Opens>;
  return (
    <dl class="facts">
      {of.value !== null && <div><dt>{t('last_read')}</dt><dd>{figure('value')}</dd></div>}
      {of.foreseen !== null && <div><dt>{t('foreseen_is')}</dt><dd>{figure('foreseen')}</dd></div>}
      {(of.low !== null || of.high !== null) && <div><dt>{t('suits_here')}</dt>
        <dd>{of.low === null && '≤ '}{of.high === null && '≥ '}{figure('low')}{of.low !== null && of.high !== null && ' – '}{figure('high')}</dd></div>}
    </dl>
  );
}

/** "5.5–10.3", "≤ 3", "≥ 40": the range that suits these fish. */
function suits(low: number | null, high: number | null): string {
  if (low !== null && high !== null) return `${number(low)}–${number(high)}`;
  return high !== null ? `≤ ${number(high)}` : low !== null ? `≥ ${number(low)}` : '';
}

const WORST = ['cannot-all-be-true', 'danger', 'stop-feeding', 'likely-cause', 'watch'];
function Findings({ feed, findings: told }: { feed: string; findings: Finding[] }) {
  const findings = [...told].sort((a, b) => rank(a.class) - rank(b.class));
  return (
    <>
      <h2 class="sub">{t('what_it_means')}</h2>
      <p class="big"><b>{t('feed_is')}</b> {word('feed', feed)}</p>
      {findings.length === 0 && <p>{t('nothing_to_do')}</p>}
      <ul class="plain findings">
        {findings.map((f) => (
          <li key={f.id} class={`finding is-${f.class}`}>
            <p class="finding-class">{word('class', f.class)}</p>
            <p><b><Said text={f.means} /></b></p>
            {f.act !== null && <p><Said text={f.act} /></p>}
            {f.feed_again !== null && <p>{t('feed_again')} <Said text={f.feed_again} /></p>}
            {f.test_next !== null && <p>{t('test_next')} <Said text={f.test_next} /></p>}
            {f.source !== '' && <p class="quiet">{t('source')}: <bdi>{f.source}</bdi></p>}
          </li>
        ))}
      </ul>
    </>
  );
}
function Meaning({ answer }: { answer: ReadingAnswer }) {
  return (
    <section class="meaning" aria-live="polite">
      <Findings feed={answer.feed} findings={answer.findings} />
      {answer.dose_waits_for !== null && <p class="caution"><Said text={answer.dose_waits_for} /></p>}
      <details><summary>{t('numbers_behind')}</summary>
        <table><tbody>
          {Object.entries(answer.quantities).filter(([, v]) => v !== null).map(([key, value]) => (
            <tr key={key}><th scope="row">{key.replace(/_/g, ' ')}</th><td class="n">{number(value ?? 0, 3)}</td></tr>))}
        </tbody></table>
        <p><a href={path('#/water', { sum: 'unionised-ammonia' })}>{t('how_worked')}</a></p>
      </details>
      {answer.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
    </section>
  );
}
const rank = (name: string) => { const at = WORST.indexOf(name); return at < 0 ? WORST.length : at; };

/* ---- Doses ---------------------------------------------------------------- */

interface DoseAnswer {
  where: string; cautions: string[]; ph: number; target_ph: number; no_base: string | null; stopped: string | null;
  days: { base: string; product_g: number; portion_g: number; ph_after: number; alkalinity_after_mg_l: number; nh3_after_mg_l: number }[];
  salts: { base?: string; product?: string; product_g?: number; [k: string]: unknown }[]; notices: string[]; workings: Which[];
}
function Dose({ loop }: { loop: string }) {
  const [ph, setPh] = useState<number | null>(6.4);
  const [target, setTarget] = useState<number | null>(6.8);
  const [alkalinity, setAlkalinity] = useState<number | null>(40);
  const [tan, setTan] = useState<number | null>(0.5);
  const [temp, setTemp] = useState<number | null>(22);
  const got = useGet<DoseAnswer>(path('/api/dose', {
    loop, ph, target_ph: target, alkalinity_mg_l: alkalinity, tan_mg_l: tan, temp_degc: temp,
  }));
  const dose = got.data;
  return (
    <>
      <p class="caution">{t('dose_caution')}</p>
      <div class="grid-2">
        <Dial label={t('ph_now')} unit="ph" value={ph} onChange={setPh} />
        <Dial label={t('ph_wanted')} unit="ph" value={target} onChange={setTarget} />
        <Dial label={t('quantity.alkalinity_mg_l')} unit="mg_l" step={5} value={alkalinity} onChange={setAlkalinity} />
        <Dial label={t('quantity.tan_mg_l')} unit="mg_l" step={0.1} value={tan} onChange={setTan} />
        <Dial label={t('quantity.temp_degc')} unit="degc" value={temp} onChange={setTemp} />
      </div>
      <Waiting got={got} />
      {dose !== null && (
        <section class="card" aria-live="polite">
          <h2>{t('dose_for', { loop })}</h2>
          <ul class="cautions">{dose.cautions.map((c) => <li key={c}><Said text={c} /></li>)}</ul>
          {dose.no_base !== null && <p class="big"><Said text={dose.no_base} /></p>}
          {dose.stopped !== null && <p class="big"><Said text={dose.stopped} /></p>}
          {dose.days.length > 0 && (
            <div class="scroll" tabIndex={0} role="region" aria-label={t('water.dose')}><table>
              <thead><tr><th scope="col">{t('day')}</th><th scope="col">{t('base')}</th><th scope="col" class="n">{t('grams_day')}</th>
                <th scope="col" class="n">{t('portion')}</th><th scope="col" class="n">{t('ph_after')}</th></tr></thead>
              <tbody>{dose.days.map((d, i) => (
                <tr key={i}><th scope="row">{number(i + 1)}</th><td>{d.base.replace(/-/g, ' ')}</td>
                  <td class="n"><Opens of="dose" id={`day-${i + 1}`} figure="product_g" known={dose.workings}>{amount(d.product_g, 'g')}</Opens></td>
                  <td class="n"><Opens of="dose" id={`day-${i + 1}`} figure="portion_g" known={dose.workings}><b>{amount(d.portion_g, 'g')}</b></Opens></td>
                  <td class="n"><Opens of="dose" id={`day-${i + 1}`} figure="ph_after" known={dose.workings}>{number(d.ph_after, 2)}</Opens></td></tr>))}</tbody></table></div>
          )}
          {dose.days[0] !== undefined && (
            <a class="button is-strong" href={path('#/tell', { kind: 'dosed', place: loop, grams: Math.round(dose.days[0].portion_g) })}>
              <Icon name="dose" /> {t('tell_portion')}</a>
          )}
          {dose.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
        </section>
      )}
    </>
  );
}

/* ---- Do the fish carry the beds? ------------------------------------------ */

interface CarryAnswer {
  weeks: string[]; notices: string[];
  loops: { id: string; words: string[]; offered_kg: number[]; wanted_kg: number[]; growth_frac: number[];
    elements: { name: string; short_from: string | null; short_weeks: number; gathers: boolean; store_g_m3: number[] }[] }[];
}
function Carry({ loop }: { loop: string }) {
  const got = useGet<CarryAnswer>('/api/carry');
  const ours = got.data?.loops.find((l) => l.id === loop);
  if (got.data === null || ours === undefined) return <Waiting got={got} />;
  const days = got.data.weeks.map(weekDay);
  const weeks = days.map((day, i) => ({ day, given: ours.offered_kg[i] ?? 0, wanted: ours.wanted_kg[i] ?? 0 }));
  return (
    <section class="card">
      <FeedChart title={t('does_it_carry')} keys={[got.data, loop]} weeks={weeks}
        words={<ul>{ours.words.map((w) => <li key={w}><Said text={w} /></li>)}</ul>} />
      <h3>{t('elements')}</h3>
      <table><tbody>{ours.elements.map((e) => (
        <tr key={e.name}><th scope="row">{word('element', e.name)}</th>
          <td>{e.short_from === null ? t('nothing_short') : t('short_from', { day: dayShort(weekDay(e.short_from)), n: e.short_weeks })}{e.gathers && <> · {t('gathers')}</>}</td></tr>))}
      </tbody></table>
      {got.data.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      <p><Plate id={loop} /></p>
    </section>
  );
}
