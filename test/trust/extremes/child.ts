/** Tries the documents that it is told of by their ends, one after another, in a process that can be ended. */
import type { End } from './ends.ts';
import { ENDS } from './ends.ts';
import { RICH } from './base.ts';
import { trial } from './trial.ts';

const BY_NAME = new Map<string, End>(ENDS.map((end) => [end.name, end]));

const SCOPE = process.argv[2] === 'first' ? 'first' : 'full';
trial(RICH, SCOPE);
process.send?.({ ready: true });
process.on('message', (names: readonly string[]) => {
  const document = names.reduce((made, name) => BY_NAME.get(name)!.change(made), RICH);
  const tried = trial(document, SCOPE);
  process.send?.({ ...tried, peakMB: process.resourceUsage().maxRSS / 1000 });
});
