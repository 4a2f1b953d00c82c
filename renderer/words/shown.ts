/** What a sentence takes in: a figure or words that were worked out elsewhere. */
export type Shown = string | number;
