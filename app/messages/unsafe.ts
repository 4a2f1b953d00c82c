/** What each finding makes unsafe while it says stop: the table by which cards are withheld. */
import type { Finding } from '../document/schema.ts';
import type { FindingCode } from './findings.ts';

/**
 * Where the unsafe work begins; all that hangs on it is withheld as well.
 * - `cure`: the cure of the stage that the finding names, from its first mix on;
 * - `wet-work`: every cure;
 * - `core`: the cures that hold core;
 * - `release`: the mould as it is released, so everything that is laid on it;
 * - `paint`: the handover to the paint shops.
 */
export type Reach = 'cure' | 'wet-work' | 'core' | 'release' | 'paint';

/** null: the plan is late, dear or ugly by it, and nobody comes to harm and no part is lost. */
export const UNSAFE: Readonly<Record<FindingCode, Reach | null>> = {
  'zone-empty': null,
  'laminate-dry': 'wet-work',
  'fibre-fraction-high': null,
  'fibre-fraction-low': null,
  'core-over-gap': null,
  'core-bend-tight': null,
  'core-thickness-odd': null,
  'core-kerfs-open': null,
  'styrene-dissolves': 'wet-work',
  'styrene-vacuum': 'wet-work',
  'solvent-core': 'core',
  'heat-over-limit': 'core',
  'vacuum-crushes-core': 'core',
  'mould-growth': null,
  'release-not-for-shape': 'release',
  'skins-uneven': null,
  'part-empty': null,
  'crew-empty': null,
  'facts-conflict': null,
  'date-missed': null,
  'stage-impossible': null,
  'cure-stalls': 'cure',
  'merge-forced': null,
  'route-closed': null,
  'route-closing': null,
  'route-begun-otherwise': 'wet-work',
  'finish-not-reachable': null,
  'open-time-short': 'cure',
  'tack-out-of-hours': 'cure',
  'bond-window-missed': 'cure',
  'gel-unattended': 'cure',
  'paint-over-tg': 'paint',
  'service-over-tg': null,
  'filler-softens': null,
  'tg-unknown': null,
  'heat-alone': 'cure',
  'post-cure-planned': null,
  'window-passed': null,
  'pin-missed': null,
  'printed-moved': null,
  'overtime-used': null,
  'slot-missed': null,
  'question-open': null,
  'weight-over': null,
  'works-alone': 'wet-work',
  'long-wet-work': 'cure',
  'cold-room': 'wet-work',
  'blush-likely': null,
  'dew-point-near': null,
  'heat-not-counted': null,
  'heat-ramp-fast': 'cure',
  'log-ends': null,
  'no-spare-day': null,
  'pot-runaway': 'cure',
  'stack-too-hot': 'cure',
  'fill-in-one-go': null,
  'structural-merge': null,
  'structural-local-after': null,
  'structural-no-peel-ply': null,
  'structural-scuff': null,
  'panel-soft': null,
};

/** Where a finding makes work unsafe; null where it withholds nothing. */
export const reachOf = ({ code, severity }: Pick<Finding, 'code' | 'severity'>): Reach | null =>
  severity === 'stop' && Object.hasOwn(UNSAFE, code) ? UNSAFE[code as FindingCode] : null;

/** The finding, marked where it withholds cards. */
export const marked = (finding: Finding): Finding =>
  reachOf(finding) === null ? finding : { ...finding, unsafe: true };
