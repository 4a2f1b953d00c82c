/** Field paths in words, and the panel on which each is edited. */
import type { Fault } from '../../app/document/faults.ts';
import type { PanelId } from './desk.svelte.ts';

const WORDS: Readonly<Record<string, string>> = {
  unveiling: 'Unveiling',
  zone: 'Time zone',
  currency: 'Currency',
  earliestStart: 'Work may begin',
  'part.finish': 'Finish',
  'part.targetMassKg': 'Target weight, kg',
  'part.targetIncludes': 'The target counts',
  'part.serviceMaxC': 'Hottest in service, °C',
  'part.structural': 'Carries load',
  'part.familiarity': 'How well the crew knows it',
  'part.zones[].edgeM': 'Free edge, m',
  'part.zones[].shape': 'Shape',
  'part.zones[].vertical': 'Stands upright',
  'part.zones[].core.treatment': 'Core treatment',
  'part.zones[].outer[].angleDeg': 'Outer ply angle',
  'part.zones[].inner[].angleDeg': 'Inner ply angle',
  'part.zones[].finish': 'Finish of the zone',
  'part.zones[].closeout': 'Closeout',
  mould: 'Mould',
  'mould.material': 'Mould',
  'mould.maxC': 'Mould holds up to, °C',
  'mould.release': 'Release',
  'mould.sealed': 'Mould sealed already',
  room: 'Room',
  'room.temperatureC': 'Room temperature, °C',
  'room.temperatureC.day': 'Room by day, °C',
  'room.temperatureC.night': 'Room by night, °C',
  'room.dayFrom': 'Day from',
  'room.nightFrom': 'Night from',
  'room.humidityPct': 'Humidity, %',
  'room.tent': 'Heated tent',
  'room.measured': 'Room by its log',
  heat: 'Heat under the bag',
  'resin.hardenerFor': 'Hardeners of single cures',
  'crew[].hours': 'Working hours',
  'crew[].off': 'Days off',
  'crew[].overtime': 'May stay, if a date needs it',
  gear: 'Gear',
  'gear.moulds': 'Moulds',
  'gear.pumpPorts': 'Pump ports',
  'gear.tents': 'Heated tents',
  'gear.benches': 'Benches',
  outside: 'Outside jobs',
  'outside[].hours': 'Outside hours',
  'outside[].zone': 'Outside time zone',
  'outside[].slot': 'Booked from',
  'outside[].bakeC': 'Hottest bake, °C',
  'outside[].leavesFrom': 'Takes work in on',
  'pins[].start': 'Pinned start',
  'records[].start': 'Recorded start',
  'records[].end': 'Recorded end',
  closeoutAfter: 'The edge is closed',
  route: 'Route',
};

/** `part.zones[1].edgeM` -> `Free edge, m (2)`. */
export function pathWords(path: string): string {
  const word = WORDS[path.replace(/\[\d+\]/g, '[]')] ?? path;
  const place = /\[(\d+)\]/.exec(path);
  return place && Number(place[1]) > 0 ? `${word} (${Number(place[1]) + 1})` : word;
}

export function panelOf(path: string): PanelId {
  const [head] = path.split(/[.[]/);
  if (head === 'part') return 'part';
  if (head === 'resin' || head === 'room' || head === 'heat') return 'resin';
  if (head === 'mould' || head === 'gear') return 'mould';
  if (head === 'outside' || head === 'closeoutAfter') return 'outside';
  if (head === 'route') return 'job';
  return 'people';
}

/** A value of the document in few words. */
export function valueWords(value: unknown): string {
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value).replace('T', ' ');
  if (Array.isArray(value)) {
    return value.length === 0 ? 'none' : value.map((v) => valueWords(v)).join('–');
  }
  return Object.entries(value)
    .map(([key, inner]) => `${key} ${valueWords(inner)}`)
    .join(', ');
}

/** `Unveiling: found "2027-03-28T02:30", expected a time that exists in Europe/Berlin` */
export const faultWords = ({ path, found, expected }: Fault): string =>
  `${path === '(file)' ? 'This edit' : pathWords(path)}: found ${found}, expected ${expected}`;
