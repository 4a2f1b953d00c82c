/** Findings about zones that give where the painter leans on them. */
import type { Finding } from '../document/schema.ts';
import { plain } from '../messages/words.ts';
import { finding } from './finding.ts';

/** What a few local plies cost when they are added at this moment. */
export interface StiffenMoment {
  readonly place: 'between' | 'after';
  readonly hours: number;
  readonly costMinor: number;
  readonly massKg: number;
}

/** One zone under a hand and a sanding block. */
export interface PanelReport {
  readonly zoneId: string;
  readonly zoneName: string;
  readonly check: {
    readonly hand: { readonly totalMm: number };
    readonly block: { readonly totalMm: number };
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

const MOMENT_WORDS = { between: 'between the skins', after: 'after demould' } as const;

/** One for each zone that gives too much. */
export function panelFindings(reports: readonly PanelReport[]): Finding[] {
  return reports.filter((report) => !report.check.holds).map(panelFinding);
}

function panelFinding(report: PanelReport): Finding {
  const { check, zoneName, plies, cloth, moments } = report;
  const block = check.block.totalMm >= check.hand.totalMm;
  const mostMm = Math.max(check.block.totalMm, check.hand.totalMm);
  const size = check.sidesAssumed ? ' (its size is taken from its area)' : '';
  const soft =
    `${zoneName} gives ${plain(mostMm, mostMm - check.limitMm < 0.1 ? 2 : 1)} mm under a ${block ? 'sanding block' : 'hand'}${size}; ` +
    `${plain(check.limitMm)} mm is the limit.`;
  const [best, other] = moments;
  const fix =
    plies === null || !best
      ? 'A thicker core would hold it, or a frame behind it.'
      : `${plies} local ${plies === 1 ? 'ply' : 'plies'} of ${cloth} ${MOMENT_WORDS[best.place]} ` +
        `would hold it: ${plain(best.hours)} h and ${plain(best.massKg, 2)} kg more` +
        (other ? `, ${MOMENT_WORDS[other.place]} ${plain(other.hours)} h.` : '.');
  const numbers = {
    zone: report.zoneId,
    handMm: Number(check.hand.totalMm.toFixed(2)),
    blockMm: Number(check.block.totalMm.toFixed(2)),
    limitMm: check.limitMm,
    plies,
    ...Object.fromEntries(moments.flatMap(momentNumbers)),
  };
  return finding('panel-soft', 'warn', `${soft} ${fix}`, { numbers });
}

/** Hours, cost and mass of adding the plies at a moment, by name: `betweenHours`. */
const momentNumbers = ({ place, hours, costMinor, massKg }: StiffenMoment): [string, number][] => [
  [`${place}Hours`, Number(hours.toFixed(2))],
  [`${place}CostMinor`, Math.round(costMinor)],
  [`${place}Kg`, Number(massKg.toFixed(3))],
];
