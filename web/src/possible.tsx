// Possible years: the farm with its plan run through many years that could be,
// and counted. What breaks first, how sure each order's week is, and low, middle
// and high of everything by week. Started here, stopped here; the last answer is
// kept with its hour.
import { useEffect, useState } from 'preact/hooks';
import { ask } from './api';
import type { PageProps } from './app';
import { Chart, Mark, Patterns } from './chart';
import { useFarm } from './farm';
import { keepGet, keepPut } from './keep';
import { Button, Choice, Dial, Figures, Said, Title } from './ui';
import { shownUnit } from './units';
import { ago, dayShort, dayYear, number, t, weekDay, word } from './words';
import { useWork, Working } from './work';

interface Row { id: string | null; low: number[]; middle: number[]; high: number[]; typical: number[];
  whole: { low: number | null; middle: number | null; high: number | null; typical: number | null } }
interface Series { key: string; of: string; meaning: string; whole_is: string; rows: Row[] }
interface Order { id: string; buyer: string; product: string; firmness: string; chance: number; plan_keeps_frac: number; typical_keeps_frac: number;
  weeks: { week: string; wanted: number; planned: number; chance: number; low_frac: number | null }[] }
interface Break { what: string; years: number; years_first: number; rows: { id: string; element?: string; years: number; middle_first_week: string }[] }
interface Years {
  from: string; weeks: string[]; years: number; years_asked: number; notices: string[]; years_unbroken: number;
  breaks: Break[]; orders: Order[]; series: Series[];
}
interface Kept { answer: Years; at: number }
const SHELF_KEY = 'possible-years';
const named = (id: string) => id.replace(/-/g, ' ');
const percent = (frac: number) => `${number(100 * frac, 0)} %`;

/** The answer kept last, and what runs on the server, whoever began it. */
function useYears() {
  const work = useWork<Years>();
  const [kept, setKept] = useState<Kept | null>(null);
  useEffect(() => {
    keepGet<Kept>('answers', SHELF_KEY).then((found) => {
      if (found !== undefined) setKept((now) => now ?? found);
    }, () => {});
    ask<{ works: { id: string; what: string; state: string }[] }>('GET', '/api/work').then(({ works }) => {
      const running = works.find((w) => w.what === 'years' && w.state === 'running');
      if (running !== undefined) work.attach(running.id);
    }, () => {});
  }, []);
  useEffect(() => {
    if (work.answer === null) return;
    const fresh = { answer: work.answer, at: Date.now() };
    setKept(fresh);
    keepPut('answers', fresh, SHELF_KEY).catch(() => {});
  }, [work.answer]);
  return { work, kept };
}

export function Possible(_: PageProps) {
  const { me } = useFarm();
  const { work, kept } = useYears();
  const [years, setYears] = useState<number | null>(100);
  const mayRun = me === null || me.role !== 'reader';
  return (
    <>
      <Title of="possible">{kept === null ? t('possible_more')
        : t('possible_under', { n: kept.answer.years, day: dayYear(kept.answer.from), ago: ago(kept.at) })}</Title>
      <Patterns />
      {mayRun && (
        <section class="card">
          <Dial id="years-count" label={t('years_how_many')} value={years} unit="" least={10} step={10} onChange={setYears} />
          <p class="quiet">{t('years_time')}</p>
          <Button class="button is-strong" id="years-ask" disabled={work.isBusy}
            onClick={() => work.start({ what: 'years', years: Math.min(2000, Math.max(1, Math.round(years ?? 100))) })}>
            {t(kept === null ? 'years_run' : 'years_again')}</Button>
          <Working work={work} />
        </section>
      )}
      {kept !== null && <All years={kept.answer} />}
    </>
  );
}

function All({ years }: { years: Years }) {
  return (
    <>
      {years.years < years.years_asked && <p class="caution" role="status">{t('years_stopped', { n: years.years, all: years.years_asked })}</p>}
      {years.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      <Breaks years={years} />
      <Chances years={years} />
      <ByWeek years={years} />
    </>
  );
}

/* ---- What breaks first ---------------------------------------------------- */

const ofHundred = (count: number, years: Years) => Math.round((100 * count) / years.years);

function Breaks({ years }: { years: Years }) {
  const told = years.breaks.filter((b) => b.years > 0).sort((a, b) => b.years_first - a.years_first || b.years - a.years);
  const never = years.breaks.filter((b) => b.years === 0).map((b) => word('year_break', b.what));
  return (
    <section class="card">
      <h2>{t('breaks_first')}</h2>
      <p class="big">{t('unbroken', { n: ofHundred(years.years_unbroken, years) })}</p>
      <ul class="plain breaks">{told.map((b) => <OneBreak key={b.what} is={b} years={years} />)}</ul>
      <p class="quiet">{t('of_hundred_more')}</p>
      {never.length > 0 && <p>{t('never_breaks')}: {never.join(', ')}.</p>}
    </section>
  );
}

function OneBreak({ is, years }: { is: Break; years: Years }) {
  const most = [...is.rows].sort((x, y) => y.years - x.years)[0];
  const count = ofHundred(is.years, years);
  return (
    <li>
      <p><b>{word('year_break', is.what)}</b> <span class="break-n">{t('n_of_100', { n: count })}</span></p>
      <progress max={100} value={count} aria-label={word('year_break', is.what)} />
      <p class="quiet">{t('first_of_all', { n: ofHundred(is.years_first, years) })}{most !== undefined && <> {t('most_often')}: {named(most.id)}
        {most.element !== undefined && `, ${word('element', most.element)}`}, {t('n_of_100', { n: ofHundred(most.years, years) })},{' '}
        {t('from_week', { day: dayShort(weekDay(most.middle_first_week)) })}.</>}</p>
    </li>
  );
}

/* ---- How sure each order's week is ---------------------------------------- */

function Chances({ years }: { years: Years }) {
  const orders = [...years.orders].sort((a, b) => a.chance - b.chance);
  const [open, setOpen] = useState((orders.find((o) => o.firmness === 'firm') ?? orders[0])?.id ?? '');
  const order = orders.find((o) => o.id === open) ?? orders[0];
  if (order === undefined) return null;
  const points = order.weeks.map((w) => ({ day: new Date(weekDay(w.week)), chance: 100 * w.chance }));
  const low = order.weeks.filter((w) => w.chance < 0.5).length;
  return (
    <section class="card">
      <h2>{t('chances')}</h2>
      <p class="quiet">{t('chances_more')}</p>
      <Choice label={t('order')} value={order.id} onChange={setOpen}
        options={orders.map((o) => ({ value: o.id, text: `${named(o.product)}, ${o.buyer}: ${percent(o.chance)}` }))} />
      <Chart title={`${named(order.product)}, ${order.buyer}`} keys={[years, order.id]}
        words={<p><Mark kind={order.chance < 0.8 ? 'short' : 'kept'}>{t('chance_words', { chance: percent(order.chance), firmness: word('firmness', order.firmness) })}</Mark>{' '}
          {t('chance_weeks', { n: order.weeks.length, low })}</p>}
        draw={(plot, width) => plot.plot({
          width, height: 220, marginLeft: 44, style: { fontSize: '13px' }, x: { type: 'utc', label: null },
          y: { label: '%', grid: true, domain: [0, 100] },
          marks: [
            plot.ruleY([80], { stroke: 'var(--short)', strokeDasharray: '6 4', strokeWidth: 2 }),
            plot.lineY(points, { x: 'day', y: 'chance', stroke: 'var(--water)', strokeWidth: 2.5, curve: 'step' }),
            plot.dot(points, { x: 'day', y: 'chance', r: 3, fill: 'var(--water)' }),
          ],
        })}
        heads={[t('week_of'), t('wanted'), t('by_plan'), t('chance')]}
        rows={order.weeks.map((w) => [dayShort(weekDay(w.week)), w.wanted, w.planned, percent(w.chance)])} />
      <Figures summary={t('all_chances')} heads={[t('order'), t('chance'), t('by_plan'), t('by_typical')]}
        rows={orders.map((o) => [`${named(o.product)}, ${o.buyer}`, percent(o.chance), percent(o.plan_keeps_frac), percent(o.typical_keeps_frac)])} />
    </section>
  );
}

/* ---- Low, middle and high by week ----------------------------------------- */

function unitOf(key: string): string {
  const found = /_(kg|degc|kwh|mg_l|h)$/.exec(key)?.[1] ?? '';
  return { kwh: 'kWh' }[found] ?? found;
}

function ByWeek({ years }: { years: Years }) {
  const all = years.series.filter((s) => s.rows.length > 0);
  const [key, setKey] = useState(all[0]?.key ?? '');
  const [id, setId] = useState<string | null>(null);
  const series = all.find((s) => s.key === key);
  const row = series?.rows.find((r) => r.id === id) ?? series?.rows[0];
  if (series === undefined || row === undefined) return null;
  return (
    <section class="card">
      <h2>{t('by_week')}</h2>
      <div class="grid-2">
        <Choice label={t('which_figure')} value={key} onChange={setKey} options={all.map((s) => ({ value: s.key, text: word('series', s.key) }))} />
        {series.rows.length > 1 && <Choice label={word('of', series.of)} value={row.id ?? ''} onChange={setId}
          options={series.rows.map((r) => ({ value: r.id ?? '', text: named(r.id ?? '') }))} />}
      </div>
      <OneRow years={years} series={series} row={row} />
    </section>
  );
}

function OneRow({ years, series, row }: { years: Years; series: Series; row: Row }) {
  const how = shownUnit(unitOf(series.key));
  const shown = (v: number | null | undefined) => v === null || v === undefined ? null : how.from(v);
  const weeks = years.weeks.map((week, i) => ({
    day: new Date(weekDay(week)), low: shown(row.low[i]), middle: shown(row.middle[i]), high: shown(row.high[i]), typical: shown(row.typical[i]),
  }));
  const name = `${word('series', series.key)}${row.id === null || row.id === '' ? '' : `, ${named(row.id)}`}`;
  const text = (v: number | null | undefined) => { const x = shown(v); return x === null ? '–' : `${number(x)}${how.unit === '' ? '' : ` ${how.unit}`}`; };
  return (
    <Chart title={name} keys={[years, series.key, row.id]}
      words={<p>{t(`whole_${series.whole_is}` as 'whole_sum', { low: text(row.whole.low), middle: text(row.whole.middle), high: text(row.whole.high) })}{' '}
        {t('typical_has', { typical: text(row.whole.typical) })}</p>}
      draw={(plot, width) => plot.plot({
        width, height: 240, marginLeft: 48, style: { fontSize: '13px' }, x: { type: 'utc', label: null },
        y: { label: how.unit, grid: true, zero: series.whole_is === 'sum' },
        marks: [
          plot.areaY(weeks, { x: 'day', y1: 'low', y2: 'high', fill: 'var(--pale)' }),
          plot.lineY(weeks, { x: 'day', y: 'middle', stroke: 'var(--water)', strokeWidth: 2.5 }),
          plot.lineY(weeks, { x: 'day', y: 'typical', stroke: 'var(--short)', strokeWidth: 2, strokeDasharray: '6 4' }),
        ],
      })}
      heads={[t('week_of'), t('low'), t('middle'), t('high'), t('typical')]}
      rows={weeks.map((w) => [dayShort(w.day.toISOString().slice(0, 10)), w.low, w.middle, w.high, w.typical])} />
  );
}
