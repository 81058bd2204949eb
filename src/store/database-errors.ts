import { DoorpostError } from '../errors.js';

/** SQLSTATE of a disk that has no room left. */
const DISK_FULL = '53100';

/**
 * An error of the connection to the database as one of ours; any other as it came. The driver gives some of them a
 * SQLSTATE, some a code of Node and some only words.
 */
export function asDatabaseError(error: unknown): unknown {
  if (!(error instanceof Error) || error instanceof DoorpostError) return error;
  const { code, message } = error as Error & { code?: string };
  if (code === DISK_FULL || code === 'ENOSPC')
    return because(
      error,
      new DoorpostError(
        'disk-full',
        'The disk of the database is full: nothing of this was stored. The administrator must make room',
      ),
    );
  const lost =
    (code !== undefined && /^((08|53|57)\w{3}|E[A-Z]+)$/.test(code)) ||
    /^(Connection terminated|Client has encountered a connection error|timeout exceeded when trying to connect|Query read timeout|Cannot use a pool after)/.test(
      message,
    );
  return lost ? unavailable(error) : error;
}

/** Where no connection can be had, whatever the server's reason (no such database, a password changed), it is away. */
export function asUnavailable(error: unknown): unknown {
  const named = asDatabaseError(error);
  return named instanceof DoorpostError || !(named instanceof Error) ? named : unavailable(named);
}

const unavailable = (cause: Error) =>
  because(
    cause,
    new DoorpostError(
      'database-unavailable',
      'The database cannot be reached just now: try again in a moment',
    ),
  );

export const isUnavailable = (error: unknown): boolean =>
  error instanceof DoorpostError && (error.code === 'database-unavailable' || error.code === 'disk-full');

const because = (cause: unknown, error: DoorpostError) => Object.assign(error, { cause });
