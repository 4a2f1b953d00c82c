/**
 * Pictures of the planner for people to look at:
 *   node test/browser/shoot.ts --out DIR [--sample NAME] [--now ISO] [--width W] [--height H]
 *                              [--dark] [--print | --paper | --floor | --face] [--across N] [--grey] [--small]
 * Without --sample every sample is pictured. --print adds every printed side on A4 and on Letter, two to
 * a picture or N, and the PDF; --paper leaves out the planner itself. --small: small mix cards.
 * --floor: bench, gap, questions, corrections, phone and preview instead, as they stand in docs/floor/.
 * --face: the planner at every size and state instead, as it stands in docs/face/; --only PART of a name.
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { readBuild } from '../../app/document/read.ts';
import { FULL_ANSWER } from '../../app/plan/outcome.ts';
import { plan } from '../../app/answer/plan.ts';
import { sheetsHtml } from '../../app/shop/sheets.ts';
import { shippedLibrary } from '../../main/library/shipped.ts';
import { printPdf } from '../../main/pdf/print.ts';
import { shippedSamples } from '../../main/samples.ts';
import { shootFace } from './facePictures.ts';
import { shootFloor } from './floorPictures.ts';
import { DEFAULT_NOW, openPlanner } from './planner.ts';
import { shootSides } from './printedSides.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;
const { values } = parseArgs({
  options: {
    out: text,
    sample: text,
    now: text,
    width: text,
    height: text,
    dark: flag,
    print: flag,
    paper: flag,
    floor: flag,
    face: flag,
    only: text,
    across: text,
    grey: flag,
    small: flag,
  },
});
const out = resolve(values.out ?? 'shots');
const now = values.now ?? DEFAULT_NOW;
const width = Number(values.width ?? 1280);
const height = Number(values.height ?? 720);

async function shootPlanner(sample: string): Promise<void> {
  const colorScheme = values.dark ? 'dark' : 'light';
  const planner = await openPlanner({ sample, now, width, height, colorScheme });
  try {
    // The worker's full answer follows the first one, with closing times and all routes.
    const done = planner.page.locator('[data-thinking="done"]');
    await done.waitFor({ state: 'attached', timeout: 120_000 });
    const path = join(out, `${sample}-${width}x${height}${values.dark ? '-dark' : ''}.png`);
    await planner.page.screenshot({ path });
    console.log(path);
    for (const line of [...planner.trouble, ...planner.strangers]) console.log(`  ${line}`);
  } finally {
    await planner.close();
  }
}

async function shootSheets(sample: string): Promise<void> {
  const library = shippedLibrary();
  const found = shippedSamples().find((candidate) => candidate.name === sample);
  const read = readBuild(found?.text() ?? '', library);
  if (!read.ok) throw new Error(`${sample}: ${read.faults[0]?.found}`);
  const minute = Math.floor(Date.parse(now) / 60_000);
  const outcome = plan(read.document, library, minute, FULL_ANSWER);
  const pdf = join(out, `${sample}.pdf`);
  await writeFile(pdf, await printPdf(sheetsHtml(outcome), minute * 60_000));
  console.log(pdf);
  const how = {
    out,
    name: sample,
    across: Number(values.across ?? 2),
    grey: values.grey === true,
    mixes: values.small ? 'small' : 'lines',
  } as const;
  for (const file of await shootSides(outcome, how)) console.log(file);
}

await mkdir(out, { recursive: true });
if (values.floor) {
  for (const file of await shootFloor(out, values.sample ?? 'harbour-gate-sign')) console.log(file);
}
if (values.face) {
  for (const file of await shootFace(out, values.only)) console.log(file);
}
const scenes = values.floor === true || values.face === true;
const all = scenes ? [] : shippedSamples().map(({ name }) => name);
const samples = values.sample && !scenes ? [values.sample] : all;
for (const sample of samples) {
  if (!values.paper) await shootPlanner(sample);
  if (values.print || values.paper) await shootSheets(sample);
}
