/** System, light, dark or high contrast, set as an attribute on the root of the page. */
export const THEMES = ['system', 'light', 'dark', 'contrast'] as const;
export type Theme = (typeof THEMES)[number];

export class ThemeState {
  #choice = $state<Theme>('system');
  #systemDark = $state(false);
  #systemContrast = $state(false);
  readonly #system = $derived(
    this.#systemContrast ? 'contrast' : this.#systemDark ? 'dark' : 'light',
  );
  readonly shown = $derived(this.#choice === 'system' ? this.#system : this.#choice);

  constructor(media: (query: string) => MediaQueryList) {
    follow(media('(prefers-color-scheme: dark)'), (dark) => (this.#systemDark = dark));
    follow(media('(prefers-contrast: more)'), (more) => (this.#systemContrast = more));
  }

  get choice(): Theme {
    return this.#choice;
  }

  set choice(theme: Theme) {
    this.#choice = theme;
  }
}

function follow(query: MediaQueryList, take: (matches: boolean) => void): void {
  take(query.matches);
  query.addEventListener('change', (event) => take(event.matches));
}

export const isTheme = (value: unknown): value is Theme => THEMES.some((theme) => theme === value);
