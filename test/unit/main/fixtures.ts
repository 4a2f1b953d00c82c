/** A small library, a build that names its rows, and sessions over a folder of their own. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { DOCUMENT_VERSION } from '../../../app/document/schema.ts';
import { librarySchema, type Library } from '../../../app/document/schema.ts';
import { channels, type Answer, type ChannelName } from '../../../app/contract/channels.ts';
import type { ChannelInput, ChannelOutput } from '../../../app/contract/channels.ts';
import { fixedClock } from '../../../main/clock.ts';
import { answer } from '../../../main/handlers/answer.ts';
import type { Sample } from '../../../main/samples.ts';
import { openSession, type Session, type SessionOptions } from '../../../main/session.ts';

export const NOW = new Date('2027-04-19T06:00:00Z');
const provenance = { kind: 'demo', source: 'invented for the test' };

export const LIBRARY: Library = librarySchema.parse({
  resins: [
    {
      id: 'resin',
      name: 'Resin',
      provenance,
      hardeners: [
        {
          id: 'slow',
          name: 'Slow',
          provenance,
          partsPer100ByMass: 30,
          sheet: [{ what: 'pot-life', temperatureC: 20, minutes: 60 }],
        },
      ],
    },
  ],
  moulds: [
    {
      id: 'board-medium',
      name: 'Board',
      provenance,
      maxC: 70,
      growthPerK: 6e-5,
      takesStyrene: true,
    },
  ],
  releases: [
    {
      id: 'wax-paste',
      name: 'Wax',
      provenance,
      type: 'wax',
      coats: 5,
      minutesPerM2: 5,
      betweenCoatsMinutes: 60,
      lastWaitMinutes: 720,
      keepsHours: 72,
      hardDemouldChance: 0.05,
    },
  ],
  practice: [{ id: 'spare-days', name: 'Spare days', provenance, value: 1, unit: 'd' }],
});

export const buildOf = (name: string, more: Record<string, unknown> = {}) => ({
  formatVersion: DOCUMENT_VERSION,
  name,
  zone: 'Europe/Lisbon',
  unveiling: '2027-05-14T18:00',
  part: { zones: [] },
  resin: { system: 'resin', hardener: 'slow' },
  crew: [{ name: 'Ada' }],
  ...more,
});

export const sampleOf = (name: string, document: unknown): Sample => ({
  name,
  text: () => JSON.stringify(document),
});

export const SAMPLES = [
  sampleOf('arch', buildOf('Arch', { id: 'arch' })),
  sampleOf('buoy', buildOf('Buoy', { id: 'buoy' })),
];

/** A folder that goes when the test ends. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'main-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A session that closes when the test ends, with the lines it reported. */
export function scratchSession(
  options: Partial<SessionOptions> = {},
): Session & { readonly lines: string[] } {
  const lines: string[] = [];
  const session = openSession({
    runtime: 'browser',
    dataDir: scratchFolder(),
    clock: fixedClock(NOW),
    shipped: LIBRARY,
    samples: SAMPLES,
    report: (line) => void lines.push(line),
    ...options,
  });
  onTestFinished(() => session.close());
  // In place: the store of a session may be another one after a copy was put back.
  return Object.assign(session, { lines });
}

/** The answer of a channel, its value checked against the channel's own output. */
export async function ask<N extends ChannelName>(
  session: Session,
  name: N,
  input: ChannelInput<N>,
): Promise<Answer<ChannelOutput<N>>> {
  const given = await answer(session, name, input);
  if (!given.ok) return given;
  const schema = channels[name].output;
  return { ok: true, value: schema.parse(given.value) as ChannelOutput<N> };
}

/** The value of an answer that has to be one. */
export async function tell<N extends ChannelName>(
  session: Session,
  name: N,
  input: ChannelInput<N>,
): Promise<ChannelOutput<N>> {
  const given = await ask(session, name, input);
  if (!given.ok) throw new Error(`${name}: ${given.code} ${given.detail}`);
  return given.value;
}

/** A folder that looks like a built page. */
export function builtPage(files: Readonly<Record<string, string>> = {}): string {
  const folder = scratchFolder();
  mkdirSync(join(folder, 'assets'));
  const all = {
    'index.html': '<!doctype html><title>Planner</title>',
    'assets/index.js': 'export {};',
    'assets/index.css': 'body {}',
    ...files,
  };
  for (const [name, text] of Object.entries(all)) writeFileSync(join(folder, name), text);
  return folder;
}
