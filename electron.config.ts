import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'electron-vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  main: {
    build: {
      outDir: 'out/main',
      target: 'node24',
      // Bundling the pure packages spares thousands of small file reads at start-up.
      externalizeDeps: {
        exclude: ['zod', '@date-fns/tz', 'ml-levenberg-marquardt', 'ml-matrix', 'uuid'],
      },
      rolldownOptions: {
        input: { index: here('main/index.ts'), host: here('main/host/main.ts') },
        output: { format: 'es', entryFileNames: '[name].js' },
      },
    },
  },
  preload: {
    build: {
      outDir: 'out/preload',
      // A sandboxed preload must be one CommonJS file.
      externalizeDeps: false,
      rolldownOptions: {
        input: { index: here('main/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: here('renderer'),
    base: './',
    plugins: [svelte({ configFile: false })],
    worker: { format: 'es' },
    build: {
      outDir: here('out/renderer'),
      minify: true,
      rolldownOptions: { input: here('renderer/index.html') },
    },
  },
});
