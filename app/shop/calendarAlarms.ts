/** Which alarms hang on the events of the calendar file, and what they say. */
import { sealedWords } from '../messages/sealed.ts';
import type { StageKind } from '../document/schema.ts';
import type { Minute } from '../time/instant.ts';
import { isWithheld, minuteOf, type PlacedStage, type SheetData } from './sheetData.ts';
import { clock, dayClock } from './words.ts';

/** A call at a moment, counted from the start of its event. */
export interface CalendarAlarm {
  readonly minutesFromStart: number;
  readonly text: string;
}

/** Minutes before the moment: what is on the bench must be there, and a bag takes its time to close. */
const LEAD_MINUTES = { mix: 15, bag: 30, gel: 0, off: 0, strip: 15 } as const;
/** An outside slot is called a day ahead, to wrap and load, and an hour ahead, to drive. */
const OUTSIDE_LEADS = [24 * 60, 60] as const;

/** Where the alarms of a cure hang. */
const HANGS_ON: Partial<Readonly<Record<StageKind, 'layup' | 'cure' | 'bag-off'>>> = {
  layup: 'layup',
  cure: 'cure',
  'bag-off': 'bag-off',
};

/** Alarms of one stage, the earliest first; none where it is withheld or over. */
export function alarmsOfStage(facts: SheetData, placed: PlacedStage): CalendarAlarm[] {
  const { stage, start } = placed;
  if (isWithheld(stage) || stage.state === 'done' || stage.state === 'implied') return [];
  const at = (minute: Minute, lead: number, text: string): CalendarAlarm => ({
    minutesFromStart: minute - lead - start,
    text,
  });
  const began = `${stage.name} ${dayClock(placed.startIso)}`;
  if (stage.kind === 'outside') return OUTSIDE_LEADS.map((lead) => at(start, lead, began));
  if (stage.kind === 'prepare') return [at(start, LEAD_MINUTES.strip, began)];
  return cureAlarms(facts, placed, at).sort((a, b) => a.minutesFromStart - b.minutesFromStart);
}

function cureAlarms(
  { cures, placed: all }: SheetData,
  { stage }: PlacedStage,
  at: (minute: Minute, lead: number, text: string) => CalendarAlarm,
): CalendarAlarm[] {
  const cure = cures.find(({ id }) => id === stage.cure);
  const place = HANGS_ON[stage.kind];
  if (!cure?.row || place === undefined) return [];
  const { firstMix, bagBy, gel, gelLatest, debagFrom } = cure.row;
  const isFirst =
    all.find((one) => one.stage.kind === stage.kind && one.stage.cure === cure.id)?.stage === stage;
  if (!isFirst) return [];
  const alarm = (iso: string | null, lead: number, text: string): CalendarAlarm[] =>
    iso === null ? [] : [at(minuteOf(iso), lead, text)];
  switch (place) {
    case 'layup':
      return [
        ...alarm(firstMix, LEAD_MINUTES.mix, `First mix ${clock(firstMix ?? '')}: ${cure.name}`),
        ...alarm(
          bagBy,
          LEAD_MINUTES.bag,
          `${sealedWords(cure.row.infused).by} ${clock(bagBy ?? '')}: ${cure.name}`,
        ),
      ];
    case 'cure':
      return alarm(
        gel,
        LEAD_MINUTES.gel,
        `Look at the smear: ${cure.name} may gel from now${gelLatest === null ? '' : `, by ${dayClock(gelLatest)} at the latest`}`,
      );
    case 'bag-off':
      return alarm(
        debagFrom,
        LEAD_MINUTES.off,
        `The bag may come off, once the smear snaps: ${cure.name}`,
      );
  }
}
