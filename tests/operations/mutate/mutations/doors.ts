import type { MutationGroup } from '../mutation.js';

const hostile = ['tests/exchange/hostile-input.test.ts'];
const workbooks = ['tests/exchange/xlsx/read-sheets.test.ts'];
const uploads = ['tests/service/uploads.test.ts'];

/** What keeps strangers, broken files and a full machine from a clinic's records. */
export const doors: readonly MutationGroup[] = [
  {
    harm: 'a resource that is not as FHIR R4 says ends the reading with an error nobody understands',
    file: 'src/exchange/fhir/read-resources.ts',
    tests: hostile,
    changes: [['checkResource(type, value)', '(value as never as ReadResource | readonly never[])']],
  },
  {
    harm: 'a cell of an export runs as a formula in a spreadsheet',
    file: 'src/exchange/csv/row-reader.ts',
    tests: hostile,
    changes: [['return RUN.test(text) ?', 'return false ?']],
  },
  {
    harm: 'A row of a child or device that was not taken is taken.',
    file: 'src/exchange/csv/row-reader.ts',
    tests: [
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/other-formats.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [["if (id !== '' && found === null)", 'if (false)']],
  },
  {
    harm: 'a workbook of a few kilobytes fills the memory',
    file: 'src/exchange/xlsx/read-sheets.ts',
    tests: workbooks,
    changes: [
      ['if (column > limits.columns)', 'if (false)'],
      ['if (characters > limits.characters)', 'if (false)'],
      ['if (cells + Math.max(column, ++filled) > limits.cells)', 'if (false)'],
      ['if (rows > limits.rows)', 'if (false)'],
      ['if (parts.sheets.length > limits.sheets)', 'if (false)'],
    ],
  },
  {
    harm: 'a packed file unpacks until the machine is full',
    file: 'src/exchange/xlsx/open-archive.ts',
    tests: workbooks,
    changes: [
      ['if (bytes.length > limits.fileBytes)', 'if (false)'],
      ['uncompressedSize > limits.ratio * Math.max(1, compressedSize)', 'false'],
      ['if (unpacked > limits.unpackedBytes)', 'if (false)'],
    ],
  },
  {
    harm: 'a given password, a guessable one, or a session left open is enough',
    file: 'src/service/access.ts',
    tests: ['tests/service/doors.test.ts'],
    changes: [['request.user.passwordByOther && ', 'false && ']],
  },
  {
    harm: 'a given password, a guessable one, or a session left open is enough',
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts'],
    changes: [["if (await isGuessable(password, ['doorpost', ...own]))", 'if (false)']],
  },
  {
    harm: 'a given password, a guessable one, or a session left open is enough',
    file: 'src/pages/child/record-routes.tsx',
    tests: ['tests/service/doors.test.ts'],
    changes: [
      ["      await passwordAgain(request, deps, body.password ?? '', 'to erase a record');\n", ''],
      ['if (body.number?.trim() !== id)', 'if (false)'],
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
    harm: 'a role withdrawn by the hospital goes on acting',
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
    ],
  },
  {
    harm: 'a role withdrawn by the hospital goes on acting',
    file: 'src/service/oidc/role-in-claims.ts',
    tests: ['tests/service/oidc.test.ts'],
    changes: [['given.includes(role) : given === role', 'given.includes(role) : true']],
  },
  {
    harm: 'passwords are guessed from one address, or everybody is one address',
    file: 'src/app.ts',
    tests: ['tests/service/doors.test.ts'],
    name: 'X-Forwarded-For|proxy is believed',
    changes: [['config.trustedProxies.length > 0 ? config.trustedProxies : false', 'true']],
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
    harm: 'a planning that fails takes the list with it',
    file: 'src/recall/level/level-recall-list.ts',
    tests: ['tests/recall/level-recall-list.test.ts'],
    changes: [
      ['    options.failed?.(error);', '    throw error;'],
      ['notLevelled: NOT_LEVELLED', ''],
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
    harm: 'one record that cannot be computed takes the whole list with it',
    file: 'src/recall/decide/safe-plan.ts',
    tests: ['tests/recall/build-recall-list.test.ts'],
    changes: [
      ['return { ...toBeLookedAt(record, assessment, context), failed };', 'throw failed;'],
      ['for (const decision of plan.decisions) checkSound(decision);', ''],
    ],
  },
  {
    harm: 'a chart that warns of something takes the child’s page away',
    file: 'src/app.ts',
    tests: ['tests/service/error-pages.test.ts'],
    name: 'raises a warning',
    changes: [['  hearChartWarnings((words)', '  ((_: unknown) => {})((words: string)']],
  },
  {
    harm: 'uploads fill the memory or the disk of the web server',
    file: 'src/service/uploads/read-multipart.ts',
    tests: uploads,
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
    harm: 'a service that is being stopped leaves people without an answer they could act on',
    file: 'src/service/refuse-while-stopping.ts',
    tests: uploads,
    name: 'begun before a stop',
    changes: [['    stopping = true;', '']],
  },
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
  {
    harm: 'a database that says nothing holds every page for minutes',
    file: 'src/store/connect.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'an answer that does not come',
    changes: [['query_timeout: answersWithinMs', 'query_timeout: undefined']],
  },
  {
    harm: 'work stands still for a day after a clock was put right',
    file: 'src/store/work/take-jobs.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'a job written while the clock',
    changes: [['await afterClockJump(connection);', '']],
  },
];
