import type { MutationGroup } from '../mutation.js';

const otherFormats = ['tests/exchange/other-formats.test.ts', 'tests/exchange/hostile-input.test.ts'];

export const exchangeFhir: readonly MutationGroup[] = [
  {
    harm: 'A side in a FHIR file is read as the other',
    file: 'src/exchange/fhir/codes.ts',
    tests: otherFormats,
    changes: [
      ["'7771000': 'left', '24028007': 'right'", "'7771000': 'right', '24028007': 'left'"],
      ["if (left) return 'left';", "if (left) return 'right';"],
    ],
  },
  {
    harm: 'A child whose file says nothing of walking is read as one that does not walk',
    file: 'src/exchange/fhir/extensions.ts',
    tests: ['tests/exchange/other-formats.test.ts', 'tests/exchange/round-trip.test.ts'],
    changes: [['found?.valueBoolean ?? whenEmpty', 'found?.valueBoolean ?? false']],
  },
  {
    harm: 'A FHIR file loses a latex alert, a side, or takes what was entered in error',
    file: 'src/exchange/fhir/fhir-tables.ts',
    tests: [...otherFormats, 'tests/exchange/round-trip.test.ts'],
    changes: [
      ["o.status === 'entered-in-error' || ", ''],
      ['/latex/i.test(', '/^latex$/.test('],
      ['e1`)), unit:', '`)), unit:'],
      ["p.deceasedBoolean || p.deceasedDateTime ? 'died' : ''", "''"],
      ["intended: 'ordered', active: 'worn'", "intended: 'worn', active: 'worn'"],
      ['{ state: skin }', "{ state: 'none' }"],
      ['{ kind: event }', "{ kind: 'cast' }"],
      ['columns[table].some((c) => c.name === name)', 'true || name'],
    ],
  },
  {
    harm: 'a resource that is not as FHIR R4 says ends the reading with an error nobody understands',
    file: 'src/exchange/fhir/read-resources.ts',
    tests: ['tests/exchange/hostile-input.test.ts'],
    changes: [['checkResource(type, value)', '(value as never as ReadResource | readonly never[])']],
  },
  {
    harm: 'who takes over a child with spina bifida is not told to keep latex away',
    file: 'src/exchange/fhir/to-fhir.ts',
    tests: ['tests/exchange/other-formats.test.ts', 'tests/exchange/round-trip.test.ts'],
    changes: [
      ["c.status === 'died' ? { deceasedBoolean: true } : {}", '{}'],
      ['if (!avoidsLatex(c)) return [];', 'if (!c.latexAlert) return [];'],
      ["'unconfirmed'),", "'confirmed'),"],
      ["...(deviceId ? { device: reference('Device', deviceId) } : {})", ''],
      ['side: sided ? m.side : null', 'side: null'],
      ['...(note ? { note: [{ text: note }] } : {}),', ''],
    ],
  },
];
