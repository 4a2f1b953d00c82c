/**
 * The one definition of the Build document, the library rows and the plan result.
 * File, channel, store and tests all parse through it; the types are inferred from it.
 *
 * Lengths, masses, temperatures and times carry their unit in the name. Money is integer minor
 * units of the build's currency. Local times are wall-clock times in the build's zone.
 */
export { DOCUMENT_VERSION, RESULT_VERSION } from './schema/versions.ts';
export { isCalendarDay, isZone, MOST } from './schema/scalars.ts';
export {
  AIR_KINDS,
  FINISHES,
  HAZARDS,
  JOINT_STATES,
  MILESTONES,
  PROCESSES,
  STAGE_KINDS,
} from './schema/words.ts';
export type {
  AirKind,
  Finish,
  Hazard,
  JointState,
  Milestone,
  Process,
  StageKind,
} from './schema/words.ts';
export type {
  ClothRow,
  ConsumableRow,
  CoreRow,
  HardenerRow,
  MouldRow,
  Provenance,
  ReleaseRow,
  ResinRow,
  SheetRow,
} from './schema/materials.ts';
export { librarySchema } from './schema/library.ts';
export type {
  ConsequenceRow,
  FinishingRow,
  LabourRow,
  Library,
  LibraryTable,
  PracticeRow,
} from './schema/library.ts';
export type { Ply } from './schema/part.ts';
export { HEAT_ALONE } from './schema/shop.ts';
export type { AirRule, HeatAlone, HeatProgramme } from './schema/shop.ts';
export { floorRecordSchema } from './schema/floor.ts';
export type { FloorRecord } from './schema/floor.ts';
export { buildSchema } from './schema/build.ts';
export type {
  Build,
  BusyBlock,
  FullBuild,
  Holiday,
  Hours,
  OutsideParty,
  PartZone,
  Person,
  Supplier,
} from './schema/build.ts';
export { STAGE_STATES, planResultSchema } from './schema/result.ts';
export type {
  CureResult,
  Finding,
  Answers,
  Lever,
  MixResult,
  PlanResult,
  RouteResult,
  StageResult,
} from './schema/result.ts';
