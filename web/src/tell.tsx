// Tell: any entry at all, by large tiles, then its form.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { Icon } from './icons';
import { KINDS, kindOf, type Kind } from './kinds';
import type { Entry } from './outbox';
import { TellForm } from './tellform';
import { Title } from './ui';
import { t, word } from './words';

const GROUPS = ['plants', 'fish', 'water', 'day'] as const;

/** "#/tell?kind=picked&place=H1-S1" opens a form with what it knows. */
function presetOf(facts: URLSearchParams): Partial<Entry> {
  const preset: Record<string, string | number> = {};
  for (const [key, value] of facts) {
    if (key === 'kind') continue;
    preset[key] = ['count', 'mean_g', 'grams', 'quantity', 'value', 'minutes'].includes(key)
      ? Number(value) : value;
  }
  return preset;
}

export function Tell({ facts }: PageProps) {
  const [kind, setKind] = useState<Kind | null>(kindOf(facts.get('kind') ?? '') ?? null);
  const [told, setTold] = useState(false);
  return (
    <>
      <Title of={kind === null ? 'what_happened' : `kind.${kind.name}` as 'kind.seen'} />
      {told ? (
        <div class="card">
          <p class="big" role="status"><Icon name="do" /> {t('told_thanks')}</p>
          <div class="row-buttons">
            <button type="button" class="button is-strong"
              onClick={() => { setTold(false); setKind(null); }}>{t('tell_another')}</button>
            <a class="button" href="#/journal">{t('journal')}</a>
            <a class="button" href="#/round">{t('round')}</a>
          </div>
        </div>
      ) : kind !== null
        ? <TellForm kind={kind} preset={presetOf(facts)} onTold={() => setTold(true)} />
        : GROUPS.map((group) => (
          <section key={group}>
            <h2 class="sub">{word('group', group)}</h2>
            <div class="tiles">
              {KINDS.filter((k) => k.group === group).map((k) => (
                <button type="button" class="tile" key={k.name} onClick={() => setKind(k)}>
                  <Icon name={k.icon} size={32} /> {word('kind', k.name)}
                </button>
              ))}
            </div>
          </section>
        ))}
    </>
  );
}
