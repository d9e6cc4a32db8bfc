// Feed by week: what is given as an area, what the beds want as a broken line.
import type { ComponentChildren } from 'preact';
import { Chart } from './chart';
import { dayShort, t } from './words';

export interface FeedWeek { day: string; given: number; wanted: number }

export function FeedChart({ title, words, weeks, keys, children }: {
  title: string; words: ComponentChildren; weeks: FeedWeek[]; keys: unknown[]; children?: ComponentChildren;
}) {
  const points = weeks.map((w) => ({ ...w, day: new Date(w.day) }));
  return (
    <>
      <Chart title={title} keys={keys} words={words}
        draw={(plot, width) => plot.plot({
          width, height: 230, marginLeft: 44, style: { fontSize: '13px' }, x: { type: 'utc', label: null }, y: { label: 'kg', grid: true, zero: true },
          marks: [
            plot.areaY(points, { x: 'day', y: 'given', fill: 'var(--pale)' }),
            plot.lineY(points, { x: 'day', y: 'given', stroke: 'var(--water)', strokeWidth: 2.5 }),
            plot.lineY(points, { x: 'day', y: 'wanted', stroke: 'var(--short)', strokeWidth: 2, strokeDasharray: '6 4' }),
          ],
        })}
        heads={[t('week_of'), t('given'), t('beds_want')]}
        rows={weeks.map((w) => [dayShort(w.day), w.given, w.wanted])} />
      <p class="legend"><span class="key key-line" /> {t('given')} <span class="key key-dash" /> {t('beds_want')} (kg) {children}</p>
    </>
  );
}
