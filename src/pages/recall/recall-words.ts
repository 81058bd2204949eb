import type { WorkState } from '../../recall/contract.js';

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
