// Tunnels: today's air and what to do with vents, shade and fleece; the weeks
// ahead as foreseen.
import type { PageProps } from './app';
import { path, useGet } from './api';
import { Chart } from './chart';
import { today, useFarm } from './farm';
import type { Foreseen } from './foresee';
import { Icon } from './icons';
import { Opens } from './opens';
import { Plate, Said, Title, Waiting } from './ui';
import { amount, shownUnit } from './units';
import { dayLong, dayShort, number, t, weekDay, word } from './words';

interface VentSpan { from: string; until: string; width_frac: number }
interface VentDay {
  day: string; is_forecast: boolean; outside_most_degc: number; outside_least_degc: number; wind_m_s: number; notices: string[];
  tunnels: { id: string; brief: string; lines: string[]; heat: VentSpan | null; dry: VentSpan | null; night_degc: number; opened: { wet_h: number }; shut: { wet_h: number };
    is_fleeced: boolean; pressure: { mould: string; rule: string; opened: string; shut: string }[] }[];
}

export function Tunnels(_: PageProps) {
  const { farm } = useFarm();
  const vent = useGet<VentDay>(farm === null ? null : path('/api/vent', { day: today() }));
  const seen = useGet<Foreseen>(farm === null ? null : '/api/foresee');
  const tunnels = (farm?.['tunnels'] as { id: string; name: string }[] | undefined) ?? [];
  return (
    <>
      <Title of="tunnels">{vent.data === null ? dayLong(today())
        : t('outside_words', { low: amount(vent.data.outside_least_degc, 'degc', 0), high: amount(vent.data.outside_most_degc, 'degc', 0) })}</Title>
      {vent.data !== null && <dl class="facts">
        <div><dt>{t('outside_least')}</dt><dd><Opens of="air" id="day" figure="outside_least_degc">{amount(vent.data.outside_least_degc, 'degc', 1)}</Opens></dd></div>
        <div><dt>{t('outside_most')}</dt><dd><Opens of="air" id="day" figure="outside_most_degc">{amount(vent.data.outside_most_degc, 'degc', 1)}</Opens></dd></div>
      </dl>}
      {vent.data === null && vent.error === null && <Waiting got={vent} />}
      {vent.data?.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      {tunnels.map((tunnel) => {
        const day = vent.data?.tunnels.find((x) => x.id === tunnel.id);
        const weeks = seen.data?.tunnels.find((x) => x.id === tunnel.id);
        return (
          <section class="card" key={tunnel.id}>
            <h2><Plate id={tunnel.id} /> {tunnel.name}</h2>
            {day !== undefined && <>
              <p class="big"><Icon name="vent" /> <Said text={day.brief} /></p>
              <dl class="facts">
                <div><dt>{t('night_inside')}</dt><dd><Opens of="tunnel" id={tunnel.id} figure="night_degc">{amount(day.night_degc, 'degc', 1)}</Opens></dd></div>
                <div><dt>{t('wet_opened')}</dt><dd><Opens of="tunnel" id={tunnel.id} figure="opened_wet_h">{number(day.opened.wet_h, 0)} h</Opens></dd></div>
                <div><dt>{t('wet_shut')}</dt><dd><Opens of="tunnel" id={tunnel.id} figure="shut_wet_h">{number(day.shut.wet_h, 0)} h</Opens></dd></div>
              </dl>
              <ul>{day.lines.map((line) => <li key={line}><Said text={line} /></li>)}</ul>
              <Mould pressure={day.pressure} />
            </>}
            <div class="row-buttons">
              {['vented', 'shaded', 'fleeced', 'read'].map((kind) => (
                <a class="button" key={kind} href={path('#/tell', { kind, place: tunnel.id })}>
                  <Icon name={kind === 'read' ? 'read' : 'vent'} /> {kind === 'read' ? t('air_read') : word('kind', kind)}</a>))}
            </div>
            {weeks !== undefined && seen.data !== null && <Air tunnel={weeks} weeks={seen.data.weeks} />}
          </section>
        );
      })}
      <Waiting got={seen} />
    </>
  );
}

function Mould({ pressure }: { pressure: VentDay['tunnels'][0]['pressure'] }) {
  if (pressure.length === 0) return null;
  return (
    <details><summary>{t('mould_pressure')}</summary>
      <table><thead><tr><th scope="col" /><th scope="col">{t('if_opened')}</th><th scope="col">{t('if_shut')}</th></tr></thead>
        <tbody>{pressure.map((p) => (
          <tr key={p.mould}><th scope="row"><Said text={p.mould} /><br /><small class="quiet"><Said text={p.rule} /></small></th>
            <td><Said text={p.opened} /></td><td><Said text={p.shut} /></td></tr>))}</tbody></table>
    </details>
  );
}

function Air({ tunnel, weeks }: { tunnel: Foreseen['tunnels'][0]; weeks: string[] }) {
  const how = shownUnit('degc');
  const days = weeks.map(weekDay);
  const rows = days.map((day, i) => ({ day: new Date(day), low: how.from(tunnel.min_degc[i] ?? 0), mean: how.from(tunnel.mean_degc[i] ?? 0), high: how.from(tunnel.max_degc[i] ?? 0) }));
  const coldest = Math.min(...tunnel.min_degc);
  const warmest = Math.max(...tunnel.max_degc);
  return (
    <Chart title={t('air_ahead')} keys={[tunnel]}
      words={<p>{t('air_words', {
        low: amount(coldest, 'degc', 0), cold: dayShort(days[tunnel.min_degc.indexOf(coldest)] ?? ''),
        high: amount(warmest, 'degc', 0), warm: dayShort(days[tunnel.max_degc.indexOf(warmest)] ?? ''),
      })}</p>}
      draw={(plot, width) => plot.plot({
        width, height: 210, marginLeft: 40, style: { fontSize: '13px' }, x: { type: 'utc', label: null }, y: { label: how.unit, grid: true },
        marks: [
          plot.areaY(rows, { x: 'day', y1: 'low', y2: 'high', fill: 'var(--pale)' }),
          plot.lineY(rows, { x: 'day', y: 'high', stroke: 'var(--short)', strokeWidth: 1.5, strokeDasharray: '6 4' }),
          plot.lineY(rows, { x: 'day', y: 'mean', stroke: 'var(--water)', strokeWidth: 2.5 }),
          plot.lineY(rows, { x: 'day', y: 'low', stroke: 'var(--ink)', strokeWidth: 1.5, strokeDasharray: '2 3' }),
        ],
      })}
      heads={[t('week_of'), t('coldest'), t('mean'), t('warmest')]}
      rows={rows.map((r, i) => [dayShort(days[i] ?? ''), number(r.low, 1), number(r.mean, 1), number(r.high, 1)])} />
  );
}
