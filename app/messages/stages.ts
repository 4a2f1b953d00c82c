/** Names of stages, as screen, paper and result have them. Names of cures and layups come as they are. */
import { plural } from '../units/words.ts';
import { capital } from './words.ts';

const PAINT_MAY = {
  handle: 'until it may be handled',
  tape: 'until it takes tape',
  wrap: 'until it may be wrapped',
} as const;

const inText = (name: string): string => name.toLowerCase();

/** `Cedar Flats paint shop` of `Cedar Flats paint shop, 5 working days`: the name of an order or outside job alone. */
export const withoutLength = (name: string): string => name.replace(/, [^,]*$/, '');

/** Of a stage that waits for one whose start is fixed by hand. */
export const fixedByWords = (name: string): string =>
  `It stands here because the start of “${name}” is fixed by hand.`;

export type PostCurePlace = 'mould' | 'supports';
const PLACES: Readonly<Record<PostCurePlace, string>> = {
  mould: 'on the mould',
  supports: 'on supports',
};

/** By what is done; the arguments are names as the build or the library gives them. */
export const STAGE_NAMES = {
  settle: (question: string) => `Settle: ${question}`,
  order: (supplier: string, workingDays: number) =>
    `Order from ${supplier}, ${plural(workingDays, 'working day')}`,
  /** One order for everything: a library without suppliers. */
  orderAll: (days: number) => `Order and wait for material (${days} days)`,
  arrival: (supplier: string) => `Take in and check: ${supplier}`,
  machining: () => 'Machine the mould',
  mould: () => 'Finish mould and flange',
  seal: () => 'Seal mould',
  sealerCures: () => 'Sealer cures',
  bagTest: () => 'Bag test of the bare mould',
  testPanel: () => 'Test panel: resin, release and primer',
  testPanelHardens: () => 'Test panel hardens',
  release: (product: string, coats: number) =>
    `Release: ${product.replace(': ', ', ')}, ${plural(coats, 'coat')}`,
  releaseSettles: () => 'Last release coat settles',
  resinWarm: () => 'Resin to 20–25 °C',
  mouldHeat: () => 'Warm the mould',
  cutting: () => 'Cut plies, peel ply and bag',
  coreFit: () => 'Fit, score and drill core',
  coreFitByTemplate: () => 'Cut core by template, score and drill it',
  coreFitOnMould: (alsoFlat: boolean) =>
    `Fit core on the mould, score and drill it${alsoFlat ? '; flat core by template' : ''}`,
  insertsFit: (count: number) => `Cut ${plural(count, 'insert')}, scuff and let into the core`,
  rehearsal: () => 'Dry rehearsal',
  strip: (next: string, structural: boolean) =>
    `Strip peel ply, ${structural ? 'light scuff, ' : ''}clean for ${next}`,
  stripJoint: (next: string) => `Strip peel ply off the joint, scuff it, clean for ${next}`,
  abradeJoint: (next: string) => `Strip peel ply off the joint, abrade and wipe for ${next}`,
  releaseAgain: (section: string) => `Release again: bare mould of ${inText(section)}, 1 coat`,
  vacuumCore: (next: string) => `Vacuum bare core and clean overlaps for ${next}`,
  stripAndAbrade: (next: string) => `Strip peel ply, abrade and wipe for ${next}`,
  abradeOverlaps: (next: string) => `Vacuum bare core, abrade and wipe overlaps for ${next}`,
  abradedDries: (next: string) => `Abraded surface dries: ${next}`,
  layup: (layups: readonly string[]) => `Lay up ${layups.map(inText).join(' + ')}`,
  layDry: (cure: string) => `Lay dry and bag ${inText(cure)}`,
  dropTest: (cure: string) => `Drop test: ${inText(cure)}`,
  infuse: (layups: readonly string[]) => `Infuse ${layups.map(inText).join(' + ')}`,
  watchedVacuum: (cure: string) => `Watch vacuum: ${inText(cure)}`,
  gelLook: (cure: string) => `Look at the gel: ${inText(cure)}`,
  cure: (cure: string) => `Cure: ${inText(cure)}`,
  bagOff: (cure: string) => `Bag off: ${inText(cure)}`,
  tapTestCore: () => 'Tap test: core bond',
  tapTestPart: () => 'Tap test: the whole part',
  heatSetup: (over: string) => `Set up heat: ${over}`,
  heatTakedown: (over: string) => `Take heat down: ${over}`,
  postCure: (place: PostCurePlace) => capital(postCureOn(place)),
  demould: () => 'Demould and weigh',
  repair: (plies: boolean) =>
    plies
      ? 'Repair what demould marked: grind, fill, scarf for plies'
      : 'Repair what demould marked',
  dryFit: () => 'Dry fit on the frame',
  trim: () => 'Trim to line',
  closeout: () => 'Rebate core, fill and round the edge',
  rebate: () => 'Rebate the core at the edge',
  edgeFill: (atOnce: boolean) =>
    atOnce
      ? 'Fill and round the edge; tape follows wet'
      : 'Fill and round the edge; tape after a night',
  edgeFillHardens: () => 'Edge filler hardens overnight',
  sandEdge: () => 'Sand the edge flush for what follows',
  rim: (lift: number, of: number) =>
    `${lift === 1 ? 'Level on a released flat, set the dam, pot the rim' : 'Pot the rim'}${of > 1 ? `, lift ${lift} of ${of}` : ''}`,
  sandRim: () => 'Sand the rim flush and round it',
  rimCools: (last: boolean) =>
    last ? 'Rim hardens overnight, weighted and level' : 'Lift of the rim cools below 40 °C',
  edgeFair: () => 'Fair the taped edge',
  edgeFillerDries: () => 'Filler on the edge dries',
  fitCheck: () => 'Fit check and weigh',
  fillLift: (round: string, lift: number, of: number) =>
    of > 1 ? `${round}, lift ${lift} of ${of}` : round,
  roundDries: (round: string) => `${round}: dries`,
  lastCoatDries: () => 'Last coat dries',
  outside: (party: string, workingDays: number) =>
    `${party}, ${plural(workingDays, 'working day')}`,
  handIn: (party: string) => `Wait for ${party} to take work in`,
  wrap: (party: string) => `Wrap and cradle for ${party}`,
  driveTo: (party: string) => `Load, drive to ${party}, hand over`,
  driveBack: (party: string) => `Fetch from ${party}`,
  /** `painter`: where there are several. */
  paintDries: (what: 'handle' | 'tape' | 'wrap', painter: string | null) =>
    `Paint dries ${PAINT_MAY[what]}${painter === null ? '' : ` (${painter})`}`,
  hardware: () => 'Fit hardware',
  handOver: () => 'Hand over',
} as const;

/** What heat stands over, inside the names of its set-up and take-down: `post-cure on the mould`. */
export const postCureOn = (place: PostCurePlace): string => `post-cure ${PLACES[place]}`;
