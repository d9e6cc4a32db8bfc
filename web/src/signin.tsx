// Who are you? Asked only where the farm is open to the local network.
import { useState } from 'preact/hooks';
import type { PageProps } from './app';
import { ask, type Refused } from './api';
import { meetFarm } from './farm';
import { send } from './outbox';
import { Button, Field, Said, Title } from './ui';
import { t } from './words';

export function SignIn(_: PageProps) {
  const [name, setName] = useState('');
  const [passphrase, setPassphrase] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const enter = async () => {
    try {
      await ask('POST', '/api/login', { name, passphrase });
      setFault(null);
      await meetFarm();
      await send();
    } catch (error) {
      setFault((error as Refused).message);
    }
  };
  return (
    <>
      <Title of="who_are_you">{t('card_needs_none')}</Title>
      <form class="narrow" onSubmit={(e) => { e.preventDefault(); void enter(); }}>
        <Field label={t('name')}>
          {(id) => <input id={id} type="text" autocomplete="username" required value={name}
            onInput={(e) => setName(e.currentTarget.value)} />}
        </Field>
        <Field label={t('passphrase')}>
          {(id) => <input id={id} type="password" autocomplete="current-password" required
            value={passphrase} onInput={(e) => setPassphrase(e.currentTarget.value)} />}
        </Field>
        {fault !== null && <p class="bad" role="alert"><Said text={fault} /></p>}
        <Button class="button is-strong" onClick={enter}>{t('come_in')}</Button>
      </form>
    </>
  );
}
