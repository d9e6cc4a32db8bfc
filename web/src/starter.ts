// What the first hour begins with where nothing is known yet. Every number here
// is a starting guess (common practice, no source) that the page shows as a guess and
// the owner replaces; what a crop needs comes from the book, not from here.
import { ask, path } from './api';
import { today } from './farm';
import type { TableRow } from './tables';

export interface StarterCrop {
  way: string; crop: string; name: string; unit: string; unit_g: number; tray: string; edge?: boolean; price: number;
}
export const STARTER_CROPS: StarterCrop[] = [
  { way: 'lettuce-head', crop: 'lettuce', name: 'head lettuce', unit: 'head', unit_g: 200, tray: 't128', price: 1.5 },
  { way: 'lettuce-leaf', crop: 'lettuce', name: 'leaf lettuce', unit: 'kg', unit_g: 1000, tray: 't128', price: 12 },
  { way: 'rocket-cut', crop: 'rocket', name: 'rocket', unit: 'kg', unit_g: 1000, tray: '', price: 16 },
  { way: 'chard-bunch', crop: 'chard', name: 'chard', unit: 'bunch', unit_g: 300, tray: 't72', price: 2.5 },
  { way: 'spinach-leaf', crop: 'spinach', name: 'spinach', unit: 'bag', unit_g: 200, tray: 't128', price: 2.8 },
  { way: 'basil-bunch', crop: 'basil', name: 'basil', unit: 'bunch', unit_g: 40, tray: 't72', price: 2 },
  { way: 'parsley-bunch', crop: 'parsley', name: 'parsley', unit: 'bunch', unit_g: 50, tray: 't128', price: 1.6 },
  { way: 'coriander-bunch', crop: 'coriander', name: 'coriander', unit: 'bunch', unit_g: 40, tray: '', price: 1.7 },
  { way: 'celery-head', crop: 'celery', name: 'celery', unit: 'head', unit_g: 600, tray: 't128', price: 3 },
  { way: 'viola-flower', crop: 'viola', name: 'viola', unit: 'tub', unit_g: 9, tray: 't128', price: 7 },
  { way: 'cucumber-edge', crop: 'cucumber', name: 'cucumber', unit: 'fruit', unit_g: 450, tray: 't50', edge: true, price: 1.4 },
  { way: 'tomato-edge', crop: 'tomato', name: 'tomato', unit: 'kg', unit_g: 1000, tray: 't50', edge: true, price: 4.5 },
];

/** Mean daily sun of a month where only its temperatures are known: the sum of
 * that name knows how. */
async function sunOf(latitude_deg: number, month: number, tmax_degc: string, tmin_degc: string) {
  const answer = await ask<{ value: number }>('GET', path('/api/sum', {
    name: 'sun-from-temperatures', latitude_deg, date: `${today().slice(0, 4)}-${String(month).padStart(2, '0')}-15`,
    temp_max_degc: tmax_degc, temp_min_degc: tmin_degc,
  }));
  return answer.value.toFixed(1);
}

/** Twelve months between the coldest (January, or July in the south) and the
 * warmest, along a cosine: a guess until normals of a station replace it. */
export async function climateRows(
  latitude_deg: number, warm: { high: number; low: number }, cold: { high: number; low: number },
): Promise<TableRow[]> {
  const coldest = latitude_deg >= 0 ? 1 : 7;
  return Promise.all(Array.from({ length: 12 }, async (_, i) => {
    const share = (1 - Math.cos((2 * Math.PI * (i + 1 - coldest)) / 12)) / 2;
    const tmax_degc = (cold.high + share * (warm.high - cold.high)).toFixed(1);
    const tmin_degc = (cold.low + share * (warm.low - cold.low)).toFixed(1);
    return { month: String(i + 1), tmax_degc, tmin_degc, sun_mj_m2_d: await sunOf(latitude_deg, i + 1, tmax_degc, tmin_degc) };
  }));
}

export interface Counts {
  tunnels: number; tunnel_length_m: number; tunnel_width_m: number; rows: number; beds_in_row: number;
  bed_length_m: number; bed_width_m: number; has_edge: boolean; tanks: number; tank_m3: number; sump_m3: number; flow_m3_h: number;
}
const SIDES: Record<number, string[]> = {
  1: ['middle'], 2: ['south', 'north'], 3: ['south', 'middle', 'north'],
};

/** Beds, tanks and what joins them, from counts alone: one loop, one pump, a
 * zone for each row of a tunnel. */
export function plantTables(counts: Counts): [string, TableRow[]][] {
  const tunnels: TableRow[] = [];
  const zones: TableRow[] = [];
  const beds: TableRow[] = [];
  for (let n = 1; n <= counts.tunnels; n++) {
    const tunnel = `H${n}`;
    tunnels.push({
      id: tunnel, length_m: String(counts.tunnel_length_m), width_m: String(counts.tunnel_width_m), cover: 'pe-single',
      vent_m2: String(Math.round(counts.tunnel_length_m * counts.tunnel_width_m * 0.2)), walk: String(100 * n),
    });
    (SIDES[counts.rows] ?? SIDES[3] ?? []).forEach((side, r) => {
      const zone = `${tunnel}-${side}`;
      zones.push({ id: zone, loop: 'loop-1', pump: 'pump-1', turn: String(zones.length + 1), minutes: '15' });
      for (let b = 1; b <= counts.beds_in_row; b++) {
        const isEdge = counts.has_edge && r === 0;
        beds.push({
          id: `${tunnel}-${(side[0] ?? 'b').toUpperCase()}${b}`, tunnel, side, zone, walk: String(100 * n + 20 * r + b),
          length_m: String(counts.bed_length_m), width_m: String(counts.bed_width_m), depth_m: '0.30', flood_m: '0.25',
          gravel: 'gravel-8-20', ...(isEdge ? { edge: 'sunny', edge_m: String(counts.bed_length_m) } : {}),
        });
      }
    });
  }
  const tanks = Array.from({ length: counts.tanks }, (_, i) => ({
    id: String.fromCharCode(65 + i), loop: 'loop-1', use: 'grow', volume_m3: String(counts.tank_m3), batches: '2', walk: String(10 + i),
  }));
  return [
    ['tunnels', tunnels],
    ['loops', [{ id: 'loop-1', sump_m3: String(counts.sump_m3), source: 'mains' }]],
    ['pumps', [{ id: 'pump-1', loop: 'loop-1', flow_m3_h: String(counts.flow_m3_h), tanks_frac: '0.33' }]],
    ['zones', zones], ['tanks', tanks],
    ['aerators', [{ id: 'blower-1', loop: 'loop-1', power_w: '100' }]],
    ['beds', beds],
  ];
}
