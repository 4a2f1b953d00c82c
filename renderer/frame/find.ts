/** What can be found by name: builds, and what the open one holds. */
import { FIELDS } from '../../app/document/fieldTable.ts';
import { panelOf, type FieldPanel } from '../../app/document/fields.ts';
import { dayClock } from '../../app/shop/words.ts';
import type { PlannerState } from '../state/planner.svelte.ts';

export type Found =
  | { readonly kind: 'build'; readonly id: string; readonly text: string; readonly more: string }
  | { readonly kind: 'stage'; readonly id: string; readonly text: string; readonly more: string }
  | {
      readonly kind: 'field';
      readonly id: string;
      readonly text: string;
      readonly more: string;
      readonly panel: FieldPanel;
    }
  | {
      readonly kind: 'finding';
      readonly id: string;
      readonly text: string;
      readonly more: string;
      readonly stage: string | null;
    };

/** Everything that has a name, the open build's own first. */
export function findable(planner: PlannerState): readonly Found[] {
  const { result } = planner;
  return [
    ...(result?.stages ?? []).map((stage): Found => {
      const more = stage.start === null ? '' : dayClock(stage.start);
      return { kind: 'stage', id: stage.id, text: stage.name, more };
    }),
    ...Object.entries(FIELDS).map(([path, { words }]): Found => {
      return { kind: 'field', id: path, text: words, more: '', panel: panelOf(path) };
    }),
    ...(result?.findings ?? []).map((finding, i): Found => {
      const { stage, message: text } = finding;
      return { kind: 'finding', id: `${i}`, text, more: '', stage };
    }),
    ...planner.session.builds.map(({ id, name }): Found => {
      return { kind: 'build', id, text: name, more: '' };
    }),
  ];
}

/** Without case and accents, so that `facade` finds `Façade`. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

/** True when every typed word stands in the text, in whatever order. */
export function called(text: string, typed: string): boolean {
  const within = plain(text);
  return plain(typed)
    .split(/\s+/)
    .every((word) => within.includes(word));
}
