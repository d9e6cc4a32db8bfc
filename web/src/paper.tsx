// Paper: sheets out, a filled sheet back. The sheet is keyed row by row as it
// stands on paper, one box after the other by Enter, and told in one go. A box
// left blank was not done, or not seen; it stays blank.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { path, useGet, printed } from './api';
import { today, useFarm } from './farm';
import { Icon } from './icons';
import { tell, type Telling } from './outbox';
import { Button, Choice, Field, Plate, Said, Title, Waiting } from './ui';
import { addDays, dayLong, t, word } from './words';

const SHEETS = ['round', 'sow', 'pick', 'feed', 'water'] as const;
/** Sheets that the round's own does not hold already. */
const KEYED = ['round', 'pick', 'sow', 'feed', 'water'] as const;

interface Box { label: string; fill: string | null; usual: string; entry: Telling | null }
interface Row { number: number; stop: string; plate: string; text: string; note: string; fields: Box[] }
interface SheetData { kind: string; title: string; rows: Row[] }

export function Paper(_: PageProps) {
  const { farm, me } = useFarm();
  const [day, setDay] = useState<string | null>(null);
  const [kind, setKind] = useState<string>('round');
  const [who, setWho] = useState('');
  const shownDay = day ?? (farm === null ? null : today());
  const got = useGet<{ day: string; sheets: SheetData[] }>(shownDay === null ? null
    : path('/api/sheets', { kinds: kind, day: shownDay }));
  const sheet = got.data?.sheets.find((s) => s.kind === kind);
  return (
    <>
      <Title of="paper">{t('paper_under')}</Title>
      <section class="card">
        <h2>{t('print_sheets')}</h2>
        <p>{t('print_sheets_more')}</p>
        <div class="row-buttons">
          {SHEETS.map((name) => (
            <a class="button" key={name} target="_blank" rel="noopener"
              href={printed(`/print/${name}`, { day: addDays(today(), 1) })}>
              <Icon name="print" /> {word('sheet', name)}</a>
          ))}
        </div>
      </section>
      <h2 class="sub">{t('key_in_paper')}</h2>
      <div class="tabs" role="group" aria-label={t('key_in_paper')}>
        {KEYED.map((name) => (
          <button type="button" key={name} aria-pressed={name === kind} onClick={() => setKind(name)}>{word('sheet', name)}</button>))}
      </div>
      <div class="grid-2">
        <Field label={t('sheet_of')}>
          {(id) => <input id={id} type="date" value={shownDay ?? ''} max={today()}
            onInput={(e) => setDay(e.currentTarget.value)} />}
        </Field>
        <Choice label={t('written_by')} value={who} onChange={setWho}
          options={[{ value: '', text: me?.name || t('me') },
            ...(farm?.people ?? []).map((p) => ({ value: p.id, text: p.name || p.id }))]} />
      </div>
      <Waiting got={got} />
      {sheet !== undefined && got.data !== null && (sheet.rows.length === 0
        ? <p class="quiet">{t('sheet_empty')}</p>
        : <Keys key={`${got.data.day} ${kind}`} sheet={sheet} day={got.data.day} who={who} />)}
    </>
  );
}

/** What stands in one box: what was typed, or a tick. */
type Boxes = Record<string, string | boolean>;
const boxOf = (row: Row, i: number) => `${row.number}.${i}`;
/** A tick that stands for the number after it as it was planned. */
const isDone = (box: Box, next: Box | undefined) =>
  box.entry === null && box.label === 'done' && next?.entry != null && next.usual !== '';
const read = (typed: string) => Number(typed.trim().replace(',', '.'));
const isWords = (box: Box) => box.fill === 'text' || box.fill === 'lot';

function Keys({ sheet, day, who }: { sheet: SheetData; day: string; who: string }) {
  const [boxes, setBoxes] = useState<Boxes>({});
  const [saved, setSaved] = useState<number | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const entries = useMemo(() => sheet.rows.flatMap((row) => entriesOf(row, boxes)), [sheet, boxes]);
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
      // The hour of a line on paper is not known.
      ...e, happened_on: day, happened_at: undefined as unknown as number,
      ...(who === '' ? {} : { who }),
    })));
    setSaved(entries.length);
    setBoxes({});
  };
  return (
    <form ref={form} class="sheet-keys" onSubmit={(e) => e.preventDefault()}>
      <p class="quiet">{dayLong(day)} · {t('enter_goes_on')}</p>
      {sheet.rows.map((row, i) => row.number === 0
        ? <h3 class="key-head" key={`h${i}`}><Said text={row.text} /></h3>
        : <OneRow key={row.number} row={row} boxes={boxes} set={set} />)}
      <div class="save-bar">
        <p role="status">{saved !== null ? t('n_told', { n: saved })
          : t('n_filled', { n: entries.length })}</p>
        <Button class="button is-strong" id="sheet-save" onClick={save}
          disabled={entries.length === 0}>{t('tell_all')}</Button>
      </div>
    </form>
  );
}

interface RowProps { row: Row; boxes: Boxes; set: (key: string, v: string | boolean) => void }
function OneRow({ row, boxes, set }: RowProps) {
  const shown = row.fields.map((box, i) => ({ box, i }))
    .filter(({ box, i }) => box.entry !== null || isDone(box, row.fields[i + 1]));
  return (
    <fieldset class="key-line">
      <legend><span class="key-n">{row.number}</span> {row.plate !== '' && <Plate id={row.plate} />} <Said text={row.text} /></legend>
      <div class="key-boxes">
        {shown.map(({ box, i }) => (
          <OneBox key={i} box={box} value={boxes[boxOf(row, i)]}
            label={`${row.number} ${row.plate} ${box.label}`} set={(v) => set(boxOf(row, i), v)} />))}
      </div>
    </fieldset>
  );
}

function OneBox(props: { box: Box; value: string | boolean | undefined; label: string; set: (v: string | boolean) => void }) {
  const { box, value } = props;
  const usual = read(/[\d.]+/.exec(box.usual)?.[0] ?? '');
  const typed = typeof value === 'string' && value.trim() !== '' && !isWords(box) ? read(value) : null;
  const odd = typed !== null && (Number.isNaN(typed) ||
    (usual > 0 && Math.abs(typed - usual) > ODD_SHARE * usual));
  if (box.fill === null) {
    return (
      <label class="key-tick"><Said text={box.label} />
        <input type="checkbox" aria-label={props.label} checked={value === true} onChange={(e) => props.set(e.currentTarget.checked)} /></label>
    );
  }
  return (
    <label class={isWords(box) ? 'key-text' : 'key-num'}><Said text={box.label} />
      <input type="text" aria-label={props.label} autocomplete="off" inputMode={isWords(box) ? 'text' : 'decimal'} value={String(value ?? '')}
        placeholder={box.usual} onInput={(e) => props.set(e.currentTarget.value)} />
      {odd && <strong class="bad">{t('looks_odd')}</strong>}</label>
  );
}
const ODD_SHARE = 0.5; // off the usual by more than half of it

/** The entries of a row's filled boxes, in its order. */
function entriesOf(row: Row, boxes: Boxes): Telling[] {
  return row.fields.flatMap((box, i) => {
    if (box.entry === null) return [];
    const own = boxes[boxOf(row, i)];
    if (box.fill === null) return own === true ? [box.entry] : [];
    const isPlanned = boxes[boxOf(row, i - 1)] === true && row.fields[i - 1]?.entry === null;
    const typed = typeof own === 'string' && own.trim() !== '' ? own.trim() : isPlanned ? box.usual : '';
    if (typed === '') return [];
    if (isWords(box)) return [{ ...box.entry, [box.fill]: typed } as Telling];
    const value = read(typed);
    return Number.isNaN(value) ? [] : [{ ...box.entry, [box.fill]: value } as Telling];
  });
}
