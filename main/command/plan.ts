/** The program behind `npm run plan`. */
import { planCommand } from './planCommand.ts';
import { runAsProgram } from './terminal.ts';

await runAsProgram(planCommand);
