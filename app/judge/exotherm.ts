/** Findings about reaction heat: a batch in its cup, a bag against core and mould. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { finding } from '../messages/findings.ts';
import type { HeatReport } from '../plan/exotherm.ts';

export const heatFindings = (reports: readonly HeatReport[]): Finding[] =>
  reports.map((report) => {
    const { cureName: cure, peakC } = report;
    const stage = layupStageId('layup', report.layupId);
    if (report.kind === 'cup') {
      const { massG, spreadMinutes, largestG, smaller } = report;
      const potLifeMinutes = report.potLifeMinutes ?? 0;
      const args = { cure, massG, potLifeMinutes, spreadMinutes, peakC, largestG, smaller };
      // It gets too thick before it is spread, or is spread later than practice allows.
      const severity = spreadMinutes > potLifeMinutes ? 'warn' : 'note';
      return finding('pot-runaway', args, { stage, severity });
    }
    const { layer, zoneName: zone, limitC } = report;
    return finding('stack-too-hot', { cure, layer, zone, peakC, limitC }, { stage });
  });
