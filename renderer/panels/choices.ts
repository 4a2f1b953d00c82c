/** The choices of the document as a list offers them, and the range that a field accepts. */
import { STAGE_KINDS } from '../../app/document/schema.ts';
import { DAY_NAMES } from '../../app/messages/words.ts';
import {
  AIR_CHOICES,
  ANY_WORKING_DAY,
  CARRIER_CHOICES,
  CARRIER_UNKNOWN,
  CURVATURE_CHOICES,
  FAMILIARITY_CHOICES,
  SECTION_CHOICES,
  FINISH_AS_PART,
  FINISH_CHOICES,
  HEAT_ALONE_CHOICES,
  kindWords,
  LOCAL_PLY_CHOICES,
  OUTSIDE_CHOICES,
  PROCESS_CHOICES,
  TARGET_CHOICES,
} from '../words/choices.ts';

interface Option {
  readonly value: string | null;
  readonly label: string;
}

const optionsOf = (words: Readonly<Record<string, string>>): Option[] =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

export const FINISHES = optionsOf(FINISH_CHOICES);
export const ZONE_FINISHES: readonly Option[] = [
  { value: null, label: FINISH_AS_PART },
  ...FINISHES,
];
export const SHAPES = optionsOf(CURVATURE_CHOICES);
export const AIR_RULES = optionsOf(AIR_CHOICES);
export const HEAT_RULES = optionsOf(HEAT_ALONE_CHOICES);
export const TARGETS = optionsOf(TARGET_CHOICES);
export const PROCESS_PICKS = optionsOf(PROCESS_CHOICES);
export const SECTION_PICKS = SECTION_CHOICES.map((label, i) => ({ value: i + 1, label }));
export const FAMILIARITY = optionsOf(FAMILIARITY_CHOICES);
export const PLACES = optionsOf(LOCAL_PLY_CHOICES);
export const PARTY_KINDS = optionsOf(OUTSIDE_CHOICES);
export const CARRIERS: readonly Option[] = [
  { value: null, label: CARRIER_UNKNOWN },
  ...optionsOf(CARRIER_CHOICES),
];
export const TAKES_IN: readonly Option[] = [
  { value: null, label: ANY_WORKING_DAY },
  ...optionsOf(DAY_NAMES),
];
export const STAGE_CHOICES = STAGE_KINDS.map((value) => ({ value, label: kindWords(value) }));

/** A one-off part of a small shop; the upper end catches a slipped decimal point. */
export const AREA_LIMITS = { above: 0, max: 500 };
/** What the schema takes would let a shop freeze or boil; a workroom lies well inside. */
export const ROOM_LIMITS = { min: -10, max: 45 };
export const HEAT_LIMITS = { min: 0, max: 250 };
