import type { MutationGroup } from '../mutation.js';

const words = [
  'tests/words/family.test.ts',
  'tests/pages/family-page.test.tsx',
  'tests/safety/clinical-safety.test.ts',
];
const letters = ['tests/words/family.test.ts'];
const files = [
  'tests/exchange/row-reader.test.ts',
  'tests/exchange/other-formats.test.ts',
  'tests/exchange/awkward-tables.test.ts',
  'tests/exchange/hostile-input.test.ts',
  'tests/exchange/round-trip.test.ts',
];
const weeks = [
  'tests/recall/plan-details.test.ts',
  'tests/recall/plan-requests.test.ts',
  'tests/recall/level-recall-list.test.ts',
  'tests/recall/level-plan.test.ts',
];
const cautions = ['tests/forecast/safe-forecast.test.ts', 'tests/forecast/findings.test.ts'];

/** What people read and are let do: words, cautions, files in and out, weeks, doors and the log. */
export const answered: readonly MutationGroup[] = [
  {
    harm: 'A caution that always stands is left out.',
    file: 'src/forecast/cautions.ts',
    tests: cautions,
    changes: [
      ['...(child.insensateSkin', '...(child.palliative'],
      ['...(populationChartsMislead(child.conditions)', '...(false'],
      ['...(early ?', '...(false && early ?'],
      ["...(worn ? [make('skin'", "...(false ? [make('skin'"],
      ['emergency care at once. The helmet stays off', 'ring in the morning. The helmet stays on'],
    ],
  },
  {
    harm: 'A family in another language is told the wrong thing to do.',
    file: 'src/words/family/phrase-book.ts',
    tests: words,
    changes: [
      ["region === 'hip' ? p.urgent.hip : p.urgent.stop", "region === 'head' ? p.urgent.hip : p.urgent.stop"],
      ["if (why === 'breathing') return p.urgent.breathing;", ''],
      ['insensate ? p.doNotWaitInsensate : p.doNotWait', 'p.doNotWait'],
      ["region === 'head' ? p.emergency : null", 'null'],
      ["if (region === 'trunk') return p.emergencyTrunk;", ''],
      ["action === 'repair' && worn.region === 'hip'", 'false'],
      ["p.skin[SKIN_OF[region] ?? 'leg']", 'p.skin.leg'],
    ],
  },
  {
    harm: 'A letter calls soon what is probably so already, or says nothing of what to do until it is seen.',
    file: 'src/words/family/letter-reason.ts',
    tests: letters,
    changes: [
      ['d.beyondUseSince !== null', 'd.beyondUseSince === null'],
      ["(action === 'cast' || action === 'check') &&", "(action === 'cast') &&"],
      ["action === 'see-now' || action === 'repair'", 'false'],
    ],
  },
  {
    harm: 'A family page leaves out who must be rung, or what to look for.',
    file: 'src/pages/family/family-page.tsx',
    tests: ['tests/pages/family-page.test.tsx', 'tests/safety/clinical-safety.test.ts'],
    changes: [
      ['<Signs words={words} regions={regions} insensate={child.insensateSkin} />', ''],
      ['<strong>{words.doNotWait(child.insensateSkin)}</strong>', ''],
      [
        "f.severity === 'act-now')) return words.visitToday",
        "f.severity === 'act-now')) return words.visitUsual",
      ],
      ["region === 'head' && forecast.outcome === 'blocked'", 'false'],
      ['words.numberOnCard', "''"],
      ['{devices.length > 0 && <p>{words.guess}</p>}', ''],
      ['{child.insensateSkin && (', '{false && ('],
    ],
  },
  {
    harm: 'A family page leaves out who must be rung, or what to look for.',
    file: 'src/pages/family/signs.tsx',
    tests: ['tests/pages/family-page.test.tsx'],
    changes: [['{emergency && (', '{false && (']],
  },
  {
    harm: 'A page stands without its caution.',
    file: 'src/pages/parts/layout.tsx',
    tests: [
      'tests/pages/family-page.test.tsx',
      'tests/safety/clinical-safety.test.ts',
      'tests/safety/who-sees-what.test.tsx',
    ],
    changes: [
      ['Estimates from measurements, not a diagnosis.', 'Measurements.'],
      ['unsigned.length > 0 &&', 'false &&'],
    ],
  },
  {
    harm: 'A chart says nothing of what it is.',
    file: 'src/charts/chart-words.ts',
    tests: ['tests/charts/charts.test.ts'],
    changes: [['An estimate, not a diagnosis; check fit and skin.', '']],
  },
  {
    harm: 'A date in a file is read as another day.',
    file: 'src/exchange/csv/read-date.ts',
    tests: files,
    changes: [
      ['if (b > 12) return calendarDate(year, a, b);', ''],
      ["dayNumber('1899-12-30')", "dayNumber('1899-12-31')"],
      [
        "if (order === 'mdy') return calendarDate(year, a, b)",
        "if (order === 'mdy') return calendarDate(year, b, a)",
      ],
      [
        "return { why: 'has a year of two digits' }",
        'return calendarDate(2000 + Number(cell.slice(-2)), 1, 1)',
      ],
      ['year < 1900 || year > 2199', 'false'],
    ],
  },
  {
    harm: 'A row in a file is taken that should be asked about.',
    file: 'src/exchange/csv/read-rows.ts',
    tests: files,
    changes: [
      ['if (same !== row) {', 'if (false) {'],
      ["else if (taken !== row) reader.refuse('id'", "else if (false) reader.refuse('id'"],
    ],
  },
  {
    harm: 'A row in a file is taken that should be asked about.',
    file: 'src/exchange/csv/row-reader.ts',
    tests: ['tests/exchange/row-reader.test.ts'],
    changes: [
      ["if (!WORDS_NO.includes(word)) this.refuse(name, 'is neither yes nor no');", ''],
      ["if (value < min || value > max) return this.refuse(name, 'is out of range');", ''],
      ['!(byAlias && exact.has(column.name))', 'true'],
      ['if (!WORDS_NOTHING.includes(text.toLowerCase()))', 'if (false)'],
    ],
  },
  {
    harm: 'A reading in a file is given the other side, or none.',
    file: 'src/exchange/csv/read-measurements.ts',
    tests: files,
    changes: [
      ["l: 'left', r: 'right', left", "l: 'right', r: 'left', left"],
      ['if (sided && side === null) {', 'if (false) {'],
      ['if (!sided && side !== null && cell.measure === null) {', 'if (false) {'],
      ["row.refuseFaults(dateFaults('Reading', 'date', visit.date, span));", ''],
    ],
  },
  {
    harm: 'A device in a file is worn that was ordered, or on the other side.',
    file: 'src/exchange/csv/read-devices.ts',
    tests: files,
    changes: [
      ["fittedDate ? 'worn' : 'ordered'", "'worn'"],
      ["rule?.sides === 'both' && side === 'none'", 'false'],
      ['= toBaseUnit(number, unit)', '= number'],
      ['if (row.ok && birthDate)', 'if (false as boolean)'],
    ],
  },
  {
    harm: 'An event or a child in a file loses what protects it.',
    file: 'src/exchange/csv/read-events.ts',
    tests: files,
    changes: [['if (row.ok && device)', 'if (false as boolean)']],
  },
  {
    harm: 'A field in a file is read as the other side, as no alert, or as something where nothing was said.',
    file: 'src/exchange/csv/read-fields.ts',
    tests: [...files, 'tests/exchange/row-reader.test.ts', 'tests/exchange/awkward-tables.test.ts'],
    changes: [
      ["\n  side: { l: 'left', r: 'right'", "\n  side: { l: 'right', r: 'left'"],
      ["affected_side: { l: 'left', r: 'right' }", "affected_side: { l: 'right', r: 'left' }"],
      ['row.yesNo(name, whenEmpty === true)', 'row.yesNo(name)'],
      ['return (row) => row.yesNo(name, whenEmpty === true);', 'return () => false;'],
      ['row.number(name, min, max)', 'row.number(name)'],
      ["row.refuse(name, 'is missing')", 'null'],
    ],
  },
  {
    harm: 'A list taken out tells a calendar whose child it is, or a wrong day.',
    file: 'src/exchange/icalendar/recall-calendar.ts',
    tests: ['tests/exchange/other-formats.test.ts'],
    changes: [
      ["'Clinic appointment to arrange'", 'entry.childId'],
      ["createHmac('sha256', key).update(what)", "createHmac('sha256', 'x').update(what)"],
      ['appointment ?? entry.dueBy ?? today', 'entry.dueBy ?? today'],
      ['date < today ? today : date', 'date'],
    ],
  },
  {
    harm: 'A scheduler’s spreadsheet has no alerts.',
    file: 'src/exchange/csv/recall-columns.ts',
    tests: ['tests/exchange/other-formats.test.ts'],
    changes: [["alerts: entry.alerts.map((a) => alertNames[a]).join(', ')", "alerts: ''"]],
  },
  {
    harm: 'A plan in FHIR is an order, or says nothing of the harm.',
    file: 'src/exchange/fhir/recall-resources.ts',
    tests: ['tests/exchange/other-formats.test.ts'],
    changes: [
      ["intent: 'plan'", "intent: 'order'"],
      ["status: 'preliminary'", "status: 'final'"],
      ["e.late || e.tooLateSince || e.beyondUseSince ? 'urgent'", "false ? 'urgent'"],
    ],
  },
  {
    harm: 'A visit is planned too late, or who must be seen now waits for a week.',
    file: 'src/recall/level/plan-requests.ts',
    tests: weeks,
    changes: [
      ["insensateSkin: entry.alerts.includes('skin-cannot-warn')", 'insensateSkin: false'],
      ['if (isBeingMade(device.reason.code)) return null;', ''],
      ["p.why === 'clinic-cancelled' ? [] : p.week", "p.why === 'declined' ? [] : p.week"],
      ['bookedWeek: earlier.bookedWeek,', ''],
      ['clinicianIds: known ? [own] : []', 'clinicianIds: []'],
      ['transportDays: child?.transportDays ?? []', 'transportDays: []'],
      ['waits ? device.harmPerWeek / 7 : 0', '0'],
      ['own ? dueBy : castBy', 'castBy'],
    ],
  },
  {
    harm: 'A cast costs nothing for being late.',
    file: 'src/recall/level/cast-costs.ts',
    tests: weeks,
    changes: [
      ['dayNumber(day) + wait + fitWaitDays', 'dayNumber(day) + fitWaitDays'],
      ['dayNumber(day) + wait + fitWaitDays', 'dayNumber(day) + wait'],
      ['chance.lastDay - fitted - (whole - before)', 'chance.lastDay - fitted'],
    ],
  },
  {
    harm: 'Two children are put in one place, or nobody sees that the clinic is shut.',
    file: 'src/recall/level/place-in-sessions.ts',
    tests: weeks,
    changes: [
      ['held.length < p.sessionSlots[s]', 'held.length <= p.sessionSlots[s]'],
      ['settle(i, unit, new Set()) ? 0 : 1', 'settle(i, unit, new Set()) ? 0 : 0'],
    ],
  },
  {
    harm: 'Two children are put in one place, or nobody sees that the clinic is shut.',
    file: 'src/recall/level/shut-days.ts',
    tests: ['tests/recall/carry-over.test.ts', ...weeks],
    changes: [
      ['within(clinicClosures, day) ||', ''],
      ['c.id === clinician', 'c.id !== clinician'],
    ],
  },
  {
    harm: 'A log names a child.',
    file: 'src/service/log.ts',
    tests: ['tests/safety/log-names-nobody.test.ts'],
    changes: [
      [', ...loggedError(error) })', ', frames: error.stack })'],
      ["request.routeOptions.url ?? 'no such route'", 'request.url'],
      ["paths: ['req', ", 'paths: ['],
    ],
  },
  {
    harm: 'A record, its corrections or its links are read and leave no row in the log.',
    file: 'src/store/audit.ts',
    tests: ['tests/service/access-log.test.ts', 'tests/store/store.test.ts'],
    changes: [
      ['(Object.values(row))} from child)', '(Object.values(row))} from child where false)'],
      ["if (!rows[0].known) throw notFound('child');", ''],
    ],
  },
  {
    harm: 'What another host has changed is not seen: limits, settings, who has signed.',
    file: 'src/store/standing.ts',
    tests: ['tests/store/standing.test.ts'],
    changes: [
      ['const version = (await standing(db))[of];', 'const version = of;'],
      ['asked.delete(db);', ''],
    ],
  },
  {
    harm: 'A reading or a change leaves no row in the log.',
    file: 'src/store/records/children.ts',
    tests: ['tests/service/access-log.test.ts', 'tests/store/store.test.ts'],
    changes: [
      ["await writeAudit(db, actor, 'read', 'child', { childId });", ''],
      ["await writeAudit(db, actor, 'list', 'children', { childIds: found.items.map((c) => c.id) });", ''],
      [
        "await writeAudit(tx, actor, 'change', 'child', { childId, fields: Object.keys(change), version });",
        '',
      ],
      ["await writeAudit(tx, actor, 'create', 'child', { childId: child.id });", ''],
    ],
  },
  {
    harm: 'Who was thrown out by a new password goes on.',
    file: 'src/store/people/users.ts',
    tests: ['tests/service/doors.test.ts', 'tests/store/store.test.ts'],
    changes: [
      [
        "await tx.deleteFrom('access_tokens').where('user_id', '=', userId).execute();\n      await auditUser(tx, actor, why",
        'await auditUser(tx, actor, why',
      ],
      ["actor.userId !== userId && actor.role !== 'system'", 'false'],
      ['refuseStale(expected, before.version);', ''],
    ],
  },
  {
    harm: 'A sign-in that is over goes on.',
    file: 'src/store/people/sign-in-state.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts'],
    changes: [
      ['row && row.expires_at > new Date() ? row.data : null', 'row ? row.data : null'],
      ["await db.deleteFrom('access_tokens').where('token_hash', '=', hashOf(token)).execute();", ''],
    ],
  },
  {
    harm: 'A password is guessed by its try, and nobody reads of it.',
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
    harm: 'A password is guessed by its try, and nobody reads of it.',
    file: 'src/service/sign-in/change-own-password.ts',
    tests: ['tests/service/doors.test.ts'],
    changes: [
      ['if (given.present === given.next)', 'if (false)'],
      ['if (waitUntil !== null)', 'if (false)'],
    ],
  },
  {
    harm: 'A damaged copy is restored, or over what is there.',
    file: 'src/store/restore.ts',
    tests: ['tests/operations/backup.test.ts'],
    changes: [
      ["if (line.sha256 !== digest.digest('hex'))", 'if (false)'],
      ['await refuseUnlessEmpty(tx);', ''],
      ["if (!ended) throw damaged('its end is missing');", ''],
      ['if ((line.migrations as string[]).some((m) => !own.has(m)))', 'if (false)'],
    ],
  },
  {
    harm: 'A setting is changed under another’s hand, or without a trace.',
    file: 'src/store/people/settings.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['refuseStale(expected, before.version);', ''],
      ["await writeAudit(tx, actor, 'change', 'settings', { fields: Object.keys(change) });", ''],
    ],
  },
];
