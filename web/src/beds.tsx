// Beds: the walk as the leat through its tunnels, the beds on its banks. In each
// bed the water stands as high as its crop has come towards the first pick.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { today, useFarm } from './farm';
import { cropIcon, Icon } from './icons';
import { Line, type Told } from './journal';
import { Reach } from './leat';
import { Opens } from './opens';
import { Plate, Said, Sheet, Title, Waiting } from './ui';
import { dayShort, dayYear, daysBetween, number, t, word } from './words';

interface Batch {
  batch: string; way: string; name: string; place: 'floor' | 'edge'; first_section: number | null; sections: number;
  plants: number; stage: string; sow_on: string | null; set_on: string | null; age_d: number; pick_early: string | null;
  pick_on: string | null; pick_late: string | null; last_pick_on: string | null; clear_on: string | null; trouble: string;
  age_degc_d: number | null; units_low: number | null; units: number | null; units_high: number | null;
}
interface Bed {
  id: string; plate: number; walk: number; side: string; zone: string | null; pump: string | null; sections: number; edge: string | null; edge_m: number | null;
  state: string; free_sections: number; now: Batch[]; next: Batch[]; past: Batch[];
  job: { id: string; day: string; kind: string; what: string } | null; cleaned_on: string | null; clean_due: string | null;
  hold: { why: string; until: string | null } | null; history: Told[];
}
interface BedsPage {
  day: string; title: string; notices: string[]; trays: (Batch & { for_bed: string | null })[];
  stops: { id: string; name: string; beds: Bed[] }[];
}

export function Beds({ facts }: PageProps) {
  const { farm } = useFarm();
  const got = useGet<BedsPage>(farm === null ? null : '/api/beds');
  const [open, setOpen] = useState<string | null>(facts.get('bed'));
  const page = got.data;
  const beds = page?.stops.flatMap((s) => s.beds) ?? [];
  const free = beds.filter((b) => b.state === 'free').length;
  const picking = beds.filter((b) => b.now.some((x) => x.stage === 'picking')).length;
  let turn = 0;
  return (
    <>
      <Title of="beds">{page === null ? undefined : t('beds_under', { n: beds.length, picking, free })}</Title>
      <Waiting got={got} />
      {page?.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      {page?.stops.map((stop) => (
        <section key={stop.id}>
          <div class="stop">
            <div class="course"><Reach wet turn={turn++} /></div>
            <h2 class="tunnel-name"><Plate id={stop.id} /> <bdi>{stop.name}</bdi></h2>
          </div>
          {[...new Set(stop.beds.map((b) => b.side))].map((side) => (
            <div class="stop" key={side}>
              <div class="course"><Reach wet turn={turn++} /></div>
              <div class="bank">
                <h3>{word('side', side)}</h3>
                <ul class="bed-row">
                  {stop.beds.filter((b) => b.side === side).map((b) => (
                    <li key={b.id}><Tile bed={b} day={page.day} onOpen={() => setOpen(b.id)} /></li>))}
                </ul>
              </div>
            </div>
          ))}
        </section>
      ))}
      {page !== null && <p class="quiet legend">{t('beds_legend')}</p>}
      {page !== null && page.trays.length > 0 && <Trays page={page} />}
      {open !== null && beds.some((b) => b.id === open) &&
        <BedSheet bed={beds.find((b) => b.id === open) as Bed} onClose={() => setOpen(null)} />}
    </>
  );
}

/** 0 when set, 1 at the first pick. */
function come(batch: Batch): number {
  if (batch.stage === 'picking' || batch.stage === 'over') return 1;
  if (batch.pick_on === null || batch.set_on === null) return 0;
  const all = daysBetween(batch.set_on, batch.pick_on);
  return all <= 0 ? 1 : Math.max(0, Math.min(1, batch.age_d / all));
}

function Tile({ bed, day, onOpen }: { bed: Bed; day: string; onOpen: () => void }) {
  const floor = bed.now.filter((b) => b.place === 'floor');
  const edge = bed.now.filter((b) => b.place === 'edge');
  const main = [...floor].sort((a, b) => b.plants - a.plants)[0];
  const level = main === undefined ? 0 : come(main);
  const isReady = floor.some((b) => b.stage === 'picking');
  const isDue = bed.job !== null && bed.job.day === day;
  const names = [...new Set([...floor, ...edge].map((b) => b.name))].join(', ');
  const state = bed.hold !== null ? t('held') : bed.state === 'cleaning' ? t('cleaning')
    : main === undefined ? t('free') : isReady ? t('picking') : `${number(100 * level, 0)} %`;
  const cls = `bed${isReady ? ' is-ready' : ''}${main === undefined ? ' is-free' : ''}${bed.hold !== null ? ' is-held' : ''}`;
  return (
    <button type="button" class={cls} onClick={onOpen}
      aria-label={`${bed.id}: ${names || t('free')}, ${state}${isDue ? `, ${t('job_today')}` : ''}`}>
      <svg class="bed-water" viewBox="0 0 10 100" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" width="10" y={100 - 100 * level} height={100 * level} /></svg>
      {edge.length > 0 && <span class="bed-edge" aria-hidden="true"><Icon name={cropIcon(edge[0]?.way ?? '')} size={16} /></span>}
      <span class="bed-id">{bed.id.replace(/^[^-]*-/, '')}</span>
      <span class="bed-crops">
        {bed.hold !== null ? <Icon name="hold" /> : [...new Set(floor.map((b) => cropIcon(b.way)))].slice(0, 2)
          .map((icon) => <Icon key={icon} name={icon} size={26} />)}
      </span>
      <span class="bed-state">{isDue ? <b>{t('today')}</b> : state}</span>
    </button>
  );
}

/** Seedlings that wait for their bed. */
function Trays({ page }: { page: BedsPage }) {
  return (
    <section>
      <h2 class="sub">{t('in_trays')}</h2>
      <ul class="plain">
        {page.trays.slice(0, 40).map((b) => (
          <li key={b.batch} class="tray-row">
            <Icon name={cropIcon(b.way)} size={24} />
            <span><b>{b.name}</b> {number(b.plants, 0)} {b.set_on !== null && <>· {t('to_set_on', { day: dayShort(b.set_on) })}</>}
              {b.for_bed !== null && <> → <Plate id={b.for_bed} /></>}</span>
            <a class="button" href={path('#/tell', { kind: 'emerged', batch: b.batch, count: Math.round(b.plants) })}
              aria-label={`${t('count_tray')}: ${b.name} ${b.for_bed ?? ''}`}>
              <Icon name="count" size={20} /> {t('count_tray')}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function BedSheet({ bed, onClose }: { bed: Bed; onClose: () => void }) {
  const one = useGet<BedsPage>(path('/api/bed', { id: bed.id }));
  const full = one.data?.stops[0]?.beds[0] ?? bed;
  const tell = (kind: string, more: Record<string, string> = {}) =>
    path('#/tell', { kind, place: bed.id, ...more });
  const main = full.now.find((b) => b.place === 'floor') ?? full.now[0];
  return (
    <Sheet title={<><Plate id={bed.id} /> <small class="quiet">{t('nth_bed', { n: full.plate })}</small></>} onClose={onClose}>
      {full.hold !== null && <p class="caution"><b>{t('held')}</b>{full.hold.until !== null && <> {t('until_day', { day: dayYear(full.hold.until) })}</>}:{' '}
        <Said text={full.hold.why} /></p>}
      {full.now.length === 0 && <p class="big">{t('stands_nothing')}</p>}
      {full.now.map((b) => <Standing key={b.batch + (b.first_section ?? '')} batch={b} bed={full} />)}
      {full.job !== null && <p><b>{t('next_job')}</b> <Opens of="bed" id={bed.id} figure="job_day">{dayShort(full.job.day)}</Opens>: <Said text={full.job.what} /></p>}
      <div class="tiles">
        {main !== undefined && <a class="tile" href={tell('picked', { batch: main.batch, way: main.way })}><Icon name="pick" size={30} /> {t('kind.picked')}</a>}
        {main !== undefined && <a class="tile" href={tell('cleared', { batch: main.batch })}><Icon name="beds" size={30} /> {t('kind.cleared')}</a>}
        <a class="tile" href={tell('set')}><Icon name="leaf" size={30} /> {t('kind.set')}</a>
        <a class="tile" href={tell('scouted')}><Icon name="search" size={30} /> {t('kind.scouted')}</a>
        <a class="tile" href={tell('cleaned')}><Icon name="wash" size={30} /> {t('kind.cleaned')}</a>
        <a class="tile" href={tell('seen')}><Icon name="note" size={30} /> {t('kind.seen')}</a>
      </div>
      <h3 class="wrong">{t('comes_next')}</h3>
      {full.next.length === 0 ? <p class="quiet">{t('nothing_planned')}</p> : (
        <table><tbody>{full.next.slice(0, 8).map((b) => (
          <tr key={b.batch + (b.first_section ?? '')}><th scope="row">{b.set_on !== null && <Opens of="batch" id={b.batch} figure="set_on">{dayShort(b.set_on)}</Opens>}</th>
            <td><Icon name={cropIcon(b.way)} size={20} /> {b.name}{b.place === 'edge' && <> · {t('on_edge')}</>}</td>
            <td>{b.pick_on !== null && <Opens of="batch" id={b.batch} figure="pick_on">{t('first_pick', { day: dayShort(b.pick_on) })}</Opens>}</td></tr>))}</tbody></table>
      )}
      {full.past.length > 0 && <><h3 class="wrong">{t('stood_before')}</h3><ul>{full.past.slice(0, 6).map((b) => (
        <li key={b.batch}>{b.name}{b.clear_on !== null && `, ${dayYear(b.clear_on)}`}</li>))}</ul></>}
      <h3 class="wrong">{t('happened_here')}</h3>
      {full.history.length === 0 ? <p class="quiet">{t('nothing_told')}</p> : (
        <ol class="plain entries">{full.history.map((e) => (
          <li key={e.number} class={e.struck_by ? 'is-struck' : ''}><span class="quiet">{dayShort(e.happened_on)}</span> <Line entry={e} /></li>))}</ol>
      )}
      {full.cleaned_on !== null && <p class="quiet">{t('last_cleaned', { day: dayYear(full.cleaned_on) })}{' '}
        {full.clean_due !== null && <Opens of="bed" id={bed.id} figure="clean_due">{t('clean_due', { day: dayYear(full.clean_due) })}</Opens>}</p>}
    </Sheet>
  );
}

/** A figure of a batch under its name. */
function One({ of, figure, name, children }: { of: Batch; figure: string; name: string; children: ComponentChildren }) {
  return <div><dt>{name}</dt><dd><Opens of="batch" id={of.batch} figure={figure}>{children}</Opens></dd></div>;
}

function Standing({ batch, bed }: { batch: Batch; bed: Bed }) {
  const { pick_early: low, pick_late: high } = batch;
  const spread = low !== null && high !== null && low !== high ? `${dayShort(low)} – ${dayShort(high)}` : '';
  return (
    <section class="standing">
      <h3><Icon name={cropIcon(batch.way)} size={30} /> {batch.name} <small>{word('stage', batch.stage)}
        {batch.place === 'edge' ? ` · ${t('on_edge')} ${bed.edge ? word('edge', bed.edge) : ''}`
          : batch.first_section !== null && batch.sections < bed.sections ? ` · ${t('sections', { from: batch.first_section, n: batch.sections })}` : ''}</small></h3>
      <dl class="facts">
        <One of={batch} figure="plants" name={t('plants')}>{number(batch.plants, 0)}</One>
        {batch.set_on !== null && <One of={batch} figure="set_on" name={t('set_day')}>{dayShort(batch.set_on)}</One>}
        <One of={batch} figure="age_d" name={t('age')}>{t('n_days', { n: batch.age_d })}</One>
        {batch.age_degc_d !== null && <One of={batch} figure="age_degc_d" name={t('thermal_age')}>{number(batch.age_degc_d, 0)} °C d</One>}
        {batch.pick_on !== null && (batch.stage === 'picking' || batch.pick_on >= today()) && <One of={batch} figure="pick_on" name={t('first_pick_on')}>
          {dayShort(batch.pick_on)}{spread !== '' && <small>{spread}</small>}</One>}
        {batch.units !== null && batch.units > 0 && <One of={batch} figure="units" name={t('still_units')}>
          {number(batch.units, 0)}<small>{number(batch.units_low ?? 0, 0)} – {number(batch.units_high ?? 0, 0)}</small></One>}
        {batch.last_pick_on !== null && <One of={batch} figure="last_pick_on" name={t('picked_until')}>{dayShort(batch.last_pick_on)}</One>}
        {batch.clear_on !== null && <One of={batch} figure="clear_on" name={t('cleared_on')}>{dayShort(batch.clear_on)}</One>}
      </dl>
      {batch.trouble !== '' && <p class="caution"><Said text={batch.trouble} /></p>}
    </section>
  );
}
