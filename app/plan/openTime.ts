/** Open time of a hardener's film in the build's room, for a choice between hardeners. */
import { hardenerOf, practiceOf, resinOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { fitSheet } from '../cure/fit.ts';
import { clockRate } from '../cure/rate.ts';

/** Minutes at the day temperature of the room, on the early side; 0 where the sheet gives none. @throws MissingRow */
export function openMinutes(build: FullBuild, library: Library, hardener: string): number {
  const row = hardenerOf(library, { system: build.resin.system, hardener });
  const { chemistry } = resinOf(library, build.resin.system);
  const model = fitSheet(row, practiceOf(library), chemistry);
  const rate = clockRate(model, 'early', 'pot')(build.room.temperatureC.day);
  return ((model.doseHours.open ?? 0) * 60) / rate;
}
