/** @returns the name as one of the list; null where the list has none such */
export const oneOf = <T extends string>(names: readonly T[], name: string): T | null =>
  names.find((one) => one === name) ?? null;
