import type { IsoDate } from '../dates.js';
import type { Child } from '../records.js';
import { refuse } from './refuse.js';

/** `firstEntry`: the first day something was measured or cast; nobody is measured before birth. */
export function checkChild(
  child: Pick<Child, 'birthDate'>,
  today: IsoDate,
  firstEntry: IsoDate | null = null,
  row?: number,
): void {
  if (child.birthDate > today) refuse('Child', { field: 'birthDate', accepted: 'a date up to today', row });
  if (firstEntry !== null && child.birthDate > firstEntry)
    refuse('Child', { field: 'birthDate', accepted: 'a date not after the first reading or cast', row });
}
