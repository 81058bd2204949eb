import type { MutationGroup } from '../mutation.js';

export const turnaround: readonly MutationGroup[] = [
  {
    harm: [
      'the next device is fitted too late',
      'two of the clinic’s own jobs move everybody’s date, or jobs of years ago do',
    ],
    file: 'src/turnaround/estimate-turnaround.ts',
    tests: ['tests/turnaround/estimate-turnaround.test.ts'],
    changes: [
      ['p80Days: at(0.8)', 'p80Days: at(0.5)'],
      ['j.stages.cast <= today &&', ''],
      ['const running = fit === undefined || fit > today', 'const running = fit === undefined'],
      ['const PRIOR_WEIGHT = 8', 'const PRIOR_WEIGHT = 0.1'],
      ['const HISTORY_DAYS = 3 * 365', 'const HISTORY_DAYS = 30 * 365'],
      ['      j.family === family &&\n', ''],
    ],
  },
  {
    harm: 'A job in the workshop is promised too early',
    file: 'src/turnaround/expected-fitting.ts',
    tests: ['tests/turnaround/workshop-queue.test.ts', 'tests/turnaround/estimate-turnaround.test.ts'],
    changes: [
      ['days === waited ? count - 1 : count', 'count'],
      ['SAMPLES, waited).map', 'SAMPLES, 0).map'],
      ['finish: 0.2', 'finish: 0'],
    ],
  },
];
