import { configuration } from '../service/configuration.js';
import { restoreBackup } from '../store/restore.js';
import { openDatabase } from './open-database.js';
import { terminal } from './terminal.js';

/** Loads a backup into an empty database, whole or not at all. */
export async function restore(options: { from: string }): Promise<void> {
  const database = await openDatabase(configuration(process.env));
  try {
    terminal.out(`${await restoreBackup(database.url, options.from)} rows restored.`);
  } finally {
    await database.stop();
  }
}
