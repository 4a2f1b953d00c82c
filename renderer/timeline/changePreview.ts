/** The plan as it would become, before a change is let go. */
import type { PlanResult } from '../../app/document/schema.ts';

export interface ChangePreview {
  readonly result: PlanResult;
  /** The worst of it in one sentence. */
  readonly words: string;
}
