import type { RecallEntry } from '../../src/recall/contract.js';

/** An invented visit, for tests of what is done with one. */
export const exampleEntry = (over: Partial<RecallEntry> = {}): RecallEntry => ({
  childId: 'CHILD-Q1',
  deviceIds: ['C1-D1'],
  action: 'cast',
  reason: {
    code: 'cast-due',
    numbers: { castBy: '2026-12-31' },
    text: 'Your child will soon grow out of the left lower leg brace.',
  },
  dueBy: '2026-12-31',
  castBy: '2026-12-31',
  tooLateSince: null,
  beyondUseSince: null,
  daysBeyondUse: 0,
  reviewBy: '2027-02-01',
  harmPerWeek: 1.4,
  late: false,
  alerts: ['skin-cannot-warn'],
  devices: [],
  otherDevices: [],
  lastSeen: null,
  siblingGroup: null,
  ...over,
});
