/** The program behind `npm run restore`. */
import { restoreCommand } from './dataCommands.ts';
import { runAsProgram } from './terminal.ts';

await runAsProgram(restoreCommand);
