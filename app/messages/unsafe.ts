/** What a finding makes unsafe while it says stop: by this, cards are withheld. */
import type { Finding } from '../document/schema.ts';
import { FINDINGS, type FindingCode } from './findings.ts';
import type { Reach } from './spec.ts';

/** Where a finding makes work unsafe; null where it withholds nothing. */
export const reachOf = ({ code, severity }: Pick<Finding, 'code' | 'severity'>): Reach | null =>
  severity === 'stop' && Object.hasOwn(FINDINGS, code)
    ? FINDINGS[code as FindingCode].unsafe
    : null;

/** The finding, marked where it withholds cards. */
export const marked = (finding: Finding): Finding =>
  reachOf(finding) === null ? finding : { ...finding, unsafe: true };
