/** The question before a build is left whose last edits cannot be stored. */
export interface LeavingQuestion {
  /** The build that is left. */
  readonly name: string;
  /** Why its edits are not stored. */
  readonly detail: string;
}

export type LeavingChoice = 'again' | 'stay' | 'without';

export class LeavingState {
  question = $state.raw<LeavingQuestion | null>(null);
  #answer: ((choice: LeavingChoice) => void) | null = null;

  ask(question: LeavingQuestion): Promise<LeavingChoice> {
    // A second question before the first was answered: the first is answered with stay.
    this.answer('stay');
    this.question = question;
    return new Promise((resolve) => (this.#answer = resolve));
  }

  answer(choice: LeavingChoice): void {
    const tell = this.#answer;
    this.#answer = null;
    this.question = null;
    tell?.(choice);
  }
}
