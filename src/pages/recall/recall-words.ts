import type { PassedWeek, WorkState } from '../../recall/contract.js';

/** Keys that set a state; shown on the page and read by its script. */
export const stateKeys: readonly (readonly [WorkState, string])[] = [
  ['called', 'c'],
  ['left-message', 'm'],
  ['booked', 'b'],
  ['declined', 'd'],
  ['did-not-come', 'n'],
  ['moved-away', 'w'],
  ['done', 'x'],
];

const passedWords: Readonly<Record<PassedWeek['why'], string>> = {
  declined: 'declined',
  'did-not-come': 'not brought',
  'clinic-cancelled': 'cancelled by the clinic',
  'nothing-recorded': 'booked, nothing recorded',
};

/** What came of weeks before, each kind once with how often. */
export const passedTags = (passed: readonly PassedWeek[]): string[] =>
  [...new Set(passed.map((p) => p.why))].map((why) => {
    const times = passed.filter((p) => p.why === why).length;
    return times > 1 ? `${passedWords[why]} ${times} times` : `${passedWords[why]} before`;
  });
