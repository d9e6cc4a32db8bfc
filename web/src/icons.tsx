// Our own drawings, one line each: kinds of work, kinds of crop, places.
// All inherit the colour of the text; the word always stands beside.
const LINES: Record<string, string> = {
  // Places of the farm
  round: 'M9 3c0 7 14 7 14 13S9 22 9 29M23 16h5M4 7h5M4 25h5',
  beds: 'M4 8h24v7H4zM4 19h24v7H4zM12 8v7M20 8v7M12 19v7M20 19v7',
  year: 'M4 26V14M10 26V8M16 26V11M22 26V17M28 26V6M3 29h26',
  fish: 'M3 16c6-9 15-9 20 0-5 9-14 9-20 0zM23 16l6-5v10zM9 14.5v.5',
  water: 'M16 3c6 8 9 12 9 16a9 9 0 0 1-18 0c0-4 3-8 9-16zM12 20a4 4 0 0 0 4 4',
  tunnels: 'M3 28V17a13 13 0 0 1 26 0v11M3 28h26M16 4v24M9 28V9M23 28V9',
  orders: 'M4 12h24v16H4zM7 12l3-7h12l3 7M13 12v5h6v-5',
  journal: 'M6 4h17a3 3 0 0 1 3 3v21H9a3 3 0 0 1-3-3zM11 11h10M11 16h10M11 21h6',
  setup: 'M6 28V6M26 28V6M6 10h20M11 10v12h10V10M16 3v7M3 28h26',
  paper: 'M7 3h13l6 6v20H7zM20 3v6h6M11 15h3v3h-3zM11 22h3v3h-3zM17 17h5M17 24h5',
  more: 'M5 9h22M5 16h22M5 23h22',
  person: 'M16 16a6 6 0 1 0 0-12 6 6 0 0 0 0 12zM5 29c1-8 6-10 11-10s10 2 11 10',
  stopped: 'M16 3v12M16 21v1M8 7a11 11 0 1 0 16 0',
  boat: 'M3 18h26l-5 8H8zM16 4v14M16 5l9 10H16M16 8l-7 7h7',
  // Work
  feed: 'M4 12h18a9 9 0 0 1-18 0zM22 12l7-7M10 8v-3M15 7V3',
  look: 'M2 16c7-11 21-11 28 0-7 11-21 11-28 0zM16 20a4 4 0 1 0 0-8 4 4 0 0 0 0 8z',
  read: 'M11 3h10M13 3v20a3 3 0 0 0 6 0V3M13 15h6',
  do: 'M6 17l7 7L27 8',
  pick: 'M4 15h24l-3 13H7zM9 15c0-14 14-14 14 0M12 20v4M16 20v4M20 20v4',
  vent: 'M3 28V17a13 13 0 0 1 26 0M29 17v11M16 28V13M11 18l5-5 5 5',
  dose: 'M9 4h14l-3 6v16a3 3 0 0 1-3 3h-2a3 3 0 0 1-3-3V10zM12 17h8',
  fast: 'M4 12h18a9 9 0 0 1-18 0zM5 27L27 4',
  wash: 'M16 3c3 4 5 6 5 9a5 5 0 0 1-10 0c0-3 2-5 5-9zM4 23c4-3 8 3 12 0s8 3 12 0M4 29c4-3 8 3 12 0s8 3 12 0',
  hold: 'M9 5v22M23 5v22',
  dead: 'M3 16c6-9 15-9 20 0-5 9-14 9-20 0zM23 16l6-5v10zM8 13l4 4M12 13l-4 4',
  note: 'M5 27l2-7L22 5l5 5L12 25zM19 8l5 5',
  photo: 'M3 10h6l3-4h8l3 4h6v16H3zM16 23a5 5 0 1 0 0-10 5 5 0 0 0 0 10z',
  voice: 'M16 3a4 4 0 0 0-4 4v8a4 4 0 0 0 8 0V7a4 4 0 0 0-4-4zM7 14a9 9 0 0 0 18 0M16 23v6',
  help: 'M12 12a4 4 0 1 1 6 3.500c-2 1-2 2-2 4M16 24v.5M16 30a14 14 0 1 0 0-28 14 14 0 0 0 0 28z',
  count: 'M6 6v20M12 6v20M18 6v20M24 6v20M3 22L28 10',
  move: 'M4 22c6-7 10-7 13-3M28 10l-8 0M28 10l0 8M28 10L17 21',
  sow: 'M4 22h24M8 22v4M16 22v4M24 22v4M16 18v-7M16 11c-5 0-7-3-7-6 5 0 7 2 7 6zM16 13c4 0 6-2 7-6-5 0-7 3-7 6z',
  undo: 'M4 16h24',
  minus: 'M6 16h20',
  plus: 'M6 16h20M16 6v20',
  next: 'M11 5l11 11-11 11',
  back: 'M21 5L10 16l11 11',
  close: 'M7 7l18 18M25 7L7 25',
  print: 'M9 11V4h14v7M9 23H4V11h24v12h-5M9 19h14v10H9z',
  search: 'M14 24a10 10 0 1 0 0-20 10 10 0 0 0 0 20zM21 21l8 8',
  // Crops
  head: 'M16 28c-8 0-12-5-11-11 1-7 6-12 11-13 5 1 10 6 11 13 1 6-3 11-11 11zM16 28V12M16 21l-6-6M16 21l6-6',
  leaf: 'M6 27C4 13 12 5 27 5c1 15-7 22-18 20M6 29c3-8 8-13 14-17',
  herb: 'M16 29V9M16 13c-5 0-8-3-8-7 5 0 8 3 8 7zM16 20c5 0 8-3 8-7-5 0-8 3-8 7zM16 25c-5 0-8-3-8-7 5 0 8 3 8 7z',
  stalk: 'M11 29V12M16 29V10M21 29V12M11 12c-5-1-5-7-3-8 3 0 4 4 3 8zM21 12c5-1 5-7 3-8-3 0-4 4-3 8zM16 10c-3-3-2-7 0-8 2 1 3 5 0 8z',
  flower: 'M16 19a3 3 0 1 0 0-6 3 3 0 0 0 0 6zM16 13c-4-3-3-9 0-9s4 6 0 9zM16 19c-4 3-3 9 0 9s4-6 0-9zM13 16c-3-4-9-3-9 0s6 4 9 0zM19 16c3-4 9-3 9 0s-6 4-9 0z',
  long: 'M7 25C4 21 16 5 22 6c6 2-3 16-9 20-3 2-5 1-6-1zM22 6l4-3M12 20l1 1M16 15l1 1',
  ball: 'M16 28a11 10 0 1 0 0-20 11 10 0 0 0 0 20zM16 8c-3-3-6-2-7-1 2 2 5 3 7 1zM16 8c3-3 6-2 7-1-2 2-5 3-7 1zM16 8V3',
  floret: 'M12 18v10h8V18M10 18a5 5 0 0 1-2-9 6 6 0 0 1 8-4 6 6 0 0 1 8 4 5 5 0 0 1-2 9z',
};

const CROPS: [RegExp, string][] = [
  [/fish|tilapia|carp|trout/, 'fish'], [/lettuce-head|head-lettuce/, 'head'],
  [/cucumber|courgette|aubergine/, 'long'], [/tomato|pepper|paprika/, 'ball'],
  [/broccoli|cauliflower/, 'floret'], [/celery|chard/, 'stalk'],
  [/flower|viola|borage|tagetes|nasturtium|marigold/, 'flower'],
  [/basil|parsley|coriander|thyme|herb/, 'herb'],
];
/** The picture of a crop, way or product by its id. */
export const cropIcon = (id: string) =>
  CROPS.find(([like]) => like.test(id))?.[1] ?? 'leaf';

export function Icon({ name, size = 26 }: { name: string; size?: number }) {
  return (
    <svg class="icon" viewBox="0 0 32 32" width={size} height={size}
      aria-hidden="true" focusable="false">
      <path d={LINES[name] ?? LINES['leaf']} />
    </svg>
  );
}
