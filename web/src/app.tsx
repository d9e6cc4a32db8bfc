// The frame: who, which farm, where in it; what waits to be sent; the way to
// the emergency card from everywhere. Round comes with it, every other page is
// fetched when it is opened.
import { type ComponentType, render } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { useSignal, whenSignInIsAsked } from './api';
import { change, meetFarm, startSpeaking, useFarm } from './farm';
import { Icon } from './icons';
import { outboxStart, usePending, whenDoubted } from './outbox';
import { Round } from './round';
import { Said, Sheet } from './ui';
import { type Key, t, useLanguage } from './words';

export interface PageProps { facts: URLSearchParams }
type Page = ComponentType<PageProps>;
type Load = () => Promise<Page>;

interface Place {
  path: string; icon: string; word: Key; load: Load; isBelow?: boolean; open?: boolean;
}
/** The pages, in the order of the navigation; the first four lie below the
 * thumb. "open" needs no sign-in. */
const PLACES: Place[] = [
  { path: 'round', icon: 'round', word: 'round', isBelow: true, load: async () => Round },
  { path: 'beds', icon: 'beds', word: 'beds', isBelow: true,
    load: async () => (await import('./beds')).Beds },
  { path: 'fish', icon: 'fish', word: 'fish', isBelow: true,
    load: async () => (await import('./fish')).Fish },
  { path: 'water', icon: 'water', word: 'water', isBelow: true,
    load: async () => (await import('./water')).Water },
  { path: 'tunnels', icon: 'tunnels', word: 'tunnels',
    load: async () => (await import('./tunnels')).Tunnels },
  { path: 'orders', icon: 'orders', word: 'orders',
    load: async () => (await import('./orders')).Orders },
  { path: 'year', icon: 'year', word: 'year',
    load: async () => (await import('./year')).Year },
  { path: 'journal', icon: 'journal', word: 'journal',
    load: async () => (await import('./journal')).Journal },
  { path: 'paper', icon: 'paper', word: 'paper',
    load: async () => (await import('./paper')).Paper },
  { path: 'setup', icon: 'setup', word: 'setup',
    load: async () => (await import('./setup')).Setup },
];
const HIDDEN: Place[] = [
  { path: 'card', icon: 'stopped', word: 'stopped', open: true,
    load: async () => (await import('./card')).Card },
  { path: 'possible', icon: 'year', word: 'possible',
    load: async () => (await import('./possible')).Possible },
  { path: 'tell', icon: 'note', word: 'tell',
    load: async () => (await import('./tell')).Tell },
  { path: 'me', icon: 'person', word: 'me', open: true,
    load: async () => (await import('./me')).Me },
  { path: 'more', icon: 'more', word: 'more', load: async () => More },
];

interface Where { place: Place; facts: URLSearchParams; hash: string }
function whereNow(): Where {
  const [name, query] = location.hash.replace(/^#\/?/, '').split('?');
  const place = [...PLACES, ...HIDDEN].find((p) => p.path === name);
  return {
    place: place ?? (PLACES[0] as Place),
    facts: new URLSearchParams(query ?? ''),
    hash: location.hash,
  };
}

function useWhere(): Where {
  const [where, set] = useState(whereNow);
  useEffect(() => {
    const act = () => {
      set(whereNow());
      scrollTo(0, 0);
    };
    addEventListener('hashchange', act);
    return () => removeEventListener('hashchange', act);
  }, []);
  return where;
}

const loaded = new Map<string, Page>([['round', Round]]);
function usePage(place: Place): Page | null | Error {
  const [, turn] = useState(0);
  const [error, setError] = useState<Error | null>(null);
  useEffect(() => {
    if (loaded.has(place.path)) return;
    setError(null);
    place.load().then((page) => {
      loaded.set(place.path, page);
      turn((n) => n + 1);
    }, setError);
  }, [place]);
  return loaded.get(place.path) ?? error;
}

function Top() {
  const { farm, keptAt } = useFarm();
  const signal = useSignal();
  const waiting = usePending().length;
  return (
    <header class="top">
      <a class="farm-name" href="#/round"><bdi>{farm?.name ?? 'Leat'}</bdi></a>
      <span class="top-state" role="status">
        {waiting > 0 &&
          <a class="unsent" href="#/journal">
            <Icon name="boat" size={22} /> {t('n_not_sent', { n: waiting })}</a>}
        {waiting === 0 && (!signal || keptAt !== null) &&
          <span class="unsent"><Icon name="boat" size={22} /> {t('no_signal')}</span>}
      </span>
      <a class="stopped" href="#/card"><Icon name="stopped" size={22} /> {t('stopped')}</a>
    </header>
  );
}

function Nav({ now }: { now: Place }) {
  const link = (p: Place, cls = '') => (
    <a key={p.path} href={`#/${p.path}`} class={cls}
      aria-current={p === now ? 'page' : undefined}>
      <Icon name={p.icon} /> <span>{t(p.word)}</span>
    </a>
  );
  const isMore = !PLACES.some((p) => p.isBelow && p === now);
  return (
    <nav class="nav" aria-label={t('pages')}>
      {PLACES.map((p) => link(p, p.isBelow ? 'below' : 'beyond'))}
      <a href="#/me" class="beyond" aria-current={now.path === 'me' ? 'page' : undefined}>
        <Icon name="person" /> <span>{t('me')}</span></a>
      <a href="#/more" class="below only-phone" aria-current={isMore ? 'page' : undefined}>
        <Icon name="more" /> <span>{t('more')}</span></a>
    </nav>
  );
}

/** The rest of the farm, on a phone. */
function More() {
  const { me } = useFarm();
  useEffect(() => { document.title = `${t('more')} · Leat`; });
  return (
    <>
      <header class="title"><h1 tabIndex={-1}>{t('more')}</h1></header>
      <ul class="doors">
        {PLACES.filter((p) => !p.isBelow).map((p) => (
          <li key={p.path}><a href={`#/${p.path}`}><Icon name={p.icon} size={32} />
            <span><b>{t(p.word)}</b><small>{t(`${p.path}_more` as Key)}</small></span></a></li>
        ))}
        <li><a href="#/possible"><Icon name="year" size={32} />
          <span><b>{t('possible')}</b><small>{t('possible_more')}</small></span></a></li>
        <li><a href="#/tell"><Icon name="note" size={32} />
          <span><b>{t('tell')}</b><small>{t('tell_more')}</small></span></a></li>
        <li><a href="#/me"><Icon name="person" size={32} />
          <span><b>{t('me')}</b><small>{me?.name || t('me_more')}</small></span></a></li>
      </ul>
    </>
  );
}

/** What the server doubts is told, not refused: shown once, to be settled. */
function Doubts() {
  const [texts, set] = useState<string[]>([]);
  useEffect(() => whenDoubted(set), []);
  if (texts.length === 0) return null;
  return (
    <Sheet title={t('doubts')} onClose={() => set([])}>
      <p>{t('doubts_more')}</p>
      <ul class="plain">{texts.map((text) => <li key={text}><Said text={text} /></li>)}</ul>
      <div class="sheet-foot">
        <button type="button" class="button is-strong" onClick={() => set([])}>{t('close')}</button>
        <a class="button" href="#/journal" onClick={() => set([])}>{t('journal')}</a>
      </div>
    </Sheet>
  );
}

function App() {
  useLanguage();
  const where = useWhere();
  const { signIn, isBlank } = useFarm();
  const [login, setLogin] = useState<Page | null>(null);
  const mustSign = signIn && where.place.open !== true;
  useEffect(() => {
    if (mustSign) import('./signin').then((m) => setLogin(() => m.SignIn), () => {});
  }, [mustSign]);
  useEffect(() => {
    if (isBlank && where.place.path === 'round') location.hash = '#/setup';
  }, [isBlank, where]);
  const Open = usePage(where.place);
  useEffect(() => {
    // Keyboard and screen reader begin at the new page's title.
    document.querySelector<HTMLElement>('main h1')?.focus({ preventScroll: true });
  }, [where.place, Open]);
  const Shown = mustSign ? login : Open;
  return (
    <>
      <a class="skip" href="#main" onClick={(e) => {
        e.preventDefault();
        document.querySelector<HTMLElement>('main h1')?.focus();
      }}>{t('to_content')}</a>
      <Top />
      {!mustSign && <Nav now={where.place} />}
      <main id="main" class={`page page-${where.place.path}`}>
        {Shown instanceof Error ? <p role="alert">{t('page_not_here')}</p>
          : Shown === null ? <p class="quiet" role="status">{t('fetching')}</p>
            : <Shown key={where.hash} facts={where.facts} />}
      </main>
      <Doubts />
    </>
  );
}

function keepPagesOffline() {
  if (!('serviceWorker' in navigator) || !isSecureContext) return;
  addEventListener('load', () => {
    navigator.serviceWorker.register('/sw.js').catch(() => {});
  });
}

async function start() {
  keepPagesOffline();
  whenSignInIsAsked(() => change({ signIn: true }));
  await startSpeaking();
  const root = document.getElementById('app');
  if (root !== null) render(<App />, root);
  await Promise.all([outboxStart(), meetFarm()]);
  // The emergency cards are fetched while there is signal.
  const { keepCards } = await import('./card');
  void keepCards();
}
void start();
