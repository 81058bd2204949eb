import type { MutationGroup } from '../mutation.js';

export const rights: readonly MutationGroup[] = [
  {
    harm: 'Somebody sees or keeps what is not theirs.',
    file: 'src/store/people/family-links.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [' || expiresAt <= now) throw refused()', ') throw refused()'],
      [".where('withdrawn_at', 'is', null)\n", ''],
      ['if (given.length !== right.length || !timingSafeEqual(given, right)) throw refused();', ''],
    ],
  },
  {
    harm: 'Somebody does what is not theirs to do.',
    file: 'src/service/scheduler-fields.ts',
    tests: [
      'tests/service/api.test.ts',
      'tests/service/refusals.test.ts',
      'tests/service/route-roles.test.ts',
    ],
    changes: [["if (role === 'scheduler' && refused.length > 0)", 'if (false)']],
  },
  {
    harm: 'Somebody sees or keeps what is not theirs.',
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts', 'tests/service/oidc.test.ts'],
    changes: [['if (row.disabled || password_hash)', 'if (row.disabled)']],
  },
];
