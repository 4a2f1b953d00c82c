/** The program behind `npm run why`. */
import { runAsProgram } from './terminal.ts';
import { whyCommand } from './whyCommand.ts';

await runAsProgram(whyCommand);
