import { execFileSync, spawnSync } from 'node:child_process';
import { DoorpostError } from '../../errors.js';

/** Who the database runs as; nothing when it is ourselves. */
export interface RunAs {
  readonly uid?: number;
  readonly gid?: number;
}

const USUAL = 'postgres';

/**
 * PostgreSQL refuses to run as root, so root lends it to a system user: the one that is named, who must be there, or
 * else 'postgres', which is made where it is missing, and said so.
 */
export function runAs(named: string | null = null, log: (line: string) => void = () => {}): RunAs {
  if (process.getuid?.() !== 0) return {};
  const found = idsOf(named ?? USUAL);
  if (found?.uid === 0)
    throw new DoorpostError('invalid-configuration', 'DATABASE_RUN_AS is root, whom PostgreSQL refuses');
  if (found) return found;
  if (named !== null)
    throw new DoorpostError('invalid-configuration', `There is no system user '${named}' (DATABASE_RUN_AS)`);
  return makeUsual(log);
}

function makeUsual(log: (line: string) => void): RunAs {
  try {
    execFileSync('groupadd', ['--force', '--system', USUAL], { stdio: 'ignore' });
    execFileSync('useradd', ['--system', '--gid', USUAL, '--no-create-home', USUAL], { stdio: 'ignore' });
  } catch {
    throw new DoorpostError(
      'invalid-configuration',
      `Started by root, and PostgreSQL refuses to run as root: the system user '${USUAL}' could not be made. Start doorpost as an ordinary user, name a system user in DATABASE_RUN_AS, or set DATABASE_URL`,
    );
  }
  log(
    `Started by root, and PostgreSQL refuses to run as root: the system user and group '${USUAL}' were made for it. To avoid that, start doorpost as an ordinary user, or name a system user in DATABASE_RUN_AS.`,
  );
  return idsOf(USUAL) ?? {};
}

function idsOf(name: string): { uid: number; gid: number } | null {
  const id = (flag: '-u' | '-g') =>
    Number(execFileSync('id', [flag, '--', name], { stdio: ['ignore', 'pipe', 'ignore'] }));
  try {
    return { uid: id('-u'), gid: id('-g') };
  } catch {
    return null;
  }
}

/** Can that user enter the folder? Always true for ourselves. */
export function canEnter(folder: string, as: RunAs): boolean {
  return as.uid === undefined || spawnSync('test', ['-x', folder], as).status === 0;
}
