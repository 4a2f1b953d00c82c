/** Words for the document's choices, and the range that a field accepts. */
import { STAGE_KINDS } from '../../app/document/schema.ts';
import { DAY_NAMES } from '../../app/messages/words.ts';

export const FINISHES = [
  { value: 'painted', label: 'Painted' },
  { value: 'clear', label: 'Clear, the weave shows' },
  { value: 'hidden', label: 'Hidden' },
];
export const ZONE_FINISHES = [{ value: null, label: 'As the part' }, ...FINISHES];
export const SHAPES = [
  { value: 'flat', label: 'Flat' },
  { value: 'single', label: 'Curved one way' },
  { value: 'double', label: 'Curved both ways' },
];
export const HEAT_RULES = [
  { value: 'never', label: 'Never: somebody is there to the end' },
  { value: 'nights', label: 'Through a night, not a closed day' },
  { value: 'weekends', label: 'Through nights and closed days' },
];
export const TARGETS = [
  { value: 'shell', label: 'Bare shell' },
  { value: 'faired', label: 'Shell and fairing' },
  { value: 'painted', label: 'Shell, fairing and paint' },
];
export const FAMILIARITY = [
  { value: 'first', label: 'First of its kind here' },
  { value: 'some', label: 'A few done before' },
  { value: 'usual', label: 'Usual work' },
];
export const PLACES = [
  { value: 'outer', label: 'On the outer skin' },
  { value: 'between', label: 'Between skin and core' },
  { value: 'inner', label: 'On the inner skin' },
  { value: 'after', label: 'After demould' },
];
export const PARTY_KINDS = [
  { value: 'paint', label: 'Paint' },
  { value: 'machining', label: 'Machining' },
  { value: 'transport', label: 'Transport' },
  { value: 'install', label: 'Installing' },
  { value: 'other', label: 'Other' },
];
export const CARRIERS = [
  { value: null, label: 'Nobody has said' },
  { value: 'shop', label: 'The shop, there and back' },
  { value: 'party', label: 'They fetch and bring it' },
];

export const TAKES_IN = [
  { value: null, label: 'Any day it works' },
  ...Object.entries(DAY_NAMES).map(([value, label]) => ({ value, label })),
];

/** A stage kind as it is said: `watched-vacuum` -> `watched vacuum`. */
export const kindWords = (kind: string): string => kind.replace('-', ' ');
export const STAGE_CHOICES = STAGE_KINDS.map((value) => ({ value, label: kindWords(value) }));

/** A one-off part of a small shop; the upper end catches a slipped decimal point. */
export const AREA_LIMITS = { above: 0, max: 500 };
/** What the schema takes would let a shop freeze or boil; a workroom lies well inside. */
export const ROOM_LIMITS = { min: -10, max: 45 };
export const HEAT_LIMITS = { min: 0, max: 250 };
