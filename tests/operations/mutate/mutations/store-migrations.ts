import type { MutationGroup } from '../mutation.js';

export const storeMigrations: readonly MutationGroup[] = [
  {
    harm: 'who looked at a child can be wiped out',
    file: 'src/store/migrations/ground-state.ts',
    tests: ['tests/service/access-log.test.ts'],
    name: 'rows of the log',
    changes: [
      ["'record_history', 'audit', 'tombstones'", "'record_history', 'tombstones'"],
      ['revoke update, delete, truncate on audit from current_user, public;', ''],
    ],
  },
  {
    harm: 'a clinic of before loses its records, or is brought up to date by halves',
    file: 'src/store/migrate.ts',
    tests: ['tests/store/upgrade.test.ts'],
    changes: [
      ['if (taken.includes(LAST_BEFORE)) return', 'if (true) return'],
      ['if (applied.includes(LAST_BEFORE))', 'if (false)'],
    ],
  },
];
