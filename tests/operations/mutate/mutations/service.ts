import type { MutationGroup } from '../mutation.js';

const routeRoles = [
  'tests/service/route-roles.test.ts',
  'tests/service/doors.test.ts',
  'tests/store/store.test.ts',
  'tests/service/api.test.ts',
  'tests/service/page-forms.test.ts',
  'tests/service/replanning.test.ts',
  'tests/service/refusals.test.ts',
  'tests/service/small-clinics.test.ts',
  'tests/service/access-log.test.ts',
];

export const service: readonly MutationGroup[] = [
  {
    harm: 'what a new version of the program mends reaches a child only after days',
    file: 'src/service/assessor.ts',
    tests: ['tests/service/fit-rules.test.ts'],
    changes: [['stored.program === version ? ', 'true ? ']],
  },
  {
    harm: [
      'a route is open to a role that it is not for',
      'a given password, a guessable one, or a session left open is enough',
      'somebody with a first password set by another reads records before changing it',
      'A route without a word on who may use it is open to all',
    ],
    file: 'src/service/access.ts',
    tests: routeRoles,
    changes: [
      ['if (access.includes(request.user.role)) return', 'if (request.user) return'],
      ["if (access === undefined || access === 'public') return", 'if (true) return'],
      ['request.user.passwordByOther && ', 'false && '],
      ['if (request.user.passwordByOther && ', 'if (false && '],
      ['if (access === undefined)\n', 'if (false)\n'],
    ],
  },
  {
    harm: 'passwords are guessed from one address',
    file: 'src/service/api/session-routes.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'X-Forwarded-For',
    changes: [
      [
        "access: 'public', rateLimit: { max: config.signInRateLimit, timeWindow: '1 minute' }",
        "access: 'public'",
      ],
    ],
  },
  {
    harm: 'a question that reaches too far holds the service',
    file: 'src/service/asked-dates.ts',
    tests: ['tests/service/refusals.test.ts', 'tests/service/what-if-several.test.ts'],
    name: 'imagined|longer than|further than|too far|names the field',
    changes: [
      ['if (given >= from && given <= to) return;', 'if (given >= from) return;'],
      ['if (given >= from && given <= to) return;', 'if (given <= to) return;'],
      ['const FURTHEST_DAYS = 730', 'const FURTHEST_DAYS = 7300'],
      ['const LONGEST_DAYS = 1826', 'const LONGEST_DAYS = 18260'],
    ],
  },
  {
    harm: 'a scheduler reads another action for a child than the list has, where comfort decides',
    file: 'src/service/child-view/load-child.ts',
    tests: ['tests/service/one-decision.test.ts'],
    changes: [['childDecisions(recordUntil(whole, today)', 'childDecisions(recordUntil(seen, today)']],
  },
  {
    harm: 'the next device is cast for the other side, or its job is never closed',
    file: 'src/service/cast-next.ts',
    tests: ['tests/service/api.test.ts'],
    name: 'casts the next one',
    changes: [
      ['      limitsMm: {},\n', '      limitsMm: before.limitsMm,\n'],
      ['replaces: deviceId,', 'replaces: null,'],
      ["fit: event.date }, status: 'fitted'", "fit: event.date }, status: 'in-progress'"],
      ["if (status !== 'ordered')", 'if (false)'],
    ],
  },
  {
    harm: 'A log names a child',
    file: 'src/service/log.ts',
    tests: ['tests/safety/log-names-nobody.test.ts'],
    changes: [
      [', ...loggedError(error) })', ', frames: error.stack })'],
      ["request.routeOptions.url ?? 'no such route'", 'request.url'],
      ["paths: ['req', ", 'paths: ['],
    ],
  },
  {
    harm: 'Whose account is closed signs in through the hospital’s provider',
    file: 'src/service/oidc/register-oidc.ts',
    tests: ['tests/service/oidc.test.ts'],
    changes: [['if (user.disabled) throw', 'if (false) throw']],
  },
  {
    harm: [
      'a role withdrawn by the hospital goes on acting',
      'who was sent away at the provider acts on here, or who was not is signed out',
    ],
    file: 'src/service/oidc/recheck-role.ts',
    tests: ['tests/service/oidc.test.ts'],
    changes: [
      [
        "      await store.users.endSessions(user.id, 'role-withdrawn', actor);\n      return null;",
        '      return user;',
      ],
      ['age < intervalMs * MISSED_RECHECKS ? user : null', 'user'],
      ['if (age < intervalMs) return user;', 'if (age < 1000 * intervalMs) return user;'],
      ["return isRefusal(error) ? 'none' : 'no-answer'", "return 'no-answer'"],
      ['if (answer.role === user.role) return user;', 'return user;'],
      ['error.status >= 400 && error.status < 500', 'false'],
      ['error instanceof oidc.WWWAuthenticateChallengeError ||', ''],
      ["if (kept.refreshToken === null) return 'none';", ''],
      ['request.session.userVersion = changed.version;', ''],
    ],
  },
  {
    harm: 'a role withdrawn by the hospital goes on acting',
    file: 'src/service/oidc/role-in-claims.ts',
    tests: ['tests/service/oidc.test.ts'],
    changes: [['given.includes(role) : given === role', 'given.includes(role) : true']],
  },
  {
    harm: 'A child can be recognised in an export for research',
    file: 'src/service/pseudonymised-export.ts',
    tests: ['tests/safety/pseudonymised-export.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['SMALLEST_CELL = 5', 'SMALLEST_CELL = 2'],
      ['addDaysIso(m.date, shiftOf(child.id))', 'm.date'],
      ['addDaysIso(d.castDate, shiftOf(child.id))', 'd.castDate'],
    ],
  },
  {
    harm: 'a service that is being stopped leaves people without an answer they could act on',
    file: 'src/service/refuse-while-stopping.ts',
    tests: ['tests/service/uploads.test.ts'],
    name: 'begun before a stop',
    changes: [['    stopping = true;', '']],
  },
  {
    harm: 'somebody does what is not theirs to do',
    file: 'src/service/scheduler-fields.ts',
    tests: [
      'tests/service/api.test.ts',
      'tests/service/refusals.test.ts',
      'tests/service/route-roles.test.ts',
    ],
    changes: [["if (role === 'scheduler' && refused.length > 0)", 'if (false)']],
  },
  {
    harm: 'who has left still opens the door',
    file: 'src/service/session.ts',
    tests: ['tests/service/doors.test.ts', 'tests/service/api.test.ts'],
    name: 'session|sign in any more|CSRF|own password',
    changes: [
      ['startedAt > config.sessionHours * HOUR_MS', 'startedAt < 0'],
      ['user && !user.disabled && user.version', 'user && user.version'],
      ['user.version === version', 'true'],
      ["if (request.headers['sec-fetch-site'] === 'cross-site')", 'if (false)'],
      ["if (request.signedInBy === 'cookie')\n      await", 'if (false)\n      await'],
      ['await request.session.regenerate();', ''],
    ],
  },
  {
    harm: [
      'a child is booked on a day when nobody is there',
      'A family is booked for a day years ahead, or a child that came back stays off the list',
      'whoever moved away is rung up; a word taken back leaves the child off the lists',
    ],
    file: 'src/service/set-recall-state.ts',
    tests: routeRoles,
    changes: [
      ['if (day < today) refuse', 'if (false) refuse'],
      ['if (placesOn(clinicWeekOf(settings), day) === 0)', 'if (false)'],
      ["if (change.state === 'moved-away')", 'if (false)'],
      ['if (day > latest) refuse', 'if (false) refuse'],
      ["if (before.state !== 'moved-away' || row.state === 'moved-away') return row;", 'return row;'],
      ["if (child.status === 'moved-away')", 'if (false)'],
      ['if (day < today)', 'if (day > today && false)'],
      ['placesOn(clinicWeekOf(settings), day) === 0', 'false'],
    ],
  },
  {
    harm: 'A password is guessed by its try, and nobody reads of it',
    file: 'src/service/sign-in/change-own-password.ts',
    tests: ['tests/service/doors.test.ts'],
    changes: [
      ['if (given.present === given.next)', 'if (false)'],
      ['if (waitUntil !== null)', 'if (false)'],
    ],
  },
  {
    harm: 'a sign-in sends people to another site',
    file: 'src/service/sign-in/own-path.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'where a sign-in leads',
    changes: [
      ["!then.startsWith('/') ||", ''],
      ['&& new URL(pathname, HERE).origin === HERE', ''],
      ['return origin === HERE &&', 'return'],
    ],
  },
  {
    harm: 'A password is guessed by its try, and nobody reads of it',
    file: 'src/service/sign-in/password-sign-in.ts',
    tests: ['tests/service/doors.test.ts'],
    changes: [
      ["await refused('name or password');", ''],
      ["await refused('too many tries');", ''],
      ['if (waitUntil !== null) {', 'if (false) {'],
      ["'sign-in',\n    'session',", "'read',\n    'session',"],
    ],
  },
  {
    harm: 'uploads fill the memory or the disk of the web server',
    file: 'src/service/uploads/read-multipart.ts',
    tests: ['tests/service/uploads.test.ts'],
    name: 'larger|three large|more files|of other routes|are answered|at once',
    changes: [
      ['if (length > most) throw tooLarge();', ''],
      ['    refuseAnnounced(request);', ''],
      ['void removeUploadFolder(folder)', 'undefined'],
      ['        files: most,\n', ''],
      ['if (held >= uploadLimits.atOnce)', 'if (held > 10 * uploadLimits.atOnce)'],
      ['      held--;\n', ''],
    ],
  },
  {
    harm: 'A write is done twice, given up, or laid over somebody else’s',
    file: 'src/service/write.ts',
    tests: ['tests/service/api.test.ts', 'tests/service/page-forms.test.ts'],
    changes: [
      ['if (kept) return { ...kept, replayed: true };', ''],
      ["if (given.trim() === '*') return null;", 'return null;'],
    ],
  },
];
