import type { IsoDate } from '../dates.js';
import type { Child } from '../records.js';
import { type Fault, IN_FUTURE } from './refuse.js';

/** `firstEntry`: the first day something was measured or cast; nobody is measured before birth. */
export function* childFaults(
  child: Pick<Child, 'birthDate'>,
  today: IsoDate,
  firstEntry?: IsoDate,
): Generator<Fault> {
  const born = (why: string, accepted: string): Fault => ({
    what: 'Child',
    field: 'birthDate',
    why,
    accepted,
  });
  if (child.birthDate > today) yield born(IN_FUTURE, 'a date up to today');
  if (firstEntry !== undefined && child.birthDate > firstEntry)
    yield born('lies after the first reading or cast', 'a date up to that day');
}
