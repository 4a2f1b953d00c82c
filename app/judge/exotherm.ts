/** Findings about reaction heat: a batch in its cup, a bag against core and mould. */
import { layupStageId } from '../document/ids.ts';
import type { Finding } from '../document/schema.ts';
import { elapsed, plain } from '../messages/words.ts';
import type { HeatReport } from '../plan/exotherm.ts';
import { finding } from './finding.ts';

export const heatFindings = (reports: readonly HeatReport[]): Finding[] =>
  reports.map((report) => {
    const stage = layupStageId('layup', report.layupId);
    if (report.kind === 'cup') {
      const message =
        `${report.cureName}: a batch of ${plain(report.massG, 0)} g stays workable ` +
        `${elapsed(report.potLifeMinutes ?? 0)} and takes ${elapsed(report.spreadMinutes)} to spread; ` +
        `left in its cup it reaches ${plain(report.peakC, 0)} °C. Mix less at a time, or take a ` +
        'slower hardener. A hot cup goes outside, on concrete, no lid.';
      const numbers = {
        massG: Math.round(report.massG),
        peakC: Math.round(report.peakC),
        largestG: Math.round(report.largestG),
      };
      return finding('pot-runaway', 'warn', message, { stage, numbers });
    }
    const message =
      `${report.cureName}: reaction heat takes ${report.layer} in ${report.zoneName} to ` +
      `${plain(report.peakC, 0)} °C; it takes ${plain(report.limitC, 0)} °C. Cure in two steps, or ` +
      'use a slower hardener.';
    const numbers = { peakC: Math.round(report.peakC), limitC: report.limitC };
    return finding('stack-too-hot', 'stop', message, { stage, numbers });
  });
