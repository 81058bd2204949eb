import { existsSync } from 'node:fs';
import { configuration } from '../service/configuration.js';
import { writeBackup } from '../store/backup.js';
import { restoreBackup } from '../store/restore.js';
import { openDatabase } from './open-database.js';
import { terminal } from './terminal.js';

/** Writes the whole database into one file, of a running service or of one at rest. */
export async function backup(options: { out: string }): Promise<number | undefined> {
  if (existsSync(options.out)) {
    terminal.err(`doorpost: ${options.out} is there already and is not overwritten`);
    return 2;
  }
  const database = await openDatabase(configuration(process.env));
  try {
    const rows = await writeBackup(database.url, options.out);
    terminal.out(`${rows} rows written to ${options.out}. It holds health data and secrets: keep it safe.`);
  } finally {
    await database.stop();
  }
}

/** Loads a backup into an empty database, whole or not at all. */
export async function restore(options: { from: string }): Promise<void> {
  const database = await openDatabase(configuration(process.env));
  try {
    terminal.out(`${await restoreBackup(database.url, options.from)} rows restored.`);
  } finally {
    await database.stop();
  }
}
