import type { MutationGroup } from '../mutation.js';

export const rights: readonly MutationGroup[] = [
  {
    harm: 'Somebody sees or keeps what is not theirs.',
    file: 'src/store/people/family-links.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [".where('expires_at', '>', now)\n", ''],
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
  {
    harm: 'Who was sent away at the provider acts on here, or who was not is signed out.',
    file: 'src/service/oidc/recheck-role.ts',
    tests: ['tests/service/oidc.test.ts'],
    changes: [
      ['error.status >= 400 && error.status < 500', 'false'],
      ['error instanceof oidc.WWWAuthenticateChallengeError ||', ''],
      ["if (kept.refreshToken === null) return 'none';", ''],
      ['request.session.userVersion = changed.version;', ''],
    ],
  },
  {
    harm: 'A write is done twice, given up, or laid over somebody else’s.',
    file: 'src/service/write.ts',
    tests: ['tests/service/api.test.ts', 'tests/service/page-forms.test.ts'],
    changes: [
      ['if (kept) return { ...kept, replayed: true };', ''],
      ["if (given.trim() === '*') return null;", 'return null;'],
    ],
  },
  {
    harm: 'A family is booked for a day years ahead, or a child that came back stays off the list.',
    file: 'src/service/set-recall-state.ts',
    tests: ['tests/service/replanning.test.ts'],
    changes: [
      ['if (day > latest) refuse', 'if (false) refuse'],
      ["if (before.state !== 'moved-away' || row.state === 'moved-away') return row;", 'return row;'],
    ],
  },
];
