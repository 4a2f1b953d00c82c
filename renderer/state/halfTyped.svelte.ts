/**
 * The text of a field that was typed and not taken yet, for the page that is closed meanwhile: the field shows
 * it again, as it stood, until it is taken or put back.
 */
import type { PlannerState } from './planner.svelte.ts';

type Planner = Pick<PlannerState, 'buildId' | 'drafts' | 'view' | 'setView'>;

interface Kept {
  readonly build: string;
  readonly field: string;
  readonly text: string;
}

/** Far longer than any field takes; the window's state is small. */
const LONGEST = 2000;

const placeOf = ({ buildId, drafts }: Planner): string | null => buildId ?? drafts.openId;

/** What stands in one field while it differs from the document; null: nothing does. */
export class HalfTyped {
  readonly #planner: Planner;
  readonly #field: string;
  text = $state<string | null>(null);

  /**
   * Begins with what was typed when the page was closed.
   * @param field path of the field, which stays the same for as long as the field is there
   */
  constructor(planner: Planner, field: string) {
    this.#planner = planner;
    this.#field = field;
    this.text = this.#kept();
  }

  /** @param text null once it was taken or put back */
  put(text: string | null): void {
    this.text = text;
    const build = placeOf(this.#planner);
    if (build === null) return;
    if (text !== null) {
      const typed = { build, field: this.#field, text: text.slice(0, LONGEST) };
      this.#planner.setView({ typed });
    } else if (this.#kept() !== null) this.#planner.setView({ typed: null });
  }

  #kept(): string | null {
    const kept = this.#planner.view['typed'] as Kept | null | undefined;
    const here = kept?.field === this.#field && kept.build === placeOf(this.#planner);
    return here ? kept.text : null;
  }
}
