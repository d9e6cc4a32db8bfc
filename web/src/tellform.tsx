// The form for one entry of any kind, made from the table of kinds. It opens
// with what is known already (place, batch), so that most need one number.
import { useState } from 'preact/hooks';
import { today, useFarm, type Farm, type Place } from './farm';
import { Icon } from './icons';
import { type FieldName, type Kind, READINGS } from './kinds';
import { tell, type Telling } from './outbox';
import { Button, Choice, Dial, Field } from './ui';
import { t, word } from './words';

type Draft = Partial<Telling>;
interface Named { id: string; name: string }
const list = (farm: Farm | null, key: string) =>
  (farm?.[key] as Named[] | undefined) ?? [];

/** Places that a kind may name. */
function placesFor(kind: Kind, farm: Farm | null): string[] {
  const ids = (key: string) =>
    ((farm?.[key] as Place[] | undefined) ?? []).map((p) => p.id);
  switch (kind.where) {
    case 'bed': return ids('beds');
    case 'tank': return ids('tanks');
    case 'loop': return ids('loops');
    case 'tunnel': return ids('tunnels');
    case 'water': return [...ids('tanks'), ...ids('loops'), ...ids('tunnels')];
    case 'any': return ['', ...ids('tanks'), ...ids('tunnels'), ...ids('beds')];
    case 'none': return [];
  }
}

interface Props {
  kind: Kind;
  preset: Draft;
  places?: string[]; // the stop's own, offered first
  batches?: { id: string; text: string }[];
  above?: (draft: Draft) => preact.ComponentChildren; // as the fish balance
  onTold: (entry: Telling) => void;
}
export function TellForm(props: Props) {
  const { kind } = props;
  const { farm } = useFarm();
  const all = placesFor(kind, farm);
  const first = [...(props.places ?? []).filter((p) => all.includes(p)), ...all];
  const places = [...new Set(first)];
  const [draft, setDraft] = useState<Draft>({
    ...(kind.where === 'none' || places[0] === undefined || places[0] === '' ? {}
      : { place: places[0] }),
    ...props.preset,
  });
  const [lacks, setLacks] = useState<FieldName[]>([]);
  const set = (part: Draft) => { setDraft((d) => ({ ...d, ...part })); setLacks([]); };
  const save = async () => {
    const missing = kind.needs.filter((f) => !has(draft, f));
    if (missing.length > 0) { setLacks(missing); return; }
    const entry = tidy({ ...draft, kind: kind.name });
    await tell([entry]);
    props.onTold(entry);
  };
  return (
    <form class="tell-form" onSubmit={(e) => { e.preventDefault(); void save(); }}>
      {kind.fields.map((name) => (
        <OneField key={name} name={name} kind={kind} draft={draft} set={set}
          farm={farm} places={places} batches={props.batches ?? []}
          lacks={lacks.includes(name)} />
      ))}
      {props.above?.(draft)}
      <When draft={draft} set={set} />
      <div class="sheet-foot">
        <Button class="button is-strong" id="tell-save" onClick={save}>
          <Icon name="do" /> {t('tell_it')}
        </Button>
      </div>
    </form>
  );
}

function has(draft: Draft, field: FieldName): boolean {
  if (field === 'reading' || field === 'share' || field === 'on') {
    return draft.value !== undefined;
  }
  const value = draft[field];
  return value !== undefined && value !== '';
}
function tidy(draft: Telling): Telling {
  const kept = Object.entries(draft)
    .filter(([, v]) => v !== undefined && v !== '' && v !== null);
  return Object.fromEntries(kept) as unknown as Telling;
}

/** It happened today unless told otherwise; told late is marked by itself. */
function When({ draft, set }: { draft: Draft; set: (d: Draft) => void }) {
  const day = draft.happened_on ?? today();
  return (
    <details class="when">
      <summary>{t('happened_today')}</summary>
      <Field label={t('happened_on')}>
        {(id) => <input id={id} type="date" value={day} max={today()}
          onInput={(e) => set({ happened_on: e.currentTarget.value })} />}
      </Field>
    </details>
  );
}

interface OneProps {
  name: FieldName; kind: Kind; draft: Draft; set: (d: Draft) => void;
  farm: Farm | null; places: string[];
  batches: { id: string; text: string }[]; lacks: boolean;
}
function OneField(props: OneProps) {
  const { name, kind, draft, set, farm } = props;
  const fault = props.lacks ? t('needed') : undefined;
  const text = (key: 'lot' | 'supplier' | 'text' | 'product' | 'batch' | 'cause', long = false) => (
    <Field label={word('field', key)} fault={fault}>
      {(id, described) => long
        ? <textarea id={id} aria-describedby={described} rows={2} value={draft[key] ?? ''}
          onInput={(e) => set({ [key]: e.currentTarget.value })} />
        : <input id={id} aria-describedby={described} type="text" autocomplete="off"
          value={draft[key] ?? ''} onInput={(e) => set({ [key]: e.currentTarget.value })} />}
    </Field>
  );
  const dial = (key: 'count' | 'mean_g' | 'grams' | 'minutes' | 'quantity', unit: string) => (
    <div class={props.lacks ? 'is-bad' : ''}>
      <Dial label={word('field', key)} value={draft[key] ?? null} unit={unit}
        least={0} onChange={(v) => set({ [key]: v ?? undefined } as Draft)} />
      {props.lacks && <strong class="bad" role="alert">{t('needed')}</strong>}
    </div>
  );
  const choice = (key: keyof Draft, options: { value: string; text: string }[], label: string) => (
    <Choice label={label} value={String(draft[key] ?? '')} options={[
      ...(draft[key] === undefined ? [{ value: '', text: t('choose') }] : []), ...options]}
    onChange={(v) => set({ [key]: v } as Draft)}
    hint={fault === undefined ? undefined : <strong class="bad">{fault}</strong>} />
  );
  switch (name) {
    case 'place':
      return choice('place', props.places.map((p) => ({ value: p, text: p === '' ? t('farm') : p })),
        word('where', kind.where));
    case 'to_place':
      return choice('to_place', props.places.filter((p) => p !== draft.place)
        .map((p) => ({ value: p, text: p })), word('field', 'to_place'));
    case 'batch':
      return props.batches.length === 0
        ? kind.needs.includes('batch') ? text('batch') : null
        : choice('batch', props.batches.map((b) => ({ value: b.id, text: b.text })),
          word('field', 'batch'));
    case 'way':
      return choice('way', list(farm, 'ways').map((w) => ({ value: w.id, text: w.name || w.id })),
        word('field', 'way'));
    case 'buyer':
      return choice('buyer', [{ value: '', text: '–' }, ...list(farm, 'buyers')
        .map((b) => ({ value: b.id, text: b.name || b.id }))], word('field', 'buyer'));
    case 'product':
      if (kind.product === undefined) return text('product');
      return choice('product', list(farm, kind.product === 'base' ? 'bases'
        : kind.product === 'feed' ? 'feeds' : 'products')
        .map((p) => ({ value: p.id, text: p.name || p.id })), word('field', 'product'));
    case 'count': return dial('count', 'count');
    case 'mean_g': return dial('mean_g', 'g');
    case 'grams': return dial('grams', 'g');
    case 'minutes': return dial('minutes', 'min');
    case 'quantity': return dial('quantity', draft.unit ?? '');
    case 'reading': return <Reading draft={draft} set={set} />;
    case 'share':
      return <Choice label={word('field', 'share')} value={String(draft.value ?? '')}
        options={[['', t('choose')], ['0', t('shut')], ['0.25', '¼'], ['0.5', '½'], ['0.75', '¾'],
          ['1', t('wide_open')]].map(([value, label]) => ({ value: value ?? '', text: label ?? '' }))}
        onChange={(v) => set({ value: v === '' ? undefined : Number(v) } as Draft)} />;
    case 'on':
      return <Choice label={word('kind', kind.name)} value={String(draft.value ?? '')}
        options={[{ value: '', text: t('choose') }, { value: '1', text: t('on') }, { value: '0', text: t('off') }]}
        onChange={(v) => set({ value: v === '' ? undefined : Number(v) } as Draft)} />;
    case 'cause':
      return kind.causes === undefined ? text('cause')
        : <Causes kind={kind} draft={draft} set={set} fault={fault} />;
    case 'text': return text('text', true);
    case 'lot': return text('lot');
    case 'supplier': return text('supplier');
  }
}

/** Causes as large tiles, one tap each. */
function Causes(props: {
  kind: Kind; draft: Draft; set: (d: Draft) => void; fault: string | undefined;
}) {
  return (
    <fieldset class="tiles">
      <legend>{word('field', 'cause')}</legend>
      {(props.kind.causes ?? []).map((cause) => (
        <button type="button" key={cause} aria-pressed={props.draft.cause === cause}
          class={props.draft.cause === cause ? 'tile is-on' : 'tile'}
          onClick={() => props.set({ cause })}>{word('cause', cause)}</button>
      ))}
      {props.fault !== undefined && <strong class="bad" role="alert">{props.fault}</strong>}
    </fieldset>
  );
}

function Reading({ draft, set }: { draft: Draft; set: (d: Draft) => void }) {
  const about = READINGS.find((r) => r.key === draft.quantity_key) ?? READINGS[0];
  if (about === undefined) return null;
  if (draft.quantity_key === undefined) set({ quantity_key: about.key });
  return (
    <>
      <Choice label={word('field', 'reading')} value={about.key}
        options={READINGS.map((r) => ({ value: r.key, text: word('quantity', r.key) }))}
        onChange={(key) => {
          const next = READINGS.find((r) => r.key === key);
          set({ quantity_key: key, ...(next === undefined ? {} : { value: next.start }) });
        }} />
      <Dial label={word('quantity', about.key)} unit={about.unit}
        value={draft.value ?? null} onChange={(v) => set({ value: v ?? undefined } as Draft)} />
    </>
  );
}
