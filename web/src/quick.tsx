// Something else at a stop: large tiles, then the form of what was chosen;
// notes, photos and voice are kept as they are.
import { useRef, useState } from 'preact/hooks';
import { Icon } from './icons';
import { KINDS, kindOf, type Kind } from './kinds';
import { keepBlob, tell } from './outbox';
import { TellForm } from './tellform';
import { Button, Sheet } from './ui';
import { t, word } from './words';

const TILES = ['seen', 'died', 'read', 'fed', 'picked', 'scouted', 'vented', 'event', 'worked'];

export function Quick(props: {
  stop: string; name: string; places: string[]; onClose: () => void;
}) {
  const [kind, setKind] = useState<Kind | null>(null);
  const [more, setMore] = useState(false);
  const [voice, setVoice] = useState(false);
  const names = more ? KINDS.map((k) => k.name) : TILES;
  const title = kind === null ? props.name : word('kind', kind.name);
  return (
    <Sheet title={title} onClose={props.onClose}>
      {kind !== null
        ? <TellForm kind={kind} preset={{ stop: props.stop }} places={props.places}
          onTold={props.onClose} />
        : voice ? <Voice stop={props.stop} place={props.places[0]} onDone={props.onClose} />
          : (
            <div class="tiles">
              <Photo stop={props.stop} place={props.places[0]} onDone={props.onClose} />
              {canRecord() &&
                <button type="button" class="tile" onClick={() => setVoice(true)}>
                  <Icon name="voice" size={32} /> {t('voice')}</button>}
              <button type="button" class="tile" onClick={async () => {
                await tell([{ kind: 'seen', stop: props.stop, cause: 'not_as_usual',
                  text: t('someone_look_text') }]);
                props.onClose();
              }}><Icon name="help" size={32} /> {t('someone_look')}</button>
              {names.map((name) => {
                const one = kindOf(name);
                return one === undefined ? null : (
                  <button type="button" class="tile" key={name} onClick={() => setKind(one)}>
                    <Icon name={one.icon} size={32} /> {word('kind', name)}
                  </button>
                );
              })}
              {!more && <button type="button" class="tile" onClick={() => setMore(true)}>
                <Icon name="more" size={32} /> {t('everything_else')}</button>}
            </div>
          )}
    </Sheet>
  );
}

interface Noted { stop: string; place: string | undefined; onDone: () => void }
async function tellBlob(props: Noted, blob: Blob, text: string) {
  const name = await keepBlob(blob);
  await tell([{ kind: 'seen', stop: props.stop, blob: name, text,
    ...(props.place === undefined ? {} : { place: props.place }) }]);
  props.onDone();
}

function Photo(props: Noted) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <input ref={input} type="file" accept="image/*" capture="environment"
        class="away" tabIndex={-1} aria-hidden="true" onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          if (file !== undefined) void tellBlob(props, file, t('photo'));
        }} />
      <button type="button" class="tile" onClick={() => input.current?.click()}>
        <Icon name="photo" size={32} /> {t('photo')}
      </button>
    </>
  );
}

const canRecord = () => typeof MediaRecorder !== 'undefined' &&
  navigator.mediaDevices !== undefined;

function Voice(props: Noted) {
  const [recorder, setRecorder] = useState<MediaRecorder | null>(null);
  const [trouble, setTrouble] = useState(false);
  const start = async () => {
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      const next = new MediaRecorder(stream);
      const parts: Blob[] = [];
      next.ondataavailable = (e) => parts.push(e.data);
      next.onstop = () => {
        for (const track of stream.getTracks()) track.stop();
        void tellBlob(props, new Blob(parts, { type: next.mimeType }), t('voice'));
      };
      next.start();
      setRecorder(next);
    } catch {
      setTrouble(true);
    }
  };
  return (
    <div class="ask">
      {trouble ? <p>{t('no_microphone')}</p>
        : recorder === null
          ? <Button class="button is-strong" onClick={start}><Icon name="voice" /> {t('speak_now')}</Button>
          : <Button class="button is-strong" onClick={() => recorder.stop()}>
            <Icon name="do" /> {t('said_it')}</Button>}
    </div>
  );
}
