// Fish: tanks and the fish in them, their spread, when they are ready, and what
// grading or moving does to both tanks, shown before it is told.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { Chart, Mark, Patterns } from './chart';
import { today, useFarm } from './farm';
import type { Foreseen } from './foresee';
import { Icon } from './icons';
import { kindOf } from './kinds';
import type { Telling } from './outbox';
import { TellForm } from './tellform';
import { Plate, Said, Sheet, Title, Waiting } from './ui';
import { amount, shownUnit } from './units';
import { dayShort, daysBetween, number, t, weekDay, word } from './words';

interface Tank { id: string; loop: string | null; use: string; volume_m3: number }
const CEILING_USUAL_KG_M3 = 25; // the farm's table has its own; this is its default

export function Fish(_: PageProps) {
  const { farm } = useFarm();
  const got = useGet<Foreseen>(farm === null ? null : '/api/foresee');
  const [act, setAct] = useState<{ kind: string; tank: string } | null>(null);
  const tanks = (farm?.tanks ?? []) as unknown as Tank[];
  const seen = got.data;
  const at = seen === null ? 0 : Math.max(0, Math.min(seen.weeks.length - 1,
    Math.floor(daysBetween(seen.from, today()) / 7)));
  const totalKg = seen?.tanks.reduce((n, x) => n + (x.kg[at] ?? 0), 0) ?? 0;
  const totalFeed = seen?.tanks.reduce((n, x) => n + (x.feed_kg[at] ?? 0) / 7, 0) ?? 0;
  return (
    <>
      <Title of="fish">{seen === null ? undefined
        : t('fish_under', { kg: amount(totalKg, 'kg'), feed: amount(totalFeed, 'kg') })}</Title>
      <Patterns />
      <Waiting got={got} />
      {seen !== null && (
        <div class="grid-2">
          {tanks.map((tank) => (
            <TankCard key={tank.id} tank={tank} seen={seen} at={at}
              onAct={(kind) => setAct({ kind, tank: tank.id })} />))}
        </div>
      )}
      {seen !== null && <Weights seen={seen} />}
      {seen !== null && <Feed seen={seen} />}
      {act !== null && seen !== null &&
        <ActSheet kind={act.kind} tank={act.tank} seen={seen} at={at} tanks={tanks} onClose={() => setAct(null)} />}
    </>
  );
}

function batchesIn(seen: Foreseen, tank: string, at: number) {
  return seen.fish.filter((f) => f.tanks.some((x) => x.id === tank && (x.count[at] ?? 0) >= 0.5));
}

function TankCard(props: { tank: Tank; seen: Foreseen; at: number; onAct: (kind: string) => void }) {
  const { tank, seen, at } = props;
  const row = seen.tanks.find((x) => x.id === tank.id);
  const count = row?.count[at] ?? 0;
  const batches = batchesIn(seen, tank.id, at);
  const density = row?.density_kg_m3[at] ?? 0;
  return (
    <section class="card tank">
      <h2><Plate id={tank.id} /> <small class="quiet">{word('use', tank.use)} · {number(tank.volume_m3)} m³</small></h2>
      {count < 0.5 ? <p class="quiet">{t('tank_empty')}</p> : (
        <>
          <dl class="facts">
            <div><dt>{t('fish')}</dt><dd>{number(count, 0)}</dd></div>
            <div><dt>{t('each')}</dt><dd>{amount(row?.mean_g[at] ?? 0, 'g')}</dd></div>
            <div><dt>{t('together')}</dt><dd>{amount(row?.kg[at] ?? 0, 'kg')}</dd></div>
            <div><dt>{t('feed_day')}</dt><dd>{amount((row?.feed_kg[at] ?? 0) * 1000 / 7, 'g')}</dd></div>
          </dl>
          <Spread mean={row?.mean_g[at] ?? 0} cv={row?.cv_frac[at] ?? 0} sale={seen.sale_g} />
          <p>{density > CEILING_USUAL_KG_M3 ? <Mark kind="over">{t('too_dense')}</Mark> : null}{' '}
            {t('density_words', { n: number(density, 1) })}
            {row?.over_density_week != null && <> {t('over_density', { day: dayShort(weekDay(row.over_density_week)) })}</>}</p>
          {batches.map((b) => (
            <p key={b.id}><b>{b.id.replace(/-/g, ' ')}</b>: {b.ready_on === null ? t('not_ready_yet')
              : b.ready_on <= today() ? t('ready_now', { n: number(b.over_count[at] ?? 0, 0), g: amount(seen.sale_g, 'g') })
                : t('ready_words', { g: amount(seen.sale_g, 'g'), day: dayShort(b.ready_on), low: dayShort(b.ready_early ?? b.ready_on), high: dayShort(b.ready_late ?? b.ready_on) })}</p>
          ))}
        </>
      )}
      <div class="tank-acts">
        {(count < 0.5 ? ['stocked', 'seen'] : ['fed', 'died', 'sampled', 'graded', 'moved', 'sold']).map((kind) => (
          <button type="button" class="button" key={kind} onClick={() => props.onAct(kind)}
            aria-label={`${word('kind', kind)}: ${tank.id}`}>
            <Icon name={kindOf(kind)?.icon ?? 'note'} size={22} /> {word('kind', kind)}</button>
        ))}
      </div>
    </section>
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

function ActSheet(props: { kind: string; tank: string; seen: Foreseen; at: number; tanks: Tank[]; onClose: () => void }) {
  const { seen, at, tank } = props;
  const kind = kindOf(props.kind);
  if (kind === undefined) return null;
  const row = seen.tanks.find((x) => x.id === tank);
  const batches = batchesIn(seen, tank, at);
  const first = batches[0];
  const preset: Partial<Telling> = {
    place: tank,
    ...(first === undefined || !kind.fields.includes('batch') ? {} : { batch: first.id }),
    ...(kind.fields.includes('mean_g') && row !== undefined && props.kind !== 'stocked'
      ? { mean_g: Math.round(row.mean_g[at] ?? 0) } : {}),
    ...(props.kind === 'fed' && row !== undefined ? { grams: Math.round((row.feed_kg[at] ?? 0) * 1000 / 7) } : {}),
  };
  const moves = ['graded', 'moved', 'sold', 'died'].includes(props.kind);
  return (
    <Sheet title={<>{word('kind', props.kind)} <Plate id={tank} /></>} onClose={props.onClose}>
      {['graded', 'moved', 'sampled'].includes(props.kind) && <p class="caution">{t('net_caution')}</p>}
      <TellForm kind={kind} preset={preset} places={[tank]} onTold={props.onClose}
        batches={batches.map((b) => ({ id: b.id, text: `${b.id.replace(/-/g, ' ')} (${number(b.tanks.find((x) => x.id === tank)?.count[at] ?? 0, 0)})` }))}
        {...(moves ? { above: (draft: Partial<Telling>) => <Balance draft={draft} seen={seen} at={at} tanks={props.tanks} /> } : {})} />
    </Sheet>
  );
}

/** Counts and kilos of both tanks, before and after. Taking the big ones lowers
 * the mean of those left: (N m - n w) / (N - n). */
function Balance(props: { draft: Partial<Telling>; seen: Foreseen; at: number; tanks: Tank[] }) {
  const { draft, seen, at } = props;
  const count = draft.count ?? 0;
  const rows = [draft.place, draft.to_place].filter((x): x is string => !!x).map((id, i) => {
    const row = seen.tanks.find((x) => x.id === id);
    const had = row?.count[at] ?? 0;
    const kg = row?.kg[at] ?? 0;
    const each = draft.mean_g ?? (had > 0 ? (1000 * kg) / had : 0);
    const sign = i === 0 ? -1 : 1;
    const volume = props.tanks.find((x) => x.id === id)?.volume_m3 ?? 1;
    const after = had + sign * count;
    const kgAfter = kg + (sign * count * each) / 1000;
    return { id, had, after, kg, kgAfter, mean: had > 0 ? (1000 * kg) / had : 0, meanAfter: after > 0 ? (1000 * kgAfter) / after : 0, dense: kgAfter / volume };
  });
  const bad = rows.some((r) => r.after < -0.5 || r.kgAfter < 0);
  return (
    <section class="balance" aria-live="polite">
      <h3>{t('balance')}</h3>
      <table>
        <thead><tr><th scope="col">{t('where.tank')}</th><th scope="col" class="n">{t('fish')}</th><th scope="col" class="n">{t('each')}</th>
          <th scope="col" class="n">{shownUnit('kg').unit}</th><th scope="col" class="n">kg/m³</th></tr></thead>
        <tbody>{rows.map((r) => (
          <tr key={r.id}><th scope="row"><Plate id={r.id} /></th>
            <td class="n">{number(r.had, 0)} → <b>{number(r.after, 0)}</b></td>
            <td class="n">{number(shownUnit('g').from(r.mean), 0)} → <b>{number(shownUnit('g').from(r.meanAfter), 0)}</b></td>
            <td class="n">{number(shownUnit('kg').from(r.kg), 1)} → <b>{number(shownUnit('kg').from(r.kgAfter), 1)}</b></td>
            <td class="n">{number(r.dense, 1)}</td></tr>))}</tbody>
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
        const rows = days.map((day, i) => ({ day: new Date(day), given: loop.feed_offered_kg[i] ?? 0, wanted: loop.feed_wanted_kg[i] ?? 0 }));
        const low = rows.filter((r) => r.given < 0.7 * r.wanted).length;
        const high = rows.filter((r) => r.given > 1.2 * r.wanted).length;
        return (
          <section class="card" key={loop.id}>
            <Chart title={t('feed_of', { loop: loop.id })} keys={[seen]}
              words={<p>{t('feed_words', { low, high })}</p>}
              draw={(plot, width) => plot.plot({
                width, height: 220, marginLeft: 44, style: { fontSize: '13px' }, x: { type: 'utc', label: null }, y: { label: 'kg', grid: true, zero: true },
                marks: [
                  plot.areaY(rows, { x: 'day', y: 'given', fill: 'var(--pale)' }),
                  plot.lineY(rows, { x: 'day', y: 'given', stroke: 'var(--water)', strokeWidth: 2.5 }),
                  plot.lineY(rows, { x: 'day', y: 'wanted', stroke: 'var(--short)', strokeWidth: 2, strokeDasharray: '6 4' }),
                ],
              })}
              heads={[t('week_of'), t('given'), t('beds_want')]}
              rows={rows.map((r, i) => [dayShort(days[i] ?? ''), r.given, r.wanted])} />
            <p class="legend"><span class="key key-line" /> {t('given')} <span class="key key-dash" /> {t('beds_want')}
              {' '}<a href={path('#/water', { carry: loop.id })}>{t('does_it_carry')}</a></p>
          </section>
        );
      })}
    </>
  );
}
