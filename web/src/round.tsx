// Round: today's walk. First with the eyes, then with the hands; at every stop
// what to look at, do, feed and test, yesterday beside today, and one tap for
// "as usual". The water follows the person who walks.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { useGet, printed } from './api';
import { today } from './farm';
import { cropIcon, Icon } from './icons';
import { Basin, Reach } from './leat';
import {
  type Entry, type Pending, strike, tell, type Telling, usePending,
  useStruckUids,
} from './outbox';
import { Quick } from './quick';
import { Button, Dial, Plate, Said, Sheet, Title, Waiting } from './ui';
import { amount, range } from './units';
import { addDays, clock, dayLong, dayShort, t, word } from './words';

export interface Value {
  key: string; amount: number | null; unit: string; low?: number | null;
  high?: number | null; expected?: number | null; yesterday?: number | null;
  yesterday_on?: string | null; yesterday_from?: 'told' | 'plan' | null;
  odd_below?: number | null; odd_above?: number | null;
}
export interface Item {
  id: string; kind: string; text: string; place?: string | null;
  job?: string | null; value?: Value | null; detail?: string; caution?: string;
  done?: boolean; told?: number[]; hold?: string | null; warning?: string | null;
  places?: { id: string; amount?: number | null }[]; then_amount?: number | null;
  troubles?: { cause: string; text: string }[] | null;
  entries?: Telling[]; // what "as usual" tells of this item; none where only
  // the doer knows the number
}
export interface Stop {
  id: string; name: string; hands: boolean; items: Item[];
  as_usual: boolean; as_usual_entries: Telling[];
}
export interface RoundDay {
  day: string; title: string; notices?: string[]; stops: Stop[];
  suspects?: { text: string; pump?: string }[];
}

const SETTLE_MS = 900; // between two stops told by one tap each
const WET_WORK = ['graded', 'moved', 'sampled', 'sold', 'died', 'stocked'];

export function Round() {
  // Asked at once, beside the farm: the server knows the day.
  const got = useGet<RoundDay>('/api/round');
  if (got.data === null) {
    return <><Title of="round" /><Waiting got={got} /></>;
  }
  return <Walk round={got.data} kept={<Waiting got={got} />} />;
}

/** Entries of this device that still wait, less those struck through. */
function useOwn(): Pending[] {
  const pending = usePending();
  const struck = useStruckUids();
  return pending.filter((p) => p.refused === undefined && !struck.has(p.entry.uid));
}

function Walk({ round, kept }: { round: RoundDay; kept: preact.ComponentChild }) {
  const own = useOwn().map((p) => p.entry);
  const [open, setOpen] = useState<{ stop: Stop; item: Item } | null>(null);
  const [other, setOther] = useState<Stop | null>(null);
  const last = useRef(0);
  const stops = round.stops;
  const isTold = (stop: Stop) => stop.as_usual ||
    own.some((e) => e.stop === stop.id && e.kind === 'as_usual') ||
    (stop.items.length > 0 && stop.items.every((i) => isItemTold(i, own)));
  const told = stops.filter(isTold).length;
  const now = stops.find((s) => !isTold(s))?.id;

  const asUsual = async (stop: Stop) => {
    if (Date.now() - last.current < SETTLE_MS || isTold(stop)) return;
    last.current = Date.now();
    await tell(usualOf(stop, own, round.day));
    const next = stops[stops.indexOf(stop) + 1];
    if (next !== undefined) {
      // Not at once: the second tap of a wet thumb must find the same place.
      setTimeout(() => document.getElementById(`stop-${next.id}`)
        ?.scrollIntoView({ block: 'start', behavior: motion() }), SETTLE_MS);
    }
  };

  const handsFrom = stops.findIndex((s) => s.hands);
  const needsWash = own.some((e) => WET_WORK.includes(e.kind)) &&
    !own.some((e) => e.kind === 'seen' && e.cause === 'washed');
  return (
    <>
      <Title of="round">
        {dayLong(round.day)} · {t('stops_told', { told, n: stops.length })}
      </Title>
      {kept}
      <Suspects round={round} />
      <Notices round={round} />
      <ol class="walk" aria-label={t('the_walk')}>
        {stops.map((stop, i) => (
          <li key={stop.id} id={`stop-${stop.id}`} class={stopClass(stop, isTold(stop), now)}>
            {(i === 0 || i === handsFrom) &&
              <Part hands={stop.hands} turn={i + 1}
                wet={i === 0 ? told > 0 : isTold(stops[i - 1] as Stop)} />}
            <div class="stop">
              <div class="course">
                <Reach wet={isTold(stop)} turn={i} />
                <Basin wet={isTold(stop)} hands={stop.hands} n={i + 1}
                  now={stop.id === now} />
              </div>
              <StopBody stop={stop} own={own} told={isTold(stop)}
                isNow={stop.id === now} needsWash={needsWash && stop.hands}
                onUsual={() => asUsual(stop)} onItem={(item) => setOpen({ stop, item })}
                onOther={() => setOther(stop)} />
            </div>
          </li>
        ))}
      </ol>
      <Pond told={told} all={stops.length} />
      {open !== null &&
        <ItemSheet stop={open.stop} item={open.item} own={own}
          onClose={() => setOpen(null)} />}
      {other !== null &&
        <Quick stop={other.id} name={other.name} places={placesOf(other)}
          onClose={() => setOther(null)} />}
    </>
  );
}

const motion = (): ScrollBehavior =>
  matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth';

function stopClass(stop: Stop, told: boolean, now: string | undefined): string {
  return `${told ? 'is-told' : ''} ${stop.id === now ? 'is-now' : ''}`.trim();
}
const placesOf = (stop: Stop) =>
  [...new Set(stop.items.map((i) => i.place).filter((p): p is string => !!p))];

function isItemTold(item: Item, own: Entry[]): boolean {
  return item.done === true || (item.told?.length ?? 0) > 0 ||
    own.some((e) => answers(e, item));
}
/** Does an entry answer an item: by its job, or by kind and place. */
function answers(entry: Entry, item: Item): boolean {
  if (item.job && entry.job === item.job) {
    return entry.place === undefined || !item.place ||
      entry.place === item.place ||
      (item.places ?? []).some((p) => p.id === entry.place);
  }
  const isNoneDead = isDead(item) && entry.kind === 'seen' && entry.cause === 'none_dead';
  if ((entry.kind !== entryKind(item) && !isNoneDead) ||
    entry.place !== onePlace(item)) {
    return false;
  }
  if (entry.kind === 'seen' && item.kind !== 'look' && !item.job) {
    return entry.text === item.text;
  }
  return entry.kind !== 'read' || entry.quantity_key === item.value?.key;
}
const ENTRY_OF: Record<string, string> = {
  feed: 'fed', read: 'read', pick: 'picked', vent: 'vented', dose: 'dosed',
  fast: 'fasted', look: 'seen', do: 'seen',
};
export const entryKind = (item: Item) => item.entries?.[0]?.kind ??
  (isDead(item) ? 'died' : ENTRY_OF[item.kind] ?? 'seen');
/** A count at a look is of the dead. */
const isDead = (item: Item) => item.kind === 'look' && item.value?.key === 'count';
/** The one place of an item; none where it is about several. */
const onePlace = (item: Item) =>
  (item.places ?? []).length > 1 ? undefined : item.place || undefined;

/** Tanks held by this device, and the day: also between the moment in which
 * the server has the reading and the round that knows of it. */
const heldOn = new Map<string, string>();

/** A tank that was told out of line on this device waits until it is seen:
 * the same rule that the server follows for what it has been told. */
function heldHere(item: Item, stop: Stop, own: Entry[]): boolean {
  if (item.kind !== 'feed' || !item.place) return false;
  if (item.hold) {
    heldOn.delete(item.place); // from now on the server says so
    return true;
  }
  let held = heldOn.get(item.place) === today();
  for (const entry of own) {
    if (entry.place !== item.place) continue;
    const asked = stop.items.find((i) => i.kind === 'read' &&
      i.place === entry.place && i.value?.key === entry.quantity_key);
    if (entry.kind === 'read' && isOdd(entry.value ?? null, asked?.value)) held = true;
    if (entry.kind === 'seen' && entry.cause === 'not_as_usual') held = true;
    if (entry.kind === 'seen' && entry.cause === 'looked') held = false;
  }
  if (held) heldOn.set(item.place, today());
  else heldOn.delete(item.place);
  return held;
}
export function isOdd(value: number | null, about: Value | null | undefined): boolean {
  if (value === null || !about) return false;
  return (about.odd_below != null && value < about.odd_below) ||
    (about.odd_above != null && value > about.odd_above);
}

/** What one tap tells: of each item what needs no number of the doer's own,
 * less what is told already and the feed of a tank that is held. */
function usualOf(stop: Stop, own: Entry[], day: string): Telling[] {
  const entries = stop.items
    .filter((i) => !isItemTold(i, own) && !i.hold && !heldHere(i, stop, own))
    .flatMap((i) => i.entries ?? []);
  return [...entries.filter((e) => e.kind !== 'as_usual'), { kind: 'as_usual' }]
    .map((e) => ({ ...e, stop: stop.id, happened_on: day }));
}
/** Where every item wants a number that only the doer knows, one tap for all
 * would tell nothing. */
const canBeUsual = (stop: Stop) => !stop.hands ||
  stop.items.some((i) => (i.entries ?? []).length > 0 || !i.value);

function Part({ hands, wet, turn }: { hands: boolean; wet: boolean; turn: number }) {
  return (
    <div class="stop">
      <div class="course"><Reach wet={wet} turn={turn} /></div>
      <div class="part">
        <h2>{hands ? t('with_hands') : t('with_eyes')}</h2>
        <p>{hands ? t('with_hands_more') : t('with_eyes_more')}</p>
      </div>
    </div>
  );
}

function Suspects({ round }: { round: RoundDay }) {
  return (
    <>
      {(round.suspects ?? []).map((s) => (
        <section class="suspect" key={s.text}>
          <h2><Icon name="stopped" /> {t('maybe_one_fault')}</h2>
          <p><Said text={s.text} /></p>
          {s.pump !== undefined &&
            <a class="button is-strong" href={`#/card?pump=${encodeURIComponent(s.pump)}`}>
              {t('open_card', { id: s.pump })}</a>}
        </section>
      ))}
    </>
  );
}

function Notices({ round }: { round: RoundDay }) {
  const notices = round.notices ?? [];
  if (notices.length === 0) return null;
  return (
    <details class="notices">
      <summary>{t('today_also', { n: notices.length })}</summary>
      <ul>{notices.map((n) => <li key={n}><Said text={n} /></li>)}</ul>
    </details>
  );
}

interface BodyProps {
  stop: Stop; own: Entry[]; told: boolean; isNow: boolean; needsWash: boolean;
  onUsual: () => void; onItem: (item: Item) => void; onOther: () => void;
}
function StopBody(props: BodyProps) {
  const { stop, own } = props;
  const picks = stop.items.some((i) => i.kind === 'pick');
  const blocked = props.needsWash && picks && !props.told;
  return (
    <section class="stop-body" aria-label={stop.name}>
      <h3><Said text={stop.name} /></h3>
      <ul class="items">
        {stop.items.filter((i) => !isExtra(i)).map((item) => (
          <ItemRow key={item.id} item={item} own={own} stop={stop}
            told={isItemTold(item, own)} onOpen={() => props.onItem(item)} />
        ))}
      </ul>
      <ul class="chips" aria-label={t('counts_and_tests')}>
        {stop.items.filter(isExtra).map((item) => (
          <Chip key={item.id} item={item} own={own} onOpen={() => props.onItem(item)} />
        ))}
      </ul>
      {blocked && <Wash stop={stop} />}
      <div class="stop-foot">
        {props.told ? <ToldLine stop={stop} own={own} />
          : !canBeUsual(stop) ? <p class="told-line">{t('tap_each_line')}</p> : (
            <Button class={props.isNow ? 'button is-strong usual' : 'button usual'}
              onClick={props.onUsual} disabled={blocked}
              label={`${t('as_usual')}: ${stop.name}`}>
              <Icon name="do" /> {t('as_usual')}
            </Button>
          )}
        <Button class="button other" onClick={props.onOther}
          label={`${t('something_else')}: ${stop.name}`}>
          <Icon name="note" /> <span>{t('other')}</span>
        </Button>
      </div>
    </section>
  );
}

/** A number that is told where there is one to tell: a count, a test. */
const isExtra = (item: Item) => !!item.value && item.value.amount === null &&
  (item.entries ?? []).length === 0;

function Chip({ item, own, onOpen }: { item: Item; own: Entry[]; onOpen: () => void }) {
  const mine = own.find((e) => answers(e, item));
  const value = mine?.value ?? mine?.count ?? null;
  const about = item.value;
  const before = about?.yesterday ?? about?.expected ?? null;
  const told = isItemTold(item, own);
  return (
    <li><button type="button" class={told ? 'chip is-told' : 'chip'} onClick={onOpen}>
      <span><Icon name={isDead(item) ? 'dead' : 'read'} size={20} />{' '}
        {isDead(item) ? t('kind.died') : word('quantity', about?.key ?? '')}
        {onePlace(item) !== undefined && <> <Plate id={onePlace(item) ?? ''} /></>}</span>
      <small>{told ? <><Icon name="do" size={15} /> {value === null ? t('told') : amount(value, about?.unit ?? '')}</>
        : before !== null && about ? `${about.yesterday == null ? t('expected') : pastWord(about)} ${amount(before, about.unit)}`
          : t('tell_if_any')}</small>
    </button></li>
  );
}

/** Fish were handled before this picking: hands first. */
function Wash({ stop }: { stop: Stop }) {
  return (
    <Button class="button is-wash" onClick={() => tell([{
      kind: 'seen', stop: stop.id, cause: 'washed', text: t('washed_text'),
    }])}>
      <Icon name="wash" /> {t('wash_first')}
    </Button>
  );
}

function ToldLine({ stop, own }: { stop: Stop; own: Entry[] }) {
  const entry = own.find((e) => e.stop === stop.id && e.kind === 'as_usual');
  return (
    <p class="told-line" role="status">
      <Icon name={entry === undefined ? 'do' : 'boat'} />
      <span>
        {entry?.happened_at === undefined ? t('told')
          : t('told_at', { time: clock(entry.happened_at) })}
        {entry !== undefined && <> · {t('not_yet_sent')}</>}
      </span>
      {entry !== undefined &&
        <button type="button" class="link" onClick={() => undoStop(stop, own)}>
          {t('strike')}</button>}
      {entry === undefined && stop.as_usual &&
        <a class="link" href={`#/journal?stop=${encodeURIComponent(stop.id)}`}>{t('strike')}</a>}
    </p>
  );
}
async function undoStop(stop: Stop, own: Entry[]) {
  const tap = own.find((e) => e.stop === stop.id && e.kind === 'as_usual');
  for (const e of own) {
    if (e.stop === stop.id && e.happened_at === tap?.happened_at) {
      await strike({ uid: e.uid }, t('tapped_wrong'));
    }
  }
}

const ITEM_ICON: Record<string, string> = {
  feed: 'feed', look: 'look', read: 'read', do: 'do', pick: 'pick', vent: 'vent',
  dose: 'dose', fast: 'fast',
};
const iconOf = (item: Item) => item.kind === 'pick'
  ? cropIcon(item.entries?.[0]?.way ?? item.text.toLowerCase())
  : ITEM_ICON[item.kind] ?? 'do';

function ItemRow(props: {
  item: Item; own: Entry[]; stop: Stop; told: boolean; onOpen: () => void;
}) {
  const { item } = props;
  const hold = item.hold ?? (heldHere(item, props.stop, props.own)
    ? t('held_until_seen') : null);
  const value = item.value;
  const mine = props.own.find((e) => answers(e, item));
  const shown = mine?.grams ?? mine?.quantity ?? mine?.count ?? mine?.value ?? value?.amount ?? null;
  return (
    <li>
      <button type="button" onClick={props.onOpen}
        class={`item${props.told ? ' is-told' : ''}${hold ? ' is-held' : ''}`}>
        <span class="item-icon"><Icon name={hold ? 'hold' : iconOf(item)} /></span>
        <span class="item-text">
          <span class="item-main">
            <b>{word('do', item.kind)}</b>
            {(item.places ?? []).length > 1
              ? (item.places ?? []).slice(0, 4).map((p) => <Plate key={p.id} id={p.id} />)
              : item.place && <Plate id={item.place} />}
            {props.told && <span class="tick"><Icon name="do" size={18} />{t('told')}</span>}
          </span>
          <Said class="item-said" text={item.text} />
          {hold && <span class="item-hold">{t('no_feed_until_seen')} {item.hold
            ? <Said text={hold} /> : hold}</span>}
          {value?.yesterday != null &&
            <span class="item-past">{pastWord(value)} {amount(value.yesterday, value.unit)}</span>}
        </span>
        {shown !== null && value &&
          <span class="item-value" dir="ltr">{amount(hold && mine === undefined ? 0 : shown, value.unit)}</span>}
      </button>
    </li>
  );
}

/** When the number beside was: yesterday, or the day it was last read. */
function pastWord(value: Value): string {
  const isYesterday = value.yesterday_on == null ||
    value.yesterday_on === addDays(today(), -1);
  return isYesterday ? t('yesterday') : dayShort(value.yesterday_on ?? '');
}

/** One item opened: its number by the dial, asked about once where it is odd;
 * what may be wrong, one tap each. */
function ItemSheet(props: {
  stop: Stop; item: Item; own: Entry[]; onClose: () => void;
}) {
  const { item, stop } = props;
  const about = item.value ?? null;
  const places = (item.places ?? []).length > 1 && about !== null ? item.places ?? [] : [];
  const [where, setWhere] = useState<string | undefined>(onePlace(item));
  const start = about === null ? null
    : about.amount ?? about.yesterday ?? about.expected ?? (isDead(item) ? 0 : null);
  const [value, setValue] = useState<number | null>(start);
  const [each, setEach] = useState<(number | null)[]>(places.map((p) => p.amount ?? null));
  const [asked, setAsked] = useState(false);
  const held = !!item.hold || heldHere(item, stop, props.own);
  const total = places.length > 0
    ? each.reduce<number>((sum, n) => sum + (n ?? 0), 0) : value;
  const odd = isOdd(total, about);
  const save = async () => {
    if (odd && !asked) { setAsked(true); return; }
    await tell(places.length > 0
      ? places.flatMap((p, i) => each[i] == null ? []
        : [entryFor(item, stop, each[i] ?? null, p.id)])
      : [entryFor(item, stop, value)]);
    props.onClose();
  };
  const wrong = async (cause: string, text: string) => {
    await tell([{ kind: 'seen', stop: stop.id, cause, text,
      ...(where === undefined ? {} : { place: where }) }]);
    props.onClose();
  };
  return (
    <Sheet title={<>{isDead(item) ? t('kind.died') : word('do', item.kind)}{' '}
      {onePlace(item) !== undefined && <Plate id={onePlace(item) ?? ''} />}</>}
      onClose={props.onClose}>
      <p class="big"><Said text={item.text} /></p>
      {item.caution && <p class="caution"><Said text={item.caution} /></p>}
      {item.warning && <p class="caution"><Said text={item.warning} /></p>}
      {held && <HeldBox item={item} stop={stop} onSeen={props.onClose} />}
      {about !== null && !held && places.length === 0 && (
        <Dial id="item-value" label={word('quantity', about.key)} value={value} unit={about.unit}
          onChange={(v) => { setValue(v); setAsked(false); }} least={0} />
      )}
      {about !== null && !held && places.map((p, i) => (
        <Dial key={p.id} label={p.id} value={each[i] ?? null} unit={about.unit} least={0}
          onChange={(v) => { setEach(each.map((old, j) => j === i ? v : old)); setAsked(false); }} />
      ))}
      {about !== null && <Beside about={about} />}
      {asked && odd && total !== null && about !== null && (
        <div class="ask" role="alert">
          <p>{t('really', { value: amount(total, about.unit), usual: usualSpan(about) })}</p>
        </div>
      )}
      {!held && (
        <div class="sheet-foot">
          <Button class="button is-strong" id="item-save" onClick={save}>
            <Icon name="do" /> {asked && odd ? t('yes_so') : t('done')}
          </Button>
        </div>
      )}
      <h3 class="wrong">{t('what_is_wrong')}</h3>
      {onePlace(item) === undefined && (item.places ?? []).length > 1 && (
        <div class="tiles plates" role="group" aria-label={t('where.any')}>
          {(item.places ?? []).map((p) => (
            <button type="button" key={p.id} class={p.id === where ? 'tile is-on' : 'tile'}
              aria-pressed={p.id === where} onClick={() => setWhere(p.id)}><Plate id={p.id} /></button>))}
        </div>
      )}
      <div class="tiles">
        {(item.troubles ?? []).map((trouble) => (
          <button type="button" class="tile" key={trouble.cause}
            onClick={() => wrong(trouble.cause, trouble.text)}><Said text={trouble.text} /></button>
        ))}
        <button type="button" class="tile" onClick={() => wrong('not_as_usual',
          `${t('someone_look_text')}: ${item.text}`)}>{t('someone_look')}</button>
      </div>
      {item.detail && <details><summary>{t('how_and_why')}</summary><p><Said text={item.detail} /></p></details>}
    </Sheet>
  );
}

function usualSpan(about: Value): string {
  if (about.yesterday != null) return amount(about.yesterday, about.unit);
  const low = about.odd_below ?? about.low;
  const high = about.odd_above ?? about.high;
  return low != null && high != null ? range(low, high, about.unit)
    : low != null ? `> ${amount(low, about.unit)}` : `< ${amount(high ?? 0, about.unit)}`;
}

function Beside({ about }: { about: Value }) {
  const facts: [string, string][] = [];
  if (about.yesterday != null) facts.push([pastWord(about), amount(about.yesterday, about.unit)]);
  if (about.low != null && about.high != null) {
    facts.push([t('expected'), range(about.low, about.high, about.unit)]);
  }
  return (
    <dl class="beside">
      {facts.map(([name, text]) => <div key={name}><dt>{name}</dt><dd dir="ltr">{text}</dd></div>)}
    </dl>
  );
}

function HeldBox(props: { item: Item; stop: Stop; onSeen: () => void }) {
  const { item, stop } = props;
  const looked = async () => {
    await tell([{
      kind: 'seen', stop: stop.id, cause: 'looked', text: t('looked_text'),
      ...(item.place ? { place: item.place } : {}),
    }]);
    props.onSeen();
  };
  return (
    <div class="ask">
      <p><b>{t('no_feed_until_seen')}</b></p>
      {item.hold && <p><Said text={item.hold} /></p>}
      <p>{t('look_at_fish_and_flow')} {item.then_amount != null && item.value &&
        t('then_feed', { amount: amount(item.then_amount, item.value.unit) })}</p>
      <Button class="button is-strong" onClick={looked}><Icon name="look" /> {t('i_looked')}</Button>
    </div>
  );
}

/** The entry that answers an item with a value, at one of its places. */
export function entryFor(
  item: Item, stop: Stop, value: number | null, at?: string,
): Telling {
  const place = at ?? onePlace(item);
  const usual = item.entries?.find((e) => e.place === place) ?? item.entries?.[0];
  const entry: Telling = {
    kind: entryKind(item), ...(item.job ? { job: item.job } : {}),
    ...(usual ?? {}), ...(place === undefined ? {} : { place }), stop: stop.id,
  };
  if (isDead(item) && value === 0) {
    return { ...entry, kind: 'seen', cause: 'none_dead', text: t('none_dead_text') };
  }
  if (value !== null && item.value) {
    const { key, unit } = item.value;
    if (entry.kind === 'read') return { ...entry, quantity_key: key, value };
    if (key === 'grams') return { ...entry, grams: value };
    if (key === 'count') return { ...entry, count: Math.round(value) };
    if (key === 'value') return { ...entry, value };
    return { ...entry, quantity: value, ...(unit === '' ? {} : { unit }) };
  }
  return entry.kind === 'seen' && entry.text === undefined
    ? { ...entry, text: item.text } : entry;
}

function Pond({ told, all }: { told: number; all: number }) {
  const isFull = all > 0 && told === all;
  const said = useMemo(() => isFull ? t('round_told')
    : t('blank_stays', { n: all - told }), [isFull, all, told]);
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isFull) ref.current?.scrollIntoView({ block: 'center', behavior: motion() });
  }, [isFull]);
  return (
    <div class={isFull ? 'pond is-full' : 'pond'} ref={ref}>
      <p role="status">{said}</p>
      <p class="links">
        <a class="button" href={printed('/print/round')} target="_blank" rel="noopener">
          <Icon name="print" /> {t('print_round')}</a>
        <a class="button" href="#/paper"><Icon name="paper" /> {t('key_in_paper')}</a>
      </p>
    </div>
  );
}
