// Fish: tanks and the fish in them, their spread, when they are ready, and what
// grading or moving does to both tanks, shown before it is told.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { Chart, Mark, Patterns } from './chart';
import { FeedChart } from './feedchart';
import { useFarm } from './farm';
import type { Foreseen } from './foresee';
import { Icon } from './icons';
import { kindOf } from './kinds';
import type { Telling } from './outbox';
import { Opens } from './opens';
import { TellForm } from './tellform';
import { Plate, Said, Sheet, Title, Waiting } from './ui';
import { amount, shownUnit } from './units';
import { dayShort, number, t, weekDay, word } from './words';

export interface Part { count: number; mean_g: number; cv_frac: number; kg: number }
interface Grading { over_g: number; before: Part; moved: Part; left: Part; to: string | null; from_density_kg_m3: number; to_density_kg_m3: number | null; doubt: string }
interface Tank {
  id: string; loop: string | null; use: string; volume_m3: number; count: number; kg: number; mean_g: number; density_kg_m3: number; ceiling_kg_m3: number;
  crowded_on: string | null; temp_degc: number | null; temp_from: string; feed_g: number; grade_hold: string | null;
  conversion: { value: number | null; from: string; until: string | null; feed_kg: number; gain_kg: number; fed_days: number; lacking: string | null };
  batches: (Part & { batch: string; gradings: Grading[] })[];
  moves: { week: string; kind: string; batch: string; count: number; mean_g: number | null; from: string | null; to: string | null; product: string | null }[];
}
interface FishPage {
  day: string; title: string; notices: string[]; sale_g: number; feed_g: number; tanks: Tank[];
  batches: (Part & { batch: string; standing: boolean; over_count: number; ready_early: string | null; ready_on: string | null; ready_late: string | null; planned_sold: number })[];
}

export function Fish(_: PageProps) {
  const { farm } = useFarm();
  const got = useGet<FishPage>(farm === null ? null : '/api/fish');
  const seen = useGet<Foreseen>(farm === null ? null : '/api/foresee');
  const [act, setAct] = useState<{ kind: string; tank: string } | null>(null);
  const page = got.data;
  return (
    <>
      <Title of="fish">{page === null ? undefined : <Opens of="farm" id="all" figure="feed_g">{t('fish_under', {
        kg: amount(page.tanks.reduce((n, x) => n + x.kg, 0), 'kg'), feed: amount(page.feed_g, 'g') })}</Opens>}</Title>
      <Patterns />
      <Waiting got={got} />
      {page?.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      {page !== null && (
        <div class="grid-2">
          {page.tanks.map((tank) => (
            <TankCard key={tank.id} tank={tank} page={page} onAct={(kind) => setAct({ kind, tank: tank.id })} />))}
        </div>
      )}
      {seen.data !== null && <Weights seen={seen.data} />}
      {seen.data !== null && <Feed seen={seen.data} />}
      {act !== null && page !== null &&
        <ActSheet kind={act.kind} tank={act.tank} page={page} onClose={() => setAct(null)} />}
    </>
  );
}

const named = (id: string) => id.replace(/-/g, ' ');
const meanOf = (tank: Tank) => tank.count > 0 ? (1000 * tank.kg) / tank.count : 0;

function TankCard({ tank, page, onAct }: { tank: Tank; page: FishPage; onAct: (kind: string) => void }) {
  const isEmpty = tank.count < 0.5;
  return (
    <section class="card tank">
      <h2><Plate id={tank.id} /> <small class="quiet">{word('use', tank.use)} · {number(tank.volume_m3)} m³
        {tank.temp_degc !== null && <> · <Opens of="tank" id={tank.id} figure="temp_degc">{amount(tank.temp_degc, 'degc', 1)}</Opens> ({t(tank.temp_from === 'told' ? 'as_told' : 'as_planned')})</>}</small></h2>
      {isEmpty ? <p class="quiet">{t('tank_empty')}</p> : (
        <>
          <dl class="facts">
            <div><dt>{t('fish')}</dt><dd><Opens of="tank" id={tank.id} figure="count">{number(tank.count, 0)}</Opens></dd></div>
            <div><dt>{t('each')}</dt><dd><Opens of="tank" id={tank.id} figure="mean_g">{amount(tank.mean_g, 'g', 0)}</Opens></dd></div>
            <div><dt>{t('together')}</dt><dd><Opens of="tank" id={tank.id} figure="kg">{amount(tank.kg, 'kg')}</Opens></dd></div>
            <div><dt>{t('feed_day')}</dt><dd><Opens of="tank" id={tank.id} figure="feed_g">{amount(tank.feed_g, 'g', 0)}</Opens></dd></div>
          </dl>
          {tank.batches.map((b) => <OneBatch key={b.batch} part={b} tank={tank} page={page} />)}
          <p>{tank.density_kg_m3 > tank.ceiling_kg_m3 && <><Mark kind="over">{t('too_dense')}</Mark> </>}
            <Opens of="tank" id={tank.id} figure="density_kg_m3">{t('density_words', { n: number(tank.density_kg_m3, 1), most: number(tank.ceiling_kg_m3, 0) })}</Opens>
            {tank.crowded_on !== null && tank.crowded_on > page.day && <> {t('over_density', { day: dayShort(tank.crowded_on) })}</>}</p>
          <p>{tank.conversion.value !== null
            ? <Opens of="tank" id={tank.id} figure="conversion">{t('conversion_words', { value: number(tank.conversion.value, 2), feed: amount(tank.conversion.feed_kg, 'kg'), gain: amount(tank.conversion.gain_kg, 'kg') })}</Opens>
            : <>{t('conversion')}: <Said text={tank.conversion.lacking ?? '–'} /></>}</p>
          {tank.grade_hold !== null && <p class="caution">{t('no_netting')}: <Said text={tank.grade_hold} /></p>}
          {tank.moves.length > 0 && <details><summary>{t('planned_moves', { n: tank.moves.length })}</summary><ul>
            {tank.moves.map((m, i) => <li key={i}>{dayShort(m.week)}: {word('move', m.kind)} {number(m.count, 0)} {named(m.batch)}{m.to !== null && <> → <Plate id={m.to} /></>}</li>)}</ul></details>}
        </>
      )}
      <div class="tank-acts">
        {(isEmpty ? ['stocked', 'seen'] : ['fed', 'died', 'sampled', 'graded', 'moved', 'sold']).map((kind) => (
          <button type="button" class="button" key={kind} onClick={() => onAct(kind)}
            aria-label={`${word('kind', kind)}: ${tank.id}`}>
            <Icon name={kindOf(kind)?.icon ?? 'note'} size={22} /> {word('kind', kind)}</button>
        ))}
      </div>
    </section>
  );
}

function OneBatch({ part, tank, page }: { part: Tank['batches'][0]; tank: Tank; page: FishPage }) {
  const b = page.batches.find((x) => x.batch === part.batch);
  const inTank = `${tank.id}/${part.batch}`;
  const g = amount(page.sale_g, 'g', 0);
  return (
    <div class="fish-batch">
      <h3>{named(part.batch)} <small><Opens of="in-tank" id={inTank} figure="count">{number(part.count, 0)}</Opens> × <Opens of="in-tank" id={inTank} figure="mean_g">{amount(part.mean_g, 'g', 0)}</Opens></small></h3>
      <Spread mean={part.mean_g} cv={part.cv_frac} sale={page.sale_g} />
      <dl class="facts">
        <div><dt>{t('spread')}</dt><dd><Opens of="in-tank" id={inTank} figure="cv_frac">{number(100 * part.cv_frac, 0)} %</Opens></dd></div>
        {b !== undefined && <div><dt>{t('over_g', { g })}</dt><dd><Opens of="fish" id={b.batch} figure="over_count">{number(b.over_count, 0)}</Opens></dd></div>}
        {b !== undefined && b.ready_on !== null && <div><dt>{t('mean_over', { g })}</dt><dd>
          <Opens of="fish" id={b.batch} figure="ready_on">{dayShort(b.ready_on)}</Opens>
          {b.ready_early !== null && b.ready_late !== null && b.ready_early !== b.ready_late &&
            <small><Opens of="fish" id={b.batch} figure="ready_early">{dayShort(b.ready_early)}</Opens> – <Opens of="fish" id={b.batch} figure="ready_late">{dayShort(b.ready_late)}</Opens></small>}
        </dd></div>}
      </dl>
      {b !== undefined && b.ready_on === null && <p>{t('not_ready_yet')}</p>}
      {part.gradings.length > 0 && (
        <details><summary>{t('if_graded')}</summary>
          <table><thead><tr><th scope="col">{t('over_weight')}</th><th scope="col" class="n">{t('would_go')}</th><th scope="col" class="n">{t('would_stay')}</th></tr></thead>
            <tbody>{part.gradings.map((x) => (
              <tr key={x.over_g}><th scope="row">{amount(x.over_g, 'g', 0)}</th><td class="n">{number(x.moved.count, 0)} × {amount(x.moved.mean_g, 'g', 0)}</td>
                <td class="n">{number(x.left.count, 0)} × {amount(x.left.mean_g, 'g', 0)}</td></tr>))}</tbody></table></details>
      )}
    </div>
  );
}

/** How the weights are spread, with the weight that is sold marked: a drawing
 * of the normal curve with that mean and spread. */
function Spread({ mean, cv, sale }: { mean: number; cv: number; sale: number }) {
  if (mean <= 0 || cv <= 0) return null;
  const sd = mean * cv;
  const low = Math.max(0, mean - 3 * sd);
  const high = Math.max(mean + 3 * sd, sale * 1.05);
  const x = (g: number) => ((g - low) / (high - low)) * 300;
  const y = (g: number) => 58 - 50 * Math.exp(-0.5 * ((g - mean) / sd) ** 2);
  const points = Array.from({ length: 61 }, (_, i) => low + ((high - low) * i) / 60);
  const line = points.map((g, i) => `${i === 0 ? 'M' : 'L'}${x(g).toFixed(1)} ${y(g).toFixed(1)}`).join('');
  const over = points.filter((g) => g >= sale);
  const big = over.length < 2 ? '' : `M${x(sale)} 58L${x(sale)} ${y(sale)}${over.map((g) => `L${x(g).toFixed(1)} ${y(g).toFixed(1)}`).join('')}L300 58Z`;
  return (
    <svg class="spread" viewBox="0 0 300 78" role="img"
      aria-label={t('spread_words', { low: amount(Math.max(0, mean - 1.28 * sd), 'g'), high: amount(mean + 1.28 * sd, 'g') })}>
      <path class="spread-all" d={`${line}L300 58L0 58Z`} />
      <path class="spread-big" d={big} />
      <line x1={x(sale)} x2={x(sale)} y1="2" y2="60" />
      <text x={Math.min(x(sale), 262)} y="75" text-anchor="middle">{amount(sale, 'g')}</text>
      <text x="0" y="75">{amount(low, 'g')}</text>
    </svg>
  );
}

/* ---- Acting: the balance before it is told -------------------------------- */

function ActSheet(props: { kind: string; tank: string; page: FishPage; onClose: () => void }) {
  const { page } = props;
  const kind = kindOf(props.kind);
  const tank = page.tanks.find((x) => x.id === props.tank);
  if (kind === undefined || tank === undefined) return null;
  const first = tank.batches[0];
  const grading = first?.gradings[0];
  const preset: Partial<Telling> = {
    place: tank.id,
    ...(first === undefined || !kind.fields.includes('batch') ? {} : { batch: first.batch }),
    ...(props.kind === 'graded' && grading !== undefined
      ? { cause: 'big', count: Math.round(grading.moved.count), mean_g: Math.round(grading.moved.mean_g) }
      : kind.fields.includes('mean_g') && props.kind !== 'stocked' ? { mean_g: Math.round(meanOf(tank)) } : {}),
    ...(props.kind === 'fed' ? { grams: Math.round(tank.feed_g) } : {}),
  };
  const moves = ['graded', 'moved', 'sold', 'died'].includes(props.kind);
  return (
    <Sheet title={<>{word('kind', props.kind)} <Plate id={tank.id} /></>} onClose={props.onClose}>
      {['graded', 'moved', 'sampled'].includes(props.kind) && <p class="caution">{t('net_caution')}</p>}
      {tank.grade_hold !== null && moves && <p class="caution">{t('no_netting')}: <Said text={tank.grade_hold} /></p>}
      <TellForm kind={kind} preset={preset} places={[tank.id]} onTold={props.onClose}
        batches={tank.batches.map((b) => ({ id: b.batch, text: `${named(b.batch)} (${number(b.count, 0)})` }))}
        {...(moves ? { above: (draft: Partial<Telling>) => <Balance draft={draft} page={page} /> } : {})} />
    </Sheet>
  );
}

/** Counts and kilos of both tanks, before and after. Taking the big ones lowers
 * the mean of those left: (N m - n w) / (N - n). */
function Balance({ draft, page }: { draft: Partial<Telling>; page: FishPage }) {
  const count = draft.count ?? 0;
  const from = page.tanks.find((x) => x.id === draft.place);
  const each = draft.mean_g ?? (from === undefined ? 0 : meanOf(from));
  const rows = [draft.place, draft.to_place].flatMap((id, i) => {
    const tank = page.tanks.find((x) => x.id === id);
    if (tank === undefined) return [];
    const sign = i === 0 ? -1 : 1;
    const after = tank.count + sign * count;
    const kg = tank.kg + (sign * count * each) / 1000;
    return [{ tank, after, kg, mean: after > 0 ? (1000 * kg) / after : 0, dense: kg / tank.volume_m3 }];
  });
  const bad = rows.some((r) => r.after < -0.5 || r.kg < 0);
  const g = shownUnit('g');
  const k = shownUnit('kg');
  return (
    <section class="balance" aria-live="polite">
      <h3>{t('balance')}</h3>
      <table>
        <thead><tr><th scope="col">{t('where.tank')}</th><th scope="col" class="n">{t('fish')}</th><th scope="col" class="n">{g.unit}</th>
          <th scope="col" class="n">{k.unit}</th><th scope="col" class="n">kg/m³</th></tr></thead>
        <tbody>{rows.map((r) => (
          <tr key={r.tank.id}><th scope="row"><Plate id={r.tank.id} /></th>
            <td class="n">{number(r.tank.count, 0)} <span class="to">→</span> <b>{number(r.after, 0)}</b></td>
            <td class="n">{number(g.from(meanOf(r.tank)), 0)} <span class="to">→</span> <b>{number(g.from(r.mean), 0)}</b></td>
            <td class="n">{number(k.from(r.tank.kg), 1)} <span class="to">→</span> <b>{number(k.from(r.kg), 1)}</b></td>
            <td class="n">{number(r.dense, 1)}{r.dense > r.tank.ceiling_kg_m3 && <><br /><Mark kind="over">{t('too_dense')}</Mark></>}</td></tr>))}</tbody>
      </table>
      {bad && <p class="bad">{t('balance_broken')}</p>}
    </section>
  );
}

/* ---- The weeks ahead ------------------------------------------------------ */

function Weights({ seen }: { seen: Foreseen }) {
  const days = seen.weeks.map(weekDay);
  const fish = seen.fish.filter((f) => f.standing && f.count.some((n) => n > 0.5));
  const points = fish.flatMap((f) => days.flatMap((day, i) =>
    (f.count[i] ?? 0) < 0.5 ? [] : [{ day: new Date(day), g: shownUnit('g').from(f.mean_g[i] ?? 0), batch: f.id }]));
  const ends = fish.map((f) => points.filter((p) => p.batch === f.id).pop()).filter((p) => p !== undefined);
  return (
    <section class="card">
      <Chart title={t('weights_ahead')} keys={[seen]}
        words={<ul class="plain">{fish.map((f) => <li key={f.id}><b>{f.id.replace(/-/g, ' ')}</b>: {amount(f.mean_g[0] ?? 0, 'g')} → {
          f.ready_on === null ? t('not_ready_yet') : t('ready_short', { day: dayShort(f.ready_on), low: dayShort(f.ready_early ?? f.ready_on), high: dayShort(f.ready_late ?? f.ready_on) })}</li>)}</ul>}
        draw={(plot, width) => plot.plot({
          width, height: 260, marginRight: 12, marginLeft: 44, style: { fontSize: '13px' },
          x: { type: 'utc', label: null }, y: { label: shownUnit('g').unit, grid: true, zero: true },
          marks: [
            plot.ruleY([shownUnit('g').from(seen.sale_g)], { stroke: 'var(--short)', strokeDasharray: '6 4', strokeWidth: 2 }),
            plot.lineY(points, { x: 'day', y: 'g', z: 'batch', stroke: 'var(--water)', strokeWidth: 2.5 }),
            plot.text(ends, { x: 'day', y: 'g', text: (p: { batch: string }) => p.batch.replace(/-/g, ' '), textAnchor: 'end', dy: -8, fill: 'var(--ink)', stroke: 'var(--card)', strokeWidth: 4 }),
          ],
        })}
        heads={[t('week_of'), ...fish.map((f) => f.id)]}
        rows={days.map((day, i) => [dayShort(day), ...fish.map((f) => (f.count[i] ?? 0) < 0.5 ? null : Math.round(f.mean_g[i] ?? 0))])} />
      {seen.notices.map((n) => <p key={n} class="quiet"><Said text={n} /></p>)}
    </section>
  );
}

function Feed({ seen }: { seen: Foreseen }) {
  const days = seen.weeks.map(weekDay);
  return (
    <>
      {seen.loops.map((loop) => {
        const weeks = days.map((day, i) => ({ day, given: loop.feed_offered_kg[i] ?? 0, wanted: loop.feed_wanted_kg[i] ?? 0 }));
        const low = weeks.filter((w) => w.given < seen.feed_short_ratio * w.wanted).length;
        const high = weeks.filter((w) => w.given > seen.feed_over_ratio * w.wanted).length;
        return (
          <section class="card" key={loop.id}>
            <FeedChart title={t('feed_of', { loop: loop.id })} keys={[seen]} weeks={weeks} words={<p>{t('feed_words', { low, high })}</p>}>
              <a href={path('#/water', { carry: loop.id })}>{t('does_it_carry')}</a>
            </FeedChart>
          </section>
        );
      })}
    </>
  );
}
