// The drawing that the pages are built on: the leat, a channel that runs down
// the page through the stops of the walk. Where a stop is told, its reach
// carries water; where it is not, the bed of the channel lies dry.

/** One reach of the channel beside a stop, bending to the one side and then
 * to the other. Its height follows the stop's. */
export function Reach({ wet, turn }: { wet: boolean; turn: number }) {
  const side = turn % 2 === 0 ? 13 : 35;
  const course = `M24 0C24 22 ${side} 24 ${side} 50S24 78 24 100`;
  return (
    <svg class={wet ? 'reach is-wet' : 'reach'} viewBox="0 0 48 100"
      preserveAspectRatio="none" aria-hidden="true" focusable="false">
      <path class="bank" d={course} />
      <path class="dry" d={course} />
      <path class="pebbles" d={course} />
      <path class="flow" d={course} pathLength={100} />
      <path class="glint" d={course} />
    </svg>
  );
}

/** The basin at a stop: round where one only looks, square for the hands. */
export function Basin(props: { wet: boolean; hands: boolean; n: number; now: boolean }) {
  const shape = props.hands ? 'basin is-square' : 'basin';
  return (
    <span class={`${shape}${props.wet ? ' is-wet' : ''}${props.now ? ' is-now' : ''}`}
      aria-hidden="true">
      {props.wet
        ? <svg viewBox="0 0 32 32" width="22" height="22" class="icon"><path d="M6 17l7 7L27 8" /></svg>
        : props.n}
    </span>
  );
}
