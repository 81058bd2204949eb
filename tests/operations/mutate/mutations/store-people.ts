import type { MutationGroup } from '../mutation.js';

export const storePeople: readonly MutationGroup[] = [
  {
    harm: [
      'somebody sees or keeps what is not theirs',
      'A link that was withdrawn, has run out or was made up opens a child’s sheet',
    ],
    file: 'src/store/people/family-links.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [".where('expires_at', '>', now)\n", ''],
      [".where('withdrawn_at', 'is', null)\n", ''],
      [".where('c.status', '=', 'active')", ".where('c.status', '<>', 'merged')"],
      ['if (given.length !== right.length || !timingSafeEqual(given, right)) throw refused();', ''],
      ['given.length !== right.length || !timingSafeEqual(given, right)', 'false'],
    ],
  },
  {
    harm: 'A family answers for another child, or twice',
    file: 'src/store/people/family-questions.ts',
    tests: [
      'tests/store/store.test.ts',
      'tests/service/doors.test.ts',
      'tests/service/api.test.ts',
      'tests/service/page-forms.test.ts',
      'tests/service/replanning.test.ts',
      'tests/service/refusals.test.ts',
      'tests/service/small-clinics.test.ts',
      'tests/service/access-log.test.ts',
    ],
    changes: [
      ["and once.\n        .where('child_id', '=', childId)\n", 'and once.\n'],
      [
        "await writeAudit(db, actor, 'list', 'family-answers', { childIds: rows.map((r) => r.child_id) });",
        '{}',
      ],
      [
        "        .where('answered_at', 'is not', null)\n        .where('decided_at', 'is', null)\n        .returningAll()",
        "        .where('decided_at', 'is', null)\n        .returningAll()",
      ],
      ['if (device.childId !== childId)', 'if (false)'],
      ["        .where('answered_at', 'is', null)\n        .returningAll()", '        .returningAll()'],
      ["      .where('c.status', '=', 'active')\n", ''],
    ],
  },
  {
    harm: 'A setting is changed under another’s hand, or without a trace',
    file: 'src/store/people/settings.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['refuseStale(expected, before.version);', ''],
      ["await writeAudit(tx, actor, 'change', 'settings', { fields: Object.keys(change) });", ''],
    ],
  },
  {
    harm: 'who has left still opens the door',
    file: 'src/store/people/sign-in-state.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'a token that has run out|sign in any more',
    changes: [
      [".where('t.expires_at', '>', now)", ''],
      [".where('u.disabled', '=', false)", ''],
    ],
  },
  {
    harm: 'A sign-in that is over goes on',
    file: 'src/store/people/sign-in-state.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts'],
    changes: [
      ['row && row.expires_at > new Date() ? row.data : null', 'row ? row.data : null'],
      ["await db.deleteFrom('access_tokens').where('token_hash', '=', hashOf(token)).execute();", ''],
      ["('access_tokens').where('expires_at', '<', now)", "('access_tokens').where('expires_at', '>', now)"],
    ],
  },
  {
    harm: 'passwords are guessed',
    file: 'src/store/people/sign-in-tries.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'an account waits|many wrong passwords|guessing',
    changes: [
      ['FREE_TRIES = 5', 'FREE_TRIES = 500'],
      ['if (row.locked_until && row.locked_until > now) return row.locked_until;', ''],
      ['.forUpdate()', ''],
      ['forgotten ? 1 : row.tries + 1', '1'],
    ],
  },
  {
    harm: 'who has left still opens the door, passwords are guessed',
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts'],
    name: 'sign in any more|password|signs in|role that the provider',
    changes: [
      ['known.version + (changed ? 1 : 0)', 'known.version'],
      ['fits && !row.disabled ?', 'fits ?'],
      ['row?.password_hash && fits &&', 'row?.password_hash &&'],
      ['await refuseNoAdministrator(tx);\n', ''],
    ],
  },
  {
    harm: [
      'a given password, a guessable one, or a session left open is enough',
      'somebody sees or keeps what is not theirs',
      'who was thrown out by a new password goes on',
    ],
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts', 'tests/service/oidc.test.ts'],
    changes: [
      ["if (await isGuessable(password, ['doorpost', ...own]))", 'if (false)'],
      ['if (row.disabled || password_hash)', 'if (row.disabled)'],
      [
        "await tx.deleteFrom('access_tokens').where('user_id', '=', userId).execute();\n      await auditUser(tx, actor, why",
        'await auditUser(tx, actor, why',
      ],
      ["actor.userId !== userId && actor.role !== 'system'", 'false'],
      ['refuseStale(expected, before.version);', ''],
    ],
  },
];
