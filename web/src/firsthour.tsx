// The first hour of a farm in Leat: count the beds and tanks, say what stands
// today, put in the orders, and learn one thing. Nothing is asked that cannot
// be answered from where one stands; guesses are marked and changed later.
import { useState } from 'preact/hooks';
import { ask, askAllAgain } from './api';
import { meetFarm, today } from './farm';
import { cropIcon, Icon } from './icons';
import { climateRows, type Counts, plantTables, STARTER_CROPS } from './starter';
import { replaceTable, type TableFault, type TableRow } from './tables';
import { Button, Choice, Dial, Field, Said, Title, Trouble } from './ui';
import { addDays, dayShort, number, t } from './words';
import { useWork, Working } from './work';
import type { Plan } from './year';

const STEPS = ['hour_site', 'hour_beds', 'hour_stands', 'hour_orders', 'hour_answer'] as const;
const SOON_WEEKS = 10;

interface Told {
  name: string; currency: string; zone: string; latitude: number; longitude: number;
  warmHigh: number; warmLow: number; coldHigh: number; coldLow: number;
  counts: Counts; crops: string[]; standing: Record<string, { way: string; weeks: number }>;
  fish: Record<string, { count: number; mean_g: number }>;
  orders: { buyer: string; way: string; quantity: number; price: number; firm: boolean }[];
}
const START: Told = {
  name: '', currency: 'EUR', zone: Intl.DateTimeFormat().resolvedOptions().timeZone, latitude: 40, longitude: 0,
  warmHigh: 28, warmLow: 16, coldHigh: 10, coldLow: 2,
  counts: { tunnels: 1, tunnel_length_m: 20, tunnel_width_m: 7, rows: 3, beds_in_row: 6, bed_length_m: 2.4, bed_width_m: 1.2,
    has_edge: false, tanks: 2, tank_m3: 2, sump_m3: 2, flow_m3_h: 6 },
  crops: ['lettuce-head', 'basil-bunch', 'parsley-bunch', 'chard-bunch'], standing: {}, fish: {}, orders: [],
};

async function write(tables: [string, TableRow[]][]): Promise<TableFault[]> {
  let faults: TableFault[] = [];
  for (const [name, rows] of tables) {
    const outcome = await replaceTable(name, rows);
    if (outcome.fate === 'refused') return outcome.faults;
    if (outcome.fate === 'conflict') throw new Error(t('conflict_more'));
    faults = outcome.written.faults;
  }
  askAllAgain();
  // What is still to come is no fault of this step.
  return faults.filter((f) => f.row != null);
}

export function FirstHour() {
  const [step, setStep] = useState(0);
  const [told, setTold] = useState<Told>(START);
  const [faults, setFaults] = useState<TableFault[]>([]);
  const [error, setError] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  const set = (part: Partial<Told>) => setTold((old) => ({ ...old, ...part }));
  const go = async () => {
    setBusy(true);
    setError(null);
    try {
      const bad = await write(await tablesOf(step, told));
      setFaults(bad);
      if (bad.length === 0) {
        await meetFarm();
        setStep(step + 1);
        scrollTo(0, 0);
      }
    } catch (trouble) { setError(trouble as Error); }
    setBusy(false);
  };
  const Step = [Site, BedsTanks, Stands, Orders, Answer][step] ?? Answer;
  return (
    <>
      <Title of="first_hour">{t('step_of', { n: step + 1, all: STEPS.length, what: t(STEPS[step] ?? 'hour_answer') })}</Title>
      <ol class="hour-steps" aria-hidden="true">{STEPS.map((s, i) => <li key={s} class={i < step ? 'is-wet' : i === step ? 'is-now' : ''} />)}</ol>
      <Step told={told} set={set} />
      {faults.length > 0 && <div class="ask" role="alert"><p>{t('not_saved_faults')}</p>
        <ul>{faults.slice(0, 8).map((f, i) => <li key={i}>{f.file} {f.column} {f.value}: <Said text={f.expected} /></li>)}</ul></div>}
      {error !== null && <Trouble error={error} />}
      <div class="sheet-foot">
        {step > 0 && <button type="button" class="button" onClick={() => setStep(step - 1)}>{t('back')}</button>}
        {step < STEPS.length - 1 && <Button class="button is-strong" id="hour-next" disabled={busy} onClick={go}>{t('go_on')}</Button>}
      </div>
    </>
  );
}

async function tablesOf(step: number, told: Told): Promise<[string, TableRow[]][]> {
  if (step === 0) return siteTables(told);
  if (step === 1) return plantTables(told.counts);
  if (step === 2) return standingTables(told);
  if (step === 3) return orderTables(told);
  return [];
}

const slug = (name: string, fallback: string) =>
  name.toLowerCase().normalize('NFD').replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '').slice(0, 40) || fallback;

async function siteTables(told: Told): Promise<[string, TableRow[]][]> {
  return [
    ['farm', [{
      id: slug(told.name, 'farm'), name: told.name || 'Farm', latitude_deg: String(told.latitude), longitude_deg: String(told.longitude),
      timezone: told.zone, currency: told.currency, records_from: today(),
    }]],
    ['climate', await climateRows(told.latitude, { high: told.warmHigh, low: told.warmLow }, { high: told.coldHigh, low: told.coldLow })],
    ['sources', [{ id: 'mains', temp_degc: '14', ph: '7.5', alkalinity_mg_l: '120', calcium_mg_l: '40', chlorine_mg_l: '0.2' }]],
    ['hands', [{ id: 'owner', hours_w: '40', extra_h_w: '8', wage_h: '10',
      may: 'sow set prune pick clear clean feed net dose spray test vent deliver office' }]],
  ];
}

function standingTables(told: Told): [string, TableRow[]][] {
  const chosen = STARTER_CROPS.filter((c) => told.crops.includes(c.way));
  const crops = [...new Set(chosen.map((c) => c.crop))];
  const plants = Object.entries(told.standing).filter(([, s]) => s.way !== '').map(([bed, s]) => ({
    id: `${bed.toLowerCase()}-${slug(s.way, 'batch')}`, way: s.way, bed, place: 'floor', sections: '4',
    set_on: addDays(today(), -7 * s.weeks), counted_on: today(),
  }));
  const fish = Object.entries(told.fish).filter(([, f]) => f.count > 0).map(([tank, f]) => ({
    id: `fish-${tank.toLowerCase()}`, species: 'nile-tilapia', tank, counted_on: today(), count: String(Math.round(f.count)),
    mean_g: String(f.mean_g), cv_frac: '0.2', sex: 'mixed',
  }));
  return [
    ['trays', [{ id: 't50', cells: '50' }, { id: 't72', cells: '72' }, { id: 't128', cells: '128' }]],
    ['nursery', [{ id: 'bench', trays: '20', floor_degc: '16' }]],
    ['crops', crops.map((id) => ({ id, book: id, name: id }))],
    ['ways', chosen.map((c) => ({ id: c.way, crop: c.crop, book: c.way, name: c.name, unit: c.unit, unit_g: String(c.unit_g),
      ...(c.tray === '' ? {} : { tray: c.tray }) }))],
    ['products', [...chosen.map((c) => ({ id: c.way, name: c.name, unit: c.unit })), { id: 'fish', name: 'fish', unit: 'fish' }]],
    ['parts', [...chosen.map((c) => ({ product: c.way, way: c.way, units: '1' })), { product: 'fish', fish_over_g: '450', units: '1' }]],
    ['feeds', [{ id: 'grower', name: 'grower pellet', protein_frac: '0.32', price_kg: '1.40' }]],
    ['plants', plants], ['fish', fish],
  ];
}

function orderTables(told: Told): [string, TableRow[]][] {
  const buyers = [...new Set(told.orders.map((o) => o.buyer))];
  return [
    ['buyers', buyers.map((name, i) => ({ id: slug(name, `buyer-${i + 1}`), name, days: 'mon thu' }))],
    ['prices', [...new Map(told.orders.map((o) => [o.way, o.price])).entries()].map(([product, price]) => ({ product, price: price.toFixed(2) }))],
    ['orders', told.orders.map((o, i) => ({ id: `${slug(o.buyer, 'order')}-${o.way}-${i + 1}`, buyer: slug(o.buyer, `buyer-${buyers.indexOf(o.buyer) + 1}`),
      product: o.way, quantity: String(o.quantity), firmness: o.firm ? 'firm' : 'promised' }))],
  ];
}

/* ---- The steps -------------------------------------------------------------- */

interface StepProps { told: Told; set: (part: Partial<Told>) => void }

function Site({ told, set }: StepProps) {
  const text = (key: 'name' | 'currency' | 'zone', label: string) => (
    <Field label={label}>{(id) => <input id={id} type="text" value={told[key]} onInput={(e) => set({ [key]: e.currentTarget.value })} />}</Field>
  );
  const dial = (key: 'latitude' | 'longitude' | 'warmHigh' | 'warmLow' | 'coldHigh' | 'coldLow', label: string, unit: string) => (
    <Dial label={label} unit={unit} step={1} value={told[key]} onChange={(v) => set({ [key]: v ?? 0 })} />
  );
  return (
    <>
      {text('name', t('farm_name'))}
      <div class="grid-2">{text('currency', t('currency'))}{text('zone', t('time_zone'))}</div>
      <div class="grid-2">{dial('latitude', t('latitude'), '°')}{dial('longitude', t('longitude'), '°')}</div>
      <h2 class="sub">{t('weather')}</h2><p class="quiet">{t('weather_guess')}</p>
      <div class="grid-2">
        {dial('warmHigh', t('warm_high'), 'degc')}{dial('warmLow', t('warm_low'), 'degc')}
        {dial('coldHigh', t('cold_high'), 'degc')}{dial('coldLow', t('cold_low'), 'degc')}
      </div>
    </>
  );
}

function BedsTanks({ told, set }: StepProps) {
  const c = told.counts;
  const dial = (key: Exclude<keyof Counts, 'has_edge'>, unit: string, step: number) => (
    <Dial label={t(`count.${key}`)} unit={unit} step={step} least={step} value={c[key]}
      onChange={(v) => set({ counts: { ...c, [key]: v ?? step } })} />
  );
  return (
    <>
      <p class="big">{t('beds_in_all', { n: c.tunnels * Math.min(3, c.rows) * c.beds_in_row, m3: number(c.tanks * c.tank_m3) })}</p>
      <div class="grid-2">
        {dial('tunnels', '', 1)}{dial('rows', '', 1)}{dial('beds_in_row', '', 1)}
        {dial('tunnel_length_m', 'm', 1)}{dial('tunnel_width_m', 'm', 1)}
        {dial('bed_length_m', 'm', 0.1)}{dial('bed_width_m', 'm', 0.1)}
        {dial('tanks', '', 1)}{dial('tank_m3', 'm³', 0.5)}{dial('sump_m3', 'm³', 0.5)}{dial('flow_m3_h', 'm³/h', 1)}
      </div>
      <label class="key-row"><span>{t('has_edge')}</span><input type="checkbox" checked={c.has_edge}
        onChange={(e) => set({ counts: { ...c, has_edge: e.currentTarget.checked } })} /></label>
      <p class="quiet">{t('counts_guess')}</p>
    </>
  );
}

function Stands({ told, set }: StepProps) {
  const beds = plantTables(told.counts).find(([name]) => name === 'beds')?.[1].map((b) => String(b['id'])) ?? [];
  const tanks = plantTables(told.counts).find(([name]) => name === 'tanks')?.[1].map((b) => String(b['id'])) ?? [];
  const chosen = STARTER_CROPS.filter((c) => told.crops.includes(c.way));
  return (
    <>
      <fieldset class="tiles"><legend>{t('what_you_grow')}</legend>
        {STARTER_CROPS.filter((c) => c.edge !== true || told.counts.has_edge).map((c) => (
          <button type="button" key={c.way} class={told.crops.includes(c.way) ? 'tile is-on' : 'tile'} aria-pressed={told.crops.includes(c.way)}
            onClick={() => set({ crops: told.crops.includes(c.way) ? told.crops.filter((w) => w !== c.way) : [...told.crops, c.way] })}>
            <Icon name={cropIcon(c.way)} size={30} /> {c.name}</button>))}
      </fieldset>
      <h2 class="sub">{t('stands_today')}</h2><p class="quiet">{t('stands_today_more')}</p>
      {beds.map((bed) => {
        const s = told.standing[bed] ?? { way: '', weeks: 3 };
        return (
          <div class="stand-row" key={bed}>
            <Choice label={bed} value={s.way} options={[{ value: '', text: t('free') }, ...chosen.filter((c) => c.edge !== true).map((c) => ({ value: c.way, text: c.name }))]}
              onChange={(way) => set({ standing: { ...told.standing, [bed]: { ...s, way } } })} />
            <Choice label={t('set_weeks_ago')} value={String(s.weeks)} options={[0, 1, 2, 3, 4, 6, 8, 10, 14, 20].map((n) => ({ value: String(n), text: t('n_weeks', { n }) }))}
              onChange={(weeks) => set({ standing: { ...told.standing, [bed]: { ...s, weeks: Number(weeks) } } })} />
          </div>
        );
      })}
      <h2 class="sub">{t('fish')}</h2>
      {tanks.map((tank) => {
        const f = told.fish[tank] ?? { count: 0, mean_g: 100 };
        return (
          <div class="grid-2" key={tank}>
            <Dial label={`${tank}: ${t('field.count')}`} unit="" step={10} least={0} value={f.count} onChange={(v) => set({ fish: { ...told.fish, [tank]: { ...f, count: v ?? 0 } } })} />
            <Dial label={`${tank}: ${t('field.mean_g')}`} unit="g" step={10} least={1} value={f.mean_g} onChange={(v) => set({ fish: { ...told.fish, [tank]: { ...f, mean_g: v ?? 1 } } })} />
          </div>
        );
      })}
    </>
  );
}

function Orders({ told, set }: StepProps) {
  const chosen = STARTER_CROPS.filter((c) => told.crops.includes(c.way));
  const first = chosen[0];
  const put = (i: number, part: Partial<Told['orders'][0]>) =>
    set({ orders: told.orders.map((o, j) => j === i ? { ...o, ...part } : o) });
  return (
    <>
      <p>{t('orders_ask')}</p>
      {told.orders.map((o, i) => (
        <section class="card" key={i}>
          <div class="grid-2">
            <Field label={t('field.buyer')}>{(id) => <input id={id} type="text" value={o.buyer} onInput={(e) => put(i, { buyer: e.currentTarget.value })} />}</Field>
            <Choice label={t('field.product')} value={o.way} options={chosen.map((c) => ({ value: c.way, text: `${c.name} (${c.unit})` }))}
              onChange={(way) => put(i, { way, price: STARTER_CROPS.find((c) => c.way === way)?.price ?? o.price })} />
            <Dial label={t('units_a_week')} unit="" step={1} least={0} value={o.quantity} onChange={(v) => put(i, { quantity: v ?? 0 })} />
            <Dial label={t('price_each', { currency: told.currency })} unit="" step={0.1} least={0} value={o.price} onChange={(v) => put(i, { price: v ?? 0 })} />
          </div>
          <label class="key-row"><span>{t('is_firm')}</span><input type="checkbox" checked={o.firm} onChange={(e) => put(i, { firm: e.currentTarget.checked })} /></label>
        </section>
      ))}
      {first !== undefined && <Button id="order-more" onClick={() => set({ orders: [...told.orders,
        { buyer: told.orders[told.orders.length - 1]?.buyer ?? '', way: first.way, quantity: 10, price: first.price, firm: true }] })}>
        <Icon name="plus" /> {t('one_order_more')}</Button>}
    </>
  );
}

/** One thing he did not know: the first week in which something is short. */
function Answer(_: StepProps) {
  const work = useWork<Plan>();
  const [accepted, setAccepted] = useState(false);
  const plan = work.answer;
  const short = plan?.promises.flatMap((p) => {
    const week = p.wanted_by_week.findIndex((wanted, w) => w < SOON_WEEKS && wanted - (p.delivered_by_week[w] ?? 0) > 0.01 * wanted);
    return week < 0 ? [] : [{ p, week, by: (p.wanted_by_week[week] ?? 0) - (p.delivered_by_week[week] ?? 0) }];
  }).sort((a, b) => a.week - b.week) ?? [];
  return (
    <>
      <p>{t('answer_ask')}</p>
      <Button class="button is-strong" id="hour-plan" disabled={work.isBusy} onClick={() => work.start({ what: 'plan', moves: 60000, ceiling: false })}>{t('tell_me')}</Button>
      <Working work={work} />
      {plan !== null && (
        <section class="card answer" id="hour-answer" role="status">
          {short.length === 0 ? <p class="big">{t('none_short_soon', { n: SOON_WEEKS })}</p> : (
            <>
              <p class="big">{t('first_short', { day: dayShort(addDays(plan.from, 7 * (short[0]?.week ?? 0))), what: (short[0]?.p.product ?? '').replace(/-/g, ' '), by: number(short[0]?.by ?? 0) })}</p>
              <ul>{short.slice(1, 6).map((s) => <li key={s.p.order}>{s.p.product.replace(/-/g, ' ')}: {dayShort(addDays(plan.from, 7 * s.week))}, {number(s.by)} {t('short')}</li>)}</ul>
            </>
          )}
          {firstSowings(plan).map((b) => (
            <p key={b.way + b.sow_on}>{t('sow_line', { n: number(b.plants, 0), way: b.way.replace(/-/g, ' '), day: dayShort(b.sow_on) })}</p>))}
          {accepted ? <p class="told-line"><Icon name="do" /> {t('accepted')} <a class="link" href="#/round">{t('round')}</a></p>
            : <Button class="button is-strong" id="hour-accept" onClick={async () => { await work.accept(); await meetFarm(); setAccepted(true); }}>{t('accept_plan')}</Button>}
        </section>
      )}
      <Later />
    </>
  );
}
/** The first three sowings of the plan, those of one day and way together. */
function firstSowings(plan: Plan): { way: string; sow_on: string; plants: number }[] {
  const sowings = new Map<string, { way: string; sow_on: string; plants: number }>();
  for (const b of plan.batches.filter((one) => !one.is_standing)) {
    const old = sowings.get(b.way + b.sow_on);
    sowings.set(b.way + b.sow_on, { way: b.way, sow_on: b.sow_on, plants: (old?.plants ?? 0) + b.plants });
  }
  return [...sowings.values()].sort((a, b) => a.sow_on < b.sow_on ? -1 : 1).slice(0, 3);
}

function Later() {
  return <p><button type="button" class="link" onClick={() => { void ask('GET', '/api/check').catch(() => {}); location.hash = '#/setup'; }}>{t('all_tables')}</button></p>;
}
