/**
 * `npm run bench -- laws [COUNT] [--seed N] [--schedules N]`: the laws of a verdict over drawn builds, a third
 * of them asked within two days of closing. Prints how often each law was asked on either side, and every
 * build that breaks one.
 */
import { librarySchema, type Build } from '../../app/document/schema.ts';
import { isoToMinute } from '../../app/time/zone.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { drawnBuilds } from '../laws/builds.ts';
import { answerTo, countLaws, lawsOf } from '../laws/laws.ts';

const library = librarySchema.parse(shippedLibrary());
const NOW = isoToMinute('2027-04-19T07:00+01:00')!;
const DAY = 1440;

/** Every third build is asked up to two days before or after its route closes. */
function momentOf(document: Build, index: number, schedules: number): number {
  if (index % 3 !== 0) return NOW;
  const { taken, closings } = answerTo(document, NOW, { library, schedules });
  const closes = closings.get(taken.plan.route.id)?.minute ?? null;
  if (closes === null) return NOW;
  return Math.max(NOW, closes + (((index * 977) % (4 * DAY)) - 2 * DAY));
}

export function main(argv: readonly string[]): void {
  const value = (name: string, usual: number): number => {
    const at = argv.indexOf(name);
    return at < 0 ? usual : Number(argv[at + 1]);
  };
  const count = Number(argv.find((argument) => /^\d+$/.test(argument)) ?? 300);
  const schedules = value('--schedules', 20);
  let near = 0;
  const asked = drawnBuilds(count, value('--seed', 7)).map((document, i) => {
    const now = momentOf(document, i, schedules);
    if (now > NOW) near++;
    const verdicts = lawsOf(document, now, { library, schedules });
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
