import type { MutationGroup } from '../mutation.js';

export const exchangeXlsx: readonly MutationGroup[] = [
  {
    harm: 'a packed file unpacks until the machine is full',
    file: 'src/exchange/xlsx/open-archive.ts',
    tests: ['tests/exchange/xlsx/read-sheets.test.ts'],
    changes: [
      ['if (bytes.length > limits.fileBytes)', 'if (false)'],
      ['uncompressedSize > limits.ratio * Math.max(1, compressedSize)', 'false'],
      ['if (unpacked > limits.unpackedBytes)', 'if (false)'],
    ],
  },
  {
    harm: 'a workbook of a few kilobytes fills the memory',
    file: 'src/exchange/xlsx/read-sheets.ts',
    tests: ['tests/exchange/xlsx/read-sheets.test.ts'],
    changes: [
      ['if (column > limits.columns)', 'if (false)'],
      ['if (characters > limits.characters)', 'if (false)'],
      ['if (cells + Math.max(column, ++filled) > limits.cells)', 'if (false)'],
      ['if (rows > limits.rows)', 'if (false)'],
      ['if (parts.sheets.length > limits.sheets)', 'if (false)'],
    ],
  },
  {
    harm: 'sizes, sides or days of a sheet are taken in wrongly',
    file: 'src/exchange/xlsx/serial-date.ts',
    tests: ['tests/exchange/xlsx', 'tests/exchange/awkward-tables.test.ts'],
    changes: [
      ['serial < 60 ? 31 : 30', '30'],
      ['from1904 ? Date.UTC(1904, 0, 1)', 'from1904 ? Date.UTC(1904, 0, 2)'],
    ],
  },
];
