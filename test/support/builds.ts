/** Builds for tests: a small one that fits, and the shipped library. All invented. */
import { readBuild } from '../../app/document/read.ts';
import type { Build, Library } from '../../app/document/schema.ts';
import { dayName, dayNumber, isoToMinute } from '../../app/time/zone.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { shippedSamples } from '../../main/samples.ts';

let loaded: Library | undefined;
/** The shipped library, read once. */
export const library = (): Library => (loaded ??= shippedLibrary());

/** Monday 19 April 2027, 08:00 in Lisbon. */
export const NOW_ISO = '2027-04-19T08:00+01:00';
export const NOW = isoToMinute(NOW_ISO)!;

/** A small painted panel that one zone describes, due in ten weeks. */
export const smallBuild = (): Build => ({
  name: 'Gull panel',
  zone: 'Europe/Lisbon',
  unveiling: '2027-07-02T18:00',
  part: {
    zones: [
      {
        areaM2: 0.8,
        outer: [{ cloth: 'carbon-twill-200' }, { cloth: 'carbon-twill-200', angleDeg: 45 }],
        core: { material: 'pvc-80', thicknessMm: 10 },
        inner: [{ cloth: 'carbon-twill-200' }],
      },
    ],
  },
  resin: { system: 'orrin-40', hardener: 'medium' },
  crew: [{ name: 'Mina Vale' }, { name: 'Tor Aske' }],
});

/** The build as it is read, or the faults that it was refused with. */
export const read = (document: unknown) => readBuild(JSON.stringify(document), library());

/** A shipped sample, read anew. @throws Error when there is none, or it has faults */
export function sampleOf(name: string): Build {
  const sample = shippedSamples().find((one) => one.name === name);
  const found = sample && read(JSON.parse(sample.text()));
  if (!found?.ok) throw new Error(`no sample without faults is called ${name}`);
  return found.document;
}

/** A day `YYYY-MM-DD` so many days later. */
export const addDays = (date: string, days: number): string => dayName(dayNumber(date) + days);
