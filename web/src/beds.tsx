// Beds: the walk as the leat through its tunnels, the beds on its banks. In each
// bed the water stands as high as its crop has come towards the first pick.
import { useMemo, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { today, useFarm, type Place } from './farm';
import { type Foreseen, type Plant, wayName } from './foresee';
import { cropIcon, Icon } from './icons';
import { Line, type Told } from './journal';
import { Reach } from './leat';
import { Plate, Said, Sheet, Title, Waiting } from './ui';
import { addDays, dayShort, dayYear, daysBetween, number, t, word } from './words';

interface Bed extends Place {
  side?: string; sections?: number; edge?: string | null; edge_m?: number;
  cleaned_on?: string | null; zone?: string | null;
}
interface Job { id: string; kind: string; what: string; day: string; places: { id: string; amount: number | null }[] }

export function Beds({ facts }: PageProps) {
  const { farm } = useFarm();
  const got = useGet<Foreseen>(farm === null ? null : '/api/foresee');
  const jobs = useGet<{ jobs: Job[] }>(farm === null ? null : '/api/jobs');
  const [open, setOpen] = useState<string | null>(facts.get('bed'));
  const beds = (farm?.beds ?? []) as Bed[];
  const now = today();
  const byBed = useMemo(() => {
    const map = new Map<string, Plant[]>();
    for (const p of got.data?.plants ?? []) map.set(p.bed, [...(map.get(p.bed) ?? []), p]);
    return map;
  }, [got.data]);
  const due = (id: string) => (jobs.data?.jobs ?? []).filter((j) =>
    j.day === now && j.places.some((p) => p.id === id));
  const free = beds.filter((b) => !(byBed.get(b.id) ?? []).some((p) => stands(p, now))).length;
  const picking = beds.filter((b) => (byBed.get(b.id) ?? []).some((p) => stands(p, now) && isPicking(p, now))).length;
  const tunnels = [...new Set(beds.map((b) => b.tunnel ?? ''))];
  let turn = 0;
  return (
    <>
      <Title of="beds">{got.data === null ? undefined
        : t('beds_under', { n: beds.length, picking, free })}</Title>
      <Waiting got={got} />
      {got.data !== null && tunnels.map((tunnel) => (
        <section key={tunnel}>
          <div class="stop">
            <div class="course"><Reach wet turn={turn++} /></div>
            <h2 class="tunnel-name"><Plate id={tunnel} /> {tunnelName(farm, tunnel)}</h2>
          </div>
          {[...new Set(beds.filter((b) => (b.tunnel ?? '') === tunnel).map((b) => b.side ?? ''))].map((side) => (
            <div class="stop" key={side}>
              <div class="course"><Reach wet turn={turn++} /></div>
              <div class="bank">
                <h3>{word('side', side)}</h3>
                <ul class="bed-row">
                  {beds.filter((b) => (b.tunnel ?? '') === tunnel && (b.side ?? '') === side).map((b) => (
                    <li key={b.id}><Tile bed={b} plants={byBed.get(b.id) ?? []} now={now}
                      isDue={due(b.id).length > 0} onOpen={() => setOpen(b.id)} /></li>
                  ))}
                </ul>
              </div>
            </div>
          ))}
        </section>
      ))}
      {got.data !== null && <p class="quiet legend">{t('beds_legend')}</p>}
      {open !== null && beds.some((b) => b.id === open) && (
        <BedSheet bed={beds.find((b) => b.id === open) as Bed} plants={byBed.get(open) ?? []}
          jobs={(jobs.data?.jobs ?? []).filter((j) => j.places.some((p) => p.id === open))}
          onClose={() => setOpen(null)} />
      )}
    </>
  );
}

const tunnelName = (farm: ReturnType<typeof useFarm>['farm'], id: string) =>
  ((farm?.['tunnels'] as { id: string; name: string }[] | undefined) ?? [])
    .find((x) => x.id === id)?.name ?? '';
const stands = (p: Plant, day: string) => p.set_on <= day && day < p.clear_on;
const isPicking = (p: Plant, day: string) => p.pick_on !== null && p.pick_on <= day;
/** 0 when set, 1 at the first pick. */
function come(p: Plant, day: string): number {
  if (p.pick_on === null) return 0;
  const all = daysBetween(p.set_on, p.pick_on);
  return all <= 0 ? 1 : Math.max(0, Math.min(1, daysBetween(p.set_on, day) / all));
}

interface TileProps { bed: Bed; plants: Plant[]; now: string; isDue: boolean; onOpen: () => void }
function Tile({ bed, plants, now, isDue, onOpen }: TileProps) {
  const floor = plants.filter((p) => stands(p, now) && p.place === 'floor');
  const edge = plants.filter((p) => stands(p, now) && p.place === 'edge');
  const main = [...floor].sort((a, b) => b.plants - a.plants)[0];
  const level = main === undefined ? 0 : come(main, now);
  const isReady = floor.some((p) => isPicking(p, now));
  const names = [...new Set([...floor, ...edge].map((p) => wayName(p.way)))].join(', ');
  const state = main === undefined ? t('free') : isReady ? t('picking') : `${number(100 * level, 0)} %`;
  return (
    <button type="button" class={`bed${isReady ? ' is-ready' : ''}${main === undefined ? ' is-free' : ''}`}
      onClick={onOpen} aria-label={`${bed.id}: ${names || t('free')}, ${state}${isDue ? `, ${t('job_today')}` : ''}`}>
      <svg class="bed-water" viewBox="0 0 10 100" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" width="10" y={100 - 100 * level} height={100 * level} /></svg>
      {edge.length > 0 && <span class="bed-edge" aria-hidden="true"><Icon name={cropIcon(edge[0]?.way ?? '')} size={16} /></span>}
      <span class="bed-id">{bed.id.replace(/^[^-]*-/, '')}</span>
      <span class="bed-crops">
        {[...new Set(floor.map((p) => cropIcon(p.way)))].slice(0, 2).map((icon) => <Icon key={icon} name={icon} size={26} />)}
      </span>
      <span class="bed-state">{isDue ? <b>{t('today')}</b> : state}</span>
    </button>
  );
}

function BedSheet(props: { bed: Bed; plants: Plant[]; jobs: Job[]; onClose: () => void }) {
  const { bed, plants } = props;
  const now = today();
  const standing = plants.filter((p) => stands(p, now));
  const next = plants.filter((p) => p.set_on > now).sort((a, b) => a.set_on < b.set_on ? -1 : 1).slice(0, 6);
  const history = useGet<{ entries: Told[] }>(path('/api/journal', { place: bed.id, limit: 30 }));
  const tell = (kind: string, more: Record<string, string> = {}) =>
    path('#/tell', { kind, place: bed.id, ...more });
  const main = standing[0];
  return (
    <Sheet title={<Plate id={bed.id} />} onClose={props.onClose}>
      {standing.length === 0 && <p class="big">{t('stands_nothing')}</p>}
      {standing.map((p) => <Standing key={p.id} plant={p} now={now} bed={bed} />)}
      {props.jobs.length > 0 && <><h3 class="wrong">{t('jobs_here')}</h3><ul>
        {props.jobs.map((j) => <li key={j.id}>{dayShort(j.day)}: <Said text={j.what} /></li>)}</ul></>}
      <div class="tiles">
        {main !== undefined && <a class="tile" href={tell('picked', { batch: main.id, way: main.way })}><Icon name="pick" size={30} /> {t('kind.picked')}</a>}
        {main !== undefined && <a class="tile" href={tell('cleared', { batch: main.id })}><Icon name="beds" size={30} /> {t('kind.cleared')}</a>}
        <a class="tile" href={tell('set')}><Icon name="leaf" size={30} /> {t('kind.set')}</a>
        <a class="tile" href={tell('scouted')}><Icon name="search" size={30} /> {t('kind.scouted')}</a>
        <a class="tile" href={tell('cleaned')}><Icon name="wash" size={30} /> {t('kind.cleaned')}</a>
        <a class="tile" href={tell('seen')}><Icon name="note" size={30} /> {t('kind.seen')}</a>
      </div>
      <h3 class="wrong">{t('comes_next')}</h3>
      {next.length === 0 ? <p class="quiet">{t('nothing_planned')}</p> : (
        <table><tbody>{next.map((p) => (
          <tr key={p.id}><th scope="row">{dayShort(p.set_on)}</th><td><Icon name={cropIcon(p.way)} size={20} /> {wayName(p.way)}
            {p.place === 'edge' && <> · {t('on_edge')}</>}</td><td>{p.pick_on !== null && t('first_pick', { day: dayShort(p.pick_on) })}</td></tr>))}</tbody></table>
      )}
      <h3 class="wrong">{t('happened_here')}</h3>
      {(history.data?.entries ?? []).length === 0 ? <p class="quiet">{t('nothing_told')}</p> : (
        <ol class="plain entries">{history.data?.entries.map((e) => (
          <li key={e.number} class={e.struck_by ? 'is-struck' : ''}><span class="quiet">{dayShort(e.happened_on)}</span> <Line entry={e} /></li>))}</ol>
      )}
      {bed.cleaned_on && <p class="quiet">{t('last_cleaned', { day: dayYear(bed.cleaned_on) })}</p>}
    </Sheet>
  );
}

function Standing({ plant, now, bed }: { plant: Plant; now: string; bed: Bed }) {
  const spread = plant.pick_early !== null && plant.pick_late !== null && plant.pick_early !== plant.pick_late
    ? ` (${dayShort(plant.pick_early)} – ${dayShort(plant.pick_late)})` : '';
  return (
    <section class="standing">
      <h3><Icon name={cropIcon(plant.way)} size={30} /> {wayName(plant.way)}
        {plant.place === 'edge' && <small> · {t('on_edge')} {bed.edge ? word('edge', bed.edge) : ''}</small>}</h3>
      <p>{t('standing_words', { n: number(plant.plants, 0), days: daysBetween(plant.set_on, now), day: dayShort(plant.set_on) })}{' '}
        {isPicking(plant, now) ? t('picking_until', { day: dayShort(plant.last_pick_on ?? addDays(plant.clear_on, -1)) })
          : plant.pick_on !== null ? `${t('first_pick', { day: dayShort(plant.pick_on) })}${spread}.` : ''}{' '}
        {t('clears_on', { day: dayShort(plant.clear_on) })}</p>
      {plant.trouble !== '' && <p class="caution"><Said text={plant.trouble} /></p>}
    </section>
  );
}
