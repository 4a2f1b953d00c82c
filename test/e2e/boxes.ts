/** Boxes of words and controls as the browser has drawn them: none covers another or is cut off. */
import type { Page } from 'playwright-core';

/**
 * What is wrong with the page as it is seen now: controls over controls, words cut off by their own
 * control or head, a page that scrolls sideways.
 */
export async function pageFaults(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const HAIR = 2;
    const CONTROLS = 'button, input, select, textarea, summary, [role="tab"], label, h2, h3, th';
    const isSeen = (one: Element): boolean =>
      one.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
      one.closest('[aria-hidden="true"], .spoken') === null;
    /** What is left of a box when everything that scrolls has cut it. */
    const seenBox = (one: Element) => {
      let { left, top, right, bottom } = one.getBoundingClientRect();
      for (let up = one.parentElement; up; up = up.parentElement) {
        if (getComputedStyle(up).overflow === 'visible') continue;
        const cut = up.getBoundingClientRect();
        [left, top] = [Math.max(left, cut.left), Math.max(top, cut.top)];
        [right, bottom] = [Math.min(right, cut.right), Math.min(bottom, cut.bottom)];
      }
      return { left, top, right, bottom };
    };
    const nameOf = (one: Element): string =>
      `${one.tagName.toLowerCase()} '${(one.textContent.trim() || one.id).slice(0, 30)}'`;
    const all = [...document.querySelectorAll(CONTROLS)].filter(isSeen);
    const boxes = all
      // A joint stands on the line between two rows; a sticky head covers what scrolls under it.
      .filter(
        (one) => one.closest('.pill, .joint, .heads, .axis, .head, thead, [aria-live]') === null,
      )
      .map((one) => ({ one, ...seenBox(one) }))
      .filter(({ left, top, right, bottom }) => right - left > HAIR && bottom - top > HAIR);
    const faults: string[] = [];
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        if (a.one.contains(b.one) || b.one.contains(a.one)) continue;
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (wide > HAIR && high > HAIR) faults.push(`${nameOf(a.one)} over ${nameOf(b.one)}`);
      }
    });
    for (const one of all) {
      if (one.matches('input, textarea, select')) continue;
      const isCut = one.scrollWidth > one.clientWidth + HAIR && one.clientWidth > 0;
      const { textOverflow, display } = getComputedStyle(one);
      if (isCut && textOverflow !== 'ellipsis' && display !== 'inline') {
        faults.push(`${nameOf(one)} is cut off`);
      }
      const { left, right, width } = one.getBoundingClientRect();
      const scrolls = one.closest('.window, .wide, [role="region"]') !== null;
      if (width > 0 && !scrolls && (left < -HAIR || right > window.innerWidth + HAIR)) {
        faults.push(`${nameOf(one)} reaches out of the page`);
      }
    }
    const desk = document.querySelector('.desk');
    if (
      [document.documentElement, desk].some((one) => one && one.scrollWidth > one.clientWidth + 1)
    ) {
      faults.push('the page scrolls sideways');
    }
    return faults;
  });
}
