/** Only the shop's own finished builds teach: no sample, none that is open, none that was removed. */
import { describe, expect, it } from 'vitest';
import { finishedBuilds } from '../../main/store/lessons.ts';
import { createBuild, removeBuild } from '../../main/store/builds.ts';
import { smallBuild } from '../support/builds.ts';
import { scratchStore } from './fixtures.ts';

describe('finished builds', () => {
  it('are read with their lessons, release and resin', () => {
    const store = scratchStore();
    const put = (id: string, finished: boolean, sample: string | null = null) =>
      createBuild(store.write, {
        id,
        document: { ...smallBuild(), id, lessons: { finished, hardDemould: true } },
        label: 'New build',
        sample,
        nowMs: Number(id.slice(-1)),
      });
    put('own-1', true);
    put('open-2', false);
    put('shown-3', true, 'shown');
    put('gone-4', true);
    put('own-5', true);
    removeBuild(store.write, 'gone-4', 9);
    const found = finishedBuilds(store.read);
    expect(found.map((one) => one.id)).toEqual(['own-5', 'own-1']);
    expect(found[0]).toMatchObject({
      name: 'Gull panel',
      release: 'wax-paste',
      resin: { system: 'orrin-40', hardener: 'medium' },
      lessons: { finished: true, hardDemould: true, events: [] },
    });
  });
});
