// The emergency card: what to do, in order, when something stops. Needs no
// sign-in; every card is fetched while there is signal and kept, so that it
// opens without. Its first line is about the plug, not the fish. It says it is
// no countdown, and shows ranges.
import { useEffect, useState } from 'preact/hooks';
import type { PageProps } from './app';
import { get, path, useGet, printed } from './api';
import { today, useFarm } from './farm';
import { Icon } from './icons';
import { tell } from './outbox';
import { Button, Dial, Plate, Said, Sheet, Title, Waiting } from './ui';
import { number, t, word } from './words';

interface Span { low: number | null; high: number | null }
interface CardTank {
  id: string; fish_kg: Span; has_air: boolean;
  with_air: { act_min: Span } | null; // null: it has none, or no fish
  without_air: { act_min: Span; gasp_min: Span; dying_min: Span } | null;
}
interface CardData {
  title: string; when: string; notices: string[]; tanks: CardTank[];
  steps: { title: string; lines: string[] }[];
}
interface Stops {
  name: string;
  stops: { what: string; id: string; ask: string; loop?: string | null; tank?: string | null }[];
  contacts: { turn: number; name: string; role: string; phone: string }[];
}

/** Fetches every card, so that it is there when there is no signal. */
export async function keepCards(): Promise<void> {
  try {
    const { data } = await get<Stops>('/api/emergency');
    for (const stop of data.stops) await get(`/api/card?${stop.ask}`);
  } catch { /* the next start tries again */ }
}

const ASKS = ['pump', 'heater', 'aerator', 'power'] as const;

export function Card({ facts }: PageProps) {
  const asked = ASKS.map((what) => [what, facts.get(what)] as const)
    .find(([, id]) => id !== null);
  return asked === undefined ? <WhatStopped />
    : <OneCard what={asked[0]} id={asked[1] ?? ''} />;
}

function WhatStopped() {
  const got = useGet<Stops>('/api/emergency');
  return (
    <>
      <Title of="what_stopped" />
      <p class="plug"><b>{t('water_and_plug')}</b></p>
      <Waiting got={got} />
      {got.data !== null && (
        <ul class="doors">
          {got.data.stops.map((s) => (
            <li key={s.ask}><a href={`#/card?${s.ask}`}>
              <Icon name="stopped" size={34} />
              <span><b>{word('stop', s.what)} {s.what !== 'power' && <Plate id={s.id} />}</b>
                <small>{[s.loop, s.tank].filter((x) => x != null).join(' · ')}</small></span>
              <Icon name="next" />
            </a></li>
          ))}
        </ul>
      )}
      {got.data !== null && <Ring stops={got.data} />}
    </>
  );
}

function OneCard({ what, id }: { what: string; id: string }) {
  const [more, setMore] = useState<Record<string, number | string>>({});
  const [asking, setAsking] = useState(false);
  const got = useGet<CardData>(path('/api/card', { [what]: id, ...more }));
  const stops = useGet<Stops>('/api/emergency');
  const card = got.data;
  useEffect(() => { document.title = `${card?.title ?? t('stopped')} · Leat`; });
  if (card === null) return <><Title of="stopped" /><Waiting got={got} /></>;
  return (
    <>
      <header class="title">
        <h1 tabIndex={-1}><Said text={card.title} /></h1>
        <p class="under"><Said text={card.when} /></p>
      </header>
      <Waiting got={got} />
      <ol class="steps">
        {card.steps.map((step, i) => (
          <li key={step.title} class={i === 0 ? 'step is-first' : 'step'}>
            <h2><span class="step-n">{i + 1}</span> <Said text={step.title} /></h2>
            <StepBody step={step} card={card} stops={stops.data} />
          </li>
        ))}
      </ol>
      <p class="quiet"><Said text={card.notices.join(' ')} /></p>
      <div class="row-buttons">
        <Button class="button is-strong" onClick={() => setAsking(true)}>
          <Icon name="read" /> {t('ask_with_now')}</Button>
        <Logged what={what} id={id} />
        <a class="button" href={printed('/print/card', { [what]: id })} target="_blank" rel="noopener">
          <Icon name="print" /> {t('print')}</a>
        <a class="button" href="#/card">{t('something_else_stopped')}</a>
      </div>
      {asking && <AskNow tanks={card.tanks.map((x) => x.id)}
        onClose={() => setAsking(false)}
        onAsk={(facts) => { setMore(facts); setAsking(false); }} />}
    </>
  );
}

const isTable = (line: string) => /\S {2,}\S/.test(line) || /^ {3}/.test(line);
function StepBody(props: {
  step: { title: string; lines: string[] }; card: CardData; stops: Stops | null;
}) {
  const { step, card, stops } = props;
  // Rows are known by their cells, not by words: those are of any language.
  const lines = step.lines.map((l) => l.replace(/[\u2066-\u2069]/g, ''));
  const hasTanks = lines.some((l) => card.tanks.some(
    (x) => l.startsWith(`${x.id.slice(0, 8).padEnd(8)} `)));
  const hasPhones = lines.some((l) => /^\d+ {2}/.test(l));
  const drops = (l: string) => isTable(l) && (hasTanks || (hasPhones && stops !== null));
  return (
    <>
      {hasTanks && <HowLong tanks={card.tanks} />}
      {hasPhones && stops !== null && <Ring stops={stops} bare />}
      {lines.filter((l) => !drops(l)).map((line) => <p key={line}><Said text={line} /></p>)}
    </>
  );
}

/** Minutes as people say them, never finer than they are known. */
function span(minutes: Span | undefined): string {
  if (minutes === undefined) return '–';
  const say = (m: number) => m < 90 ? `${number(Math.max(5, Math.floor(m / 5) * 5), 0)} min`
    : m < 2880 ? `${number(Math.floor(m / 30) / 2, m < 600 ? 1 : 0)} h`
      : t('n_days', { n: Math.floor(m / 1440) });
  if (minutes.low === null) return t('holds');
  return minutes.high === null ? `${say(minutes.low)} +`
    : `${say(minutes.low)} – ${say(minutes.high)}`;
}

function HowLong({ tanks }: { tanks: CardTank[] }) {
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={t('how_long')}>
      <table>
        <thead><tr><th scope="col">{t('where.tank')}</th><th scope="col">{t('air_runs')}</th>
          <th scope="col">{t('no_air_act')}</th><th scope="col">{t('no_air_gasp')}</th></tr></thead>
        <tbody>
          {tanks.map((tank) => (
            <tr key={tank.id}><th scope="row"><Plate id={tank.id} /></th>
              <td>{tank.has_air ? span(tank.with_air?.act_min) : t('has_no_air')}</td>
              <td><b>{span(tank.without_air?.act_min)}</b></td>
              <td>{span(tank.without_air?.gasp_min)}</td></tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Ring({ stops, bare }: { stops: Stops; bare?: boolean }) {
  return (
    <section>
      {bare !== true && <h2 class="sub">{t('ring')}</h2>}
      <ol class="ring">
        {[...stops.contacts].sort((a, b) => a.turn - b.turn).map((c) => (
          <li key={c.turn}><a class="button" href={`tel:${(c.phone ?? '').replace(/\s/g, '')}`}>
            <bdi>{c.name}</bdi> <bdi dir="ltr">{c.phone}</bdi></a>
          <Said class="quiet" text={c.role ?? ''} /></li>
        ))}
      </ol>
      <p>{t('hurt_first')}</p>
    </section>
  );
}

/** The log is made by one tap; it needs a person who is known. */
function Logged({ what, id }: { what: string; id: string }) {
  const { me } = useFarm();
  const [done, setDone] = useState(false);
  if (me === null) return null;
  if (done) return <p role="status" class="told-line"><Icon name="do" /> {t('told')}</p>;
  return (
    <Button onClick={async () => {
      const cause = what === 'pump' ? 'pump_stopped' : what === 'aerator' ? 'air_stopped'
        : what === 'heater' ? 'heat_off' : 'power_off';
      await tell([{ kind: 'event', cause, happened_on: today(),
        ...(what === 'power' ? {} : { place: id }) }]);
      setDone(true);
    }}><Icon name="note" /> {t('tell_stopped')}</Button>
  );
}

function AskNow(props: {
  tanks: string[]; onClose: () => void;
  onAsk: (facts: Record<string, number | string>) => void;
}) {
  const [tank, setTank] = useState(props.tanks[0] ?? '');
  const [oxygen, setOxygen] = useState<number | null>(5);
  const [temp, setTemp] = useState<number | null>(22);
  const [fed, setFed] = useState<number | null>(6);
  return (
    <Sheet title={t('ask_with_now')} onClose={props.onClose}>
      <div class="tiles">
        {props.tanks.map((id) => (
          <button type="button" key={id} class={id === tank ? 'tile is-on' : 'tile'}
            aria-pressed={id === tank} onClick={() => setTank(id)}><Plate id={id} /></button>
        ))}
      </div>
      <Dial label={t('quantity.oxygen_mg_l')} unit="mg_l" value={oxygen} onChange={setOxygen} least={0} />
      <Dial label={t('quantity.temp_degc')} unit="degc" value={temp} onChange={setTemp} />
      <Dial label={t('fed_hours_ago')} unit="h" value={fed} onChange={setFed} least={0} step={1} />
      <div class="sheet-foot">
        <Button class="button is-strong" onClick={() => props.onAsk({
          tank, ...(oxygen === null ? {} : { oxygen_mg_l: oxygen }),
          ...(temp === null ? {} : { temp_degc: temp }),
          ...(fed === null ? {} : { fed_hours_ago: fed }),
        })}>{t('answer')}</Button>
      </div>
    </Sheet>
  );
}
