import { closeSync, ftruncateSync, openSync, readFileSync, writeSync } from 'node:fs';
import { DoorpostError } from '../../errors.js';

/**
 * A lock that the operating system keeps on a file. It holds against every process on every machine that shares the
 * file, whatever process numbers they see, and goes when the last process that holds the open file has ended, however
 * it ended. Nothing is ever judged from a process number.
 */
export interface FolderLock {
  /** Handed to a child process, the lock holds until that child has ended too. */
  readonly fd: number;
  /** Lets go; a child that was handed the file keeps the lock. */
  close(): void;
}

/** The lock on this file (made where there is none), or null while somebody else holds it. `note` says who holds it. */
export async function tryFolderLock(file: string, note = ''): Promise<FolderLock | null> {
  const { tryLock } = await loadLocks();
  const fd = openSync(file, 'a+', 0o600);
  try {
    if (!tryLock(fd)) {
      closeSync(fd);
      return null;
    }
  } catch (error) {
    closeSync(fd);
    throw new DoorpostError(
      'database-unavailable',
      `The file system of ${file} cannot lock files (${(error as NodeJS.ErrnoException).code ?? 'no code'}): two services could write the same data. Name a data folder on another one, or set DATABASE_URL`,
    );
  }
  ftruncateSync(fd);
  if (note) writeSync(fd, note);
  let open = true;
  return {
    fd,
    close() {
      if (open) closeSync(fd);
      open = false;
    },
  };
}

/** What the holder of the lock said of itself. */
export function noteOf(file: string): string {
  try {
    return readFileSync(file, 'utf8').slice(0, 200);
  } catch {
    return '';
  }
}

async function loadLocks(): Promise<typeof import('fs-native-extensions')> {
  try {
    return await import('fs-native-extensions');
  } catch {
    throw new DoorpostError(
      'database-unavailable',
      'The built-in database cannot lock its folder on this machine: set DATABASE_URL to a PostgreSQL server',
    );
  }
}
