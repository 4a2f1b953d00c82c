/** Words for the document's choices. The keys stand in the order in which a list offers them. */
import type {
  AirRule,
  Finish,
  FullBuild,
  HeatAlone,
  OutsideParty,
  PartZone,
  Process,
} from '../../app/document/schema.ts';

type Part = FullBuild['part'];

export const FINISH_CHOICES: Readonly<Record<Finish, string>> = {
  painted: 'Painted',
  clear: 'Clear, the weave shows',
  hidden: 'Hidden',
};

export const FINISH_AS_PART = 'As the part';

export const CURVATURE_CHOICES: Readonly<Record<PartZone['shape'], string>> = {
  flat: 'Flat',
  single: 'Curved one way',
  double: 'Curved both ways',
};

export const AIR_CHOICES: Readonly<Record<AirRule, string>> = {
  apart: 'Alone in the room’s air',
  beside: 'Beside other work if a date needs it',
};

export const HEAT_ALONE_CHOICES: Readonly<Record<HeatAlone, string>> = {
  never: 'Never: somebody is there to the end',
  nights: 'Through a night, not a closed day',
  weekends: 'Through nights and closed days',
};

export const TARGET_CHOICES: Readonly<Record<Part['targetIncludes'], string>> = {
  shell: 'Bare shell',
  faired: 'Shell and fairing',
  painted: 'Shell, fairing and paint',
};

export const PROCESS_CHOICES: Readonly<Record<Process, string>> = {
  hand: 'By hand, no bag',
  bagged: 'Wet, under a bag',
  infused: 'Dry under a bag, infused',
};

/** How many sections a skin is laid in. */
export const SECTION_CHOICES: readonly string[] = ['One', '2 sections', '3 sections'];

export const FAMILIARITY_CHOICES: Readonly<Record<Part['familiarity'], string>> = {
  first: 'First of its kind here',
  some: 'A few done before',
  usual: 'Usual work',
};

export const LOCAL_PLY_CHOICES: Readonly<Record<PartZone['local'][number]['place'], string>> = {
  outer: 'On the outer skin',
  between: 'Between skin and core',
  inner: 'On the inner skin',
  after: 'After demould',
};

export const OUTSIDE_CHOICES: Readonly<Record<OutsideParty['kind'], string>> = {
  paint: 'Paint',
  machining: 'Machining',
  transport: 'Transport',
  install: 'Installing',
  other: 'Other',
};

export const CARRIER_UNKNOWN = 'Nobody has said';

/** Who takes the part to an outside party and back. */
export const CARRIER_CHOICES: Readonly<Record<NonNullable<OutsideParty['carriedBy']>, string>> = {
  shop: 'The shop, there and back',
  party: 'They fetch and bring it',
};

export const ANY_WORKING_DAY = 'Any day it works';

/** A stage kind as it is said: `watched-vacuum` -> `watched vacuum`. */
export const kindWords = (kind: string): string => kind.replace('-', ' ');
