/** A build out of a file, picked in the list of builds or dropped on the window. */
import type { Fault } from '../../app/document/faults.ts';
import type { DeskState } from '../state/desk.svelte.ts';
import type { PlannerState } from '../state/planner.svelte.ts';

/** The file that was tried last and what is wrong in it; none when it was opened. */
class TriedFile {
  name = $state('');
  faults = $state.raw<readonly Fault[]>([]);
}
export const tried = new TriedFile();

/** Opens the build that the file holds; the list of builds says what is wrong where it cannot. */
export async function openFile(planner: PlannerState, desk: DeskState, file: File): Promise<void> {
  tried.name = file.name;
  tried.faults = await planner.opening.importFile(file.name, await file.text());
  desk.dialog = tried.faults.length === 0 ? null : 'builds';
}
