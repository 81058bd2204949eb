import type { MutationGroup } from '../mutation.js';

const otherFormats = [
  'tests/exchange/other-formats.test.ts',
  'tests/exchange/awkward-tables.test.ts',
  'tests/exchange/sheets/sheets.test.ts',
  'tests/exchange/sheets/renderings.test.ts',
  'tests/exchange/round-trip.test.ts',
];

export const exchangeSheets: readonly MutationGroup[] = [
  {
    harm: 'an alert that could not be read is lost, or sensation is read the wrong way round',
    file: 'src/exchange/sheets/child-rows.ts',
    tests: ['tests/exchange/sheets/careful.test.ts'],
    changes: [
      [
        "insensate_skin') {\n      set(name, 'yes', column);",
        "insensate_skin') {\n      set(name, 'no', column);",
      ],
      ["taken.refuse(row, column, why, 'the same in every line of a child',", "void (why, 'the same',"],
    ],
  },
  {
    harm: 'an alert that could not be read is lost, or sensation is read the wrong way round',
    file: 'src/exchange/sheets/child-flags.ts',
    tests: ['tests/exchange/sheets/careful.test.ts'],
    changes: [['return can === cannot ? null : cannot;', 'return can === cannot ? null : can;']],
  },
  {
    harm: 'two children become one, with the sizes of both',
    file: 'src/exchange/sheets/people.ts',
    tests: ['tests/exchange/sheets/careful.test.ts'],
    changes: [
      ['SEVERAL.test(name.toLowerCase())', 'false'],
      ["return named.length === 1 ? named[0] : 'several';\n    if (name", 'return named[0];\n    if (name'],
    ],
  },
  {
    harm: 'a day is read as a month, or in the wrong century',
    file: 'src/exchange/sheets/cell-date.ts',
    tests: otherFormats,
    changes: [
      ['both(iso(year(y), b, a), iso(year(y), a, b)),', 'same(iso(year(y), b, a)),'],
      ['century + two > Number(today.slice(0, 4)) ?', 'false ?'],
      ['(weeks * 7) / DAYS_A_YEAR', '(weeks * 30) / DAYS_A_YEAR'],
      ['\\/12$/, (months) => months / 12]', '\\/12$/, (months) => months]'],
    ],
  },
  {
    harm: 'spina bifida in a sheet brings no caution, or a thoracic one counts as sacral',
    file: 'src/exchange/sheets/cell-diagnosis.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ['spinaBifida = true;', ''],
      ['if (HIGH_LEVELS.test(', 'if (!HIGH_LEVELS.test('],
      ['phrase.every((word, i) => isMeant(words[i], word))', 'false'],
      ['if (WORDS.has(said) || NOT_A_SLIP.has(said) ||', 'if ('],
      ['for (const word of left) side = sideFrom(word, side);', ''],
    ],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/cell-size.ts',
    tests: otherFormats,
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
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/choose-dates.ts',
    tests: otherFormats,
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
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/choose-units.ts',
    tests: otherFormats,
    changes: [
      ['if (own >= 0.3 || better.share < 0.9)', 'if (true)'],
      [
        "if (possible.length === 1 && possible[0] !== 'inch')",
        "if (possible.length >= 1 && possible[0] !== 'inch')",
      ],
    ],
  },
  {
    harm: 'a remark goes to a device of later, or to one that had ended',
    file: 'src/exchange/sheets/devices/device-register.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ["cast <= day && cast >= (last.get(place)?.cells.cast_date ?? '')", 'true'],
      ["d.ended === undefined ? d.cells.status !== 'retired' : day <= d.ended", 'true'],
    ],
  },
  {
    harm: 'what a clinic wrote of the skin beside its figures reaches no list',
    file: 'src/exchange/sheets/devices/remark-rows.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts'],
    changes: [
      ['const text = ofSkin ?', 'const text = false ?'],
      [
        "if (kind === 'keep' && readNote(text).findings.length === 0) return [];",
        "if (kind === 'keep') return [];",
      ],
      [
        'worn.filter((d) => d.cells.side === side || !isSided(d))',
        'worn.filter((d) => d.cells.side !== side)',
      ],
      ['      unheard.push(text);\n', '      text.trim();\n'],
      ['const device of meant.length > 0 ? meant : worn', 'const device of meant.slice(1)'],
    ],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/reading-rows.ts',
    tests: otherFormats,
    changes: [['if (one.side === said || !', 'if (one.side || !']],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/row-side.ts',
    tests: otherFormats,
    changes: [['new Set(sides).size === 1 ? sides[0] : null', 'sides[0] ?? null']],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/same-day.ts',
    tests: otherFormats,
    changes: [['if (begin !== null) return', 'if (begin === -1) return']],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/sheets/shapes/dates-across.ts',
    tests: otherFormats,
    changes: [['if (grid.rows.slice(0, index).some(headed)) return false;', '']],
  },
  {
    harm: 'two children that stand beside each other in a sheet are mixed up',
    file: 'src/exchange/sheets/shapes/side-by-side.ts',
    tests: otherFormats,
    changes: [['if (start === undefined) continue;', 'if (start !== 0) continue;']],
  },
  {
    harm: 'A size in a sheet is read in the wrong unit',
    file: 'src/exchange/sheets/usual-size.ts',
    tests: otherFormats,
    changes: [
      ['size > usual / wide && size < usual * wide', 'true'],
      ['foot_length: 0.153', 'foot_length: 0.0153'],
    ],
  },
  {
    harm: 'A reading of a sheet is dated by another column or lies in the future',
    file: 'src/exchange/sheets/visit-dates.ts',
    tests: otherFormats,
    changes: [
      ['dateColumns.filter((c) => c.index < column.index).pop()', 'dateColumns[0]'],
      ['c.meaning.side === meaning.side', 'true'],
    ],
  },
];
