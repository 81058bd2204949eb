import type { Action, Alert, WorkState } from '../recall/contract.js';

/** What the list calls an action. */
export const actionNames: Readonly<Record<Action, string>> = {
  'see-now': 'see now',
  repair: 'repair',
  measure: 'measure',
  adjust: 'adjust',
  'renew-part': 'renew part',
  cast: 'cast',
  check: 'check, cast if needed',
  review: 'review',
  none: 'nothing due',
};

/** How the work with a family stands. */
export const stateNames: Readonly<Record<WorkState, string>> = {
  'to-call': 'to call',
  called: 'rang',
  'left-message': 'left a message',
  booked: 'booked',
  declined: 'declined',
  'did-not-come': 'not brought',
  'moved-away': 'moved away',
  done: 'done',
};

export const alertNames: Readonly<Record<Alert, string>> = {
  'skin-cannot-warn': 'skin cannot warn',
  latex: 'latex',
  palliative: 'comfort decides',
};
