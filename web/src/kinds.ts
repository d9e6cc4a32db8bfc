// What can be told, and what each kind asks for: the forms of Tell and the
// tiles of a stop are made from this table. The server's own table of kinds
// decides; a field that it does not know for a kind must not stand here.

export type FieldName = 'place' | 'to_place' | 'batch' | 'way' | 'product' |
  'lot' | 'count' | 'mean_g' | 'grams' | 'quantity' | 'reading' | 'cause' |
  'supplier' | 'buyer' | 'minutes' | 'text' | 'share' | 'on';

export interface Kind {
  name: string;
  icon: string;
  group: 'plants' | 'fish' | 'water' | 'day';
  where: 'bed' | 'tank' | 'loop' | 'tunnel' | 'water' | 'any' | 'none';
  fields: FieldName[]; // in the order asked
  needs: FieldName[];
  causes?: string[]; // words of the catalogue, "cause.x"; others may be typed
  product?: 'feed' | 'base' | 'product';
}

export const KINDS: Kind[] = [
  { name: 'picked', icon: 'pick', group: 'plants', where: 'bed', product: 'product',
    fields: ['place', 'batch', 'quantity', 'buyer', 'text'], needs: ['place', 'quantity'] },
  { name: 'sown', icon: 'sow', group: 'plants', where: 'none',
    fields: ['way', 'batch', 'count', 'lot', 'text'], needs: ['count'] },
  { name: 'emerged', icon: 'count', group: 'plants', where: 'none',
    fields: ['batch', 'count', 'text'], needs: ['batch', 'count'] },
  { name: 'set', icon: 'leaf', group: 'plants', where: 'bed',
    fields: ['way', 'batch', 'place', 'count', 'text'], needs: ['place'] },
  { name: 'pruned', icon: 'leaf', group: 'plants', where: 'bed',
    fields: ['place', 'minutes', 'text'], needs: ['place'] },
  { name: 'cleared', icon: 'beds', group: 'plants', where: 'bed',
    fields: ['place', 'batch', 'cause', 'text'], needs: ['place'],
    causes: ['finished', 'bolted', 'mildew', 'pests', 'unsold'] },
  { name: 'cleaned', icon: 'wash', group: 'plants', where: 'bed',
    fields: ['place', 'minutes', 'text'], needs: ['place'] },
  { name: 'flooded', icon: 'water', group: 'plants', where: 'bed',
    fields: ['place', 'text'], needs: ['place'] },
  { name: 'scouted', icon: 'search', group: 'plants', where: 'bed',
    fields: ['place', 'cause', 'count', 'text'], needs: ['place', 'cause'],
    causes: ['aphids', 'whitefly', 'thrips', 'mites', 'slugs', 'mildew', 'grey_mould', 'none_seen'] },
  { name: 'sprayed', icon: 'hold', group: 'plants', where: 'bed',
    fields: ['place', 'product', 'quantity', 'cause', 'lot', 'text'], needs: ['place', 'product'] },
  { name: 'released', icon: 'flower', group: 'plants', where: 'bed',
    fields: ['place', 'product', 'count', 'supplier', 'text'], needs: ['place', 'product'] },
  { name: 'fed', icon: 'feed', group: 'fish', where: 'tank', product: 'feed',
    fields: ['place', 'grams', 'lot', 'text'], needs: ['place', 'grams'] },
  { name: 'died', icon: 'dead', group: 'fish', where: 'tank',
    fields: ['place', 'count', 'batch', 'cause', 'text'], needs: ['place', 'count'],
    causes: ['not_known', 'hurt', 'oxygen', 'cold', 'sick', 'jumped', 'bird_or_rat'] },
  { name: 'graded', icon: 'move', group: 'fish', where: 'tank',
    fields: ['place', 'batch', 'cause', 'count', 'mean_g', 'to_place', 'text'],
    needs: ['place', 'to_place', 'count'], causes: ['big', 'small'] },
  { name: 'moved', icon: 'move', group: 'fish', where: 'tank',
    fields: ['place', 'batch', 'count', 'mean_g', 'to_place', 'text'],
    needs: ['place', 'to_place', 'count'] },
  { name: 'sampled', icon: 'read', group: 'fish', where: 'tank',
    fields: ['place', 'batch', 'count', 'grams', 'text'], needs: ['place', 'count', 'grams'] },
  { name: 'sold', icon: 'orders', group: 'fish', where: 'tank', product: 'product',
    fields: ['place', 'batch', 'count', 'mean_g', 'buyer', 'lot', 'text'], needs: ['place', 'count'] },
  { name: 'stocked', icon: 'fish', group: 'fish', where: 'tank',
    fields: ['place', 'batch', 'count', 'mean_g', 'supplier', 'lot', 'text'], needs: ['place', 'count'] },
  { name: 'fasted', icon: 'fast', group: 'fish', where: 'tank',
    fields: ['place', 'cause', 'text'], needs: ['place'],
    causes: ['before_netting', 'before_sale', 'water_bad', 'cold'] },
  { name: 'purged', icon: 'fish', group: 'fish', where: 'tank',
    fields: ['place', 'count', 'to_place', 'text'], needs: ['place'] },
  { name: 'read', icon: 'read', group: 'water', where: 'water',
    fields: ['place', 'reading', 'text'], needs: ['place', 'reading'] },
  { name: 'dosed', icon: 'dose', group: 'water', where: 'loop', product: 'base',
    fields: ['place', 'product', 'grams', 'lot', 'text'], needs: ['place', 'product', 'grams'] },
  { name: 'topped', icon: 'water', group: 'water', where: 'loop',
    fields: ['place', 'quantity', 'text'], needs: ['place'] },
  { name: 'vented', icon: 'vent', group: 'water', where: 'tunnel',
    fields: ['place', 'share', 'text'], needs: ['place', 'share'] },
  { name: 'shaded', icon: 'tunnels', group: 'water', where: 'tunnel',
    fields: ['place', 'on', 'text'], needs: ['place', 'on'] },
  { name: 'fleeced', icon: 'tunnels', group: 'water', where: 'tunnel',
    fields: ['place', 'on', 'text'], needs: ['place', 'on'] },
  { name: 'event', icon: 'stopped', group: 'water', where: 'none',
    fields: ['cause', 'text'], needs: ['cause'],
    causes: ['pump_stopped', 'pump_runs', 'air_stopped', 'air_runs', 'power_off', 'power_on', 'heat_off', 'heat_on'] },
  { name: 'seen', icon: 'note', group: 'day', where: 'any',
    fields: ['place', 'text'], needs: ['text'] },
  { name: 'worked', icon: 'person', group: 'day', where: 'none',
    fields: ['minutes', 'cause', 'text'], needs: ['minutes'] },
  { name: 'delivered', icon: 'orders', group: 'day', where: 'none', product: 'product',
    fields: ['buyer', 'product', 'quantity', 'lot', 'text'], needs: ['buyer'] },
  { name: 'bought', icon: 'orders', group: 'day', where: 'none',
    fields: ['text', 'supplier', 'lot'], needs: ['text'] },
  { name: 'received', icon: 'orders', group: 'day', where: 'none',
    fields: ['text', 'lot', 'supplier'], needs: ['lot', 'text'] },
  { name: 'checked', icon: 'do', group: 'day', where: 'none',
    fields: ['product', 'text'], needs: ['product'] },
  { name: 'trained', icon: 'journal', group: 'day', where: 'none',
    fields: ['text', 'minutes'], needs: ['text'] },
  { name: 'visited', icon: 'person', group: 'day', where: 'none',
    fields: ['text'], needs: ['text'] },
];

/** What is read, in the order of a water sheet, and where a dial starts. */
export const READINGS: { key: string; unit: string; start: number }[] = [
  { key: 'temp_degc', unit: 'degc', start: 22 },
  { key: 'oxygen_mg_l', unit: 'mg_l', start: 6 },
  { key: 'ph', unit: 'ph', start: 6.8 },
  { key: 'tan_mg_l', unit: 'mg_l', start: 0.5 },
  { key: 'nitrite_mg_l', unit: 'mg_l', start: 0.1 },
  { key: 'nitrate_mg_l', unit: 'mg_l', start: 50 },
  { key: 'alkalinity_mg_l', unit: 'mg_l', start: 100 },
  { key: 'chloride_mg_l', unit: 'mg_l', start: 60 },
  { key: 'iron_mg_l', unit: 'mg_l', start: 1 },
];
export const kindOf = (name: string) => KINDS.find((k) => k.name === name);
