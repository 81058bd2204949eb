import { DoorpostError } from '../errors.js';
import type { Expected } from './shapes.js';

export const notFound = (what: string): DoorpostError =>
  new DoorpostError('not-found', `There is no such ${what}`);

export const changedMeanwhile = (expected: Expected, found: number): DoorpostError =>
  new DoorpostError(
    'changed-meanwhile',
    `This is version ${found} by now; the change was made to version ${expected}. Read it again and repeat the change`,
    { field: 'version', given: String(expected), accepted: String(found) },
  );

/** A change is made to the version that was read, or to whatever is there (null). */
export function refuseStale(expected: Expected, found: number): void {
  if (expected !== null && expected !== found) throw changedMeanwhile(expected, found);
}
