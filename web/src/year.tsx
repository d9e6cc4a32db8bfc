// Year: kept, short and over against the promises, week by week; beneath it
// the beds, past and to come. Here an order is tried, a plan made, compared
// and accepted.
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { askAllAgain, path, useGet } from './api';
import { BatchByHand, ComparePlans, type Kept, OtherByHand, PlanShown, ShownPlan } from './byhand';
import { type Draw, Chart, Mark, Patterns } from './chart';
import { today, useFarm, type Farm } from './farm';
import { Icon } from './icons';
import { Button, Choice, Dial, Field, Plate, Said, Sheet, Title, Waiting } from './ui';
import { dayShort, dayYear, daysBetween, monthShort, number, t, weekDay, addDays } from './words';
import { Working, useWork } from './work';

export interface Promised {
  order: string; product: string; is_firm: boolean; weeks: number; kept_weeks: number;
  wanted: number; delivered: number; worst_week: string | null; worst_short: number;
  wanted_by_week: number[]; delivered_by_week: number[];
}
export interface Batch {
  id: string | null; ids?: string[]; // ids: of parts that are alike
  section: number; way: string; bed: string; place: 'floor' | 'edge'; units: number; plants: number;
  is_standing: boolean; sow_on: string; set_on: string; pick_from: string;
  pick_until: string; clear_on: string;
}
export interface FishStep {
  id: string; step: string; week: string; batch: string; tank: string | null; to_tank: string | null; count: number; mean_g: number;
}
export interface Plan {
  from: string; weeks: number; currency: string; value: number; wages: number;
  heat: number; money: Record<string, number>; promises: Promised[];
  over: { way: string; units: number; by_week: number[] }[];
  batches: Batch[]; cleans: { bed: string; week: string }[]; fish_steps?: FishStep[];
  age?: string | null; change?: PlanChange | null;
  ceiling?: { value: number; one_more_would_earn: { what: string; total: number; peak: number; peak_week: string | null }[] } | null;
}
interface PlanChange {
  stayed: number; added: number; dropped: number; limits_broken: number;
  one_of_them: string | null; value_before: number;
  sales: { sale: string; product: string; before: number; after: number; money: number }[];
}

const SLACK = 0.01; // of what is wanted: the plan's own measure of "kept"
const isShort = (p: Promised, w: number) => {
  const wanted = p.wanted_by_week[w] ?? 0;
  return wanted - (p.delivered_by_week[w] ?? 0) > SLACK * wanted;
};

export function money(value: number, currency: string): string {
  return new Intl.NumberFormat(document.documentElement.lang || 'en', {
    style: 'currency', currency, maximumFractionDigits: 0,
  }).format(value);
}

export function Year(_: PageProps) {
  const { farm } = useFarm();
  const kept = useGet<{ plans: Kept[] }>(farm === null ? null : '/api/plans');
  const plans = kept.data?.plans ?? [];
  const [asked, setAsked] = useState('accepted');
  const name = plans.some((p) => p.name === asked) ? asked : 'accepted';
  const accepted = useGet<Plan>(farm === null ? null : '/api/year');
  const other = useGet<Plan>(name === 'accepted' ? null : path('/api/year', { plan: name }));
  const got = name === 'accepted' ? accepted : other;
  const plan = got.data;
  return (
    <PlanShown.Provider value={name}>
      <Title of="year">{plan === null ? undefined : name === 'accepted'
        ? t('plan_from', { day: dayYear(plan.from), n: plan.weeks }) : t(`plan.${name}` as 'plan.draft')}</Title>
      <Patterns />
      <ShownPlan plans={plans} name={name} onChange={setAsked} />
      <Waiting got={got} />
      {plan?.age && <p class="caution"><Said text={plan.age} /></p>}
      {plan !== null && <Bands plan={plan} />}
      {plan !== null && <OneProduct plan={plan} />}
      {plan !== null && <BedYear plan={plan} />}
      {farm !== null && <Decide plan={accepted.data} shown={plan} plans={plans} farm={farm} />}
    </PlanShown.Provider>
  );
}

interface WeekBand { week: number; day: string; kept: number; short: number; over: number }
function bandsOf(plan: Plan, product: string | null): WeekBand[] {
  const promises = plan.promises.filter((p) => product === null || p.product === product);
  return Array.from({ length: plan.weeks }, (_, week) => {
    const wanted = promises.filter((p) => (p.wanted_by_week[week] ?? 0) > 0);
    const short = wanted.filter((p) => isShort(p, week)).length;
    return {
      week, day: addDays(plan.from, 7 * week), kept: wanted.length - short, short,
      over: plan.over.filter((o) => (o.by_week[week] ?? 0) >= 0.5).length,
    };
  });
}

/** Kept stands on the line, short on top of it, over hangs below. */
const drawBands = (bands: WeekBand[], now: string): Draw => (plot, width) => plot.plot({
  width, height: 240, marginLeft: 34, marginRight: 4, marginBottom: 28, style: { fontSize: '13px' },
  x: { type: 'utc', label: null }, y: { label: null, grid: true },
  marks: [
    plot.rectY(bands, { x: (b: WeekBand) => new Date(b.day), interval: 'week', y1: 0, y2: 'kept', fill: 'var(--water)', insetLeft: 0.5, insetRight: 0.5 }),
    plot.rectY(bands, { x: (b: WeekBand) => new Date(b.day), interval: 'week', y1: 'kept', y2: (b: WeekBand) => b.kept + b.short, fill: 'url(#hatch)', stroke: 'var(--short)', insetLeft: 0.5, insetRight: 0.5 }),
    plot.rectY(bands, { x: (b: WeekBand) => new Date(b.day), interval: 'week', y1: 0, y2: (b: WeekBand) => -b.over, fill: 'url(#dots)', stroke: 'var(--over)', insetLeft: 0.5, insetRight: 0.5 }),
    plot.ruleY([0], { stroke: 'var(--ink)', strokeWidth: 1.5 }),
    plot.ruleX([new Date(now)], { stroke: 'var(--ink)', strokeWidth: 2, strokeDasharray: '4 3' }),
  ],
});

/** Runs of weeks, as "8 Mar – 4 Apr, 7 Jun". */
function spans(bands: WeekBand[], is: (b: WeekBand) => boolean): string {
  const runs: [WeekBand, WeekBand][] = [];
  for (const band of bands.filter(is)) {
    const last = runs[runs.length - 1];
    if (last !== undefined && last[1].week === band.week - 1) last[1] = band;
    else runs.push([band, band]);
  }
  return runs.slice(0, 3).map(([a, b]) => a === b ? dayShort(a.day)
    : `${dayShort(a.day)} – ${dayShort(addDays(b.day, 6))}`).join('; ') + (runs.length > 3 ? ' …' : '');
}

function Bands({ plan }: { plan: Plan }) {
  const bands = useMemo(() => bandsOf(plan, null), [plan]);
  const kept = bands.reduce((n, b) => n + b.kept, 0);
  const short = bands.reduce((n, b) => n + b.short, 0);
  const worst = bands.reduce((a, b) => b.short > a.short ? b : a, bands[0] as WeekBand);
  const firm = plan.promises.filter((p) => p.is_firm && p.kept_weeks < p.weeks).length;
  return (
    <section class="card">
      <Chart title={t('promises_by_week')} keys={[plan]}
        draw={drawBands(bands, today())}
        words={<>
          <p><Mark kind="kept">{t('kept')} {number(kept)}</Mark> <Mark kind="short">{t('short')} {number(short)}</Mark>{' '}
            <Mark kind="over">{t('over')}</Mark></p>
          <p>{t('bands_words', { kept: number((100 * kept) / (kept + short || 1), 0), worst: dayShort(worst.day), n: worst.short })}
            {firm > 0 && <> {t('firm_short', { n: firm })}</>}</p>
        </>}
        heads={[t('week_of'), t('kept'), t('short'), t('crops_over')]}
        rows={bands.map((b) => [dayShort(b.day), b.kept, b.short, b.over])} />
      <dl class="facts">
        <div><dt>{t('plan_value')}</dt><dd>{money(plan.value, plan.currency)}</dd></div>
        <div><dt>{t('sales')}</dt><dd>{money(plan.money['sales'] ?? 0, plan.currency)}</dd></div>
        <div><dt>{t('missed_promises')}</dt><dd>{money(plan.money['missed'] ?? 0, plan.currency)}</dd></div>
        <div><dt>{t('wages')}</dt><dd>{money(plan.wages, plan.currency)}</dd></div>
      </dl>
      <details><summary>{t('how_value')}</summary>
        <table><tbody>
          {Object.entries(plan.money).map(([name, value]) => (
            <tr key={name}><th scope="row">{t(`money.${name}` as 'money.sales')}</th>
              <td class="n">{money(value, plan.currency)}</td></tr>))}
        </tbody></table>
        <p class="quiet">{t('how_value_more')}</p>
      </details>
    </section>
  );
}

/** One product: units wanted, kept, short and over. */
function OneProduct({ plan }: { plan: Plan }) {
  const products = [...new Set(plan.promises.map((p) => p.product))];
  const worst = products.map((id) => ({
    id, short: plan.promises.filter((p) => p.product === id)
      .reduce((n, p) => n + (p.wanted - p.delivered) / (p.wanted || 1), 0),
  })).sort((a, b) => b.short - a.short)[0]?.id ?? '';
  const [product, setProduct] = useState(worst);
  const rows = useMemo(() => {
    const ours = plan.promises.filter((p) => p.product === product);
    return Array.from({ length: plan.weeks }, (_, week) => {
      const wanted = ours.reduce((n, p) => n + (p.wanted_by_week[week] ?? 0), 0);
      const kept = ours.reduce((n, p) => n + (p.delivered_by_week[week] ?? 0), 0);
      return { day: addDays(plan.from, 7 * week), week, wanted, kept, short: Math.max(0, wanted - kept), over: 0 };
    });
  }, [plan, product]);
  const total = (key: 'wanted' | 'kept') => rows.reduce((n, r) => n + r[key], 0);
  const bands = rows.map((r) => ({ ...r, short: r.short > SLACK * r.wanted ? r.short : 0 }));
  return (
    <section class="card">
      <Choice label={t('one_product')} value={product} onChange={setProduct}
        options={products.map((p) => ({ value: p, text: p.replace(/-/g, ' ') }))} />
      <Chart title={product.replace(/-/g, ' ')} keys={[plan, product]} draw={drawBands(bands, today())}
        words={<p>{t('product_words', { wanted: total('wanted'), kept: total('kept') })}{' '}
          {bands.some((b) => b.short > 0) && <><Mark kind="short">{t('short')}</Mark> {spans(bands, (b) => b.short > 0)}</>}</p>}
        heads={[t('week_of'), t('wanted'), t('kept'), t('short')]}
        rows={rows.map((r) => [dayShort(r.day), r.wanted, r.kept, r.short])} />
    </section>
  );
}

/* ---- The beds beneath --------------------------------------------------- */

const WEEK_PX = 17;
const LANE_PX = 19;
const ROW_LEAST_PX = 42;

interface Lane { batch: Batch; lane: number }
interface Row { id: string; y: number; height: number; lanes: Lane[] }
/** Batches that share a bed lie under one another in its row; parts of one
 * sowing that are alike lie together. */
function rowsOf(plan: Plan, beds: string[]): { rows: Row[]; height: number } {
  let y = 30;
  const rows = beds.map((id) => {
    const until: string[] = [];
    const alike = new Map<string, Batch>();
    for (const b of plan.batches.filter((one) => one.bed === id)) {
      const key = [b.way, b.place, b.set_on, b.clear_on, b.is_standing].join();
      const old = alike.get(key);
      const ids = [...(old?.ids ?? []), ...(b.id === null ? [] : [b.id])];
      alike.set(key, old === undefined ? { ...b, ids }
        : { ...old, ids, plants: old.plants + b.plants, units: old.units + b.units });
    }
    const lanes = [...alike.values()].sort((a, b) => a.set_on < b.set_on ? -1 : 1).map((batch) => {
      let lane = until.findIndex((day) => day <= batch.set_on);
      if (lane < 0) lane = until.push('') - 1;
      until[lane] = batch.clear_on;
      return { batch, lane };
    });
    const row = { id, y, height: Math.max(ROW_LEAST_PX, until.length * LANE_PX + 6), lanes };
    y += row.height;
    return row;
  });
  return { rows, height: y };
}

function BedYear({ plan }: { plan: Plan }) {
  const { farm } = useFarm();
  const [tunnel, setTunnel] = useState<string | null>(null);
  const [open, setOpen] = useState<Batch | null>(null);
  const tunnels = [...new Set((farm?.beds ?? []).map((b) => b.tunnel ?? ''))];
  const shown = tunnel ?? tunnels[0] ?? '';
  const { rows, height } = useMemo(() => rowsOf(plan, (farm?.beds ?? [])
    .filter((b) => (b.tunnel ?? '') === shown).map((b) => b.id)), [plan, farm, shown]);
  return (
    <section>
      <h2 class="sub">{t('beds_beneath')}</h2>
      <p class="quiet">{t('beds_beneath_more')}</p>
      <div class="tabs" role="group" aria-label={t('tunnels')}>
        {tunnels.map((id) => (
          <button type="button" key={id} aria-pressed={id === shown} onClick={() => setTunnel(id)}>{id}</button>))}
      </div>
      <div class="scroll bedyear" tabIndex={0} role="region" aria-label={t('beds_beneath')}>
        <svg width={plan.weeks * WEEK_PX + 86} height={height + 4} role="group"
          aria-label={t('beds_beneath')}>
          <Months plan={plan} height={height} />
          {rows.map((row) => <BedRow key={row.id} row={row} plan={plan} onOpen={setOpen} />)}
        </svg>
      </div>
      {open !== null && <BatchSheet batch={open} onClose={() => setOpen(null)} />}
    </section>
  );
}

function Months({ plan, height }: { plan: Plan; height: number }) {
  const firsts = Array.from({ length: plan.weeks * 7 }, (_, d) => addDays(plan.from, d))
    .filter((day) => day.endsWith('-01'));
  const x = (day: string) => 86 + (daysBetween(plan.from, day) / 7) * WEEK_PX;
  return (
    <g class="months">
      {firsts.map((day) => (
        <g key={day}><line x1={x(day)} x2={x(day)} y1={20} y2={height} />
          <text x={x(day) + 4} y={15}>{monthShort(day)}</text></g>))}
      <line class="now" x1={x(today())} x2={x(today())} y1={6} y2={height} />
    </g>
  );
}

function BedRow({ row, plan, onOpen }: { row: Row; plan: Plan; onOpen: (b: Batch) => void }) {
  const x = (day: string) => 86 + Math.max(0, (daysBetween(plan.from, day) / 7) * WEEK_PX);
  const end = 86 + plan.weeks * WEEK_PX;
  const tall = row.height - 5;
  return (
    <g>
      <text class="bed-name" x={4} y={row.y + 22}>{row.id}</text>
      <line class="bed-line" x1={0} x2={end} y1={row.y + row.height - 3} y2={row.y + row.height - 3} />
      {plan.cleans.filter((c) => c.bed === row.id).map((c) => (
        <rect key={c.week} class="clean-bar" x={x(weekDay(c.week))} y={row.y} width={WEEK_PX} height={tall} />))}
      {row.lanes.map(({ batch, lane }) => {
        const from = x(batch.set_on);
        const until = Math.min(end, x(batch.clear_on));
        if (until <= from) return null;
        const top = row.y + lane * LANE_PX;
        const name = wayShort(batch.way).slice(0, Math.floor((until - from - 6) / 8));
        return (
          <g key={`${batch.way}${batch.set_on}${lane}`} class={batch.is_standing ? 'batch is-standing' : 'batch'}
            role="button" tabindex={0} aria-label={`${batch.way} ${batch.bed} ${dayShort(batch.set_on)}`}
            onClick={() => onOpen(batch)}
            onKeyDown={(e) => { if (e.key === 'Enter' || e.key === ' ') { e.preventDefault(); onOpen(batch); } }}>
            <rect class="grow-bar" x={from} y={top} width={until - from} height={LANE_PX - 2} />
            <rect class="pick-bar" x={x(batch.pick_from)} y={top} height={LANE_PX - 2}
              width={Math.max(2, Math.min(end, x(batch.pick_until)) - x(batch.pick_from))} />
            {name.length > 2 && <text x={from + 3} y={top + 13}>{name}</text>}
          </g>
        );
      })}
    </g>
  );
}
const wayShort = (way: string) => way.replace(/-(head|bunch|leaf|flower|edge|fruit|red)$/, '').replace(/-/g, ' ');

function BatchSheet({ batch, onClose }: { batch: Batch; onClose: () => void }) {
  const rows: [string, string][] = [
    [t('sow_on'), dayYear(batch.sow_on)], [t('set_on'), dayYear(batch.set_on)],
    [t('pick_days'), `${dayYear(batch.pick_from)} – ${dayYear(batch.pick_until)}`],
    [t('clear_on'), dayYear(batch.clear_on)], [t('plants'), number(batch.plants, 0)],
  ];
  return (
    <Sheet title={<>{batch.way.replace(/-/g, ' ')} <Plate id={batch.bed} /></>} onClose={onClose}>
      <table><tbody>{rows.map(([name, value]) => (
        <tr key={name}><th scope="row">{name}</th><td>{value}</td></tr>))}</tbody></table>
      <div class="row-buttons">
        <a class="button" href={`#/beds?bed=${encodeURIComponent(batch.bed)}`}>{t('the_bed')}</a>
        {!batch.is_standing && <a class="button" href={path('#/tell', { kind: 'sown', way: batch.way })}>
          <Icon name="sow" /> {t('kind.sown')}</a>}
      </div>
      {(batch.ids ?? []).length > 0 && <BatchByHand batch={batch} onDone={onClose} />}
    </Sheet>
  );
}

/* ---- Deciding: an order, a plan ------------------------------------------ */

function Decide({ plan, shown, plans, farm }: {
  plan: Plan | null; shown: Plan | null; plans: Kept[]; farm: Farm;
}) {
  return (
    <>
      <h2 class="sub">{t('decide')}</h2>
      <p><a class="button" href="#/possible"><Icon name="year" /> {t('to_possible')}</a></p>
      <div class="grid-2">
        {plan !== null && <CanTake farm={farm} currency={plan.currency} />}
        <PlanAnew plan={plan} />
        {shown !== null && <OtherByHand plan={shown} farm={farm} />}
      </div>
      {plan !== null && <ComparePlans plans={plans} />}
    </>
  );
}

interface CanAnswer {
  answer: string; wanted: number; kept: number; short_in: string | null; value_change: number;
  batches: { way: string; bed: string; place: string; plants: number; seeds: number; sow_on: string; pick_from: string }[];
  gives_way: { product: string; units: number; weeks: number }[];
  more_feed_kg_d: number; more_hours_w: number; refuse_free_until: string | null;
}

function CanTake({ farm, currency }: { farm: Farm; currency: string }) {
  const work = useWork<CanAnswer>();
  const list = (key: string) => (farm[key] as { id: string; name: string }[] | undefined) ?? [];
  const [product, setProduct] = useState(list('products')[0]?.id ?? '');
  const [buyer, setBuyer] = useState(list('buyers')[0]?.id ?? '');
  const [quantity, setQuantity] = useState<number | null>(10);
  const [from, setFrom] = useState(addDays(today(), 56));
  const [until, setUntil] = useState('');
  const named = (key: string) => list(key).map((p) => ({ value: p.id, text: p.name || p.id }));
  return (
    <section class="card">
      <h2>{t('can_i_take')}</h2>
      <Choice label={t('field.product')} value={product} onChange={setProduct} options={named('products')} />
      <Choice label={t('field.buyer')} value={buyer} onChange={setBuyer} options={named('buyers')} />
      <Dial label={t('units_a_week')} value={quantity} unit="" least={0} step={1} onChange={setQuantity} />
      <div class="grid-2">
        <Field label={t('from')}>{(id) => <input id={id} type="date" value={from} onInput={(e) => setFrom(e.currentTarget.value)} />}</Field>
        <Field label={t('until_or_open')}>{(id) => <input id={id} type="date" value={until} onInput={(e) => setUntil(e.currentTarget.value)} />}</Field>
      </div>
      <Button class="button is-strong" id="can-ask" disabled={work.isBusy} onClick={() => work.start({
        what: 'can', product, buyer, quantity: quantity ?? 0, from, ...(until === '' ? {} : { until }),
      })}>{t('answer')}</Button>
      <Working work={work} />
      {work.answer !== null && <CanSaid can={work.answer} currency={currency} />}
    </section>
  );
}

function CanSaid({ can, currency }: { can: CanAnswer; currency: string }) {
  return (
    <div class="answer" role="status">
      <p class="big"><Mark kind={can.answer === 'no' ? 'short' : 'kept'}>{t(`can.${can.answer}` as 'can.yes')}</Mark></p>
      <p>{t('can_words', { kept: can.kept, wanted: can.wanted, money: money(can.value_change, currency) })}</p>
      {can.gives_way.length > 0 && <><h3>{t('gives_way')}</h3><ul>
        {can.gives_way.map((g) => <li key={g.product}>{g.product.replace(/-/g, ' ')}: {number(g.units)} ({t('n_weeks', { n: g.weeks })})</li>)}</ul></>}
      {can.batches.length > 0 && <details><summary>{t('it_needs', { n: can.batches.length })}</summary><ul>
        {can.batches.map((b, i) => <li key={i}>{t('sow_line', { n: b.seeds, way: b.way.replace(/-/g, ' '), day: dayShort(b.sow_on) })} <Plate id={b.bed} /></li>)}</ul></details>}
      <p>{t('more_feed_hours', { feed: number(can.more_feed_kg_d, 2), hours: number(can.more_hours_w, 1) })}</p>
      {can.refuse_free_until && <p>{t('refuse_until', { day: dayYear(can.refuse_free_until) })}</p>}
    </div>
  );
}

function PlanAnew({ plan }: { plan: Plan | null }) {
  const work = useWork<Plan>();
  const [keep, setKeep] = useState<number | null>(2);
  const [accepted, setAccepted] = useState(false);
  const found = work.answer;
  // It is kept as the draft: shown and compared from now on.
  useEffect(() => { if (found !== null) askAllAgain(); }, [found]);
  return (
    <section class="card">
      <h2>{plan === null ? t('make_plan') : t('plan_anew')}</h2>
      <p>{t('plan_anew_more')}</p>
      {plan !== null && <Dial label={t('keep_weeks')} value={keep} unit="" least={0} step={1} onChange={setKeep} />}
      <Button class="button is-strong" id="plan-ask" disabled={work.isBusy} onClick={() => {
        setAccepted(false);
        return work.start({ what: 'plan', ...(plan === null ? {} : { keep_weeks: keep ?? 0 }) });
      }}>{t('plan_now')}</Button>
      <Working work={work} />
      {found !== null && (
        <div class="answer" role="status">
          <table>
            <thead><tr><th scope="col" /><th scope="col" class="n">{t('now_accepted')}</th><th scope="col" class="n">{t('new_plan')}</th></tr></thead>
            <tbody>{(['sales', 'missed'] as const).map((key) => (
              <tr key={key}><th scope="row">{t(`money.${key}`)}</th>
                <td class="n">{plan === null ? '–' : money(plan.money[key] ?? 0, plan.currency)}</td>
                <td class="n">{money(found.money[key] ?? 0, found.currency)}</td></tr>))}
              <tr><th scope="row">{t('plan_value')}</th>
                <td class="n">{plan === null ? '–' : money(plan.value, plan.currency)}</td>
                <td class="n"><b>{money(found.value, found.currency)}</b></td></tr>
            </tbody>
          </table>
          {found.change && <p>{t('change_words', { stayed: found.change.stayed, added: found.change.added, dropped: found.change.dropped })}
            {found.change.one_of_them && <> <Said text={found.change.one_of_them} /></>}</p>}
          {accepted ? <p class="told-line"><Icon name="do" /> {t('accepted')}</p>
            : <Button class="button is-strong" id="plan-accept" onClick={async () => {
              await work.accept();
              setAccepted(true);
            }}>{t('accept_plan')}</Button>}
        </div>
      )}
    </section>
  );
}
