/** The shape of a finding, and the little that all of them share. */
import type { Finding, Lever } from '../document/schema.ts';
import type { FindingCode } from '../messages/codes.ts';

/** A finding as judged; levers are added where something would help. */
export function finding(
  code: FindingCode,
  severity: Finding['severity'],
  message: string,
  rest: {
    readonly stage?: string | null;
    readonly numbers?: Finding['numbers'];
    readonly levers?: Lever[];
  } = {},
): Finding {
  return {
    code,
    severity,
    stage: rest.stage ?? null,
    message,
    numbers: rest.numbers ?? {},
    levers: rest.levers ?? [],
  };
}

const ORDER = { stop: 0, warn: 1, note: 2 } as const;

/** Stops first, then warnings, then notes; the order of judging within each. */
export const bySeverity = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort((a, b) => ORDER[a.severity] - ORDER[b.severity]);
