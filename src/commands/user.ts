import { DoorpostError } from '../errors.js';
import { configuration } from '../service/configuration.js';
import { roles, systemActor } from '../store/contract.js';
import { openStore } from '../store/open-store.js';
import { openDatabase } from './open-database.js';
import { terminal } from './terminal.js';

/** Adds an account from the command line: the first administrator, or a way back in. The password comes on standard input. */
export async function addUser(options: { name: string; role: string }): Promise<void> {
  const role = roles.find((r) => r === options.role);
  if (!role)
    throw new DoorpostError('invalid-value', `There is no role '${options.role}'`, {
      field: 'role',
      given: options.role,
      accepted: roles.join(', '),
    });
  if (process.stdin.isTTY) terminal.err('Password (12 characters or more), then Enter:');
  const password = await firstLine();
  const config = configuration(process.env);
  const database = await openDatabase(config);
  const store = await openStore(database.url, { secretKey: config.secretKey });
  try {
    const user = await store.users.create({ name: options.name, role, password }, systemActor);
    terminal.out(`${user.name} may sign in as ${user.role}.`);
  } finally {
    await store.close();
    await database.stop();
  }
}

async function firstLine(): Promise<string> {
  let text = '';
  for await (const chunk of process.stdin) {
    text += chunk;
    if (text.includes('\n')) break;
  }
  return text.split(/\r?\n/)[0];
}
