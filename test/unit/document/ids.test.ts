/** Ids as documents, results and printed plans of today hold them: made and read to the byte. */
import { describe, expect, it } from 'vitest';
import {
  boundaryId,
  chainId,
  leverId,
  leverLayup,
  modeId,
  publishedResource,
  readChainId,
  readLeverId,
  readResourceId,
  readStageId,
  resourceId,
  stageId,
  type LeverRef,
  type StageRef,
} from '../../../app/document/ids.ts';
import { STAGE_KINDS } from '../../../app/document/schema.ts';

const STAGES: Readonly<Record<string, StageRef>> = {
  order: { what: 'order' },
  machining: { what: 'machining' },
  'test-panel': { what: 'test-panel' },
  'mould-heat': { what: 'mould-heat' },
  'mould-heat-setup': { what: 'mould-heat-setup' },
  'order:cloth-merchant': { what: 'order', supplier: 'cloth-merchant' },
  'arrival:cloth-merchant': { what: 'arrival', supplier: 'cloth-merchant' },
  'layup:skin': { what: 'layup', layup: 'skin' },
  'cure:core': { what: 'cure', layup: 'core' },
  'watched-vacuum:skin': { what: 'watched-vacuum', layup: 'skin' },
  'gel-look:skin': { what: 'gel-look', layup: 'skin' },
  'bag-off:local-after': { what: 'bag-off', layup: 'local-after' },
  'closeout:closeout': { what: 'closeout', layup: 'closeout' },
  'prepare:inner': { what: 'prepare', layup: 'inner' },
  'wait:seal': { what: 'wait', for: 'seal' },
  'wait:finish-primer': { what: 'wait', for: 'finish-primer' },
  'fair:1': { what: 'fair', round: '1' },
  'prime:2-primer': { what: 'prime', round: '2-primer' },
  'fair:edge': { what: 'fair', round: 'edge' },
  'post-cure': { what: 'post-cure', number: 1 },
  'post-cure-setup': { what: 'post-cure-setup', number: 1 },
  'post-cure:2': { what: 'post-cure', number: 2 },
  'post-cure-takedown:2': { what: 'post-cure-takedown', number: 2 },
  'tent-setup:core': { what: 'tent-setup', layup: 'core' },
  'outside:paint': { what: 'outside', party: 'paint' },
  'outside:paint:second': { what: 'outside', party: 'paint:second' },
  'tap-test:core': { what: 'tap-test', at: 'core' },
  'tap-test:demould': { what: 'tap-test', at: 'demould' },
  'sign-off:trim-line': { what: 'sign-off', question: 'trim-line' },
};

const LEVERS: Readonly<Record<string, LeverRef>> = {
  weekend: { lever: 'weekend' },
  'hardener-slow': { lever: 'hardener', hardener: 'slow' },
  'hardener-release-slow': { lever: 'hardener', hardener: 'release-slow' },
  'release-wax': { lever: 'release', release: 'wax' },
  'closeout-first': { lever: 'closeout', after: null },
  'closeout-after-paint': { lever: 'closeout', after: 'paint' },
  'hardener:inner:fast:2': { lever: 'layup-hardener', layup: 'inner', hardener: 'fast:2' },
  'tent:core:40': { lever: 'layup-tent', layup: 'core', temperatureC: 40 },
  'tent:core:42.5': { lever: 'layup-tent', layup: 'core', temperatureC: 42.5 },
  'post-cure-heat:65': { lever: 'post-cure-heat', temperatureC: 65 },
  'heat-alone:weekends': { lever: 'heat-alone', rule: 'weekends' },
  'gel-watch:skin/ana/b+c/2027-04-29T13:30/2027-04-30T00:55+inner/tor/2027-05-05T13:47/2027-05-06T01:05':
    {
      lever: 'gel-watch',
      watches: [
        { layup: 'skin', person: 'ana/b+c', mix: '2027-04-29T13:30', until: '2027-04-30T00:55' },
        { layup: 'inner', person: 'tor', mix: '2027-05-05T13:47', until: '2027-05-06T01:05' },
      ],
    },
  'wet-helper:skin/3+core/0+inner/2': {
    lever: 'wet-helper',
    helps: [
      { layup: 'skin', hours: 3 },
      { layup: 'core', hours: 0 },
      { layup: 'inner', hours: 2 },
    ],
  },
  'small-batches:80:3': { lever: 'small-batches', leastG: 80, more: 3 },
  'sections:inner:3:338:2966:54': {
    lever: 'sections',
    layup: 'inner',
    sections: 3,
    minutes: 338,
    jointMm: 2966,
    overlapG: 54,
  },
  'held-room:18': { lever: 'held-room', temperatureC: 18 },
  'air-dry:paint:second': { lever: 'air-dry', party: 'paint:second' },
  'route:skin/core+inner': { lever: 'route', route: 'skin/core+inner' },
  'slot:paint:east:2027-05-11': { lever: 'slot', party: 'paint:east', day: '2027-05-11' },
  'stiffen:face:b:2': { lever: 'stiffen', zone: 'face:b', plies: 2 },
};

describe('stages', () => {
  it.each(Object.entries(STAGES))('%s', (text, ref) => {
    expect(readStageId(text)).toEqual(ref);
    expect(stageId(ref)).toBe(text);
  });

  it('has an id under the name of every kind, but of those whose ids name what they belong to', () => {
    const readable = STAGE_KINDS.filter((kind) =>
      [kind, `${kind}:core`].some((text) => readStageId(text)?.what === kind),
    );
    expect(STAGE_KINDS.filter((kind) => !readable.includes(kind))).toEqual([
      'inserts',
      'heat-setup',
      'heat-takedown',
      'own',
    ]);
  });

  it('reads nothing from what no build has', () => {
    for (const text of [
      '',
      'Order',
      'layup',
      'layup:',
      'rehearsal:skin',
      'toString',
      'cures:skin',
      'post-cure:1',
      'post-cure:x',
    ]) {
      expect(readStageId(text)).toBeNull();
    }
  });
});

describe('levers', () => {
  it.each(Object.entries(LEVERS))('%s', (text, ref) => {
    expect(readLeverId(text)).toEqual(ref);
    expect(leverId(ref)).toBe(text);
  });

  it('reads nothing from another word, a slot without a day, plies without a number', () => {
    for (const text of ['hardener', 'slot:paint', 'slot:paint:soon', 'stiffen:face', 'weekends']) {
      expect(readLeverId(text)).toBeNull();
    }
  });

  it('knows which belong to one cure', () => {
    const own = Object.entries(LEVERS).filter(([, ref]) => leverLayup(ref) !== null);
    expect(own.map(([text]) => text)).toEqual([
      'hardener:inner:fast:2',
      'tent:core:40',
      'tent:core:42.5',
    ]);
  });
});

describe('modes', () => {
  it('tells teams, work on a surface and who stays', () => {
    const team = { by: 'team', people: ['ana', 'ben'], surface: null, stays: false } as const;
    expect(modeId({ by: 'itself' })).toBe('runs');
    expect(modeId({ by: 'party' })).toBe('works');
    expect(modeId(team)).toBe('ana+ben');
    expect(modeId({ ...team, surface: 'abrade', stays: true })).toBe('abrade:ana+ben:stays');
  });
});

describe('resources', () => {
  it('keeps a person called mould apart from the mould', () => {
    const person = resourceId({ kind: 'person', person: 'mould' });
    expect(person).not.toBe(resourceId({ kind: 'mould' }));
    expect(readResourceId(person)).toEqual({ kind: 'person', person: 'mould' });
    expect(readResourceId('mould')).toEqual({ kind: 'mould' });
    expect(publishedResource(person)).toBe('mould');
    expect(publishedResource('air')).toBe('air');
    expect(readResourceId('air')).toBeNull();
  });
});

describe('routes', () => {
  it('are layups with the state of each boundary', () => {
    const chain = {
      layups: ['skin', 'core', 'inner', 'closeout'],
      joints: ['apart', 'tack', 'one-bag'],
    } as const;
    const text = 'skin/core~inner+closeout';
    expect(readChainId(text)).toEqual(chain);
    expect(chainId(chain.layups, chain.joints)).toBe(text);
    expect(boundaryId('skin', 'core')).toBe('skin-core');
  });
});
