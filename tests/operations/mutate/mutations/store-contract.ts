import type { MutationGroup } from '../mutation.js';

export const storeContract: readonly MutationGroup[] = [
  {
    harm: 'who rings the family sees a diagnosis',
    file: 'src/store/contract/actor.ts',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [["role === 'clinician' || role === 'system'", "role !== 'auditor' || role === 'system'"]],
  },
];
