import { createInterface } from 'node:readline';
import { PassThrough } from 'node:stream';
import type { Role } from '../records/roles.js';
import { configuration } from '../service/configuration.js';
import { systemActor } from '../store/contract.js';
import { openStore } from '../store/open-store.js';
import { exitCodes } from './exit-codes.js';
import { openDatabase } from './open-database.js';
import { terminal } from './terminal.js';

/** Adds an account from the command line: the first administrator, or a way back in. The password comes on standard input. */
export async function addUser(options: { name: string; role: Role }): Promise<void> {
  const password = await typedPassword();
  const config = configuration(process.env);
  const database = await openDatabase(config);
  const store = await openStore(database.url, { secretKey: config.secretKey });
  try {
    const user = await store.users.create({ ...options, password }, systemActor);
    terminal.out(`${user.name} may sign in as ${user.role}.`);
  } finally {
    await store.close();
    await database.stop();
  }
}

/** The first line that comes in; typed at a terminal it is not shown. */
async function typedPassword(): Promise<string> {
  const { stdin } = process;
  if (stdin.isTTY) terminal.err('Password (12 characters or more, not shown), then Enter:');
  const lines = createInterface({ input: stdin, output: new PassThrough(), terminal: stdin.isTTY });
  // In a terminal's raw mode Ctrl+C is a key like another.
  lines.on('SIGINT', () => process.exit(exitCodes.failed));
  for await (const line of lines) return line;
  return '';
}
