/** Every folder of app/, in the order in which data flows. */
export const FOLDERS_IN_ORDER: readonly string[];
