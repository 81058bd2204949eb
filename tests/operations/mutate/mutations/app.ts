import type { MutationGroup } from '../mutation.js';

export const app: readonly MutationGroup[] = [
  {
    harm: 'passwords are guessed from one address, or everybody is one address',
    file: 'src/app.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'X-Forwarded-For|proxy is believed',
    changes: [['config.trustedProxies.length > 0 ? config.trustedProxies : false', 'true']],
  },
  {
    harm: 'a chart that warns of something takes the child’s page away',
    file: 'src/app.ts',
    tests: ['tests/service/error-pages.test.ts'],
    name: 'raises a warning',
    changes: [['  hearChartWarnings((words)', '  ((_: unknown) => {})((words: string)']],
  },
];
