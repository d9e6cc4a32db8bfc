// The shape of the foreseen weeks, shared by the pages that show them.
export interface Span { low: number[]; value: number[]; high: number[] }
export interface Foreseen {
  from: string; weeks: string[]; notices: string[]; sale_g: number;
  feed_short_ratio: number; feed_over_ratio: number; // of what beds want: short below, over above
  tunnels: { id: string; mean_degc: number[]; min_degc: number[]; max_degc: number[]; dli_mol: number[]; heater_kwh: number[] }[];
  loops: { id: string; water_degc: number[]; water_min_degc: number[]; water_max_degc: number[];
    feed_offered_kg: number[]; feed_wanted_kg: number[]; feed_ratio: number[] }[];
  tanks: { id: string; loop: string | null; water_degc: number[]; count: number[]; kg: number[]; mean_g: number[];
    cv_frac: number[]; density_kg_m3: number[]; feed_kg: number[]; over_density_week: string | null; over_air_week: string | null }[];
  fish: { id: string; species: string; standing: boolean; count: number[]; kg: number[]; mean_g: number[]; cv_frac: number[];
    over_count: number[]; ready_early: string | null; ready_on: string | null; ready_late: string | null;
    sold_count: number; sold_kg: number; tanks: { id: string; count: number[]; kg: number[]; mean_g: number[] }[] }[];
  ways: { id: string; unit: string; low: number[]; value: number[]; high: number[] }[];
  plants: Plant[];
}
export interface Plant {
  id: string; way: string; bed: string; place: 'floor' | 'edge'; standing: boolean; planned: boolean; plants: number;
  sow_on: string; emerge_on: string | null; set_on: string; pick_early: string | null; pick_on: string | null;
  pick_late: string | null; last_pick_on: string | null; clear_on: string; trouble: string;
}
/** A few letters that stand for a way: "head lettuce" from "lettuce-head". */
export const wayName = (way: string) => way.replace(/-/g, ' ');
