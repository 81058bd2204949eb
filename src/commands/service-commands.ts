import { type Command, Option } from 'commander';
import { roles } from '../records/roles.js';
import type { Load } from './load-command.js';

/** The service and what looks after it; its settings come from the environment. */
export function serviceCommands(program: Command, load: Load): void {
  program
    .command('serve')
    .description('run the service; settings come from the environment (see README)')
    .action(load('serve', 'serve'));
  program
    .command('worker')
    .description('run one more worker for the service of the same DATABASE_URL')
    .action(load('worker', 'worker'));
  program
    .command('backup')
    .description('write the whole database of the service into one file')
    .requiredOption('--out <file>', 'file to write')
    .action(load('backup', 'backup'));
  program
    .command('restore')
    .description('load a backup into an empty database')
    .requiredOption('--from <file>', 'file to read')
    .action(load('backup', 'restore'));
  program
    .command('user')
    .description('accounts of the service')
    .command('add')
    .description('add an account; the password is read from standard input')
    .requiredOption('--name <name>', 'sign-in name')
    .addOption(new Option('--role <role>', 'what it may do').choices(roles).makeOptionMandatory())
    .action(load('user', 'addUser'));
}
