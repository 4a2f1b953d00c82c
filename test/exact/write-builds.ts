/** `node test/exact/write-builds.ts COUNT > builds.json`: the generated builds for the prover. */
import { makeBuild } from './builds.ts';

const count = Number(process.argv[2] ?? 215);
console.log(JSON.stringify(Array.from({ length: count }, (_, seed) => makeBuild(seed))));
