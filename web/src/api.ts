// One way to ask the server and one to tell it. An answer is kept; where there
// is no signal the kept one is given, marked with the hour it was fetched.
import { useCallback, useEffect, useState } from 'preact/hooks';
import { keepGet, keepPut } from './keep';
import { languageCode, useLanguage } from './words';

export interface Fault { kind: string; text: string }

/** The server said no. */
export class Refused extends Error {
  constructor(readonly status: number, readonly fault: Fault,
    readonly body: unknown) {
    super(fault.text);
  }
}
/** The server was not reached. */
export class NoSignal extends Error {}

export interface Answer<T> { data: T; fetchedAt: number; isKept: boolean }

const PATIENCE_MS = 10000;
const listeners = new Set<(isThere: boolean) => void>();
let isThere = true;

/** Tells whether the server was reached the last time it was tried. */
export function useSignal(): boolean {
  const [now, set] = useState(isThere);
  useEffect(() => {
    listeners.add(set);
    return () => { listeners.delete(set); };
  }, []);
  return now;
}
function setSignal(value: boolean) {
  if (value === isThere) return;
  isThere = value;
  for (const tell of listeners) tell(value);
}

/** Who has just told something sees it; else an answer may be two seconds old,
 * so that nobody waits while others tell. */
const OWN_MS = 4000;
let toldAt = -Infinity;
const freshness = (method: string): Record<string, string> => (method !== 'GET' || Date.now() - toldAt < OWN_MS
  ? {} : { 'Cache-Control': 'max-age=2' });

let onSignIn = () => {};
/** Called where the server asks who this is. */
export function whenSignInIsAsked(act: () => void) { onSignIn = act; }

export async function ask<T>(
  method: string, path: string, body?: unknown, patience_ms = PATIENCE_MS,
): Promise<T> {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), patience_ms);
  let answer: Response;
  try {
    const isBlob = body instanceof Blob;
    answer = await fetch(path, {
      method, signal: stop.signal, credentials: 'same-origin',
      cache: 'no-store',
      headers: {
        'Accept-Language': languageCode(),
        ...freshness(method),
        ...(body === undefined ? {} : {
          'Content-Type': isBlob
            ? body.type.replace(/;.*/, '') || 'application/octet-stream'
            : 'application/json',
        }),
      },
      ...(body === undefined ? {}
        : { body: isBlob ? body : JSON.stringify(body) }),
    });
  } catch {
    setSignal(false);
    throw new NoSignal(path);
  } finally {
    clearTimeout(timer);
  }
  setSignal(true);
  if (method !== 'GET') toldAt = Date.now();
  const text = await answer.text();
  let read: unknown = null;
  try {
    read = text === '' ? null : JSON.parse(text);
  } catch {
    read = { error: { kind: 'text', text } };
  }
  if (answer.ok) return read as T;
  const fault = (read as { error?: Fault } | null)?.error ??
    { kind: String(answer.status), text: answer.statusText };
  if (answer.status === 401 && !path.startsWith('/api/login')) onSignIn();
  throw new Refused(answer.status, fault, read);
}

/** Where an answer is kept: its sentences are in the language of the page. */
const shelfKey = (path: string) => `${languageCode()} ${path}`;

/** Asks; keeps the answer; without signal gives the one kept last. */
export async function get<T>(path: string): Promise<Answer<T>> {
  try {
    const data = await ask<T>('GET', path);
    const answer = { data, fetchedAt: Date.now(), isKept: false };
    keepPut('answers', answer, shelfKey(path)).catch(() => {});
    return answer;
  } catch (error) {
    if (!(error instanceof NoSignal)) throw error;
    const kept = await keepGet<Answer<T>>('answers', shelfKey(path)).catch(() => undefined);
    if (kept === undefined) throw error;
    return { ...kept, isKept: true };
  }
}

export interface Got<T> {
  data: T | null;
  error: Error | null;
  keptAt: number | null; // hour of the answer where it is a kept one
  reload: () => void;
}

const heard = new Set<() => void>();
/** Every open question is asked again: something was told. */
export function askAllAgain() { for (const act of heard) act(); }

/** The answer to a question while a page is open; null asks nothing. */
export function useGet<T>(path: string | null): Got<T> {
  const [got, set] = useState<{
    path: string | null; data: T | null; error: Error | null;
    keptAt: number | null;
  }>({ path: null, data: null, error: null, keptAt: null });
  const [turn, setTurn] = useState(0);
  const language = useLanguage();
  const reload = useCallback(() => setTurn((n) => n + 1), []);
  useEffect(() => {
    heard.add(reload);
    return () => { heard.delete(reload); };
  }, [reload]);
  useEffect(() => {
    if (path === null) return undefined;
    let isOpen = true;
    get<T>(path).then(
      (answer) => isOpen && set({
        path, data: answer.data, error: null,
        keptAt: answer.isKept ? answer.fetchedAt : null,
      }),
      (error: Error) => isOpen && set((old) => ({
        path, data: old.path === path ? old.data : null, error,
        keptAt: old.path === path ? old.keptAt : null,
      })),
    );
    return () => { isOpen = false; };
  }, [path, turn, language]);
  const isOurs = got.path === path;
  return {
    data: isOurs ? got.data : null, error: isOurs ? got.error : null,
    keptAt: isOurs ? got.keptAt : null, reload,
  };
}

/** "/api/round" and {day} to "/api/round?day=2027-03-01"; leaves out nulls. */
/** A page for paper, in the page's language: it opens in a tab of its own. */
export const printed = (
  route: string, facts: Record<string, string | number | null | undefined> = {},
) => path(route, { ...facts, language: languageCode() });

export function path(
  route: string, facts: Record<string, string | number | null | undefined>,
): string {
  const words = Object.entries(facts)
    .filter(([, value]) => value !== null && value !== undefined && value !== '')
    .map(([key, value]) => `${key}=${encodeURIComponent(String(value))}`);
  return words.length === 0 ? route : `${route}?${words.join('&')}`;
}
