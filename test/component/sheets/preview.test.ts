import { render } from '@testing-library/svelte';
import { afterEach, describe, expect, test } from 'vitest';
import Preview from '../../../renderer/sheets/Preview.svelte';
import { paperwork, sideNodes } from '../../../app/shop/sheets.ts';
import { toHtml } from '../../../app/shop/tree.ts';
import { handMadeOutcome } from '../../unit/shop/outcome.ts';

const work = paperwork(handMadeOutcome());
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
  test('shows every side exactly as the printed document has it', () => {
    const { container } = render(Preview, { work });
    const shown = [...container.querySelectorAll('.side')];
    const sides = sideNodes(work);
    expect(shown).toHaveLength(work.sides);
    for (const [i, side] of sides.entries()) {
      const printed = document.createElement('div');
      printed.innerHTML = toHtml(side);
      expect(outline(shown[i]!)).toEqual(outline(printed.firstElementChild!));
    }
  });

  test('what people typed stays text', () => {
    const { container } = render(Preview, { work });
    expect(container.textContent).toContain('Lantern cover <7>, "south"');
  });

  test('its style leaves with it', () => {
    const before = document.adoptedStyleSheets.length;
    const { unmount } = render(Preview, { work });
    unmount();
    expect(document.adoptedStyleSheets).toHaveLength(before);
  });
});
