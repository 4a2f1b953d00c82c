/** The layups of a build by name, for what is offered layup by layup. */
import type { FullBuild, Library } from '../document/schema.ts';
import { measurePart } from '../part/measure.ts';

/**
 * Id and name of every layup of a build, in the order of laying.
 * @throws MissingRow when the library lacks a row that the build names
 */
export const layupsOf = (
  build: FullBuild,
  library: Library,
): readonly { readonly id: string; readonly name: string }[] => measurePart(build, library).layups;
