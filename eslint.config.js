import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import { boundaries, purityRules } from './eslint.boundaries.js';

export default ts.config(
  { ignores: ['out/', 'node_modules/', 'coverage/'] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  {
    plugins: { boundaries },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      // TypeScript resolves names and knows the globals of each folder.
      'no-undef': 'off',
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'prefer-const': 'error',
      'no-console': 'error',
      '@typescript-eslint/consistent-type-imports': [
        'error',
        { fixStyle: 'inline-type-imports', prefer: 'type-imports' },
      ],
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
    },
  },
  {
    files: ['app/**', 'main/**', 'renderer/**'],
    rules: { 'boundaries/imports': 'error', 'boundaries/ids': 'error' },
  },
  { files: ['app/**'], rules: purityRules },
  {
    files: ['main/**/*.ts'],
    languageOptions: {
      globals: globals.node,
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
    },
  },
  {
    files: ['renderer/**/*.svelte', 'renderer/**/*.svelte.ts', 'test/component/**/*.svelte'],
    languageOptions: {
      globals: globals.browser,
      parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'] },
    },
  },
  {
    files: ['renderer/**'],
    rules: {
      'svelte/no-at-html-tags': 'error',
      // The planner has no router.
      'svelte/no-navigation-without-resolve': 'off',
    },
  },
  // These talk to a terminal.
  { files: ['main/command/**', 'main/{start,dev}.ts', 'test/**'], rules: { 'no-console': 'off' } },
);
