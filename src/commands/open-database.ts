import { DoorpostError } from '../errors.js';
import type { Configuration } from '../service/configuration.js';
import {
  dataFolder,
  findEmbeddedDatabase,
  startEmbeddedDatabase,
} from '../store/embedded/embedded-database.js';

export interface OpenDatabase {
  readonly url: string;
  /** Where the rows are: a folder, or 'DATABASE_URL'. */
  readonly where: string;
  stop(): Promise<void>;
}

const folderOf = (config: Configuration) =>
  dataFolder(config.dataDir, process.env.DATA_DIR !== undefined && process.env.DATA_DIR !== '');

/** The server of DATABASE_URL, else the built-in one, started on the data folder if it is not running. */
export async function openDatabase(config: Configuration): Promise<OpenDatabase> {
  if (config.databaseUrl) return { url: config.databaseUrl, where: 'DATABASE_URL', stop: async () => {} };
  const folder = folderOf(config);
  const database = await startEmbeddedDatabase(folder);
  return { url: database.url, where: folder, stop: database.stop };
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
