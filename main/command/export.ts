/** The program behind `npm run export`. */
import { exportCommand } from './dataCommands.ts';
import { runAsProgram } from './terminal.ts';

await runAsProgram(exportCommand);
