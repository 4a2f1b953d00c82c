/**
 * What was typed and not taken yet, for the page that is closed meanwhile: each field shows it again, as it stood,
 * until it is taken or put back. Kept with the window, build by build.
 */
import type { PlannerState } from './planner.svelte.ts';

type Planner = Pick<PlannerState, 'buildId' | 'drafts' | 'view' | 'setView'>;
/** By field, the oldest first. */
type Texts = Readonly<Record<string, string>>;

/** All of one build together: the window's state is small. What is longer is not kept, the oldest first. */
const LONGEST = 20_000;

const placeOf = ({ buildId, drafts }: Planner): string | null => buildId ?? drafts.openId;

function keptIn(planner: Planner): {
  readonly all: Readonly<Record<string, unknown>>;
  here: Texts;
} {
  const all = (planner.view['typed'] ?? {}) as Readonly<Record<string, unknown>>;
  const here = all[placeOf(planner) ?? ''];
  return { all, here: typeof here === 'object' && here !== null ? (here as Texts) : {} };
}

/** What stands in one field while it differs from the document; null: nothing does. */
export class HalfTyped {
  readonly #planner: Planner;
  readonly #field: string;
  text = $state<string | null>(null);

  /**
   * Begins with what was typed when the page was closed.
   * @param field path or id of the field, which stays the same for as long as the field is there
   */
  constructor(planner: Planner, field: string) {
    this.#planner = planner;
    this.#field = field;
    this.text = keptIn(planner).here[field] ?? null;
  }

  /** @param text null once it was taken or put back */
  put(text: string | null): void {
    this.text = text;
    const build = placeOf(this.#planner);
    if (build === null) return;
    const { all, here } = keptIn(this.#planner);
    const { [this.#field]: before, ...others } = here;
    if (text === null && before === undefined) return;
    const kept = text === null ? others : bounded({ ...others, [this.#field]: text });
    const typed = { ...all, [build]: Object.keys(kept).length === 0 ? null : kept };
    this.#planner.setView({ typed });
  }
}

/** A figure of a form: read and shown, and part of no document until a button takes the whole form. */
export class FormFigure {
  readonly #typed: HalfTyped;

  constructor(planner: Planner, field: string) {
    this.#typed = new HalfTyped(planner, `${field}-read`);
  }

  get value(): number | null {
    return this.#typed.text === null ? null : Number(this.#typed.text);
  }

  set value(value: number | null) {
    this.#typed.put(value === null ? null : String(value));
  }
}

function bounded(texts: Texts): Texts {
  const entries = Object.entries(texts);
  const length = () => entries.reduce((sum, [field, text]) => sum + field.length + text.length, 0);
  while (entries.length > 0 && length() > LONGEST) entries.shift();
  return Object.fromEntries(entries);
}
