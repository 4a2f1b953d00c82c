/** Versions of the formats that this program writes. */
/** The Build format this program writes; older ones are migrated, newer ones refused. */
export const DOCUMENT_VERSION = 2;

/** Version of the published plan result, raised only when the shape of its JSON changes. */
export const RESULT_VERSION = 2;
