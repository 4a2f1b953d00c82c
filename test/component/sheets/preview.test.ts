import { render } from '@testing-library/svelte';
import { afterEach, describe, expect, test } from 'vitest';
import Preview from '../../../renderer/sheets/Preview.svelte';
import { buildSheets } from '../../../app/shop/sheets.ts';
import { toHtml } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const outcome = handMadeOutcome();
afterEach(() => document.body.replaceChildren());

/** Elements, classes and text in document order, whatever the parser made of the white space. */
function outline(node: Element): string[] {
  return [...node.querySelectorAll('*')].map((element) => {
    const own = [...element.childNodes]
      .filter((child) => child.nodeType === Node.TEXT_NODE)
      .map((child) => child.textContent)
      .join('')
      .trim();
    return `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''} ${own}`.trim();
  });
}

describe('preview', () => {
  test('shows every sheet exactly as the printed document has it', () => {
    const { container } = render(Preview, { outcome });
    const shown = [...container.querySelectorAll('article')];
    const { sheets } = buildSheets(outcome);
    expect(shown.map((article) => article.id)).toEqual(sheets.map((sheet) => sheet.id));
    for (const [i, sheet] of sheets.entries()) {
      const printed = document.createElement('div');
      printed.innerHTML = toHtml(sheet.body);
      expect(outline(shown[i]!)).toEqual(outline(printed.firstElementChild!));
    }
  });

  test('what people typed stays text', () => {
    const { container } = render(Preview, { outcome });
    expect(container.textContent).toContain('Lantern cover <7>, "south"');
  });

  test('its style leaves with it', () => {
    const before = document.adoptedStyleSheets.length;
    const { unmount } = render(Preview, { outcome });
    unmount();
    expect(document.adoptedStyleSheets).toHaveLength(before);
  });
});
