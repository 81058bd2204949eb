import { plainDate } from '../../forecast/words.js';
import type { IsoDate } from '../../records/dates.js';
import type { PassedWeek, RecallEntry } from '../contract.js';
import type { PlannedVisit } from './contract.js';

/** Why an entry got its week, for the scheduler: what came of the week before, the plan's own reason, what else it is for. */
export function weekReason(
  entry: RecallEntry,
  visit: PlannedVisit,
  passed: readonly PassedWeek[],
  movedFrom: IsoDate | null,
): string {
  return joined([
    passedText(passed, movedFrom),
    visit.why,
    togetherWith(entry, visit),
    visit.overtime ? 'There is no usual slot left that week: it needs one more.' : '',
  ]);
}

const passedWords: Readonly<Record<PassedWeek['why'], string>> = {
  declined: 'The family could not come in the week of',
  'did-not-come': 'Not brought in the week of',
  'clinic-cancelled': 'The clinic cancelled the week of',
  'nothing-recorded': 'Nothing is recorded of the visit booked for the week of',
};

/** What came of the week before, and whether the family must be helped to come rather than only rung again. */
function passedText(passed: readonly PassedWeek[], movedFrom: IsoDate | null): string {
  const last = passed.at(-1);
  const missed = passed.filter((p) => p.why === 'did-not-come').length;
  return joined([
    last ? `${passedWords[last.why]} ${plainDate(last.week)}.` : '',
    missed > 1 ? `Not brought ${missed} times in half a year: ask what would help the family to come.` : '',
    movedFrom && movedFrom !== last?.week ? `Was planned for the week of ${plainDate(movedFrom)}.` : '',
  ]);
}

/** What else is done in the visit: it may be why a device goes before its own cast is worth it. */
function togetherWith(entry: RecallEntry, visit: PlannedVisit): string {
  if (visit.childIds.length > 1) return 'One visit with a brother or sister.';
  const others = visit.deviceIds.filter((d) => !entry.deviceIds.includes(d)).length;
  if (others > 0) return `One visit with ${others === 1 ? 'another device' : 'other devices'} of the child.`;
  return '';
}

const joined = (texts: readonly string[]) => texts.filter((text) => text !== '').join(' ');
