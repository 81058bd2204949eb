import { Command, CommanderError } from 'commander';
import { DoorpostError } from '../errors.js';
import { version } from '../service/version.js';
import { caseloadCommands } from './caseload-commands.js';
import { exitCodes, exitCodesText } from './exit-codes.js';
import { loadCommand } from './load-command.js';
import { serviceCommands } from './service-commands.js';
import { studyCommands } from './study-commands.js';
import { terminal } from './terminal.js';

/** Runs one command line and gives its exit code. What each option means stands in `doorpost <command> --help`. */
export async function runCommandLine(args: readonly string[]): Promise<number> {
  let exitCode: number = exitCodes.done;
  const load = loadCommand((code) => {
    exitCode = code;
  });
  const program = new Command('doorpost')
    .description(
      'When will each child outgrow each orthosis? Growth, fit and recall planning for an orthotics clinic.\n' +
        'A forecast is an estimate from measurements, never a diagnosis and never a reason to skip a review.',
    )
    .version(version)
    .showHelpAfterError('(doorpost --help lists the commands)')
    .addHelpText('after', `\n${exitCodesText}`)
    .exitOverride();
  caseloadCommands(program, load);
  studyCommands(program, load);
  serviceCommands(program, load);
  try {
    await program.parseAsync(args, { from: 'user' });
    return exitCode;
  } catch (error) {
    return exitCodeOf(error);
  }
}

function exitCodeOf(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  if (error instanceof DoorpostError) {
    const { accepted } = error.place;
    terminal.err(`doorpost: ${error.message}${accepted ? `\nAccepted: ${accepted}.` : ''}`);
    return error.status < 500 ? exitCodes.usage : exitCodes.failed;
  }
  const { code, message } = error as NodeJS.ErrnoException;
  terminal.err(`doorpost: ${message}`);
  if (process.env.DOORPOST_DEBUG) console.error(error);
  return code === 'ENOENT' || code === 'EACCES' || code === 'EISDIR' ? exitCodes.usage : exitCodes.failed;
}
