import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

/** Tests that put a stand-in in a module's place, or count what runs: each needs a process of its own. */
const OWN_PROCESS = [
  'test/unit/answer/grows.test.ts',
  'test/unit/document/reader-grows.test.ts',
  'test/unit/document/versions.test.ts',
  'test/unit/main/channels.test.ts',
  'test/unit/main/electron-start.test.ts',
];

// A zone that no build is in: the machine's own must never matter.
const env = { TZ: 'Pacific/Auckland' };
// Wide, so that a busy machine fails nothing: timing is the bench's matter.
const testTimeout = 120_000;
// What is asked again until it holds is asked for as long: one second is short on a busy machine.
const expect = { poll: { timeout: 45_000 } };

export default defineConfig({
  test: {
    // One worker for every core: by itself the runner leaves one idle, half of a small machine.
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'unit',
          include: ['test/{unit,published,property,store}/**/*.test.ts'],
          exclude: OWN_PROCESS,
          environment: 'node',
          // The modules of app/ are read once for each worker, not once for each file of tests.
          isolate: false,
          env,
          testTimeout,
          expect,
        },
      },
      {
        test: {
          name: 'stand-ins',
          include: OWN_PROCESS,
          environment: 'node',
          env,
          testTimeout,
          expect,
        },
      },
      {
        plugins: [svelte({ configFile: false })],
        resolve: { conditions: ['browser'] },
        test: {
          name: 'component',
          include: ['test/component/**/*.test.ts'],
          environment: 'happy-dom',
          testTimeout,
          expect,
        },
      },
      {
        test: {
          name: 'e2e',
          include: ['test/e2e/**/*.test.ts'],
          environment: 'node',
          testTimeout: 120_000,
          expect,
          hookTimeout: 180_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
