/** What leads about in a long list: read off the page itself. */
import { expect, it } from 'vitest';
import { formatFor } from '../../src/pages/parts/format.js';
import { renderPage } from '../../src/pages/parts/page-context.js';
import { RecallPage } from '../../src/pages/recall/recall-page.js';

const context = {
  user: { role: 'scheduler' },
  csrf: '',
  once: '',
  format: formatFor('en-GB'),
  today: '2026-11-27',
  clinicName: 'Alder',
  demo: false,
  unsigned: [],
  path: '/recall',
  notice: '',
} as never;

const rows = ['cast', 'review'].map((action) => ({
  id: action,
  childId: action,
  entry: { action },
})) as never[];
const props = {
  run: { today: '2026-11-27', summary: {} },
  job: null,
  rows,
  shown: [],
  names: new Map(),
  counts: { all: 2, overdue: 0, neverSeen: 0, done: 0 },
  waiting: [],
  query: { state: '', action: '', text: '', due: '', page: 0, whole: false },
  gone: [],
  withoutWeek: 0,
  tooLate: [],
  seeNow: { wanted: 0, days: [] },
  refused: null,
} as unknown as Parameters<typeof RecallPage>[0];
const page = (change: object, role = 'scheduler') =>
  renderPage(<RecallPage {...props} {...change} />, { ...(context as object), user: { role } } as never);

it('a group that is not on this page of the list is asked for alone', () => {
  expect(page({})).toContain('href="/recall?action=review"');
  expect(page({})).not.toContain('href="#do-review"');
});

it('a list that some are too late in for want of places says so on top', () => {
  expect(page({})).not.toContain('for want of places');
  expect(page({ tooLate: rows })).toContain('2 too late for want of places');
});

it('who must be seen now stands beside the places there are for it', () => {
  const days = [{ day: '2026-11-27', places: 2, booked: 1, free: 1 }];
  expect(page({ seeNow: { wanted: 2, days } })).toMatch(/2 children to be seen now.*1 today\./);
  expect(page({ seeNow: { wanted: 2, days: [] } })).toContain('No place today or on the next working day');
  expect(page({})).not.toContain('to be seen now');
});

it('tells who may cast why, and the figure that decides at the bench; who only rings reads what is read out', () => {
  const entry = {
    action: 'check',
    reason: { code: 'cast-due', numbers: {}, text: 'May soon be too small.' },
    dueBy: '2026-12-25',
    alerts: [],
    devices: [
      {
        action: 'check',
        family: 'solid-afo',
        side: 'left',
        adjust: null,
        checkFigure: {
          measure: 'foot_length',
          side: 'left',
          castIfRoomAtMostMm: 4,
          elseNotBefore: '2027-03-02',
        },
      },
    ],
  };
  const shown = [{ id: 'check', childId: 'c1', childName: '', contact: '', transportDays: [], entry }];
  const list = (role: string) => page({ shown, rows: shown }, role);
  expect(list('scheduler')).toContain('May soon be too small.');
  expect(list('scheduler')).not.toContain('4 mm or less');
  expect(list('clinician')).toContain('May soon be too small.');
  expect(list('clinician')).toMatch(
    /Clinician: .*left foot length is 4 mm or less, else not before 2 March 2027/,
  );
});
