/** Findings about zones that give where the painter leans on them. */
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { StiffenMoment } from '../messages/part.ts';

/** One zone under a hand and a sanding block. */
export interface PanelReport {
  readonly zoneId: string;
  readonly zoneName: string;
  readonly check: {
    /** Null where the figure lies beyond plate theory. */
    readonly hand: { readonly totalMm: number } | null;
    readonly block: { readonly totalMm: number } | null;
    readonly theoryMm: number;
    readonly worse: 'hand' | 'block';
    readonly coupling: number;
    readonly limitMm: number;
    readonly holds: boolean;
    readonly sidesAssumed: boolean;
  };
  /** Local plies that hold it; 0: it holds; null: so few do not help. */
  readonly plies: number | null;
  readonly cloth: string | null;
  readonly leverId: string | null;
  /** Cheapest first. */
  readonly moments: readonly StiffenMoment[];
}

/** One for each zone that gives too much. */
export function panelFindings(reports: readonly PanelReport[]): Finding[] {
  return reports.filter((report) => !report.check.holds).map(panelFinding);
}

function panelFinding({ zoneId, zoneName, check, plies, cloth, moments }: PanelReport): Finding {
  const { hand, block, theoryMm, worse, coupling, limitMm, sidesAssumed } = check;
  return finding('panel-soft', {
    zoneId,
    zone: zoneName,
    handMm: hand?.totalMm ?? null,
    blockMm: block?.totalMm ?? null,
    theoryMm,
    worse,
    coupling,
    limitMm,
    sidesAssumed,
    plies,
    cloth,
    moments,
  });
}
