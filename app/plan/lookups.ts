/** What the levers of judge/ need to know of a build. Handed in, since judge/ runs no earlier step. */
import type { FullBuild, Library } from '../document/schema.ts';
import type { PlanContext } from './context.ts';
import { lackingHelp, type HelpedStretch } from './helper.ts';
import { layupsOf } from './layups.ts';
import { openMinutes } from './openTime.ts';
import { skinsInSections, type SkinInSections } from './inSections.ts';
import type { RoutePlan } from './routePlan.ts';

export interface Lookups {
  /** Open time of a hardener's film at the day temperature of the room, minutes. @throws MissingRow */
  readonly openMinutes: (build: FullBuild, library: Library, hardener: string) => number;
  /** The layups of a build in the order of laying. @throws MissingRow */
  readonly layupsOf: (
    build: FullBuild,
    library: Library,
  ) => readonly { readonly id: string; readonly name: string }[];
  /** Wet work of a plan that a helper would hold, and for how many hours. */
  readonly lackingHelp: (context: PlanContext, plan: RoutePlan) => readonly HelpedStretch[];
  /** Skins of a plan that outlast their resin or the crew's hours and hold in sections. */
  readonly skinsInSections: (context: PlanContext, plan: RoutePlan) => readonly SkinInSections[];
}

export const LOOKUPS: Lookups = { openMinutes, layupsOf, lackingHelp, skinsInSections };
