// What every page knows: who this is, which farm, which day it is there.
import { useEffect, useState } from 'preact/hooks';
import { ask, get, NoSignal, Refused } from './api';
import { keepClear } from './keep';
import { outboxKnows } from './outbox';
import { type System, useSystem } from './units';
import { addDays, daysBetween, LANGUAGES, speak } from './words';

export interface Me {
  name: string;
  role: string; // owner, grower, hand, reader
  language?: string;
  units?: System;
  id?: string;
  needs_login?: boolean;
}
export interface Place { id: string; name?: string; loop?: string; tunnel?: string }
export interface Farm {
  name: string;
  today: string;
  currency: string;
  stops?: { id: string; name: string }[];
  tanks?: Place[];
  beds?: Place[];
  people?: { id: string; name: string }[];
  [more: string]: unknown;
}

export interface State {
  me: Me | null;
  farm: Farm | null;
  signIn: boolean; // somebody has to say who he is
  isBlank: boolean; // no farm described yet, or one with faults
  keptAt: number | null;
}
let state: State = {
  me: null, farm: null, signIn: false, isBlank: false, keptAt: null,
};
const listeners = new Set<() => void>();
export function change(part: Partial<State>) {
  state = { ...state, ...part };
  for (const act of listeners) act();
}
export function useFarm(): State {
  const [now, set] = useState(state);
  useEffect(() => {
    const act = () => set(state);
    listeners.add(act);
    act();
    return () => { listeners.delete(act); };
  }, []);
  return now;
}

let fetchedOn = deviceDay();
function deviceDay(): string {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-` +
    String(now.getDate()).padStart(2, '0');
}
/** The farm's day; goes on with the device's where the page stays open. */
export function today(): string {
  if (state.farm === null) return deviceDay();
  return addDays(state.farm.today, daysBetween(fetchedOn, deviceDay()));
}
outboxKnows(today, () => state.me?.id ?? state.me?.name);

function fromDevice(key: string): string | null {
  try { return localStorage.getItem(key); } catch { return null; }
}
function toDevice(key: string, value: string) {
  try { localStorage.setItem(key, value); } catch { /* a page without store */ }
}

function browserLanguage(): string {
  const wanted = navigator.languages.map((l) => l.slice(0, 2));
  return wanted.find((l) => LANGUAGES.some((o) => o.code === l)) ?? 'en';
}
export async function startSpeaking(): Promise<void> {
  useSystem(fromDevice('units') === 'us' ? 'us' : 'metric');
  await speak(fromDevice('language') ?? browserLanguage()).catch(() => {});
}

/** A person's own language and units; told to the server where it knows him. */
export async function prefer(language: string, units: System): Promise<void> {
  toDevice('language', language);
  toDevice('units', units);
  useSystem(units);
  await speak(language);
  change({});
  await ask('POST', '/api/me', { language, units }).catch(() => {});
}

/** Asks who this is and which farm; false where the server wants a sign-in. */
export async function meetFarm(): Promise<void> {
  try {
    const asked = get<Farm>('/api/farm');
    asked.catch(() => {}); // heard below, after who this is
    const me = await get<Me>('/api/me');
    if (me.data.needs_login === true) {
      change({ signIn: true });
      return;
    }
    if (me.data.language !== undefined && fromDevice('language') === null) {
      useSystem(me.data.units ?? 'metric');
      await speak(me.data.language);
    }
    const farm = await asked;
    fetchedOn = deviceDay();
    change({
      me: me.data, farm: farm.data, signIn: false,
      isBlank: (farm.data.beds ?? []).length === 0,
      keptAt: farm.isKept ? farm.fetchedAt : null,
    });
  } catch (error) {
    if (error instanceof Refused && error.status !== 401) {
      change({ isBlank: true, signIn: false });
    } else if (error instanceof Refused) {
      change({ signIn: true });
    } else if (!(error instanceof NoSignal)) {
      throw error;
    }
  }
}

export async function signOut(): Promise<void> {
  await ask('POST', '/api/logout', {}).catch(() => {});
  await keepClear('answers').catch(() => {});
  change({ me: null, farm: null, signIn: true });
}
