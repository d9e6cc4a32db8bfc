// Me: the language and units that this person likes, and what this device can.
import type { PageProps } from './app';
import { prefer, signOut, useFarm } from './farm';
import { Icon } from './icons';
import { systemNow, type System } from './units';
import { Button, Title } from './ui';
import { languageCode, LANGUAGES, t, useLanguage, word } from './words';

export function Me(_: PageProps) {
  const { me } = useFarm();
  const now = useLanguage();
  const language = LANGUAGES.find((l) => l.code === now);
  return (
    <>
      <Title of="me">{me?.name !== undefined && me.name !== ''
        ? <><bdi>{me.name}</bdi> · {word('role', me.role)}</> : undefined}</Title>
      <fieldset class="tiles languages">
        <legend>{t('language')}</legend>
        {LANGUAGES.map((l) => (
          <button type="button" key={l.code} lang={l.code} dir={l.dir}
            class={l.code === now ? 'tile is-on' : 'tile'} aria-pressed={l.code === now}
            onClick={() => prefer(l.code, systemNow())}>
            {l.name}{l.isDraft && <small lang={now}>{t('draft')}</small>}
          </button>
        ))}
      </fieldset>
      {language?.isDraft === true && <p class="quiet">{t('draft_more')}</p>}
      {now !== 'en' && <p class="quiet">{t('said_in_english')}</p>}
      <fieldset class="tiles">
        <legend>{t('units')}</legend>
        {(['metric', 'us'] as System[]).map((system) => (
          <button type="button" key={system} aria-pressed={system === systemNow()}
            class={system === systemNow() ? 'tile is-on' : 'tile'}
            onClick={() => prefer(languageCode(), system)}>{word('units', system)}</button>
        ))}
      </fieldset>
      <section class="card">
        <h2>{t('without_signal')}</h2>
        <p>{isSecureContext && 'serviceWorker' in navigator
          ? t('opens_offline') : t('lives_with_tab')}</p>
      </section>
      {me !== null && me.role !== 'owner_here' && me.name !== '' &&
        <Button onClick={signOut}><Icon name="person" /> {t('sign_out')}</Button>}
    </>
  );
}
