import type { MutationGroup } from '../mutation.js';

const words = ['tests/words/family.test.ts', 'tests/pages/answers.test.tsx'];
const doors = ['tests/service/doors.test.ts'];

/** What a family reads, who may see what, and what is kept. */
export const people: readonly MutationGroup[] = [
  {
    harm: 'a family takes a hip orthosis off, or waits with a sick child',
    file: 'src/words/family/english.ts',
    tests: words,
    changes: [
      [
        "hip: 'Call us today if you see this. Leave the brace on until we tell you'",
        "hip: 'Stop wearing it and call us today if you see'",
      ],
      [
        "if (region === 'hip') return `Please call us today.",
        "if (region === 'head') return `Please call us today.",
      ],
      [
        "worn.region === 'hip' ? `Leave it on until we tell you.`",
        "worn.region === 'head' ? `Leave it on until we tell you.`",
      ],
      ["'Leave the brace on. Look round the straps", "'Take the brace off. Look round the straps"],
      [
        'If your child throws up, is very sleepy or has a soft spot that bulges, go to the hospital at once.',
        'We will see you soon.',
      ],
      ["region === 'head'\n      ? 'Go to the hospital", "region === 'hip'\n      ? 'Go to the hospital"],
      ["if (why === 'head' ||", "if (why === 'skin' ||"],
      ["if (why === 'breathing')", "if (why === 'head')"],
      ["'breathing that is harder in the brace',\n", ''],
      ["'redness that is still there at the next change'", "'redness that stays longer than 20 minutes'"],
      [
        "if (region === 'trunk')\n      return 'Call for help",
        "if (region === 'knee')\n      return 'Call for help",
      ],
      ["toesInsensate: 'toes that are cold or blue'", "toesInsensate: 'toes past the end'"],
      ['Look in the morning and in the evening, every day.', 'Look now and then.'],
      ["'redness that stays longer than 20 minutes'", "'redness that stays longer than 60 minutes'"],
      [
        "marksHip: 'Are there marks on the skin around the brace? Do not take it off to look.'",
        "marksHip: 'Take the brace off. Are there marks on the skin?'",
      ],
    ],
  },
  {
    harm: 'a family is told to wait for pain where the skin cannot warn, or to count minutes under what stays on',
    file: 'src/words/family/signs.ts',
    tests: words,
    changes: [
      ['insensate ? p.swollen : p.unwell', 'p.unwell'],
      ['insensate ? [] : [p.unwell]', '[p.unwell]'],
      ['[p.skinHip, ...p.skin.slice(1)', '[...p.skin'],
      ['title: p.titles.hip', 'title: p.titles.limb'],
    ],
  },
  {
    harm: 'the wrong next step for a family',
    file: 'src/words/family/worn-device.ts',
    tests: words,
    changes: [
      ["flagId.startsWith('head-growth') ||", ''],
      ["|| flagId.startsWith('finding-head-warning')", ''],
      ["if (flagId.startsWith('finding-breathing')) return 'breathing'", ''],
    ],
  },
  {
    harm: 'a family reads that a brace fits that does not',
    file: 'src/words/family/device-answer.ts',
    tests: words,
    changes: [
      ["if (action === 'see-now' || action === 'repair')", "if (action === 'repair')"],
      ["outcome === 'already-outgrown' ||", ''],
      ['(p50 !== null && p50 <= today)', 'false'],
      ['lastThirdBefore(p10)', 'firstThirdAfter(p10)'],
      ['if (saysNothing(forecast))', 'if (false)'],
    ],
  },
  {
    harm: 'a family whose child feels nothing there is told to wait for pain',
    file: 'src/words/reason-sentence.ts',
    tests: ['tests/words/reason-sentence.test.ts'],
    changes: [
      ['ring: skinCannotWarn ? LOOK : RING', 'ring: RING'],
      ["trouble: skinCannotWarn ? 'a mark", "trouble: !skinCannotWarn ? 'a mark"],
    ],
  },
  {
    harm: 'a hip orthosis is taken off, or a helmet worn on, by what is said on the telephone',
    file: 'src/words/reason-sentence.ts',
    tests: words,
    changes: [
      ["?.region === 'hip'", "?.region === 'knee'"],
      ["if (why === 'head')", "if (why === 'skin')"],
      ["if (why === 'breathing')", 'if (false)'],
      ['return `please stop wearing', 'return `please go on wearing'],
    ],
  },
  {
    harm: 'who rings the family sees a diagnosis',
    file: 'src/store/contract/actor.ts',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [["role === 'clinician' || role === 'system'", "role !== 'auditor' || role === 'system'"]],
  },
  {
    harm: 'who rings the family does not see that its skin cannot warn, or sees a diagnosis',
    file: 'src/store/records/visible-to.ts',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ['conditions: [],', ''],
      ['palliative: false,', 'palliative: false, insensateSkin: false,'],
      ['palliative: false,', 'palliative: false, latexAlert: false,'],
      ['markers: [],', ''],
      ['skinChecks: [],', ''],
      ["({ ...e, note: '' })", '({ ...e })'],
      ['gestationWeeks: null,', ''],
    ],
  },
  {
    harm: 'who rings the family does not see that its skin cannot warn',
    file: 'src/pages/parts/alert-tags.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['{alerts.map((alert) => (', '{[].map((alert) => (']],
  },
  {
    harm: 'who has left still opens the door',
    file: 'src/service/session.ts',
    tests: ['tests/service/doors.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['startedAt > config.sessionHours * HOUR_MS', 'startedAt < 0'],
      ['user && !user.disabled && user.version', 'user && user.version'],
      ['user.version === version', 'true'],
      ["if (request.headers['sec-fetch-site'] === 'cross-site')", 'if (false)'],
      ["if (request.signedInBy === 'cookie')\n      await", 'if (false)\n      await'],
      ['await request.session.regenerate();', ''],
    ],
    name: 'session|sign in any more|CSRF|own password',
  },
  {
    harm: 'who has left still opens the door',
    file: 'src/store/people/sign-in-state.ts',
    tests: doors,
    name: 'a token that has run out|sign in any more',
    changes: [
      [".where('t.expires_at', '>', now)", ''],
      [".where('u.disabled', '=', false)", ''],
    ],
  },
  {
    harm: 'who has left still opens the door, passwords are guessed',
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts'],
    name: 'sign in any more|password|signs in',
    changes: [
      ['fits && !row.disabled ?', 'fits ?'],
      ['row?.password_hash && fits &&', 'row?.password_hash &&'],
      ['await refuseNoAdministrator(tx);\n', ''],
    ],
  },
  {
    harm: 'A password that is soon guessed opens every record.',
    file: 'src/records/check/check-account.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts'],
    name: 'sign in any more|password|signs in',
    changes: [['minLength: 12', 'minLength: 2']],
  },
  {
    harm: 'passwords are guessed',
    file: 'src/store/people/sign-in-tries.ts',
    tests: doors,
    name: 'an account waits|many wrong passwords|guessing',
    changes: [
      ['FREE_TRIES = 5', 'FREE_TRIES = 500'],
      ['if (row.locked_until && row.locked_until > now) return row.locked_until;', ''],
      ['.forUpdate()', ''],
      ['forgotten ? 1 : row.tries + 1', '1'],
    ],
  },
  {
    harm: 'a route is open to a role that it is not for',
    file: 'src/service/access.ts',
    tests: ['tests/service/route-roles.test.ts'],
    changes: [
      ['if (access.includes(request.user.role)) return', 'if (request.user) return'],
      ["if (access === undefined || access === 'public') return", 'if (true) return'],
    ],
  },
  {
    harm: 'what was entered is lost, or what should be gone stays',
    file: 'src/store/backup.ts',
    tests: ['tests/operations/backup.test.ts'],
    changes: [
      ["  'skin_checks',\n  'workshop_jobs'", "  'workshop_jobs'"],
      ["  'sign_offs',\n  'population", "  'population"],
      ["  'tombstones',\n", ''],
      ["  'fit_limit_changes',\n  'sign", "  'sign"],
      ['digest.update(text);', ''],
    ],
  },
  {
    harm: 'what was entered is lost, or what should be gone stays',
    file: 'src/store/records/erase-child.ts',
    tests: ['tests/store/store.test.ts'],
    name: 'store',
    changes: [
      ["  'record_history',\n", ''],
      ["  'family_questions',\n", ''],
      [
        ".updateTable('idempotency_keys').set({ body: null })",
        ".updateTable('idempotency_keys').set({ method: 'x' } as never)",
      ],
      ['.set({ caseload: null, files: null })', '.set({ files: null })'],
      ['JSON.stringify(NO_WORDS)', "'{}'"],
      [
        ".insertInto('tombstones').values({ child_id: childId",
        ".insertInto('tombstones').values({ child_id: 'another'",
      ],
    ],
  },
  {
    harm: 'what cannot be is kept as a reading',
    file: 'src/records/check/refuse.ts',
    tests: ['tests/records/check.test.ts'],
    changes: [
      ['if (date >= from && date <= today) return', 'if (date >= from) return'],
      ['if (date >= from && date <= today) return', 'if (date <= today) return'],
      ['value >= min && value <= max', 'value >= min'],
      ['value >= min && value <= max', 'value <= max'],
    ],
  },
  {
    harm: 'what cannot be is kept as a reading',
    file: 'src/records/check/reading-faults.ts',
    tests: ['tests/records/check.test.ts'],
    changes: [
      ["if (sided !== (reading.side !== 'none'))", 'if (false)'],
      ['yield* dateFaults(label', 'if (false) yield* dateFaults(label'],
      ["yield* rangeFaults(label, 'value'", "if (false) yield* rangeFaults(label, 'value'"],
      ["{ from: birthDate, since: 'birth', today }", "{ from: '0000', since: 'birth', today }"],
    ],
  },
  {
    harm: 'what cannot be is kept of a device',
    file: 'src/records/check/device-faults.ts',
    tests: ['tests/records/check.test.ts'],
    changes: [
      ["{ from: birthDate, since: 'birth', today }", "{ from: '0000', since: 'birth', today: '9999' }"],
      ["one: { sides: ['left', 'right']", "one: { sides: ['left', 'right', 'both']"],
      ['if (!families.has(family))', 'if (false)'],
      ['MOST_ROOM_MM = 200', 'MOST_ROOM_MM = 200000'],
      ['measures[measure as MeasureId].plausible', '[0, 1e9]'],
    ],
  },
  {
    harm: 'what cannot be is kept of a device',
    file: 'src/records/check/event-faults.ts',
    tests: ['tests/records/check.test.ts'],
    changes: [
      ["if (event.kind === 'verdict' && event.verdict === null && event.note.trim() === '')", 'if (false)'],
      [" && event.note.trim() === ''", ''],
      ["if (event.kind === 'adjusted' && event.changeMm === null)", 'if (false)'],
      ['event.measure !== null && limiting && !limiting.includes(event.measure)', 'false'],
      ["{ from: device.castDate, since: 'the cast', today }", "{ from: '0000', since: 'the cast', today }"],
      ['if (!fits)', 'if (false)'],
    ],
  },
  {
    harm: 'a child is booked on a day when nobody is there',
    file: 'src/service/set-recall-state.ts',
    tests: ['tests/service/replanning.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['if (day < today) refuse', 'if (false) refuse'],
      ['if (placesOn(clinicWeekOf(settings), day) === 0)', 'if (false)'],
      ["if (change.state === 'moved-away')", 'if (false)'],
    ],
  },
];
