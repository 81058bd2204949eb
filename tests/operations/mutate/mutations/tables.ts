import type { MutationGroup } from '../mutation.js';

const growth = [
  'tests/growth/timing.test.ts',
  'tests/growth/unusual-paces.test.ts',
  'tests/growth/child-posterior.test.ts',
  'tests/growth/condition-effects.test.ts',
  'tests/growth/maturity-markers.test.ts',
];
const dates = [
  'tests/forecast/first-passage.test.ts',
  'tests/forecast/dimension-room.test.ts',
  'tests/forecast/verdicts.test.ts',
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/device-outcome.test.ts',
  'tests/rules',
];
const words = ['tests/words', 'tests/pages', 'tests/safety'];
const list = [
  'tests/recall/safe-list.test.ts',
  'tests/recall/dates.test.ts',
  'tests/recall/build-recall-list.test.ts',
  'tests/recall/device-facts.test.ts',
  'tests/recall/choices.test.ts',
];
const sheets = [
  'tests/exchange/other-formats.test.ts',
  'tests/exchange/awkward-tables.test.ts',
  'tests/exchange/sheets/sheets.test.ts',
  'tests/exchange/sheets/renderings.test.ts',
  'tests/exchange/round-trip.test.ts',
];

export const tables: readonly MutationGroup[] = [
  {
    harm: 'A child is expected to grow as another would.',
    file: 'src/growth/child/doubt.ts',
    tests: growth,
    changes: [
      ['GROSS_ERROR_SD = 8', 'GROSS_ERROR_SD = 1'],
      ['GROSS_ERROR_RATE = 0.003', 'GROSS_ERROR_RATE = 0.3'],
      ['WORTH_ASKING = 2;', 'WORTH_ASKING = 6;'],
    ],
  },
  {
    harm: 'A child is expected to grow as another would.',
    file: 'src/growth/child/readings.ts',
    tests: [...growth, 'tests/forecast/shoe-evidence.test.ts'],
    changes: [
      ['AGREE_WITHIN_SD = 4', 'AGREE_WITHIN_SD = 400'],
      ['m.technicalError ?? technicalErrorAt(m.measure, ageYears)', 'technicalErrorAt(m.measure, ageYears)'],
    ],
  },
  {
    harm: 'A child is expected to grow as another would.',
    file: 'src/growth/population/points.ts',
    tests: [...growth, 'tests/growth/against-r.test.ts'],
    changes: [['middle: 0, left: 1, right: 2,', 'middle: 0, left: 2, right: 1,']],
  },
  {
    harm: 'A child is expected to grow as another would.',
    file: 'src/growth/child/unusual-paces.ts',
    tests: growth,
    changes: [
      ['male: { feet: 14.5, legs: 15, trunk: 16 }', 'male: { feet: 12.5, legs: 13, trunk: 14 }'],
      ['CATCH_UP_TIMES = 1.7', 'CATCH_UP_TIMES = 1'],
      ['[1.6, 0.3],', '[1.6, 0.01],'],
    ],
  },
  {
    harm: 'A child is expected to grow as another would.',
    file: 'src/growth/child/child-prior.ts',
    tests: growth,
    changes: [
      [
        "if (input.affectedSide === 'both') prior.shift[d] += affected;",
        "if (input.affectedSide === 'both') prior.shift[d] -= affected;",
      ],
      [
        "if (input.affectedSide === 'left') prior.left[d]",
        "if (input.affectedSide === 'left') prior.right[d]",
      ],
    ],
  },
  {
    harm: 'A limit is not the one that was signed.',
    file: 'src/rules/dimension-limits.ts',
    tests: dates,
    changes: [
      ["device.footplate === 'behind-toes' && d.allowanceBehindToesMm", 'false'],
      ['ageAtCast >= b.fromYears && ageAtCast < b.toYears', 'ageAtCast > b.toYears'],
      ['if (d.standsInFor !== null && measured.has(d.standsInFor)) return false;', ''],
      ["? [device.side] : ['left', 'right']", "? ['left', 'right'] : [device.side]"],
      ["g.kind === 'relocated-joint' ? 'side-bar' : g.kind", 'g.kind'],
      ['STATED_ALLOWANCE = 0.5', 'STATED_ALLOWANCE = 1'],
    ],
  },
  {
    harm: 'A limit is not the one that was signed.',
    file: 'src/rules/find-limit-problems.ts',
    tests: ['tests/rules/clinic-limits.test.ts'],
    changes: [
      ['if (tight >= allowance)', 'if (tight > allowance)'],
      ['if (spread >= allowance)', 'if (false)'],
      ['!(mm >= lowestMm && mm <= highestMm)', '!(mm >= lowestMm)'],
    ],
  },
  {
    harm: 'A family reads the wrong thing to do.',
    file: 'src/words/family/worn-device.ts',
    tests: words,
    changes: [
      ["if (flagId.startsWith('finding-breathing')) return 'breathing';", ''],
      ["|| flagId.startsWith('finding-head-warning')", ''],
      ['(skin|swelling|rash|pain)', '(skin|rash)'],
    ],
  },
  {
    harm: 'A family reads the wrong thing to do.',
    file: 'src/words/family/device-answer.ts',
    tests: words,
    changes: [["if (action === 'see-now' || action === 'repair') return only(wanted!);", '']],
  },
  {
    harm: 'What a record says is read wrongly.',
    file: 'src/records/device-history.ts',
    tests: ['tests/records', 'tests/forecast/verdicts.test.ts', ...list],
    changes: [
      ['now.pendingCast ?? now.castDate', 'now.castDate'],
      ["e.kind === 'adjusted' || e.verdict !== null", 'e.verdict !== null'],
      ['fittedDate: date, ...none', 'fittedDate: date, ...none, brokenOn: now.brokenOn'],
      ['date > now.castDate)', 'date >= now.castDate)'],
    ],
  },
  {
    harm: 'What a record says is read wrongly.',
    file: 'src/records/units.ts',
    tests: ['tests/records', 'tests/exchange/awkward-tables.test.ts'],
    changes: [
      ['lb: 0.45359237', 'lb: 0.5'],
      ['ft: 304.8', 'ft: 300'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/xlsx/serial-date.ts',
    tests: ['tests/exchange/xlsx', 'tests/exchange/awkward-tables.test.ts'],
    changes: [
      ['serial < 60 ? 31 : 30', '30'],
      ['from1904 ? Date.UTC(1904, 0, 1)', 'from1904 ? Date.UTC(1904, 0, 2)'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/choose-units.ts',
    tests: sheets,
    changes: [
      ['if (own >= 0.3 || better.share < 0.9)', 'if (true)'],
      ['if (possible.length === 1) {', 'if (possible.length >= 1) {'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/choose-dates.ts',
    tests: sheets,
    changes: [
      [
        'const day = date.dayFirst !== null && date.dayFirst <= today;',
        'const day = date.dayFirst !== null;',
      ],
      ['if (shared.length === 1) {', 'if (shared.length >= 5) {'],
      ['if (dayFirst > 0 && monthFirst > 0)', 'if (dayFirst > 9 && monthFirst > 9)'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/shapes/dates-across.ts',
    tests: sheets,
    changes: [['if (grid.rows.slice(0, index).some(headed)) return false;', '']],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/same-day.ts',
    tests: sheets,
    changes: [['if (begin !== null) return', 'if (begin === -1) return']],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/reading-rows.ts',
    tests: sheets,
    changes: [['if (own.side === said || !', 'if (own.side || !']],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/row-side.ts',
    tests: sheets,
    changes: [['new Set(sides).size === 1 ? sides[0] : null', 'sides[0] ?? null']],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/sheets/cell-size.ts',
    tests: sheets,
    changes: [
      ['Number(match[2]) * 12 + inches', 'Number(match[2]) * 10 + inches'],
      ['{ value: (value + two) / 2, unit, doubt: true }', '{ value: (value + two) / 2, unit, doubt: false }'],
      [
        'leftWords.has(folded) && !rightWords.has(folded)',
        'rightWords.has(folded) && !leftWords.has(folded)',
      ],
      ['+match[1] * 14', '+match[1] * 10'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/csv/read-date.ts',
    tests: sheets,
    changes: [
      ["if (mark === '.' || order === 'dmy')", "if (order === 'dmy')"],
      ['if (a > 12 || a === b)', 'if (a > 12 || a < b)'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/fhir/recall-resources.ts',
    tests: sheets,
    changes: [
      ["priority: atOnce ? 'stat' :", 'priority: '],
      ['[0.1, f.p10],', '[0.1, f.p90],'],
    ],
  },
  {
    harm: 'Sizes, sides or days of a sheet are taken in wrongly.',
    file: 'src/exchange/icalendar/recall-calendar.ts',
    tests: sheets,
    changes: [
      ['class: ICalEventClass.PRIVATE,', ''],
      ['addDaysIso(to, 1)', 'to'],
    ],
  },
  {
    harm: 'What a record says is read wrongly.',
    file: 'src/store/records/visible-to.ts',
    tests: words,
    changes: [
      ["affectedSide: 'none',\n", ''],
      ['({ ...d, extra: {} })', 'd'],
    ],
  },
];
