/**
 * The value of a row of trade practice by its id, in the row's own unit.
 * @throws when the library holds no such row, naming it.
 */
export type PracticeLookup = (id: string) => number;
