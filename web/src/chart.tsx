// A place for a chart: its words first, then the drawing, then the same figures
// as a table. The drawing library is fetched when the first chart is shown.
import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { Figures } from './ui';
import { t } from './words';

type Plot = typeof import('./plot');
export type Draw = (plot: Plot, width: number) => SVGElement | HTMLElement;

let library: Promise<Plot> | null = null;

export function Chart(props: {
  title: string;
  words: ComponentChildren; // what the drawing shows, said
  draw: Draw;
  keys: unknown[]; // drawn anew when one of them changes
  heads: string[];
  rows: (string | number | null)[][];
}) {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const [plot, setPlot] = useState<Plot | null>(null);
  useEffect(() => {
    library ??= import('./plot');
    library.then((p) => setPlot(() => p), () => {});
    const node = box.current;
    if (node === null) return undefined;
    const watch = new ResizeObserver(() => setWidth(Math.floor(node.clientWidth)));
    watch.observe(node);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    const node = box.current;
    if (node === null || plot === null || width < 50) return;
    const drawn = props.draw(plot, width);
    // Its own style element is against the page's policy; app.css has it.
    for (const style of drawn.querySelectorAll('style')) style.remove();
    drawn.setAttribute('aria-hidden', 'true');
    node.replaceChildren(drawn);
  }, [plot, width, ...props.keys]);
  return (
    <figure class="chart">
      <figcaption><h2>{props.title}</h2><div class="chart-words">{props.words}</div></figcaption>
      <div class="chart-box" ref={box} />
      <Figures summary={t('figures_of', { title: props.title })} heads={props.heads}
        rows={props.rows} />
    </figure>
  );
}

/** The two patterns that stand for short and over, once a page. */
export function Patterns() {
  return (
    <svg width="0" height="0" class="away" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)">
          <rect width="6" height="6" class="hatch-ground" />
          <rect width="2.6" height="6" class="hatch-line" />
        </pattern>
        <pattern id="dots" width="6" height="6" patternUnits="userSpaceOnUse">
          <rect width="6" height="6" class="dots-ground" />
          <circle cx="2" cy="2" r="1.5" class="dots-dot" />
        </pattern>
      </defs>
    </svg>
  );
}
export function Mark({ kind, children }: { kind: 'kept' | 'short' | 'over'; children: ComponentChildren }) {
  return <span class={`mark is-${kind}`}>{children}</span>;
}
