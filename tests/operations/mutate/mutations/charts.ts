import type { MutationGroup } from '../mutation.js';

export const charts: readonly MutationGroup[] = [
  {
    harm: 'A chart says nothing of what it is',
    file: 'src/charts/chart-words.ts',
    tests: ['tests/charts/charts.test.ts'],
    changes: [['An estimate, not a diagnosis; check fit and skin.', '']],
  },
];
