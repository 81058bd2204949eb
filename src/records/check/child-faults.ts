import type { IsoDate } from '../dates.js';
import type { Child } from '../records.js';
import type { Fault } from './refuse.js';

/** `firstEntry`: the first day something was measured or cast; nobody is measured before birth. */
export function* childFaults(
  child: Pick<Child, 'birthDate'>,
  today: IsoDate,
  firstEntry?: IsoDate,
): Generator<Fault> {
  const born = (accepted: string): Fault => ({ what: 'Child', field: 'birthDate', accepted });
  if (child.birthDate > today) yield born('a date up to today');
  if (firstEntry !== undefined && child.birthDate > firstEntry)
    yield born('a date not after the first reading or cast');
}
