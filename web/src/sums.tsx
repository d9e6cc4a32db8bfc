// Sums: each calculation a grower would do by hand, with its inputs, its
// working and where it comes from.
import { useState } from 'preact/hooks';
import { path, useGet } from './api';
import { Field, Said, Sheet, Waiting } from './ui';
import { number, t } from './words';

interface SumKey {
  name: string; unit: string; kind: string; need: string; usual: number | string | null;
  least: number | null; most: number | null; meaning: string; expects: string;
}
interface Sum { name: string; purpose: string; example: string; source: string[]; keys: SumKey[] }
interface List { subjects: { title: string; sums: Sum[] }[] }
interface Answer {
  value: number; low: number; high: number; unit: string;
  also: { name: string; value: number; low: number; high: number; unit: string }[];
  working: string[]; source: string[];
}

export function Sums({ first }: { first: string | null }) {
  const got = useGet<List>('/api/sums');
  const [open, setOpen] = useState<string | null>(first);
  const all = got.data?.subjects.flatMap((s) => s.sums) ?? [];
  const sum = all.find((s) => s.name === open);
  return (
    <>
      <Waiting got={got} />
      {got.data?.subjects.map((subject) => (
        <section key={subject.title}>
          <h2 class="sub"><Said text={subject.title} /></h2>
          <ul class="doors">
            {subject.sums.map((s) => (
              <li key={s.name}><button type="button" onClick={() => setOpen(s.name)}>
                <span><b>{s.name.replace(/-/g, ' ')}</b><small><Said text={s.purpose} /></small></span></button></li>))}
          </ul>
        </section>
      ))}
      {sum !== undefined && <OneSum sum={sum} onClose={() => setOpen(null)} />}
    </>
  );
}

function OneSum({ sum, onClose }: { sum: Sum; onClose: () => void }) {
  const example = Object.fromEntries(sum.example.split(/\s+/).filter((w) => w.includes('='))
    .map((w) => w.split('=') as [string, string]));
  const [facts, setFacts] = useState<Record<string, string>>(example);
  const got = useGet<Answer>(path('/api/sum', { name: sum.name, ...facts }));
  return (
    <Sheet title={sum.name.replace(/-/g, ' ')} onClose={onClose}>
      <p><Said text={sum.purpose} /></p>
      <div class="grid-2">
        {sum.keys.map((key) => (
          <Field key={key.name} foreign label={`${key.meaning}${key.unit === '' ? '' : `, ${key.unit}`}`}
            hint={<Said text={key.expects} />}>
            {(id, described) => <input id={id} aria-describedby={described} type="text" inputMode="decimal" autocomplete="off"
              value={facts[key.name] ?? ''} placeholder={key.usual === null ? '' : String(key.usual)}
              onChange={(e) => setFacts({ ...facts, [key.name]: e.currentTarget.value.trim().replace(',', '.') })} />}
          </Field>
        ))}
      </div>
      <Waiting got={got} />
      {got.data !== null && <WorkingOf answer={got.data} />}
    </Sheet>
  );
}

export function WorkingOf({ answer }: { answer: Answer }) {
  const span = (v: { value: number; low: number; high: number }) => v.low === v.high ? number(v.value, 4)
    : `${number(v.value, 4)} (${number(v.low, 4)} – ${number(v.high, 4)})`;
  return (
    <section aria-live="polite">
      <p class="big"><b>{span(answer)}</b> <bdi>{answer.unit}</bdi></p>
      <table><tbody>{answer.also.map((a) => (
        <tr key={a.name}><th scope="row"><Said text={a.name} /></th><td class="n">{span(a)} <bdi>{a.unit}</bdi></td></tr>))}</tbody></table>
      <h3 class="wrong">{t('working_out')}</h3>
      {answer.working.map((line) => <p class="formula" key={line}><Said text={line} /></p>)}
      <p class="quiet">{t('source')}: <bdi>{answer.source.join(', ')}</bdi></p>
    </section>
  );
}
