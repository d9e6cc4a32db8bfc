// Units as each person likes. Inside and on the wire all is SI with g, kg and
// degC; only what is shown and what is typed is converted.
import { hasWord, languageCode, number, t } from './words';

export type System = 'metric' | 'us';
let system: System = 'metric';
export const useSystem = (next: System) => { system = next; };
export const systemNow = () => system;

// Exact by the 1959 yard and pound agreement: 1 lb = 0.45359237 kg, 1 oz = 1/16.
const KG_PER_LB = 0.45359237;
const G_PER_OZ = (KG_PER_LB * 1000) / 16;

interface Shown { unit: string; from: (si: number) => number; to: (shown: number) => number }
const US: Record<string, Shown> = {
  kg: { unit: 'lb', from: (v) => v / KG_PER_LB, to: (v) => v * KG_PER_LB },
  g: { unit: 'oz', from: (v) => v / G_PER_OZ, to: (v) => v * G_PER_OZ },
  degc: { unit: '°F', from: (v) => v * 1.8 + 32, to: (v) => (v - 32) / 1.8 },
};
const NAMES: Record<string, string> = {
  degc: '°C', mg_l: 'mg/L', kg_m3: 'kg/m³', count: '', ph: '', frac: '',
};

/** What is counted on many farms, in the page's language; else as it is told. */
function counted(unit: string, n: number): string {
  const key = `unit.${unit}`;
  return hasWord(key) ? t(key, { n }) : unit;
}

/** How a unit is shown: its name, for so many, and the ways there and back. */
export function shownUnit(unit: string, n = 2): Shown {
  const same = (v: number) => v;
  const key = unit === '°C' || unit === 'degC' ? 'degc'
    : unit === 'mg/L' ? 'mg_l' : unit === 'pH' ? 'ph' : unit;
  const us = system === 'us' ? US[key] : undefined;
  return us ?? { unit: NAMES[key] ?? counted(unit, n), from: same, to: same };
}
/** A figure with its unit reads from left to right, in Arabic too. */
const isolated = (text: string) =>
  languageCode() === 'ar' ? `\u2066${text}\u2069` : text;
/** "417 g", "12 lb", "20.1 °C"; low and high as "12–15 kg". */
export function amount(value: number, unit: string, digits?: number): string {
  const how = shownUnit(unit, value);
  return isolated(`${number(how.from(value), digits)}${how.unit === '' ? '' : ` ${how.unit}`}`);
}
export function range(low: number, high: number, unit: string): string {
  const how = shownUnit(unit, high);
  const from = number(how.from(low));
  const to = number(how.from(high));
  const span = from === to ? from : `${from}–${to}`;
  return isolated(`${span}${how.unit === '' ? '' : ` ${how.unit}`}`);
}
