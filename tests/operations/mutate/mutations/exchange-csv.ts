import type { MutationGroup } from '../mutation.js';

const awkwardTables = ['tests/exchange/awkward-tables.test.ts', 'tests/exchange/sheets/sheets.test.ts'];
const rowReader = [
  'tests/exchange/row-reader.test.ts',
  'tests/exchange/other-formats.test.ts',
  'tests/exchange/awkward-tables.test.ts',
  'tests/exchange/hostile-input.test.ts',
  'tests/exchange/round-trip.test.ts',
  'tests/exchange/row-reader.test.ts',
  'tests/exchange/awkward-tables.test.ts',
];

export const exchangeCsv: readonly MutationGroup[] = [
  {
    harm: 'A child’s row loses what protects it',
    file: 'src/exchange/csv/read-children.ts',
    tests: ['tests/exchange/row-reader.test.ts'],
    changes: [
      ['if (row.ok) row.refuseFaults(childFaults(child, settings.today));', ''],
      ['if (days.includes(0)) row.refuse', 'if (false) row.refuse'],
      ['indexOf(word.slice(0, 3).toLowerCase()) + 1', 'indexOf(word.slice(0, 3).toLowerCase())'],
      ["known.map((id) => id ?? 'other')", "known.map((id) => id ?? 'none')"],
    ],
  },
  {
    harm: ['sizes, sides or days of a sheet are taken in wrongly', 'A date in a file is read as another day'],
    file: 'src/exchange/csv/read-date.ts',
    tests: [
      'tests/exchange/other-formats.test.ts',
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/sheets/sheets.test.ts',
      'tests/exchange/sheets/renderings.test.ts',
      'tests/exchange/round-trip.test.ts',
      'tests/exchange/row-reader.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [
      ["if (mark === '.' || order === 'dmy')", "if (order === 'dmy')"],
      ['if (a > 12 || a === b)', 'if (a > 12 || a < b)'],
      ['if (b > 12) return calendarDate(year, a, b);', ''],
      ["dayNumber('1899-12-30')", "dayNumber('1899-12-31')"],
      [
        "if (order === 'mdy') return calendarDate(year, a, b)",
        "if (order === 'mdy') return calendarDate(year, b, a)",
      ],
      [
        "return { why: 'has a year of two digits' }",
        'return calendarDate(2000 + Number(cell.slice(-2)), 1, 1)',
      ],
      ['year < 1900 || year > 2199', 'false'],
    ],
  },
  {
    harm: 'A device in a file is worn that was ordered, or on the other side',
    file: 'src/exchange/csv/read-devices.ts',
    tests: rowReader,
    changes: [
      ["fittedDate ? 'worn' : 'ordered'", "'worn'"],
      ["rule?.sides === 'both' && side === 'none'", 'false'],
      ['= toBaseUnit(number, unit)', '= number'],
      ['if (row.ok) row.refuseFaults(', 'if (false as boolean) row.refuseFaults('],
    ],
  },
  {
    harm: 'A field in a file is read as the other side, as no alert, or as something where nothing was said',
    file: 'src/exchange/csv/read-fields.ts',
    tests: rowReader,
    changes: [
      ["\n  side: { l: 'left', r: 'right'", "\n  side: { l: 'right', r: 'left'"],
      ["affected_side: { l: 'left', r: 'right' }", "affected_side: { l: 'right', r: 'left' }"],
      ['row.yesNo(name, whenEmpty === true)', 'row.yesNo(name)'],
      ['return (row) => row.yesNo(name, whenEmpty === true);', 'return () => false;'],
      ['row.number(name, min, max)', 'row.number(name)'],
      ["row.refuse(name, 'is missing')", 'null'],
    ],
  },
  {
    harm: 'A reading in a file is given the other side, or none',
    file: 'src/exchange/csv/read-measurements.ts',
    tests: rowReader,
    changes: [
      ["l: 'left', r: 'right', left", "l: 'right', r: 'left', left"],
      ['if (sided && side === null) {', 'if (false) {'],
      ['if (!sided && side !== null && cell.measure === null) {', 'if (false) {'],
      ["row.refuseFaults(dateFaults('Reading', 'date', visit.date, span));", ''],
    ],
  },
  {
    harm: 'a size is ten or a thousand times what was written',
    file: 'src/exchange/csv/read-number.ts',
    tests: awkwardTables,
    changes: [
      ["comma > point ? '.' : ','", "comma < point ? '.' : ','"],
      ["digits = digits.replace(',', '.');", "digits = digits.replace(',', '');"],
      ['if (!new RegExp(', 'if (false && !new RegExp('],
    ],
  },
  {
    harm: [
      'an event in a file loses what protects it',
      'A job in a file is of no device, or done that is not',
      'A marker or a skin check in a file is taken without the day or for a child that is not there',
    ],
    file: 'src/exchange/csv/read-records.ts',
    tests: rowReader,
    changes: [
      ['if (row.ok) row.refuseFaults(caseloadFaults({ [part]: [record] }, settings));', ''],
      ["stages.fit ? 'fitted' : 'in-progress'", "'in-progress'"],
      ["device?.family ?? ''", "''"],
      ["row.text('value') === '')", 'false)'],
      ["row.refuse(String(path[0]), 'does not fit'", "if (false) row.refuse(String(path[0]), 'does not fit'"],
    ],
  },
  {
    harm: 'A row in a file is taken that should be asked about',
    file: 'src/exchange/csv/read-rows.ts',
    tests: rowReader,
    changes: [
      ['if (same !== row) refused', 'if (false) refused'],
      ["else if (taken !== reader.row) reader.refuse('id'", "else if (false) reader.refuse('id'"],
    ],
  },
  {
    harm: 'a size is read in the wrong unit',
    file: 'src/exchange/csv/read-size.ts',
    tests: awkwardTables,
    changes: [
      ['if (other !== undefined)', 'if (false)'],
      ['if (words.length === 0)', 'if (false)'],
      ['if (!(size >= plausible[0] && size <= plausible[1]))', 'if (false)'],
      ["if (isLengthUnit(unit) !== (base === 'mm'))", 'if (false)'],
    ],
  },
  {
    harm: 'A scheduler’s spreadsheet has no alerts',
    file: 'src/exchange/csv/recall-columns.ts',
    tests: ['tests/exchange/other-formats.test.ts'],
    changes: [["alerts: entry.alerts.map((a) => alertNames[a]).join(', ')", "alerts: ''"]],
  },
  {
    harm: [
      'a cell of an export runs as a formula in a spreadsheet',
      'A row of a child or device that was not taken is taken',
      'A row in a file is taken that should be asked about',
    ],
    file: 'src/exchange/csv/row-reader.ts',
    tests: rowReader,
    changes: [
      ['return RUN.test(text) ?', 'return false ?'],
      ["if (id !== '' && found === undefined)", 'if (false)'],
      ["if (!WORDS_NO.includes(word)) this.refuse(name, 'is neither yes nor no');", ''],
      ["if (value < min || value > max) return this.refuse(name, 'is out of range');", ''],
      ['!(byAlias && exact.has(column.name))', 'true'],
      ['if (!WORDS_NOTHING.includes(text.toLowerCase()))', 'if (false)'],
    ],
  },
];
