import type { MutationGroup } from '../mutation.js';

export const turnaround: readonly MutationGroup[] = [
  {
    harm: 'two of the clinic’s own jobs move everybody’s date',
    file: 'src/turnaround/default-turnaround.ts',
    tests: ['tests/turnaround/estimate-turnaround.test.ts'],
    changes: [['const WEIGHT = 8', 'const WEIGHT = 0.1']],
  },
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
      ['(model, 0, waited).map', '(model, 0, 0).map'],
      ['finish: 0.2', 'finish: 0'],
      ['defaultTurnaround(job.family, rules)', 'defaultTurnaround(job.family)'],
    ],
  },
];
