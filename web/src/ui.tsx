// The few pieces that all pages are made of.
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { type Got, NoSignal, Refused } from './api';
import { Icon } from './icons';
import { shownUnit } from './units';
import { ago, type Key, languageCode, number, t } from './words';

/** The plate painted on a bed or tank. */
export function Plate({ id }: { id: string }) {
  return <bdi class="plate" dir="ltr">{id}</bdi>;
}

const ARABIC = /[\u0600-\u06ff]/;
/** A text that the server made, in the page's language where it has it; on a
 * page from right to left a text without such a letter, as a farm's own name
 * or what has no translation, runs its own way. */
export function Said({ text, class: cls }: { text: string; class?: string }) {
  const isOther = languageCode() === 'ar' && !ARABIC.test(text);
  return <span class={cls} {...(isOther ? { dir: 'ltr' } : {})}>{text}</span>;
}

interface ButtonProps {
  onClick: () => void | Promise<unknown>;
  children: ComponentChildren;
  class?: string | undefined;
  label?: string | undefined;
  disabled?: boolean | undefined;
  id?: string | undefined;
  pressed?: boolean | undefined;
}
const DOUBLE_MS = 700;
/** A button that a wet thumb may hit twice: the second tap does nothing. */
export function Button(props: ButtonProps) {
  const last = useRef(0);
  const act = () => {
    const now = Date.now();
    if (now - last.current < DOUBLE_MS) return;
    last.current = now;
    void props.onClick();
  };
  return (
    <button type="button" class={props.class ?? 'button'} onClick={act}
      aria-label={props.label} disabled={props.disabled} id={props.id}
      aria-pressed={props.pressed}>
      {props.children}
    </button>
  );
}

/** A sheet that comes up from below; the browser keeps focus inside. */
export function Sheet(props: {
  title: ComponentChildren; onClose: () => void; children: ComponentChildren;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = ref.current;
    dialog?.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog ref={ref} class="sheet" aria-labelledby={id}
      onCancel={(event) => { event.preventDefault(); props.onClose(); }}
      onClick={(event) => { if (event.target === ref.current) props.onClose(); }}>
      <div class="sheet-in">
        <header class="sheet-head">
          <h2 id={id}>{props.title}</h2>
          <button type="button" class="round-button" onClick={props.onClose}
            aria-label={t('close')}><Icon name="close" /></button>
        </header>
        {props.children}
      </div>
    </dialog>
  );
}

/** The step that suits a number: 417 moves by 10, 20.1 by 0.1. */
export function stepFor(value: number, unit: string): number {
  if (unit === 'ph' || unit === 'pH') return 0.1;
  const size = Math.abs(value);
  if (size >= 2000) return 50;
  if (size >= 200) return 10;
  if (size >= 50) return 5;
  return Number.isInteger(value) && size >= 3 ? 1 : size < 10 ? 0.1 : 0.5;
}

/** A number by minus and plus, starting from yesterday's; typed if need be. */
export function Dial(props: {
  label: string; value: number | null; unit: string; step?: number;
  least?: number; onChange: (si: number | null) => void; id?: string;
}) {
  const how = shownUnit(props.unit);
  const shown = props.value === null ? null : how.from(props.value);
  const step = props.step ?? stepFor(shown ?? 0, props.unit);
  const digits = step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
  const [typed, setTyped] = useState<string | null>(null);
  const set = (next: number) => {
    setTyped(null);
    const least = props.least === undefined ? -Infinity : how.from(props.least);
    const rounded = Math.round(next / step) * step;
    props.onChange(how.to(Math.max(least, Number(rounded.toFixed(4)))));
  };
  const text = typed ?? (shown === null ? '' : shown.toFixed(digits));
  const id = useId();
  return (
    <div class="dial">
      <label for={props.id ?? id}>{props.label}</label>
      <div class="dial-row" dir="ltr">
        <button type="button" class="dial-button" aria-label={`${props.label}: ${t('less')}`}
          onClick={() => set((shown ?? 0) - step)}><Icon name="minus" size={32} /></button>
        <span class="dial-number">
          <input id={props.id ?? id} type="text" inputMode="decimal"
            autocomplete="off" value={text}
            onFocus={(e) => e.currentTarget.select()}
            onInput={(e) => {
              const raw = e.currentTarget.value;
              setTyped(raw);
              const read = Number(raw.replace(',', '.'));
              props.onChange(raw.trim() === '' || Number.isNaN(read) ? null
                : how.to(read));
            }}
            onBlur={() => setTyped(null)} />
          {how.unit !== '' && <span class="dial-unit">{how.unit}</span>}
        </span>
        <button type="button" class="dial-button" aria-label={`${props.label}: ${t('more_of_it')}`}
          onClick={() => set((shown ?? 0) + step)}><Icon name="plus" size={32} /></button>
      </div>
    </div>
  );
}

/** What stands in for an answer that is not here (yet), or is an old one. */
export function Waiting<T>({ got }: { got: Got<T> }) {
  if (got.error !== null && got.data === null) {
    return <Trouble error={got.error} again={got.reload} />;
  }
  if (got.data === null) {
    return <p class="quiet" role="status">{t('fetching')}</p>;
  }
  if (got.keptAt !== null) {
    return <p class="kept" role="status"><Icon name="boat" size={20} />
      {t('kept_from', { time: ago(got.keptAt) })}</p>;
  }
  return null;
}

export function Trouble({ error, again }: { error: Error; again?: () => void }) {
  const isSignal = error instanceof NoSignal;
  return (
    <div class="trouble" role="alert">
      <p>{isSignal ? t('no_signal_here')
        : error instanceof Refused ? <Said text={error.message} />
          : t('went_wrong')}</p>
      {again !== undefined &&
        <button type="button" class="button" onClick={again}>{t('again')}</button>}
    </div>
  );
}

/** A field of a form with its label above and its trouble below. */
export function Field(props: {
  label: string; children: (id: string, described: string) => ComponentChildren;
  hint?: ComponentChildren; fault?: string | undefined; foreign?: boolean;
}) {
  const id = useId();
  return (
    <div class={props.fault === undefined ? 'field' : 'field is-bad'}>
      <label for={id}>{props.foreign ? <Said text={props.label} /> : props.label}</label>
      {props.children(id, `${id}-h`)}
      <div id={`${id}-h`} class="hint">
        {props.fault !== undefined && <strong class="bad">{t('mend')}: <Said text={props.fault} /></strong>}
        {props.hint}
      </div>
    </div>
  );
}

export function Choice(props: {
  label: string; value: string; onChange: (value: string) => void;
  options: { value: string; text: string }[]; hint?: ComponentChildren;
}) {
  return (
    <Field label={props.label} hint={props.hint}>
      {(id, described) => (
        <select id={id} aria-describedby={described} value={props.value}
          onChange={(e) => props.onChange(e.currentTarget.value)}>
          {props.options.map((o) => (
            <option key={o.value} value={o.value}>{o.text}</option>))}
        </select>
      )}
    </Field>
  );
}

/** A page's title with a line under it. */
export function Title({ of, children }: { of: Key; children?: ComponentChildren }) {
  useEffect(() => { document.title = `${t(of)} · Leat`; });
  return (
    <header class="title">
      <h1 tabIndex={-1}>{t(of)}</h1>
      {children !== undefined && <p class="under">{children}</p>}
    </header>
  );
}

/** Figures as a table, folded away under the words that say them. */
export function Figures(props: {
  summary: string; heads: string[]; rows: (string | number | null)[][];
}) {
  return (
    <details class="figures">
      <summary>{props.summary}</summary>
      <div class="scroll" tabIndex={0} role="region" aria-label={props.summary}>
        <table>
          <thead><tr>{props.heads.map((h) => <th key={h} scope="col">{h}</th>)}</tr></thead>
          <tbody>
            {props.rows.map((row, i) => (
              <tr key={i}>
                {row.map((cell, j) => {
                  const text = typeof cell === 'number' ? number(cell) : cell ?? '–';
                  return j === 0 ? <th key={j} scope="row">{text}</th>
                    : <td key={j} class={typeof cell === 'number' ? 'n' : ''}>{text}</td>;
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
