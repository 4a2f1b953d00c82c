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
  /** So many of those who work the same hours as one of them. */
  | {
      readonly by: 'number';
      readonly anyOf: readonly { readonly like: string; readonly count: number }[];
      readonly surface: SurfaceWork | null;
      /** Some of them stay beyond their hours. */
      readonly stays: boolean;
    }
  | {
      readonly by: 'team';
      readonly people: readonly string[];
      readonly surface: SurfaceWork | null;
      /** Some of the team stay beyond their hours. */
      readonly stays: boolean;
    };

/** The id of a mode: `runs`, `works`, `handover:ana+ben`, `ana+ben`, `abrade:ana:stays`, `2*ana+1*ben`. */
export function modeId(ref: ModeRef): string {
  switch (ref.by) {
    case 'itself':
      return 'runs';
    case 'party':
      return 'works';
    case 'handover':
      return `handover:${ref.people.join('+')}`;
    case 'number':
      return ofTeam(ref, ref.anyOf.map(({ like, count }) => `${count}*${like}`).join('+'));
    case 'team':
      return ofTeam(ref, ref.people.join('+'));
  }
}

/** The id of the same way in air that is shared with other work: `ana+ben:beside`. */
export const besideModeId = (mode: string): string => `${mode}:beside`;

const ofTeam = (
  { surface, stays }: { readonly surface: SurfaceWork | null; readonly stays: boolean },
  who: string,
): string => `${surface === null ? '' : `${surface}:`}${who}${stays ? ':stays' : ''}`;
