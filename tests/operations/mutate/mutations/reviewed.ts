import type { MutationGroup } from '../mutation.js';

const decisions = [
  'tests/recall/safe-list.test.ts',
  'tests/recall/device-facts.test.ts',
  'tests/recall/choices.test.ts',
  'tests/recall/build-recall-list.test.ts',
  'tests/recall/dates.test.ts',
  'tests/recall/practitioner-cases.test.ts',
];
const flags = [
  'tests/forecast/flags.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/vignettes.test.ts',
  'tests/forecast/safe-forecast.test.ts',
];
const pages = ['tests/pages/answers.test.tsx', 'tests/pages/family-page.test.tsx'];

/** What a hostile reader of decisions, rules, flags, pages and doors would break first. */
export const reviewed: readonly MutationGroup[] = [
  {
    harm: 'A next device is taken for on its way that is not, or one in the workshop for ever is waited for.',
    file: 'src/recall/decide/replacement-status.ts',
    tests: decisions,
    changes: [
      ['lost || (risk !== null && risk > accepted)', 'lost'],
      ['.filter((d) => d > waited)', ''],
      ['replacement.job?.stages.cast ?? replacement.device.castDate', 'today'],
    ],
  },
  {
    harm: 'A next device is taken for on its way that is not.',
    file: 'src/recall/decide/replacement-in-progress.ts',
    tests: decisions,
    changes: [
      ['regionOf(d.family, rules) === regionOf(worn.family, rules) &&', ''],
      ["d.status === 'ordered' &&", ''],
      ['begun > worn.fittedDate', 'true'],
      ["a === b || a === 'both' || b === 'both'", 'true'],
    ],
  },
  {
    harm: 'A child of whom nothing is known is called last.',
    file: 'src/recall/decide/decide-device.ts',
    tests: decisions,
    changes: [['forecast === null || saysNothing(forecast) ? null', 'forecast === null ? null']],
  },
  {
    harm: 'a wound under the only device is forgotten once that device is taken off',
    file: 'src/recall/decide/plan-child.ts',
    tests: decisions,
    changes: [
      ['record.devices.filter(seenUnder).map', '[].map'],
      ["f.severity === 'act-now' && f.deviceId === device.id", 'f.deviceId === device.id'],
    ],
  },
  {
    harm: 'A child that could not be forecast waits for the usual review; a wound is forgotten with the device it was under.',
    file: 'src/recall/decide/choose-action.ts',
    tests: decisions,
    changes: [
      ['|| !isStillWorn(f.deviceId, record)', ''],
      ["if (forecast?.outcome === 'not-computed') return", 'if (forecast === undefined) return'],
    ],
  },
  {
    harm: 'A device taken off counts as worn, and a wound under it is forgotten.',
    file: 'src/records/device-history.ts',
    tests: decisions,
    changes: [[' && deviceHistory(device, events).retiredOn === null', '']],
  },
  {
    harm: 'A child whose sums fail is called last or not at all.',
    file: 'src/recall/decide/safe-plan.ts',
    tests: decisions,
    changes: [
      ["f.severity === 'act-now'", "f.severity === 'note'"],
      ['harmPerWeek: HARM_DAYS * harm', 'harmPerWeek: 0'],
      ['alerts: alertsOf(record)', 'alerts: []'],
      ["record.child.status !== 'active' ||", ''],
      ['if (date !== null && !isIsoDate(date)) throw', 'if (false) throw'],
    ],
  },
  {
    harm: 'A visit hides what is gravest in it.',
    file: 'src/recall/decide/visit-of.ts',
    tests: decisions,
    changes: [
      ['order(a) - order(b) || b.harm', 'b.harm'],
      ['alerts: first.alerts', 'alerts: []'],
      [
        'beyondUseSince: earliest(wanted.map((d) => d.beyondUseSince))',
        'beyondUseSince: first.beyondUseSince',
      ],
    ],
  },
  {
    harm: 'A device that fails is called roomy.',
    file: 'src/rules/room-left.ts',
    tests: ['tests/rules/room-left.test.ts', 'tests/rules/adjustments.test.ts'],
    changes: [
      ["if (roomMm >= 0) return 'tight'", "if (roomMm >= -2) return 'tight'"],
      ['leftMm > 0 && roomMm + leftMm >= 0', 'leftMm > 0'],
      ['roomMm >= tightWithinMm', 'roomMm > 0'],
      ["limit.kind === 'size' ? now : now - cast", 'now - cast'],
    ],
  },
  {
    harm: 'Nobody is asked to measure what decides.',
    file: 'src/rules/measures-wanted.ts',
    tests: [
      'tests/rules/fit-rules.test.ts',
      'tests/forecast/safe-forecast.test.ts',
      'tests/forecast/vignettes.test.ts',
    ],
    changes: [
      ['d.essential && ', ''],
      ['d.footplates.includes(device.footplate)', 'true'],
      ['d.standsInFor === m && measured.has(d.measure)', 'd.standsInFor === m'],
    ],
  },
  {
    harm: 'A spinal curve that may move is not looked at.',
    file: 'src/forecast/flags/trunk-growth.ts',
    tests: flags,
    changes: [
      ["input.plans.some((p) => p.rule.region === 'trunk')", 'false'],
      ['stature: 68', 'stature: 168'],
      ["'check', cautions.trunkCurve", "'note', cautions.trunkCurve"],
    ],
  },
  {
    harm: 'A hip that moves or a leg that falls behind is not asked about.',
    file: 'src/forecast/flags/side-drift.ts',
    tests: flags,
    changes: [
      ['1.96 * Math.hypot', '9 * Math.hypot'],
      ["'check', cautions.oneSide", "'note', cautions.oneSide"],
      ['!beyond && !(watched &&', '!beyond && !(false &&'],
    ],
  },
  {
    harm: 'Growth that falls behind or races is told the wrong way round.',
    file: 'src/forecast/flags/z-shift.ts',
    tests: flags,
    changes: [
      [
        'shift < 0 ? cautions.fallingZ : cautions.risingZ',
        'shift > 0 ? cautions.fallingZ : cautions.risingZ',
      ],
      ['const SHIFT = 1;', 'const SHIFT = 4;'],
      ["last.ageYears < 2 ? 'note' : 'check'", "'note'"],
    ],
  },
  {
    harm: 'Growth that ended too early is not asked about.',
    file: 'src/forecast/flags/plateau.ts',
    tests: flags,
    changes: [
      ['const MIN_DAYS = 300', 'const MIN_DAYS = 3000'],
      ['last.ageYears >= MATURE_YEARS[sex] - MARGIN_YEARS', 'false'],
    ],
  },
  {
    harm: 'An ankle that outgrew its shell is not seen, because no curve follows it.',
    file: 'src/forecast/flags/uncurved.ts',
    tests: flags,
    changes: [
      ['room.roomMm >= 0 || !real', '!real'],
      ['room.roomMm >= 0 || !real', 'room.roomMm >= 0'],
      ["d.status === 'worn'", "d.status === 'ordered'"],
    ],
  },
  {
    harm: 'A leg is called the shorter one that is the longer.',
    file: 'src/forecast/flags/leg-difference.ts',
    tests: flags,
    changes: [["gap < 0 ? 'left' : 'right'", "gap > 0 ? 'left' : 'right'"]],
  },
  {
    harm: 'A limb that swells or fattens into its shell is not seen.',
    file: 'src/forecast/flags/girth-gain.ts',
    tests: flags,
    changes: [
      ['if (shift < Math.max(BAND', 'if (shift < 9 * Math.max(BAND'],
      ['measures[driver.series.measure].skeletal) return []', 'true) return []'],
    ],
  },
  {
    harm: 'A mark where the skin cannot warn is told like one that fades.',
    file: 'src/forecast/flags/finding-flags.ts',
    tests: flags,
    changes: [
      ['? cautions.skinNow : cautionOf[f.kind]', '? cautions.skinLook : cautionOf[f.kind]'],
      ['numbness: cautions.feelingNow', 'numbness: cautions.skinLook'],
      ['if (!latest.has(key)) latest.set(key, f);', 'latest.set(key, f);'],
    ],
  },
  {
    harm: 'A page hides what must be acted on now.',
    file: 'src/pages/child/child-cautions.tsx',
    tests: pages,
    changes: [
      ['Math.max(SHOWN, urgent)', 'SHOWN'],
      ['severities[a.severity].rank - severities[b.severity].rank', '0'],
      ['{caution} <strong>', '<strong>'],
    ],
  },
  {
    harm: 'Where nothing is known of the fit it reads as if nothing were to do.',
    file: 'src/forecast/contract.ts',
    tests: pages,
    changes: [
      ["['too-few-measurements', 'blocked', 'not-computed']", "['too-few-measurements', 'blocked']"],
      ["['too-few-measurements', 'blocked', 'not-computed']", "['blocked', 'not-computed']"],
    ],
  },
  {
    harm: 'A new device, or one that was handed back mended, is looked at when it need not be, or not at all.',
    file: 'src/recall/decide/first-look.ts',
    tests: ['tests/recall/practitioner-cases.test.ts'],
    changes: [
      ['day >= castDate && day <= today ? day : []', 'day >= castDate && day <= today ? [] : day'],
      ['.toSorted();', '.toSorted().reverse();'],
      ["(lastSeen(record, today) ?? '') > fitted", "(lastSeen(record, today) ?? '') >= fitted"],
    ],
  },
  {
    harm: 'A page calls a device fitting that is outgrown.',
    file: 'src/pages/child/outgrown-text.ts',
    tests: pages,
    changes: [
      ["if (f.outcome === 'already-outgrown') return 'alert';", ''],
      ["if (isUnknown(f)) return 'due';", ''],
      ['if (!f.p90) return', 'if (f.p90) return'],
    ],
  },
  {
    harm: 'A letter puts off what is to be seen today, or waits for pain that is not felt.',
    file: 'src/pages/recall/letters-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ["if (entry.action === 'see-now') return words.visitToday;", ''],
      ["r.entry.alerts.includes('skin-cannot-warn')", 'false'],
      ['words.doNotWait(numb)', 'words.doNotWait(false)'],
    ],
  },
  {
    harm: 'Who rings the families is not told that it cannot wait.',
    file: 'src/pages/parts/wanted-row.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ['isRungToday(entry.action)', 'false'],
      ['entry.late && <span', 'false && <span'],
    ],
  },
  {
    harm: 'A link that was withdrawn, has run out or was made up opens a child’s sheet.',
    file: 'src/store/people/family-links.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/doors.test.ts'],
    changes: [
      [".where('withdrawn_at', 'is', null)", ''],
      ['given.length !== right.length || !timingSafeEqual(given, right)', 'false'],
    ],
  },
  {
    harm: 'Of a child that was erased something stays.',
    file: 'src/store/records/erase-child.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [
        ".updateTable('idempotency_keys').set({ body: null }).where('body', 'is not', null)",
        ".updateTable('idempotency_keys').set({ body: null }).where('body', 'is', null)",
      ],
      ['caseload: null, files: null', 'files: null'],
      ["'forecast_history',\n", ''],
    ],
  },
  {
    harm: 'A cast is made months before it is due, and the new device is outgrown as early.',
    file: 'src/recall/level/plan-requests.ts',
    tests: ['tests/recall/plan-requests.test.ts'],
    changes: [['CAST_WINDOW_DAYS = 28', 'CAST_WINDOW_DAYS = 112']],
  },
  {
    harm: 'A part comes two weeks after it is worn out.',
    file: 'src/recall/decide/part-due.ts',
    tests: decisions,
    changes: [['-Math.ceil(wait)', '14 - Math.ceil(wait)']],
  },
  {
    harm: 'A reading of nine months before the cast is taken for the size it was cast to.',
    file: 'src/recall/decide/room-by-readings.ts',
    tests: decisions,
    changes: [['distance(atCast) > NEAR_DAYS', 'distance(atCast) > 9 * NEAR_DAYS']],
  },
  {
    harm: 'Who meets a child in palliative care is not told.',
    file: 'src/recall/decide/alerts-of.ts',
    tests: decisions,
    changes: [["child.palliative ? (['palliative'] as const) : []", '[]']],
  },
  {
    harm: 'On a birthday the review falls in the band before.',
    file: 'src/rules/by-age.ts',
    tests: ['tests/rules/fit-rules.test.ts'],
    changes: [['age >= b.fromYears && age < b.toYears', 'age > b.fromYears && age <= b.toYears']],
  },
  {
    harm: 'Travel that was used is counted as left.',
    file: 'src/rules/dimension-limits.ts',
    tests: ['tests/rules'],
    changes: [['charged === kind || (first &&', 'charged === kind || (!first &&']],
  },
  {
    harm: 'A limit that is shipped is not the one that was signed.',
    file: 'src/rules/families/kafo.json',
    tests: ['tests/rules'],
    changes: [['"value": 11', '"value": 16']],
  },
  {
    harm: 'A reading that is right is taken for a slip.',
    file: 'src/growth/child/doubt.ts',
    tests: ['tests/growth/unusual-paces.test.ts', 'tests/growth/child-posterior.test.ts'],
    changes: [['GROSS_ERROR_RATE = 0.003', 'GROSS_ERROR_RATE = 0.2']],
  },
  {
    harm: 'A family of a child who died is called.',
    file: 'src/store/work/recall-briefs.ts',
    tests: ['tests/store/store.test.ts'],
    changes: [["'active'", "'discharged'"]],
  },
  {
    harm: 'A route without a word on who may use it is open to all.',
    file: 'src/service/access.ts',
    tests: ['tests/service/doors.test.ts', 'tests/service/route-roles.test.ts'],
    changes: [['if (access === undefined)\n', 'if (false)\n']],
  },
  {
    harm: 'Pages wait for the night’s forecasts.',
    file: 'src/commands/start-workers.ts',
    tests: ['tests/operations/serve.test.ts'],
    name: 'puts its worker behind',
    changes: [["child.on('spawn', () => goLast(child.pid));", '']],
  },
  {
    harm: 'Pages wait for what the night asks of the database.',
    file: 'src/store/connect.ts',
    tests: ['tests/store/store.test.ts'],
    name: 'behind what pages ask',
    changes: [["if (worker) pool.on('connect', serverGoesLast);", '']],
  },
];
