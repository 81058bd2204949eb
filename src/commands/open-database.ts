import { DoorpostError } from '../errors.js';
import type { Configuration } from '../service/configuration.js';
import { dataFolder } from '../store/embedded/data-folder.js';
import { type EmbeddedDatabase, startEmbeddedDatabase } from '../store/embedded/embedded-database.js';
import { findEmbeddedDatabase } from '../store/embedded/find-embedded-database.js';
import { terminal } from './terminal.js';

export interface OpenDatabase extends EmbeddedDatabase {
  /** Where the rows are: a folder, or 'DATABASE_URL'. */
  readonly where: string;
}

const folderOf = (config: Configuration) =>
  dataFolder(config.dataDir, {
    named: process.env.DATA_DIR !== undefined && process.env.DATA_DIR !== '',
    runAs: config.databaseRunAs,
    log: terminal.err,
  });

/** A server that others keep: nothing of it is ours to watch or to stop. */
const joined = (url: string, where: string): OpenDatabase => ({
  url,
  where,
  trouble: () => null,
  stop: async () => {},
});

/** The server of DATABASE_URL, else the built-in one, whose folder this process then owns; refused where it has an owner. */
export async function ownDatabase(config: Configuration): Promise<OpenDatabase> {
  if (config.databaseUrl) return joined(config.databaseUrl, 'DATABASE_URL');
  const where = folderOf(config);
  return {
    ...(await startEmbeddedDatabase(where, { runAs: config.databaseRunAs, log: terminal.err })),
    where,
  };
}

/** For a command that may work beside a running service: its database, else one started for the while. */
export async function openDatabase(config: Configuration): Promise<OpenDatabase> {
  try {
    return await ownDatabase(config);
  } catch (error) {
    if (!(error instanceof DoorpostError) || error.code !== 'data-folder-in-use') throw error;
    const where = folderOf(config);
    const url = await findEmbeddedDatabase(where);
    if (!url) throw error;
    return joined(url, where);
  }
}

/** For a process beside a running service: DATABASE_URL, else the built-in database if it runs on this host. */
export async function findDatabase(config: Configuration): Promise<string> {
  const url = config.databaseUrl ?? (await findEmbeddedDatabase(folderOf(config)));
  if (url) return url;
  throw new DoorpostError(
    'database-unavailable',
    'No service runs on this data folder: start it first (npm start), or set DATABASE_URL',
  );
}
