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
  energyImplausible: (kJMol: number, factor: number) =>
    `The rows at two temperatures give ${kJMol.toFixed(0)} kJ/mol, which no laminating resin has: the rate is taken to grow ${factor} times for 10 °C (common practice).`,
  potToFilm: (ratio: number, referenceG: number) =>
    `Pot life is a mass heating itself in a cup: the film is taken to stay open ${ratio} times as long as ${referenceG} g in a cup (common practice).`,
  potWithoutMass: (referenceG: number) =>
    `A pot life row states no mass: ${referenceG} g is taken.`,
  byPractice: (milestones: readonly string[]) =>
    `Not on the sheet, taken from usual ratios (common practice): ${list(milestones.map(milestoneWord))}.`,
  raised: (milestone: string, before: string) =>
    `The sheet has ${milestoneWord(milestone)} before ${milestoneWord(before)}: it is taken to come no earlier.`,
};
