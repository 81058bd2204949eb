import type { MutationGroup } from '../mutation.js';

export const storeMigrations: readonly MutationGroup[] = [
  {
    harm: 'who looked at a child can be wiped out',
    file: 'src/store/migrations/0001-ground-state.ts',
    tests: ['tests/service/access-log.test.ts'],
    name: 'rows of the log',
    changes: [["  'audit',\n", '']],
  },
  {
    harm: 'who looked at a child can be wiped out by the role of the service',
    file: 'src/store/migrations/0005-doors.ts',
    tests: ['tests/service/access-log.test.ts'],
    name: 'rows of the log',
    changes: [['revoke update, delete, truncate on audit from current_user, public;', '']],
  },
];
