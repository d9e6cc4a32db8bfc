// Work that takes longer than a page waits for: started, watched, stopped.
import { useEffect, useRef, useState } from 'preact/hooks';
import { ask, askAllAgain, path } from './api';
import { Trouble } from './ui';
import { number, t } from './words';

interface State<T> {
  id: string; state: string; // running, stopping, done, failed, accepting, accepted
  progress: number | null; value: number | null; // the best so far
  answer: T | null; error: { kind: string; text: string } | null;
}
export interface Work<T> {
  isBusy: boolean; progress: number | null; value: number | null;
  answer: T | null; error: Error | null;
  start: (what: Record<string, unknown>) => Promise<void>;
  attach: (id: string) => void; // to what somebody began before
  stop: () => Promise<void>;
  accept: () => Promise<void>;
}
const LOOK_MS = 700;

export function useWork<T>(): Work<T> {
  const [id, setId] = useState<string | null>(null);
  const [state, setState] = useState<State<T> | null>(null);
  const [error, setError] = useState<Error | null>(null);
  const done = useRef<string | null>(null);
  useEffect(() => {
    if (id === null) return undefined;
    let timer = 0;
    let isOpen = true;
    const look = async () => {
      try {
        const now = await ask<State<T>>('GET', path('/api/work', { id }));
        if (!isOpen) return;
        setState(now);
        if (now.error) setError(new Error(now.error.text));
        if (isDone(now)) { done.current = id; setId(null); return; }
      } catch (trouble) {
        if (!isOpen) return;
        setError(trouble as Error);
        setId(null);
        return;
      }
      timer = window.setTimeout(look, LOOK_MS);
    };
    void look();
    return () => { isOpen = false; clearTimeout(timer); };
  }, [id]);
  return {
    isBusy: id !== null, progress: state?.progress ?? null, value: state?.value ?? null,
    answer: id === null ? state?.answer ?? null : null, error,
    start: async (what) => {
      setError(null);
      setState(null);
      try {
        const begun = await ask<{ id: string }>('POST', '/api/work', what);
        setId(begun.id);
      } catch (trouble) { setError(trouble as Error); }
    },
    attach: setId,
    stop: async () => {
      if (id !== null) await ask('DELETE', path('/api/work', { id })).catch(() => {});
    },
    accept: async () => {
      await ask('POST', '/api/plan/accept', { id: done.current }, 60000);
      for (;;) {
        const now = await ask<State<T>>('GET', path('/api/work', { id: done.current }));
        if (now.error) throw new Error(now.error.text);
        if (now.state !== 'accepting') break;
        await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
      }
      askAllAgain();
    },
  };
}
const isDone = <T,>(s: State<T>) => ['done', 'failed', 'accepted'].includes(s.state);

export function Working<T>({ work }: { work: Work<T> }) {
  return (
    <>
      {work.error !== null && <Trouble error={work.error} />}
      {work.isBusy && (
        <div class="working" role="status">
          <progress max={1} {...(work.progress === null ? {} : { value: work.progress })}
            aria-label={t('working')} />
          <p>{t('working')} {work.progress !== null && `${number(100 * work.progress, 0)} %`}
            {work.value !== null && <> · {t('best_so_far', { value: work.value })}</>}</p>
          <button type="button" class="button" onClick={work.stop}>{t('stop_it')}</button>
        </div>
      )}
    </>
  );
}
