// Orders: the next ten weeks, what is short and who gets what, what can be
// offered, and who is closed.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { Mark } from './chart';
import { useFarm } from './farm';
import { cropIcon, Icon } from './icons';
import { Store } from './lots';
import { Opens } from './opens';
import { Plate, Said, Sheet, Title, Waiting } from './ui';
import { shownUnit } from './units';
import { dayShort, number, t, word } from './words';

interface OrderWeek { ordered: number; planned: number | null; low: number | null; expected: number | null; high: number | null; short: number; closed: boolean }
interface Order {
  id: string; buyer: string; product: string; unit: string; firmness: string; quantity: number; least: number | null;
  dated: boolean; from: string | null; until: string | null; weeks: OrderWeek[];
}
interface Share { order: string; buyer: string; ordered: number; usual: number | null; least: number | null; firm: boolean; cut_before: number | null; in_proportion: number; by_rule: number; message: string }
interface Shortage { week: string; product: string; name: string; unit: string; ordered: number; have: number; lost: number; shares: Share[]; instead: { product: string; units: number }[] }
interface OrdersPage {
  day: string; title: string; notices: string[]; weeks: { name: string; from: string }[];
  closures: { buyer: string | null; from: string; until: string }[]; orders: Order[];
  offers: { week: string; products: { product: string; name: string; unit: string; ordered: number; low: number; expected: number; high: number; over: number; to: { buyer: string; units: number; why: string }[] }[] };
  shortages: Shortage[];
}

export function Orders(_: PageProps) {
  const { farm } = useFarm();
  const got = useGet<OrdersPage>(farm === null ? null : path('/api/orders', { weeks: 10 }));
  const [open, setOpen] = useState<Shortage | null>(null);
  const page = got.data;
  const lost = page?.shortages.length ?? 0;
  return (
    <>
      <Title of="orders">{page === null ? undefined : t('orders_under', { n: page.weeks.length, short: lost })}</Title>
      <Waiting got={got} />
      {page !== null && page.shortages.length > 0 && (
        <section>
          <h2 class="sub">{t('short_soon')}</h2>
          <ul class="doors">
            {page.shortages.slice(0, 12).map((s) => (
              <li key={s.week + s.product}><button type="button" onClick={() => setOpen(s)}>
                <Icon name={cropIcon(s.product)} size={32} />
                <span><b>{s.name}</b><small>{weekFrom(page, s.week)}: {t('have_of', { have: number(s.have), ordered: number(s.ordered), unit: shownUnit(s.unit, s.ordered).unit })}</small></span>
                <span class="table-state"><Mark kind="short">{number(s.lost)}</Mark></span></button></li>))}
          </ul>
        </section>
      )}
      <Store />
      {page !== null && <Offers page={page} />}
      {page !== null && <Grid page={page} />}
      {page !== null && page.closures.length > 0 && (
        <section><h2 class="sub">{t('closed_times')}</h2><ul class="plain">
          {page.closures.map((c, i) => <li key={i}><b>{c.buyer ?? t('farm')}</b>: {dayShort(c.from)} – {dayShort(c.until)}</li>)}</ul></section>)}
      {page !== null && (
        <div class="row-buttons">
          <a class="button is-strong" href="#/year">{t('can_i_take')}</a>
          <a class="button" href={path('#/tell', { kind: 'delivered' })}><Icon name="orders" /> {t('kind.delivered')}</a>
          <a class="button" href={path('#/setup', { table: 'orders' })}>{t('change_orders')}</a>
        </div>
      )}
      {page?.notices.map((n) => <p class="quiet" key={n}><Said text={n} /></p>)}
      {open !== null && <ShareSheet shortage={open} when={page === null ? '' : weekFrom(page, open.week)} onClose={() => setOpen(null)} />}
    </>
  );
}

const weekFrom = (page: OrdersPage, week: string) =>
  dayShort(page.weeks.find((w) => w.name === week)?.from ?? week);

/** Who gets what of too little, and what to tell them before they cook. */
function ShareSheet({ shortage, when, onClose }: { shortage: Shortage; when: string; onClose: () => void }) {
  return (
    <Sheet title={<><Icon name={cropIcon(shortage.product)} /> {shortage.name}</>} onClose={onClose}>
      <p class="big">{when}: <Opens of="shortage" id={`${shortage.product}/${shortage.week}`} figure="have">
        {t('have_of', { have: number(shortage.have), ordered: number(shortage.ordered), unit: shownUnit(shortage.unit, shortage.ordered).unit })}</Opens>{' '}
        <Opens of="shortage" id={`${shortage.product}/${shortage.week}`} figure="lost"><Mark kind="short">{number(shortage.lost)}</Mark></Opens></p>
      {shortage.shares.length > 0 && (
        <div class="scroll" tabIndex={0} role="region" aria-label={t('who_gets')}><table>
          <thead><tr><th scope="col">{t('field.buyer')}</th><th scope="col" class="n">{t('wanted')}</th><th scope="col" class="n">{t('by_rule')}</th>
            <th scope="col" class="n">{t('in_proportion')}</th></tr></thead>
          <tbody>{shortage.shares.map((s) => (
            <tr key={s.order}><th scope="row">{s.buyer}{s.firm && <> · {t('firm')}</>}</th><td class="n">{number(s.ordered)}</td>
              <td class="n"><b>{number(s.by_rule)}</b></td><td class="n">{number(s.in_proportion)}</td></tr>))}</tbody></table></div>
      )}
      {shortage.instead.length > 0 && <p>{t('instead')}: {shortage.instead.map((i) => `${i.product.replace(/-/g, ' ')} ${number(i.units)}`).join(', ')}</p>}
      {shortage.shares.filter((s) => s.message).map((s) => <Message key={s.order} share={s} />)}
      {shortage.shares.length === 0 && <p class="quiet">{t('too_far_to_share')}</p>}
    </Sheet>
  );
}
function Message({ share }: { share: Share }) {
  const [copied, setCopied] = useState(false);
  return (
    <div class="message"><p><b>{share.buyer}</b>: <Said text={share.message} /></p>
      {navigator.clipboard !== undefined && <button type="button" class="button" onClick={() => {
        navigator.clipboard.writeText(share.message).then(() => setCopied(true), () => {});
      }}>{copied ? t('copied') : t('copy')}</button>}</div>
  );
}

function Offers({ page }: { page: OrdersPage }) {
  const offers = page.offers?.products ?? [];
  return (
    <section>
      <h2 class="sub">{t('to_offer')}</h2>
      <p class="quiet">{t('to_offer_more', { day: page.offers === undefined ? '' : weekFrom(page, page.offers.week) })}</p>
      <div class="scroll" tabIndex={0} role="region" aria-label={t('to_offer')}><table>
        <thead><tr><th scope="col">{t('field.product')}</th><th scope="col" class="n">{t('low_high')}</th><th scope="col" class="n">{t('wanted')}</th><th scope="col" class="n">{t('over')}</th><th scope="col">{t('offer_to')}</th></tr></thead>
        <tbody>{offers.map((o) => (
          <tr key={o.product}><th scope="row"><Icon name={cropIcon(o.product)} size={20} /> {o.name}</th><td class="n"><Opens of="offer" id={o.product} figure="low">{number(o.low)}</Opens> – <Opens of="offer" id={o.product} figure="high">{number(o.high)}</Opens> {o.unit}</td>
            <td class="n"><Opens of="offer" id={o.product} figure="ordered">{number(o.ordered)}</Opens></td>
            <td class="n">{o.over > 0 ? <Opens of="offer" id={o.product} figure="over"><Mark kind="over">{number(o.over)}</Mark></Opens> : '–'}</td>
            <td>{o.to.filter((x) => x.units > 0).map((x) => <span key={x.buyer}>{x.buyer} {number(x.units)}<br /></span>)}</td></tr>))}</tbody></table></div>
    </section>
  );
}

/** Ten weeks: a cell says in a figure and in its pattern what will be missing. */
function Grid({ page }: { page: OrdersPage }) {
  const [all, setAll] = useState(false);
  const ours = page.orders.filter((o) => o.firmness !== 'outlet' && o.weeks.some((w) => w.ordered > 0));
  const shown = all ? ours : ours.filter((o) => o.weeks.some((w) => w.short > 0));
  return (
    <section>
      <h2 class="sub">{t('ten_weeks')}</h2>
      <div class="tabs" role="group" aria-label={t('ten_weeks')}>
        <button type="button" aria-pressed={!all} onClick={() => setAll(false)}>{t('only_short')}</button>
        <button type="button" aria-pressed={all} onClick={() => setAll(true)}>{t('all_orders')}</button>
      </div>
      <div class="scroll weeks" tabIndex={0} role="region" aria-label={t('ten_weeks')}><table>
        <thead><tr><th scope="col">{t('order')}</th>{page.weeks.map((w) => <th key={w.name} scope="col" class="n">{dayShort(w.from).replace(/^\S+ /, '')}</th>)}</tr></thead>
        <tbody>{shown.map((o) => (
          <tr key={o.id}><th scope="row">{o.product.replace(/-/g, ' ')}<br /><small class="quiet">{o.buyer}, {word('firmness', o.firmness)}</small></th>
            {o.weeks.map((w, i) => (
              <td key={i} class={`n ${w.closed ? 'is-closed' : w.ordered === 0 ? '' : w.short > 0 ? 'is-short' : 'is-kept'}`}>
                {w.closed ? t('closed') : w.ordered === 0 ? '' : w.short > 0
                  ? <Opens of="order" id={`${o.id}/${page.weeks[i]?.name ?? ''}`} figure="short"><b>−{number(w.short)}</b><small>{t('of_n', { n: number(w.ordered) })}</small></Opens>
                  : <Opens of="order" id={`${o.id}/${page.weeks[i]?.name ?? ''}`} figure="ordered">{number(w.ordered)}</Opens>}</td>))}
          </tr>))}</tbody></table></div>
      <p class="legend"><Mark kind="kept">{t('kept')}</Mark> <Mark kind="short">{t('short')}</Mark></p>
      {page.orders.filter((o) => o.dated).map((o) => <p key={o.id}><Plate id={dayShort(o.from ?? '')} /> {o.buyer}: {number(o.quantity)} {o.product.replace(/-/g, ' ')}</p>)}
    </section>
  );
}
