// What is left in the cold store, and each lot's way: bed and seed behind it,
// buyers before it.
import { useState } from 'preact/hooks';
import { path, useGet } from './api';
import { Mark } from './chart';
import { today } from './farm';
import { cropIcon, Icon } from './icons';
import { Plate, Said, Sheet, Waiting } from './ui';
import { amount, shownUnit } from './units';
import { dayShort, number, t } from './words';

interface Lot {
  lot: string; way: string; name: string; unit: string; place: string; who: string; picked_on: string; keeps_until: string;
  picked: number; left: number; is_past: boolean; sown_on: string | null; seed_lot: string; seed_from: string; hold: string | null;
  to: { buyer: string; product: string; on: string; units: number; is_assumed: boolean }[];
}
interface Left { way: string; name: string; unit: string; units: number; past: number }
interface LotsPage {
  day: string; left: Left[]; lots: Lot[];
  lacks: { name: string; unit: string; buyer: string; on: string; units: number }[];
}

export function Store() {
  const got = useGet<LotsPage>(path('/api/lots', { today: today() }));
  const [open, setOpen] = useState<Left | null>(null);
  const page = got.data;
  if (page === null) return <Waiting got={got} />;
  return (
    <section>
      <h2 class="sub">{t('in_store')}</h2>
      {page.left.length === 0 && <p class="quiet">{t('store_empty')}</p>}
      <ul class="doors">
        {page.left.map((left) => (
          <li key={left.way}><button type="button" onClick={() => setOpen(left)}>
            <Icon name={cropIcon(left.way)} size={32} />
            <span><b>{left.name}</b><small>{t('units_left', { n: number(left.units), unit: shownUnit(left.unit, left.units).unit })}</small></span>
            {left.past > 0 && <span class="table-state"><Mark kind="short">{t('kept_too_long', { n: number(left.past) })}</Mark></span>}
          </button></li>))}
      </ul>
      {open !== null && <Traces left={open} onClose={() => setOpen(null)} />}
    </section>
  );
}

/** All lots of a crop that are told of, the newest first. */
function Traces({ left, onClose }: { left: Left; onClose: () => void }) {
  const got = useGet<LotsPage>(path('/api/lots', { way: left.way, today: today() }));
  const lots = [...(got.data?.lots ?? [])].reverse();
  return (
    <Sheet title={left.name} onClose={onClose}>
      <Waiting got={got} />
      {lots.slice(0, 40).map((lot) => <Trace lot={lot} key={lot.lot} />)}
    </Sheet>
  );
}

function Trace({ lot }: { lot: Lot }) {
  return (
    <section class="card">
      <h3><bdi dir="ltr">{lot.lot}</bdi></h3>
      <p>{lot.place !== '' && <Plate id={lot.place} />} {t('lot_picked', { n: number(lot.picked), unit: shownUnit(lot.unit, lot.picked).unit, day: dayShort(lot.picked_on), until: dayShort(lot.keeps_until) })}
        {' '}{lot.is_past ? <Mark kind="short">{t('kept_too_long', { n: number(lot.left) })}</Mark> : t('units_left', { n: number(lot.left), unit: shownUnit(lot.unit, lot.left).unit })}</p>
      {lot.sown_on !== null && <p class="quiet">{t('lot_sown', { day: dayShort(lot.sown_on) })}{lot.seed_lot !== '' && <> · {t('lot_seed', { lot: lot.seed_lot, from: lot.seed_from === '' ? '–' : lot.seed_from })}</>}</p>}
      {lot.hold !== null && <p class="caution"><Said text={lot.hold} /></p>}
      {lot.to.length > 0 && <ul class="plain">
        {lot.to.map((to, i) => <li key={i}>{dayShort(to.on)}: <b>{to.buyer}</b>, {amount(to.units, lot.unit)}{to.is_assumed && <small class="quiet"> {t('oldest_first')}</small>}</li>)}
      </ul>}
    </section>
  );
}
