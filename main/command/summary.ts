/** The plan in a few lines for a terminal. */
import type { Finding, PlanResult } from '../../app/document/schema.ts';
import { belowWords, wayOutWords } from '../../app/messages/levers.ts';
import { glanceAt } from '../../app/shop/glance.ts';
import { lowerFirst } from '../../app/messages/words.ts';
import { unknownWords } from '../../app/shop/shopping.ts';
import { withheldWords } from '../../app/shop/withheld.ts';
import { clock, longDay, spareDate, spareWords } from '../../app/shop/words.ts';
import { money } from '../../app/units/words.ts';
import { plainName } from './input.ts';
import { massWords, workHoursWords } from '../../app/units/summed.ts';

const moment = (iso: string): string => `${longDay(iso)} ${clock(iso)}`;

/** Whether it fits, the date, the route, what cannot move next, and the findings a line each. */
export function summaryOf(result: PlanResult): string {
  const route = result.routes.find((candidate) => candidate.id === result.route.id);
  const closes = route?.closes
    ? `, ${route.open ? 'open until' : 'closed since'} ${moment(route.closes)}`
    : '';
  const lines = [
    `${result.build.name}: ${result.fits ? 'it fits' : `it does not fit: ${lowerFirst(glanceAt(result).fit.headline)}`}`,
    `Unveiling: ${moment(result.deadline)}`,
    `Route: ${result.route.cures.map((cure) => cure.name).join('; ') || 'none'}${closes}`,
    ...(result.route.why ? [result.route.why] : []),
    `Next deadline: ${nextDeadline(result)}`,
    ...spareLine(result),
    totalsLine(result),
    ...withheldWords(result),
    ...result.findings.flatMap((one) => findingLines(one, result.build.currency)),
  ];
  return `${lines.map(plainName).join('\n')}\n`;
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

/** A finding, its ways out with the three answers before and after, and what is known of others. */
function findingLines(finding: Finding, currency: string): string[] {
  const below = belowWords(finding);
  return [
    `${LABELS[finding.severity]}: ${finding.message}`,
    ...finding.levers.map((lever) => `  Way out: ${wayOutWords(lever, currency)}`),
    ...(below === '' ? [] : [`  ${below}`]),
  ];
}

const LABELS = { stop: 'Stop', warn: 'Mind', note: 'Note' } as const;

/** `Wednesday 28 April 2027 09:19, start of order and wait for material`. */
function nextDeadline({ nextDeadline: next, stages, now, deadline }: PlanResult): string {
  if (!next) return `${moment(deadline)}, the unveiling`;
  const name = stages.find(({ id }) => id === next.stage)?.name.toLowerCase() ?? next.stage;
  const gone = Date.parse(next.at) < Date.parse(now) ? ', already gone' : '';
  return `${moment(next.at)}, start of ${name}${gone}`;
}

/** `Spare: 2 working days 3 h before Cedar Flats paint shop, Tue 8 Jun 08:00; ...`. */
function spareLine({ spare = [], stages }: PlanResult): string[] {
  const parts = spare.map((one) => `${spareWords(one)} before ${spareDate(one, stages)}`);
  return parts.length === 0 ? [] : [`Spare: ${parts.join('; ')}`];
}
