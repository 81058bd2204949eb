import type { MutationGroup } from '../mutation.js';

export const commands: readonly MutationGroup[] = [
  {
    harm: 'pages wait for the night’s forecasts',
    file: 'src/commands/start-workers.ts',
    tests: ['tests/operations/serve.test.ts'],
    name: 'puts its worker behind',
    changes: [["child.on('spawn', () => goLast(child.pid));", '']],
  },
];
