// Paper: sheets out, a filled sheet back. The sheet is keyed in the order of
// the walk, one box after the other by Enter, and told in one go. A box left
// blank was not done, or not seen; it stays blank.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet } from './api';
import { today, useFarm } from './farm';
import { Icon } from './icons';
import { tell, type Telling } from './outbox';
import { entryFor, isOdd, type Item, type RoundDay, type Stop } from './round';
import { Button, Choice, Field, Plate, Said, Title, Waiting } from './ui';
import { shownUnit } from './units';
import { addDays, dayLong, number, t, word } from './words';

const SHEETS = ['round', 'sow', 'pick', 'feed', 'water'] as const;

export function Paper(_: PageProps) {
  const { farm, me } = useFarm();
  const [day, setDay] = useState<string | null>(null);
  const shownDay = day ?? (farm === null ? null : today());
  const [who, setWho] = useState('');
  const got = useGet<RoundDay>(path('/api/round', { day: shownDay }));
  const people = farm?.people ?? [];
  return (
    <>
      <Title of="paper">{t('paper_under')}</Title>
      <section class="card">
        <h2>{t('print_sheets')}</h2>
        <p>{t('print_sheets_more')}</p>
        <div class="row-buttons">
          {SHEETS.map((sheet) => (
            <a class="button" key={sheet} target="_blank" rel="noopener"
              href={path(`/print/${sheet}`, { day: addDays(today(), 1) })}>
              <Icon name="print" /> {word('sheet', sheet)}</a>
          ))}
        </div>
      </section>
      <h2 class="sub">{t('key_in_paper')}</h2>
      <div class="grid-2">
        <Field label={t('sheet_of')}>
          {(id) => <input id={id} type="date" value={shownDay ?? ''} max={today()}
            onInput={(e) => setDay(e.currentTarget.value)} />}
        </Field>
        <Choice label={t('written_by')} value={who} onChange={setWho}
          options={[{ value: '', text: me?.name || t('me') },
            ...people.map((p) => ({ value: p.id, text: p.name || p.id }))]} />
      </div>
      <Waiting got={got} />
      {got.data !== null &&
        <Sheet key={got.data.day} round={got.data} who={who} />}
    </>
  );
}

/** What stands in one box: what was typed, or a tick. */
type Boxes = Record<string, string | boolean>;
const boxOf = (stop: Stop, item: Item | null, place = '') =>
  `${stop.id}|${item?.id ?? ''}|${place}`;

function Sheet({ round, who }: { round: RoundDay; who: string }) {
  const [boxes, setBoxes] = useState<Boxes>({});
  const [saved, setSaved] = useState<number | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const entries = useMemo(() => entriesOf(round, boxes), [round, boxes]);
  const set = (key: string, value: string | boolean) => {
    setSaved(null);
    setBoxes((old) => ({ ...old, [key]: value }));
  };
  useEffect(() => {
    // Enter goes to the next box, as a tired hand expects.
    const act = (event: KeyboardEvent) => {
      const at = event.target;
      if (event.key !== 'Enter' || !(at instanceof HTMLInputElement)) return;
      event.preventDefault();
      const all = [...(form.current?.querySelectorAll<HTMLInputElement>('input') ?? [])];
      const next = all[all.indexOf(at) + 1];
      if (next !== undefined) next.focus();
      else document.getElementById('sheet-save')?.focus();
    };
    const node = form.current;
    node?.addEventListener('keydown', act);
    return () => node?.removeEventListener('keydown', act);
  }, []);
  const save = async () => {
    if (entries.length === 0) return;
    await tell(entries.map((e) => ({
      ...e, happened_on: round.day, happened_at: undefined as unknown as number,
      ...(who === '' ? {} : { who }),
    })));
    setSaved(entries.length);
    setBoxes({});
  };
  return (
    <form ref={form} class="sheet-keys" onSubmit={(e) => e.preventDefault()}>
      <p class="quiet">{dayLong(round.day)} · {t('enter_goes_on')}</p>
      {round.stops.map((stop) => (
        <StopBoxes key={stop.id} stop={stop} boxes={boxes} set={set} />
      ))}
      <div class="save-bar">
        <p role="status">{saved !== null ? t('n_told', { n: saved })
          : t('n_filled', { n: entries.length })}</p>
        <Button class="button is-strong" id="sheet-save" onClick={save}
          disabled={entries.length === 0}>{t('tell_all')}</Button>
      </div>
    </form>
  );
}

interface BoxProps { stop: Stop; boxes: Boxes; set: (key: string, v: string | boolean) => void }
function StopBoxes({ stop, boxes, set }: BoxProps) {
  const usual = boxOf(stop, null);
  const other = boxOf(stop, null, 'text');
  return (
    <fieldset class="card keys">
      <legend><Said text={stop.name} /></legend>
      <label class="key-row">
        <span>{t('as_usual')}</span>
        <input type="checkbox" checked={boxes[usual] === true || stop.as_usual}
          disabled={stop.as_usual} onChange={(e) => set(usual, e.currentTarget.checked)} />
      </label>
      {stop.items.map((item) => (
        (item.places ?? []).length > 1 && item.value
          ? (item.places ?? []).map((p) => <OneBox key={item.id + p.id} stop={stop}
            item={{ ...item, place: p.id }} planned={p.amount ?? null} box={boxOf(stop, item, p.id)}
            boxes={boxes} set={set} />)
          : <OneBox key={item.id} stop={stop} item={item} planned={item.value?.amount ?? null}
            box={boxOf(stop, item)} boxes={boxes} set={set} />
      ))}
      <label class="key-row">
        <span>{t('other_words')}</span>
        <input type="text" class="wide" autocomplete="off" value={String(boxes[other] ?? '')}
          onInput={(e) => set(other, e.currentTarget.value)} />
      </label>
    </fieldset>
  );
}

function OneBox(props: BoxProps & { item: Item; planned: number | null; box: string }) {
  const { item, box, boxes, set } = props;
  const how = shownUnit(item.value?.unit ?? '');
  const typed = boxes[box];
  const si = typeof typed === 'string' && typed !== '' ? how.to(read(typed)) : null;
  const odd = isOdd(si, item.value) || Number.isNaN(si);
  const told = item.done === true;
  return (
    <label class={told ? 'key-row is-told' : 'key-row'}>
      <span><b>{word('do', item.kind)}</b> {item.place && <Plate id={item.place} />}{' '}
        <Said class="quiet" text={item.text} />{told && <> · {t('told')}</>}
        {odd && <strong class="bad">{t('looks_odd')}</strong>}</span>
      {item.value ? (
        <span class="key-box">
          <input type="text" inputMode="decimal" autocomplete="off" value={String(typed ?? '')}
            placeholder={props.planned === null ? '' : number(how.from(props.planned))}
            onInput={(e) => set(box, e.currentTarget.value)} />
          <span class="key-unit">{how.unit}</span>
        </span>
      ) : <input type="checkbox" checked={typed === true}
        onChange={(e) => set(box, e.currentTarget.checked)} />}
    </label>
  );
}
const read = (typed: string) => Number(typed.trim().replace(',', '.'));

/** The entries of the filled boxes, in the order of the sheet. "As usual"
 * tells of its stop what has no box of its own filled. */
function entriesOf(round: RoundDay, boxes: Boxes): Telling[] {
  const entries: Telling[] = [];
  for (const stop of round.stops) {
    const isUsual = boxes[boxOf(stop, null)] === true;
    for (const item of stop.items) {
      const own = itemEntries(stop, item, boxes);
      if (own.length > 0) entries.push(...own);
      else if (isUsual && item.done !== true && !item.hold) entries.push(...(item.entries ?? []));
    }
    if (isUsual) entries.push({ kind: 'as_usual', stop: stop.id });
    const text = boxes[boxOf(stop, null, 'text')];
    if (typeof text === 'string' && text.trim() !== '') {
      entries.push({ kind: 'seen', stop: stop.id, text: text.trim() });
    }
  }
  return entries.map((e) => ({ ...e, stop: e.stop ?? '' }));
}

function itemEntries(stop: Stop, item: Item, boxes: Boxes): Telling[] {
  const places = (item.places ?? []).length > 1 && item.value ? item.places ?? [] : [null];
  return places.flatMap((p) => {
    const typed = boxes[boxOf(stop, item, p?.id ?? '')];
    if (typed === true) return [entryFor(item, stop, item.value?.amount ?? null)];
    if (typeof typed !== 'string' || typed.trim() === '') return [];
    const value = shownUnit(item.value?.unit ?? '').to(read(typed));
    if (Number.isNaN(value)) return [];
    return [entryFor(item, stop, value, p?.id)];
  });
}
