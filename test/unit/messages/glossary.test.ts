import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PROGRAM_WORDS, TRADE_WORDS } from '../../../app/messages/glossary.ts';

const page = readFileSync(new URL('../../../docs/glossary.md', import.meta.url), 'utf8');
const rowsUnder = (title: string) =>
  page
    .split(/^## /m)
    .find((part) => part.startsWith(title))!
    .split('\n')
    .flatMap((line) => [...line.matchAll(/^\| (.+?) +\| (.+?) *\|$/g)])
    .map(([, word, meaning]) => ({ word: word!.trim(), meaning: meaning!.trim() }))
    .filter(({ word }) => word !== 'word' && !word.startsWith('-'));

describe('the glossary', () => {
  it('is the same on the screen and in the documents', () => {
    expect(TRADE_WORDS.length).toBeGreaterThan(30);
    expect(TRADE_WORDS).toEqual(rowsUnder("The trade's words"));
    expect(PROGRAM_WORDS).toEqual(rowsUnder("The program's words"));
  });

  it('has every word once, in the order of the letters', () => {
    for (const words of [TRADE_WORDS, PROGRAM_WORDS]) {
      const names = words.map(({ word }) => word.toLowerCase());
      expect(new Set(names).size).toBe(names.length);
    }
    const trade = TRADE_WORDS.map(({ word }) => word.toLowerCase());
    expect(trade).toEqual([...trade].sort());
  });
});
