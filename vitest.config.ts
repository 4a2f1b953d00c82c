import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    // One worker for every core: by itself the runner leaves one idle, half of a small machine.
    maxWorkers: '100%',
    projects: [
      {
        test: {
          name: 'unit',
          include: ['test/{unit,published,property,store}/**/*.test.ts'],
          environment: 'node',
          // A zone that no build is in: the machine's own must never matter.
          env: { TZ: 'Pacific/Auckland' },
          // Wide, so that a busy machine fails nothing: timing is the bench's matter.
          testTimeout: 60_000,
        },
      },
      {
        plugins: [svelte({ configFile: false })],
        resolve: { conditions: ['browser'] },
        test: {
          name: 'component',
          include: ['test/component/**/*.test.ts'],
          environment: 'happy-dom',
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'e2e',
          include: ['test/e2e/**/*.test.ts'],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 180_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
