/** System, light or dark, set as an attribute on the root of the page. */
export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

const DARK = '(prefers-color-scheme: dark)';

export class ThemeState {
  #choice = $state<Theme>('system');
  #systemDark = $state(false);
  readonly shown = $derived(
    this.#choice === 'system' ? (this.#systemDark ? 'dark' : 'light') : this.#choice,
  );

  constructor(media: (query: string) => MediaQueryList) {
    const query = media(DARK);
    this.#systemDark = query.matches;
    query.addEventListener('change', (event) => (this.#systemDark = event.matches));
  }

  get choice(): Theme {
    return this.#choice;
  }

  set choice(theme: Theme) {
    this.#choice = theme;
  }
}

export const isTheme = (value: unknown): value is Theme => THEMES.some((theme) => theme === value);
