/** What the document left out, what was taken instead, and why. */
import { buildSchema, type Build, type FullBuild } from './schema.ts';

/** One value that nobody typed. */
export interface Assumption {
  /** Where in the document, as in `room.temperatureC.night`. */
  readonly path: string;
  readonly value: unknown;
  readonly reason: string;
}

/**
 * Fills a checked document with the schema's defaults and lists every value that was filled in.
 * @throws ZodError when the document was not checked by `readBuild` first.
 */
export function assume(document: Build): { build: FullBuild; assumptions: Assumption[] } {
  const build = buildSchema.parse(document);
  const assumptions: Assumption[] = [];
  compare(document, build, '', assumptions);
  return { build, assumptions };
}

function compare(typed: unknown, filled: unknown, path: string, out: Assumption[]): void {
  if (path === 'library') return;
  if (typed === undefined && filled !== undefined) {
    const reason = reasonFor(path);
    if (reason) out.push({ path, value: filled, reason });
    return;
  }
  if (Array.isArray(filled) && Array.isArray(typed)) {
    filled.forEach((item, i) => compare(typed[i], item, `${path}[${i}]`, out));
  } else if (isRecord(filled) && isRecord(typed)) {
    for (const key of Object.keys(filled)) {
      compare(typed[key], filled[key], path ? `${path}.${key}` : key, out);
    }
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Reasons by path pattern (array positions as `[]`); a path without one is no claim about the trade. */
const REASONS: Readonly<Record<string, string>> = {
  currency: 'Prices are read in euro until another currency is picked.',
  earliestStart: 'Work may begin at once.',
  'part.finish': 'Painted is the usual finish.',
  'part.targetMassKg': 'No target weight was given.',
  'part.targetIncludes': 'A target is read as the bare shell, before fairing and paint.',
  'part.serviceMaxC': 'A light part indoors or outdoors in shade.',
  'part.structural': 'It carries no more than itself.',
  'part.familiarity': 'The crew has made parts like this before.',
  'part.zones[].edgeM': 'Four times the square root of the area: a square outline.',
  'part.zones[].shape': 'Most moulded skins curve one way.',
  'part.zones[].vertical': 'Lies flat enough that nothing slides.',
  'part.zones[].core.treatment': 'Drilled core lets air out under the bag.',
  'part.zones[].outer[].angleDeg': 'Along the 0 line.',
  'part.zones[].inner[].angleDeg': 'Along the 0 line.',
  'part.zones[].finish': 'The finish of the part.',
  'part.zones[].closeout': 'The edge is left open.',
  'mould.material': 'A medium tooling board, the usual one-off mould.',
  'mould.maxC': 'The limit of the mould material in the library.',
  'mould.release': 'Paste wax, the usual release.',
  'mould.sealed': 'A fresh mould still needs its seal coats.',
  mould: 'A fresh one-off board mould, released with paste wax.',
  'room.temperatureC': '20 C by day and 16 C by night, a heated shop with night setback.',
  'room.temperatureC.day': 'A heated shop by day.',
  'room.temperatureC.night': 'Heating set back at night.',
  'room.dayFrom': 'Heating comes on before the shift.',
  'room.nightFrom': 'Heating is set back in the evening.',
  'room.humidityPct': 'Middling humidity.',
  'room.tent': 'There is no heated tent.',
  room: 'A heated shop: 20 C by day, 16 C from 19:00 to 07:00, 55 % humidity, no tent.',
  'crew[].hours': 'Monday to Friday, 07:30 to 12:00 and 12:30 to 16:30.',
  'crew[].off': 'No days off were given.',
  gear: 'One mould, one bench, two pump ports, no tent.',
  'gear.moulds': 'One mould.',
  'gear.pumpPorts': 'One pump with two ports.',
  'gear.tents': 'No tent.',
  'gear.benches': 'One bench.',
  outside: 'Nobody outside the shop is waited for.',
  'outside[].hours': 'Monday to Friday, 08:00 to 17:00.',
  'outside[].zone': 'The party keeps the time of the build.',
  'outside[].slot': 'No day is booked yet.',
  'outside[].bakeC': 'Nothing is baked.',
  'outside[].leavesFrom': 'Work is taken in on any day the party works.',
  route: 'The program picks the best route that fits.',
};

function reasonFor(path: string): string | undefined {
  return REASONS[path.replace(/\[\d+\]/g, '[]')];
}
