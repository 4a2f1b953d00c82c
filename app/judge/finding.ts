/** The order in which findings are listed. */
import type { Finding } from '../document/schema.ts';

const ORDER = { stop: 0, warn: 1, note: 2 } as const;

/** Stops first, then warnings, then notes; the order of judging within each. */
export const bySeverity = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort((a, b) => ORDER[a.severity] - ORDER[b.severity]);
