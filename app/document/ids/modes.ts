/** Ids of modes, the ways of doing a stage. */

/** What is done to a cured surface before something is bonded to it. */
export type SurfaceWork = 'scuff' | 'abrade';

/** One way of doing a stage. */
export type ModeRef =
  /** Runs by itself. */
  | { readonly by: 'itself' }
  /** An outside party works. */
  | { readonly by: 'party' }
  /** One of them, then the other. */
  | { readonly by: 'handover'; readonly people: readonly string[] }
  | {
      readonly by: 'team';
      readonly people: readonly string[];
      readonly surface: SurfaceWork | null;
      /** Some of the team stay beyond their hours. */
      readonly stays: boolean;
    };

/** The id of a mode: `runs`, `works`, `handover:ana+ben`, `ana+ben`, `abrade:ana:stays`. */
export function modeId(ref: ModeRef): string {
  switch (ref.by) {
    case 'itself':
      return 'runs';
    case 'party':
      return 'works';
    case 'handover':
      return `handover:${ref.people.join('+')}`;
    case 'team': {
      const work = ref.surface === null ? '' : `${ref.surface}:`;
      return `${work}${ref.people.join('+')}${ref.stays ? ':stays' : ''}`;
    }
  }
}
