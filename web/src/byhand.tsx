// A plan changed by hand: what breaks, which weeks turn and what it earns are
// told at once; then it is accepted, kept to compare, or left. And two plans
// side by side.
import { type ComponentChildren, createContext } from 'preact';
import { useContext, useEffect, useRef, useState } from 'preact/hooks';
import { ask, askAllAgain, path, useGet } from './api';
import { Mark } from './chart';
import { type Farm, useFarm } from './farm';
import { Icon } from './icons';
import { Button, Choice, Dial, Field, Plate, Said, Sheet, Trouble, Waiting } from './ui';
import { dayShort, dayYear, type Key, number, t, weekDay } from './words';
import type { Batch, FishStep, Plan } from './year';

export interface Break {
  kind: string; is_hard: boolean; is_new: boolean; place: string | null; way: string | null;
  other: string | null; first_section: number; last_section: number; first_week: string | null;
  last_week: string | null; worst_week: string | null; got: number; most: number; text: string;
}
interface OrderTurn {
  order: string; product: string; is_firm: boolean; weeks: number; kept_before: number; kept_after: number;
  changes: { week: string; turn: 'lost' | 'less' | 'more' | 'gained'; wanted: number; before: number; after: number }[];
}
interface Sides {
  currency: string; verdict: 'fits' | 'soft' | 'hard'; value_before: number; value_after: number;
  money_before: Record<string, number>; money_after: Record<string, number>;
  breaks: Break[]; mended: number; orders: OrderTurn[]; left_out: number;
  batches: { week: string; way: string; bed: string; place: string; units_before: number; units_after: number;
    plants_before: number; plants_after: number; clear_on: string }[];
  fish: { week: string; step: string; batch: string; tank: string; to_tank: string | null; before: number; after: number }[];
  cleans: { bed: string; week_before: string | null; week_after: string | null }[];
  feed: { loop: string; short_before_kg: number; short_after_kg: number; worst_week: string | null; worst_kg: number }[];
}
interface PlantsAfter {
  way: string; bed: string; place: string; section: number; units: number; plants: number;
  sow_on: string | null; set_on: string; pick_from: string; clear_on: string;
}
interface Altered extends Sides {
  mark: string; is_kept: boolean; is_accepted: boolean;
  changes: { what: string; before: unknown; after: unknown; note: string | null }[];
}
type Change = Record<string, string | number | boolean>;

/** The plan that the page shows: what is changed by hand is changed in it. */
export const PlanShown = createContext('accepted');

const money = (value: number, currency: string, sign = false) =>
  new Intl.NumberFormat(document.documentElement.lang || 'en', {
    style: 'currency', currency, maximumFractionDigits: 0, ...(sign ? { signDisplay: 'exceptZero' as const } : {}),
  }).format(value);
const plain = (id: string | null) => (id ?? '').replace(/-/g, ' ');
const week = (text: string | null) => text === null ? '' : dayShort(weekDay(text));

/* ---- The answer ----------------------------------------------------------- */

function BreakLine({ at }: { at: Break }) {
  const words = t(`break.${at.kind}` as Key, {
    place: at.place ?? '', way: plain(at.way), other: plain(at.other), got: number(at.got, 1), most: number(at.most, 1),
    sections: at.first_section === at.last_section ? String(at.first_section) : `${at.first_section}–${at.last_section}`,
  });
  return (
    <li>
      <Mark kind={at.is_hard ? 'short' : 'over'}>{t(at.is_hard ? 'break_hard' : 'break_soft')}</Mark>{' '}
      {at.place !== null && <Plate id={at.place} />} {words}
      {at.first_week !== null && <>{' '}<small>({at.first_week === at.last_week ? week(at.first_week)
        : t('week_span', { first: week(at.first_week), last: week(at.last_week) })})</small></>}
    </li>
  );
}

type Beside = 'now' | 'other'; // what the figure in brackets is of
function Orders({ sides, beside }: { sides: Sides; beside: Beside }) {
  if (sides.orders.length === 0) return <p>{t('no_turn')}</p>;
  return (
    <ul class="turns">
      {sides.orders.map((o) => (
        <li key={o.order}><b>{plain(o.product)}</b> <small class="quiet"><bdi>{o.order}</bdi></small>:{' '}
          {t('order_weeks', { after: o.kept_after, weeks: o.weeks, beside: t(`beside.${beside}`), before: o.kept_before })}
          <ul>{o.changes.slice(0, 6).map((c) => (
            <li key={c.week}><Mark kind={c.turn === 'lost' || c.turn === 'less' ? 'short' : 'kept'}>{t(`turn.${c.turn}`)}</Mark>{' '}
              {t('turn_line', { week: week(c.week), after: number(c.after, 1), wanted: number(c.wanted, 1), beside: t(`beside.${beside}`), before: number(c.before, 1) })}</li>))}
          {o.changes.length > 6 && <li>{t('n_more', { n: o.changes.length - 6 })}</li>}</ul>
        </li>))}
    </ul>
  );
}

function Feed({ sides, beside }: { sides: Sides; beside: Beside }) {
  return (
    <>{sides.feed.map((f) => (
      <p key={f.loop}>{t('feed_lacks', { loop: f.loop, beside: t(`beside.${beside}`), after: number(f.short_after_kg, 1), before: number(f.short_before_kg, 1) })}</p>))}</>
  );
}

function Found({ found }: { found: Altered }) {
  const fresh = found.breaks.filter((b) => b.is_new);
  const now = found.changes.map((c) => c.after).filter((a): a is PlantsAfter => a !== null && 'set_on' in (a as object));
  return (
    <>
      <p class="big"><Mark kind={found.verdict === 'fits' ? 'kept' : found.verdict === 'soft' ? 'over' : 'short'}>
        {t(`hand.${found.verdict}`)}</Mark></p>
      {fresh.length > 0 && <ul class="breaks">{fresh.map((b, i) => <BreakLine key={i} at={b} />)}</ul>}
      <p>{t('hand_value', {
        after: money(found.value_after, found.currency), before: money(found.value_before, found.currency),
        change: money(found.value_after - found.value_before, found.currency, true),
      })}</p>
      {now.map((a, i) => (
        <p key={i}>{t('hand_becomes', { set: dayYear(a.set_on), clear: dayYear(a.clear_on), plants: number(a.plants, 0) })}{' '}
          <Plate id={a.bed} /> {a.place === 'floor' && t('from_section', { n: a.section })}</p>))}
      {found.changes.map((c, i) => c.note !== null && <p key={`n${i}`}><Said text={c.note} /></p>)}
      <Orders sides={found} beside="now" />
      <Feed sides={found} beside="now" />
    </>
  );
}

/** Asks at once what the changes bring, and accepts or keeps them. */
export function Tried({ changes, onDone, asItIs = false }: { changes: Change[]; onDone: () => void; asItIs?: boolean }) {
  const plan = useContext(PlanShown);
  const [found, setFound] = useState<Altered | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [state, setState] = useState<'open' | 'kept' | 'accepted' | 'back'>('open');
  const turn = useRef(0);
  const key = JSON.stringify(changes);
  useEffect(() => {
    const mine = ++turn.current;
    setState('open');
    if (changes.length === 0 && !asItIs) { setFound(null); setTrouble(null); return undefined; }
    const timer = window.setTimeout(() => {
      ask<Altered>('POST', '/api/alter', { plan, changes }).then(
        (answer) => { if (mine === turn.current) { setFound(answer); setTrouble(null); } },
        (error: Error) => { if (mine === turn.current) { setFound(null); setTrouble(error); } });
    }, 120);
    return () => clearTimeout(timer);
  }, [key, plan]);
  const act = async (more: Record<string, unknown>, next: 'kept' | 'accepted' | 'back') => {
    try {
      await ask('POST', '/api/alter', more, 30000);
      setState(next);
      setTrouble(null);
      askAllAgain();
    } catch (error) { setTrouble(error as Error); }
  };
  const accept = (evenSo: boolean) => act({
    plan, changes, accept: true, ...(evenSo ? { even_so: true } : {}), mark: found?.mark ?? '',
  }, 'accepted');
  return (
    <div class="answer" aria-live="polite" id="hand-answer">
      {trouble !== null && <Trouble error={trouble} />}
      {found !== null && trouble === null && state !== 'accepted' && state !== 'back' && <Found found={found} />}
      {state === 'kept' && <p class="told-line"><Icon name="do" /> {t('kept_to_compare')}</p>}
      {(state === 'accepted' || state === 'back') && (
        <>
          <p class="told-line"><Icon name="do" /> {t(state === 'back' ? 'taken_back' : 'hand_accepted')}</p>
          <div class="sheet-foot">
            {state === 'accepted' && <Button id="hand-back" onClick={() => act({ plan: 'before', accept: true, even_so: true }, 'back')}>{t('take_back')}</Button>}
            <Button class="button is-strong" onClick={onDone}>{t('close')}</Button>
          </div>
        </>)}
      {found !== null && state !== 'accepted' && state !== 'back' && (
        <div class="sheet-foot">
          {found.verdict === 'fits' && <Button class="button is-strong" id="hand-accept" onClick={() => accept(false)}>{t(asItIs ? 'accept_plan' : 'accept_change')}</Button>}
          {found.verdict === 'soft' && <Button id="hand-even-so" onClick={() => accept(true)}>{t('accept_even_so')}</Button>}
          {state === 'open' && !asItIs && <Button id="hand-keep" onClick={() => act({ plan, changes, keep: true }, 'kept')}>{t('keep_to_compare')}</Button>}
          <Button id="hand-leave" onClick={onDone}>{t('leave_it')}</Button>
        </div>)}
    </div>
  );
}

/* ---- The forms ------------------------------------------------------------ */

function Drop({ value, onChange }: { value: boolean; onChange: (v: boolean) => void }) {
  return (
    <p><button type="button" id="hand-drop" class={value ? 'button is-strong' : 'button'} aria-pressed={value}
      onClick={() => onChange(!value)}>{t('leave_out')}</button></p>
  );
}

/** A planned batch; one that lies in parts of a bed is changed in all of them. */
export function BatchByHand({ batch, onDone }: { batch: Batch; onDone: () => void }) {
  const { farm } = useFarm();
  const ids = batch.ids ?? [];
  const isFloor = batch.place === 'floor';
  const [weeks, setWeeks] = useState<number | null>(0);
  const [bed, setBed] = useState(batch.bed);
  const [units, setUnits] = useState<number | null>(batch.units);
  const [isDropped, setDropped] = useState(false);
  const wish: Change = isDropped ? { drop: true } : {
    ...(weeks !== null && weeks !== 0 ? { weeks } : {}),
    ...(bed !== batch.bed ? { bed } : {}),
    ...(units !== null && units !== batch.units && units > 0 ? { [isFloor ? 'sections' : 'plants']: units } : {}),
  };
  const changes = Object.keys(wish).length === 0 ? [] : ids.map((id) => ({ batch: id, ...wish }));
  return (
    <section class="by-hand">
      <h3>{t('by_hand')}</h3>
      <p class="quiet">{t('by_hand_more')}</p>
      {!isDropped && <>
        <Dial id="hand-weeks" label={t('weeks_later')} value={weeks} unit="" step={1} onChange={setWeeks} />
        <Choice label={t('other_bed')} value={bed} onChange={setBed}
          options={(farm?.beds ?? []).map((b) => ({ value: b.id, text: b.id }))} />
        {ids.length === 1 && <Dial id="hand-units" label={t(isFloor ? 'hand.sections' : 'plants')} value={units} unit=""
          step={1} least={1} onChange={setUnits} />}
      </>}
      <Drop value={isDropped} onChange={setDropped} />
      <Tried changes={changes} onDone={onDone} />
    </section>
  );
}

/** A deep clean or a step of the fish: earlier, later, elsewhere, or not. */
function StepByHand({ of, tanks, onDone }: { of: Change; tanks: string[]; onDone: () => void }) {
  const [weeks, setWeeks] = useState<number | null>(0);
  const [tank, setTank] = useState('');
  const [isDropped, setDropped] = useState(false);
  const wish: Change = isDropped ? { drop: true } : {
    ...(weeks !== null && weeks !== 0 ? { weeks } : {}), ...(tank !== '' ? { tank } : {}),
  };
  return (
    <section class="by-hand">
      <p class="quiet">{t('by_hand_more')}</p>
      {!isDropped && <Dial id="hand-weeks" label={t('weeks_later')} value={weeks} unit="" step={1} onChange={setWeeks} />}
      {!isDropped && tanks.length > 0 && <Choice label={t('other_tank')} value={tank} onChange={setTank}
        options={[{ value: '', text: t('hand.as_planned') }, ...tanks.map((id) => ({ value: id, text: id }))]} />}
      <Drop value={isDropped} onChange={setDropped} />
      <Tried changes={Object.keys(wish).length === 0 ? [] : [{ ...of, ...wish }]} onDone={onDone} />
    </section>
  );
}

function AddByHand({ plan, farm, onDone }: { plan: Plan; farm: Farm; onDone: () => void }) {
  const ways = (farm['ways'] as { id: string; name?: string }[] | undefined)?.map((w) => w.id)
    ?? [...new Set(plan.batches.map((b) => b.way))].sort();
  const [way, setWay] = useState(ways[0] ?? '');
  const [bed, setBed] = useState(farm.beds?.[0]?.id ?? '');
  const [day, setDay] = useState('');
  const [plants, setPlants] = useState<number | null>(20);
  const isWhole = day !== '' && plants !== null && plants > 0;
  return (
    <section class="by-hand">
      <p class="quiet">{t('by_hand_more')}</p>
      <Choice label={t('field.way')} value={way} onChange={setWay} options={ways.map((w) => ({ value: w, text: plain(w) }))} />
      <Choice label={t('other_bed')} value={bed} onChange={setBed} options={(farm.beds ?? []).map((b) => ({ value: b.id, text: b.id }))} />
      <Field label={t('set_on')}>{(id) => <input id={id} type="date" value={day} onInput={(e) => setDay(e.currentTarget.value)} />}</Field>
      <Dial id="hand-plants" label={t('plants')} value={plants} unit="" step={1} least={1} onChange={setPlants} />
      <Tried changes={isWhole ? [{ way, bed, set_on: day, plants: plants ?? 1 }] : []} onDone={onDone} />
    </section>
  );
}

/** What can be changed by hand that is no batch on the picture above. */
export function OtherByHand({ plan, farm }: { plan: Plan; farm: Farm }) {
  const [open, setOpen] = useState<{ title: ComponentChildren; form: ComponentChildren } | null>(null);
  const close = () => setOpen(null);
  const tanks = (farm.tanks ?? []).map((k) => k.id);
  const steps = plan.fish_steps ?? [];
  const stockings = new Set<string>();
  // All fish of a stocking go together: its first row stands for it.
  const shown = steps.filter((s) => {
    if (s.step !== 'stock') return true;
    const is = stockings.has(s.batch + s.week);
    stockings.add(s.batch + s.week);
    return !is;
  });
  const openStep = (s: FishStep) => setOpen({
    title: <>{t(`step.${s.step}` as Key)} <Plate id={s.tank ?? ''} /></>,
    form: <StepByHand of={{ step: s.id }} tanks={s.step === 'sale' ? [] : tanks} onDone={close} />,
  });
  return (
    <section class="card">
      <h2>{t('other_by_hand')}</h2>
      <div class="row-buttons">
        <Button id="hand-add" onClick={() => setOpen({ title: t('add_batch'), form: <AddByHand plan={plan} farm={farm} onDone={close} /> })}>
          <Icon name="sow" /> {t('add_batch')}</Button>
      </div>
      <details id="hand-fish"><summary>{t('fish_to_come', { n: shown.length })}</summary>
        <ul class="plain hand-list">{shown.slice(0, 60).map((s) => (
          <li key={s.id}><button type="button" class="button" onClick={() => openStep(s)}>
            {week(s.week)} · {t(`step.${s.step}` as Key)} · {number(s.count, 0)} <bdi>{s.batch}</bdi> {s.tank !== null && <Plate id={s.tank} />}</button></li>))}</ul>
      </details>
      <details id="hand-cleans"><summary>{t('cleans_to_come', { n: plan.cleans.length })}</summary>
        <ul class="plain hand-list">{plan.cleans.map((c) => (
          <li key={c.bed}><button type="button" class="button" onClick={() => setOpen({
            title: <>{t('deep_clean')} <Plate id={c.bed} /></>,
            form: <StepByHand of={{ clean: c.bed }} tanks={[]} onDone={close} />,
          })}>{week(c.week)} <Plate id={c.bed} /></button></li>))}</ul>
      </details>
      {open !== null && <Sheet title={open.title} onClose={close}>{open.form}</Sheet>}
    </section>
  );
}

/* ---- Two plans ------------------------------------------------------------ */

export interface Kept { name: string; from: string; weeks: number; made_on: string; value: number }
const named = (p: Kept) => ({ value: p.name, text: `${t(`plan.${p.name}` as Key)}, ${dayYear(p.made_on)}` });

/** Which of the plans the page shows; one that is only kept can be accepted. */
export function ShownPlan({ plans, name, onChange }: { plans: Kept[]; name: string; onChange: (name: string) => void }) {
  const [isAsked, setAsked] = useState(false);
  if (plans.length < 2) return null;
  return (
    <section class="card">
      <Choice label={t('plan_shown')} value={name} onChange={(n) => { setAsked(false); onChange(n); }} options={plans.map(named)} />
      {name !== 'accepted' && !isAsked && <Button id="shown-accept" onClick={() => setAsked(true)}>{t('accept_shown')}</Button>}
      {name !== 'accepted' && isAsked && <Tried changes={[]} asItIs onDone={() => { setAsked(false); onChange('accepted'); }} />}
    </section>
  );
}

export function ComparePlans({ plans }: { plans: Kept[] }) {
  const names = plans.map((p) => p.name);
  const [one, setOne] = useState<string | null>(null);
  const [two, setTwo] = useState<string | null>(null);
  // What was last changed, beside what people work by.
  const newest = ['changed', 'draft'].find((n) => names.includes(n));
  const left = one ?? (newest === undefined ? 'before' : 'accepted');
  const right = two ?? newest ?? 'accepted';
  const isTwo = names.includes(left) && names.includes(right) && left !== right;
  const compared = useGet<Sides>(isTwo ? path('/api/compare', { one: left, two: right }) : null);
  const options = plans.map(named);
  return (
    <section class="card" id="compare">
      <h2>{t('compare_plans')}</h2>
      {plans.length === 1 && <p>{t('compare_only')}</p>}
      {plans.length >= 2 && (
        <div class="grid-2">
          <Choice label={t('compare_one')} value={left} onChange={setOne} options={options} />
          <Choice label={t('compare_two')} value={right} onChange={setTwo} options={options} />
        </div>)}
      {isTwo && <Waiting got={compared} />}
      {compared.data !== null && <Compared sides={compared.data} names={[left, right]} />}
    </section>
  );
}

const FIRST_ROWS = 25;

function Compared({ sides, names }: { sides: Sides; names: [string, string] }) {
  const heads = [t(`plan.${names[0]}` as Key), t(`plan.${names[1]}` as Key)];
  return (
    <div class="answer" role="status">
      <div class="scroll" tabIndex={0} role="region" aria-label={t('compare_plans')}>
        <table>
          <thead><tr><td />{heads.map((h) => <th key={h} scope="col" class="n">{h}</th>)}</tr></thead>
          <tbody>
            <tr><th scope="row">{t('plan_value')}</th><td class="n">{money(sides.value_before, sides.currency)}</td>
              <td class="n"><b>{money(sides.value_after, sides.currency)}</b></td></tr>
            {Object.keys(sides.money_after).map((key) => (
              <tr key={key}><th scope="row">{t(`money.${key}` as Key)}</th>
                <td class="n">{money(sides.money_before[key] ?? 0, sides.currency)}</td>
                <td class="n">{money(sides.money_after[key] ?? 0, sides.currency)}</td></tr>))}
          </tbody>
        </table>
      </div>
      <h3>{t('promises_turn')}</h3>
      <Orders sides={sides} beside="other" />
      <Feed sides={sides} beside="other" />
      {sides.breaks.some((b) => b.is_new) && <ul class="breaks">
        {sides.breaks.filter((b) => b.is_new).map((b, i) => <BreakLine key={i} at={b} />)}</ul>}
      <Differ heads={heads} title={t('batches_differ', { n: sides.batches.length })} rows={sides.batches.map((b) => [
        week(b.week), `${plain(b.way)}, ${b.bed}`, number(b.plants_before, 0), number(b.plants_after, 0)])} />
      <Differ heads={heads} title={t('fish_differ', { n: sides.fish.length })} rows={sides.fish.map((f) => [
        week(f.week), `${t(`step.${f.step}` as Key)}, ${f.batch}, ${f.tank}`, number(f.before, 0), number(f.after, 0)])} />
      <Differ heads={heads} title={t('cleans_differ', { n: sides.cleans.length })} rows={sides.cleans.map((c) => [
        '', c.bed, c.week_before === null ? '–' : week(c.week_before), c.week_after === null ? '–' : week(c.week_after)])} />
      {sides.left_out > 0 && <p class="quiet">{t('left_out_rows', { n: sides.left_out })}</p>}
    </div>
  );
}

function Differ({ title, heads, rows }: { title: string; heads: string[]; rows: string[][] }) {
  const [isAll, setAll] = useState(false);
  if (rows.length === 0) return null;
  return (
    <details><summary>{title}</summary>
      <div class="scroll" tabIndex={0} role="region" aria-label={title}>
        <table>
          <thead><tr><th scope="col">{t('week_of')}</th><th scope="col">{t('hand.what')}</th>
            {heads.map((h) => <th key={h} scope="col" class="n">{h}</th>)}</tr></thead>
          <tbody>{(isAll ? rows : rows.slice(0, FIRST_ROWS)).map((r, i) => (
            <tr key={i}><td>{r[0]}</td><th scope="row">{r[1]}</th><td class="n">{r[2]}</td><td class="n">{r[3]}</td></tr>))}</tbody>
        </table>
      </div>
      {rows.length > FIRST_ROWS && !isAll &&
        <Button onClick={() => setAll(true)}>{t('n_more', { n: rows.length - FIRST_ROWS })}</Button>}
    </details>
  );
}
