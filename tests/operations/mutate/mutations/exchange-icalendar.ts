import type { MutationGroup } from '../mutation.js';

export const exchangeIcalendar: readonly MutationGroup[] = [
  {
    harm: [
      'sizes, sides or days of a sheet are taken in wrongly',
      'A list taken out tells a calendar whose child it is, or a wrong day',
    ],
    file: 'src/exchange/icalendar/recall-calendar.ts',
    tests: [
      'tests/exchange/other-formats.test.ts',
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/sheets/sheets.test.ts',
      'tests/exchange/sheets/renderings.test.ts',
      'tests/exchange/round-trip.test.ts',
    ],
    changes: [
      ['class: ICalEventClass.PRIVATE,', ''],
      ['addDaysIso(to, 1)', 'to'],
      ["'Clinic appointment to arrange'", 'entry.childId'],
      ["createHmac('sha256', key).update(what)", "createHmac('sha256', 'x').update(what)"],
      ['appointment ?? entry.dueBy ?? today', 'entry.dueBy ?? today'],
      ['date < today ? today : date', 'date'],
    ],
  },
];
