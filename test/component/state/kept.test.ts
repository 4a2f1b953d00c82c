import { describe, expect, it } from 'vitest';
import type { Call } from '../../../renderer/state/bridge.ts';
import { Announcer } from '../../../renderer/state/announcer.svelte.ts';
import { KeptState, type KeptMeans } from '../../../renderer/state/kept.svelte.ts';

function keptWith(answers: Record<string, unknown>, more: Partial<KeptMeans> = {}) {
  const told: string[] = [];
  const call = ((name: string, input: unknown) => {
    told.push(`${name} ${JSON.stringify(input)}`);
    return Promise.resolve(
      name in answers
        ? { ok: true, value: answers[name] }
        : { ok: false, code: 'refused', detail: `no ${name}` },
    );
  }) as Call;
  const kept = new KeptState({
    call,
    news: new Announcer(),
    flush: () => Promise.resolve(true),
    show: (open) => told.push(`show ${open.id}`),
    restart: () => Promise.resolve(void told.push('restart')),
    saveText: (name, text) => Promise.resolve(void told.push(`save ${name} ${text}`)),
    ...more,
  });
  return { kept, told };
}

describe('what is kept', () => {
  it('shows a build that was had back, and begins again with a copy that was put back', async () => {
    const { kept, told } = keptWith({ 'build-bring-back': { id: 'a' }, 'copy-restore': {} });
    expect(await kept.bringBack('a')).toBe(true);
    expect(await kept.putBack('day')).toBe(true);
    expect(told).toEqual([
      'build-bring-back {"id":"a"}',
      'show a',
      'copy-restore {"name":"day"}',
      'restart',
    ]);
  });

  it('asks for nothing while what was typed is not stored', async () => {
    const { kept, told } = keptWith({}, { flush: () => Promise.resolve(false) });
    expect([await kept.bringBack('a'), await kept.putBack('day')]).toEqual([false, false]);
    expect(told).toEqual([]);
  });

  it('stays where it is when the copy is refused', async () => {
    const { kept, told } = keptWith({});
    expect(await kept.putBack('day')).toBe(false);
    expect(told).toEqual(['copy-restore {"name":"day"}']);
  });

  it('saves everything under its own name', async () => {
    const { kept, told } = keptWith({ 'shop-export': { text: 'all' } });
    await kept.saveEverything();
    expect(told.at(-1)).toBe('save backcure-everything.json all');
  });
});
