/** Open time of a hardener's film in the build's room, for a choice between hardeners. */
import { hardenerOf, practiceOf, resinOf } from '../document/library.ts';
import type { FullBuild, Library } from '../document/schema.ts';
import { rateFactor } from '../cure/arrhenius.ts';
import { fitSheet } from '../cure/fit.ts';

/** Minutes at the day temperature of the room; 0 where the sheet tells nothing. @throws MissingRow */
export function openMinutes(build: FullBuild, library: Library, hardener: string): number {
  const row = hardenerOf(library, { system: build.resin.system, hardener });
  const { chemistry } = resinOf(library, build.resin.system);
  const model = fitSheet(row, practiceOf(library), chemistry);
  const factor = rateFactor(
    model.activationEnergyJMol,
    build.room.temperatureC.day,
    model.referenceC,
  );
  return ((model.doseHours.open ?? 0) * 60) / factor;
}
