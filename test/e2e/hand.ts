/** One hand at work in the planner: a mouse that clicks, or keys that are pressed. Each counts what it does. */
import type { Locator, Page } from 'playwright-core';

export interface Hand {
  /** Controls that were operated so far: a button pressed, an entry made, an option taken. */
  readonly actions: number;
  press(control: Locator): Promise<void>;
  /** Enters a text in place of what stands in the field, and leaves it. */
  enter(field: Locator, text: string): Promise<void>;
  /** Shows the pane of a tab. */
  show(tab: Locator): Promise<void>;
  /** Takes an option by the words it begins with. */
  take(field: Locator, words: string): Promise<void>;
}

/** As many stops as no page has: the control that is sought cannot be reached by Tab. */
const MOST_STOPS = 400;
const MOST_TABS = 20;

/** Letters are typed, as they have to be; everything else is pointed at and clicked. */
export function mouse(page: Page): Hand {
  let actions = 0;
  return {
    get actions() {
      return actions;
    },
    async press(control) {
      actions += 1;
      await control.click();
    },
    async enter(field, text) {
      actions += 1;
      await field.click({ clickCount: 3 });
      await page.keyboard.insertText(text);
      await page.locator('#panel-title').click();
    },
    async show(tab) {
      actions += 1;
      await tab.click();
    },
    async take(field, words) {
      actions += 1;
      // The list itself is the system's and lies outside the page: what is tried is the way to it.
      await field.click({ trial: true });
      const option = field.locator('option').filter({ hasText: new RegExp(`^${words}`) });
      await field.selectOption((await option.first().getAttribute('value'))!);
    },
  };
}

/** Nothing but keys: Tab to the control, then what it takes. */
export function keys(page: Page): Hand {
  let actions = 0;
  const reach = async (control: Locator): Promise<void> => {
    actions += 1;
    await control.waitFor();
    const wanted = await control.elementHandle();
    for (let stops = 0; stops < MOST_STOPS; stops++) {
      const isThere = await page.evaluate((one) => document.activeElement === one, wanted);
      if (isThere) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab does not reach ${String(control)}`);
  };
  return {
    get actions() {
      return actions;
    },
    async press(control) {
      await reach(control);
      await page.keyboard.press('Enter');
    },
    async enter(field, text) {
      await reach(field);
      await page.keyboard.press('Control+a');
      await page.keyboard.insertText(text);
      await page.keyboard.press('Tab');
    },
    async show(tab) {
      await reach(page.locator('[role="tab"][aria-selected="true"]').first());
      for (let tabs = 0; tabs < MOST_TABS; tabs++) {
        if ((await tab.getAttribute('aria-selected')) === 'true') return;
        await page.keyboard.press('ArrowRight');
      }
      throw new Error(`No arrow reaches ${String(tab)}`);
    },
    async take(field, words) {
      await reach(field);
      await page.keyboard.type(words);
    },
  };
}
