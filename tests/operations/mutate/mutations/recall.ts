import type { MutationGroup } from '../mutation.js';

export const recall: readonly MutationGroup[] = [
  {
    harm: [
      'a family that did not come, or was told of a week, is forgotten',
      'A family that did not come, or whose day was given up, is not called again',
    ],
    file: 'src/recall/carry-over.ts',
    tests: ['tests/recall/carry-over.test.ts'],
    changes: [
      ["visit.state === 'declined' || visit.state === 'did-not-come'", "visit.state === 'declined'"],
      ['day ? day < today : week < thisWeek', 'false'],
      ["return visit.state === 'booked' ? { ...stands, bookedWeek: week } : stands", 'return stands'],
      ['const REMEMBERED_DAYS = 182', 'const REMEMBERED_DAYS = 1'],
      ["visit.state === 'declined' || visit.state === 'did-not-come'", "visit.state === 'did-not-come'"],
      ["rang && !same ? 'to-call' : visit.state", 'visit.state'],
      [
        "visit.state === 'done' || visit.state === 'moved-away' || passed",
        "visit.state === 'moved-away' || passed",
      ],
      ["visit.state === 'booked' ? { ...stands, bookedWeek: week } : stands", 'stands'],
    ],
  },
  {
    harm: 'A family that was left a message is rung on a Sunday, or never',
    file: 'src/recall/ring-again.ts',
    tests: [
      'tests/recall/carry-over.test.ts',
      'tests/recall/next-places.test.ts',
      'tests/service/replanning.test.ts',
      'tests/store/store.test.ts',
    ],
    changes: [
      ['if (isOpen(day)) n++;', 'n++;'],
      ['const WORKING_DAYS = 2', 'const WORKING_DAYS = 20'],
      ['isRungToday(entry.action) ? leftOn :', ''],
    ],
  },
];
