/** Sentences about the chemistry, for people at the bench. Numbers come with their units. */

const MILESTONE_WORDS: Readonly<Record<string, string>> = {
  open: 'open time of the film',
  gel: 'gel of the film',
  tackFree: 'tack-free',
  debag: 'bag-off',
  demould: 'demould',
  sand: 'sandable',
  bondUntil: 'end of the bond window',
  full: 'full cure',
};

/** The milestone as the bench says it. */
export const milestoneWord = (milestone: string): string => MILESTONE_WORDS[milestone] ?? milestone;

const list = (words: readonly string[]): string =>
  words.length < 2
    ? words.join('')
    : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

export const cureText = {
  oneTemperature: (factor: number) =>
    `The sheet gives one temperature only: the rate is taken to grow ${factor} times for 10 °C (common practice).`,
  energyAtLimit: (kJMol: number) =>
    `The rows at different temperatures do not go together: the activation energy is held at ${kJMol.toFixed(0)} kJ/mol.`,
  potToFilm: (heatJG: number, lossWM2K: number) =>
    `Pot life is a mass in a cup heating itself, not a film: the film is worked out from it with ${heatJG.toFixed(0)} J/g of reaction heat and a cup losing ${lossWM2K.toFixed(0)} W/(m² K).`,
  potWithoutMass: (referenceG: number) =>
    `A pot life row states no mass: ${referenceG} g is taken.`,
  heatAssumed: (heatJG: number) => `Heat of reaction assumed: ${heatJG} J/g.`,
  tgAssumed: (tgC: number) => `Glass transition after full post-cure assumed: ${tgC} °C.`,
  byPractice: (milestones: readonly string[]) =>
    `Not on the sheet, taken from usual ratios (common practice): ${list(milestones.map(milestoneWord))}.`,
  raised: (milestone: string, before: string) =>
    `The sheet has ${milestoneWord(milestone)} before ${milestoneWord(before)}: it is taken to come no earlier.`,
};

/** What decides at the bench, beside the computed time. A leftover cup tells of the pot only. */
export const witness: Readonly<Record<string, string>> = {
  gel: 'A smear of 1 to 2 mm on released film on the flange pulls no more strings.',
  tackFree: 'A gloved finger leaves no mark on the smear.',
  debag: 'The smear snaps, a nail leaves no mark, Shore D 70; part below 35 °C.',
  demould: 'Shore D 70 or more on the flange; part at room temperature.',
  sand: 'Dust comes off, not gum.',
  full: 'Hardness stops rising from one day to the next.',
};
