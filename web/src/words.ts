// The catalogue of words: English is in the first script, the others are
// fetched when a person chooses them. A value is a text, or texts by plural
// category ({n} picks one). Texts that the server makes itself come from its own
// catalogues (data/tongues), in the language that api.ts asks in.
import { useEffect, useState } from 'preact/hooks';
import english from '../words/en.json';

export type Key = keyof typeof english;
type Plural = Partial<Record<Intl.LDMLPluralRule, string>> & { other: string };
type Words = Partial<Record<Key, string | Plural>>;
export type Facts = Record<string, string | number>;

export interface Language {
  code: string;
  name: string;
  isDraft: boolean; // not read by a native speaker yet
  dir: 'ltr' | 'rtl';
}
export const LANGUAGES: Language[] = [
  { code: 'en', name: 'English', isDraft: false, dir: 'ltr' },
  { code: 'es', name: 'Español', isDraft: true, dir: 'ltr' },
  { code: 'fr', name: 'Français', isDraft: true, dir: 'ltr' },
  { code: 'pt', name: 'Português', isDraft: true, dir: 'ltr' },
  { code: 'ar', name: 'العربية', isDraft: true, dir: 'rtl' },
];

let code = 'en';
let words: Words = english;
let rules = new Intl.PluralRules('en');
const listeners = new Set<() => void>();

/** Plates on the farm carry Latin digits; so do the pages. */
export function locale(): string {
  return { ar: 'ar-u-nu-latn', en: 'en-GB', pt: 'pt-PT' }[code] ?? code;
}
export const languageCode = () => code;

export async function speak(next: string): Promise<void> {
  const language = LANGUAGES.find((l) => l.code === next) ?? LANGUAGES[0];
  if (language === undefined) return;
  if (language.code === 'en') {
    words = english;
  } else {
    const answer = await fetch(`/${language.code}.json`);
    if (!answer.ok) return;
    words = await answer.json() as Words;
  }
  code = language.code;
  rules = new Intl.PluralRules(code);
  document.documentElement.lang = code;
  document.documentElement.dir = language.dir;
  for (const act of listeners) act();
}

export function useLanguage(): string {
  const [now, set] = useState(code);
  useEffect(() => {
    const act = () => set(code);
    listeners.add(act);
    return () => { listeners.delete(act); };
  }, []);
  return now;
}

/** The text of a key, {name} replaced by facts. */
export function t(key: Key, facts: Facts = {}): string {
  const found = words[key] ?? (english as Words)[key] ?? key;
  const text = typeof found === 'string' ? found
    : found[rules.select(Number(facts['n'] ?? 0))] ?? found.other;
  return text.replace(/\{(\w+)\}/g, (all, name: string) => {
    const fact = facts[name];
    if (fact === undefined) return all;
    return typeof fact === 'number' ? number(fact) : fact;
  });
}
export const hasWord = (key: string): key is Key => key in english;
/** A word for a code of the server's, as "kind.fed"; else the code itself. */
export function word(group: string, name: string): string {
  const key = `${group}.${name}`;
  return hasWord(key) ? t(key) : name.replace(/_/g, ' ');
}

export function number(value: number, digits?: number): string {
  const most = digits ?? (Math.abs(value) < 10 ? 2 : Math.abs(value) < 100 ? 1 : 0);
  return new Intl.NumberFormat(locale(), {
    maximumFractionDigits: most, minimumFractionDigits: digits ?? 0,
  }).format(value);
}

const utc = (day: string) => new Date(`${day}T12:00:00Z`);
function dated(day: string, how: Intl.DateTimeFormatOptions): string {
  const date = utc(day);
  return Number.isNaN(date.getTime()) ? day
    : new Intl.DateTimeFormat(locale(), { timeZone: 'UTC', ...how }).format(date);
}
export const dayLong = (day: string) =>
  dated(day, { weekday: 'long', day: 'numeric', month: 'long' });
export const dayShort = (day: string) =>
  dated(day, { weekday: 'short', day: 'numeric', month: 'short' });
export const dayYear = (day: string) =>
  dated(day, { day: 'numeric', month: 'short', year: 'numeric' });
export const monthShort = (day: string) => dated(day, { month: 'short' });

export function addDays(day: string, n: number): string {
  const date = utc(day);
  date.setUTCDate(date.getUTCDate() + n);
  return date.toISOString().slice(0, 10);
}
export const daysBetween = (from: string, to: string) =>
  Math.round((utc(to).getTime() - utc(from).getTime()) / 86400000);
/** The Monday of "2027-W09"; a day is given back as it is. */
export function weekDay(week: string): string {
  const parts = /^(\d{4})-W(\d{2})$/.exec(week);
  if (parts === null) return week;
  const fourth = new Date(Date.UTC(Number(parts[1]), 0, 4, 12));
  const monday = fourth.getUTCDate() - ((fourth.getUTCDay() + 6) % 7);
  fourth.setUTCDate(monday + 7 * (Number(parts[2]) - 1));
  return fourth.toISOString().slice(0, 10);
}
/** Minutes of the day as 06:12. */
export const clock = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:` +
  `${String(minute % 60).padStart(2, '0')}`;
export function ago(ms: number): string {
  const date = new Date(ms);
  const isToday = Date.now() - ms < 86400000;
  return new Intl.DateTimeFormat(locale(), isToday
    ? { hour: '2-digit', minute: '2-digit' }
    : { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' },
  ).format(date);
}
