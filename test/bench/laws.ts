/**
 * `npm run bench -- laws [COUNT] [--seed N] [--schedules N]`: the laws of a verdict over drawn builds, two
 * thirds of them with a date close to the end of their plan. Prints how often each law was asked on either side, and every
 * build that breaks one.
 */
import { librarySchema, type Build } from '../../app/document/schema.ts';
import { isoToMinute, minuteToIso } from '../../app/time/zone.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { drawnBuilds } from '../laws/builds.ts';
import { answerTo, countLaws, lawsOf } from '../laws/laws.ts';

const library = librarySchema.parse(shippedLibrary());
const NOW = isoToMinute('2027-04-19T07:00+01:00')!;
const DAY = 1440;

/**
 * Of three builds one is asked as drawn. The date of the others is moved to within two days of the end of
 * their plan: of every second one before it, so that about as many just fit as just do not.
 */
function drawnNear(document: Build, index: number, schedules: number): Build {
  if (index % 3 === 0) return document;
  const { plan } = answerTo(document, NOW, { library, schedules }).taken;
  if (plan.schedule.end === null) return document;
  const apart = ((index * 977) % (2 * DAY)) * (index % 2 === 0 ? 1 : -1);
  const unveiling = minuteToIso(plan.schedule.end + apart, document.zone).slice(0, 16);
  return { ...document, unveiling };
}

/** True within two days of the moment at which the taken route closes, or of its date once it has closed. */
function isNear(document: Build, schedules: number): boolean {
  const { taken, closings, fits } = answerTo(document, NOW, { library, schedules });
  const closes = closings.get(taken.plan.route.id)?.minute ?? null;
  const apart = fits && closes !== null ? closes - NOW : (taken.plan.lateMinutes ?? Infinity);
  return apart <= 2 * DAY;
}

export function main(argv: readonly string[]): void {
  const value = (name: string, usual: number): number => {
    const at = argv.indexOf(name);
    return at < 0 ? usual : Number(argv[at + 1]);
  };
  const count = Number(argv.find((argument) => /^\d+$/.test(argument)) ?? 300);
  const schedules = value('--schedules', 20);
  let near = 0;
  const asked = drawnBuilds(count, value('--seed', 7)).map((drawn, i) => {
    const document = drawnNear(drawn, i, schedules);
    if (isNear(document, schedules)) near++;
    const verdicts = lawsOf(document, NOW, { library, schedules });
    for (const { law, broken } of verdicts) {
      if (broken !== null) console.log(`${document.name}: ${law}: ${broken}`);
    }
    return { build: document.name, verdicts };
  });
  console.log(`${count} builds, ${near} of them asked within two days of closing`);
  for (const { law, sides, broken } of countLaws(asked)) {
    const counts = Object.entries(sides).map(([side, n]) => `${n} ${side}`);
    console.log(`${law}: ${counts.join(', ')}; broken ${broken.length}`);
  }
}
