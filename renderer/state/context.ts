/** Typed contexts: the planner and the desk it lies on, for every component below the root. */
import { createContext } from 'svelte';
import type { DeskState } from './desk.svelte.ts';
import type { PlannerState } from './planner.svelte.ts';

export const [getPlanner, setPlanner] = createContext<PlannerState>();
export const [getDesk, setDesk] = createContext<DeskState>();
