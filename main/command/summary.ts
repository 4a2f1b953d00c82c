/** The plan in a few lines for a terminal. */
import type { PlanResult, StageResult } from '../../app/document/schema.ts';
import { unknownWords } from '../../app/shop/shopping.ts';
import { withheldWords } from '../../app/shop/withheld.ts';
import { clock, longDay } from '../../app/shop/words.ts';
import { money } from '../../app/units/words.ts';
import { massWords, workHoursWords } from '../../app/units/summed.ts';

const moment = (iso: string): string => `${longDay(iso)} ${clock(iso)}`;

/** Whether it fits, the date, the route, what cannot move next, and the findings a line each. */
export function summaryOf(result: PlanResult): string {
  const route = result.routes.find((candidate) => candidate.id === result.route.id);
  const closes = route?.closes
    ? `, ${route.open ? 'open until' : 'closed since'} ${moment(route.closes)}`
    : '';
  const lines = [
    `${result.build.name}: ${result.fits ? 'it fits' : 'it does not fit'}`,
    `Unveiling: ${moment(result.deadline)}`,
    `Route: ${result.route.cures.map((cure) => cure.name).join('; ') || 'none'}${closes}`,
    `Next deadline: ${nextDeadline(result)}`,
    totalsLine(result),
    ...withheldWords(result),
    ...result.findings.map(({ severity, message }) => `${LABELS[severity]}: ${message}`),
  ];
  return `${lines.join('\n')}\n`;
}

/** `Totals: 18.2 h of work, €412.50 of material (2 lines without a price), 6.74 kg` */
function totalsLine({ totals, build }: PlanResult): string {
  const unknown = unknownWords(totals);
  const material =
    `${money(totals.materialCost, build.currency)} of material` +
    (unknown === null ? '' : ` (${unknown})`);
  const work = `${workHoursWords(totals.labourHours)} of work`;
  return `Totals: ${work}, ${material}, ${massWords(totals.massKg)}`;
}

const LABELS = { stop: 'Stop', warn: 'Mind', note: 'Note' } as const;

/** The latest start that comes first among the stages still ahead. */
function nextDeadline({ stages, now, deadline }: PlanResult): string {
  let next: StageResult | null = null;
  for (const stage of stages) {
    if (stage.latestStart === null || stage.start === null) continue;
    if (Date.parse(stage.start) < Date.parse(now)) continue;
    const sooner =
      next === null || Date.parse(stage.latestStart) < Date.parse(next.latestStart ?? '');
    if (sooner) next = stage;
  }
  if (!next?.latestStart) return `${moment(deadline)}, the unveiling`;
  const gone = Date.parse(next.latestStart) < Date.parse(now) ? ', already gone' : '';
  return `${moment(next.latestStart)}, start of ${next.name.toLowerCase()}${gone}`;
}
