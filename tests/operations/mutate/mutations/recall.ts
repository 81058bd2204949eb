import type { MutationGroup } from '../mutation.js';

const list = ['tests/recall/safe-list.test.ts'];
const dates = ['tests/recall/safe-list.test.ts', 'tests/recall/dates.test.ts'];

/** Who is called, for what, by when. */
export const recall: readonly MutationGroup[] = [
  {
    harm: 'a child to be seen at once is not called first, or not for the right device',
    file: 'src/recall/decide/choose-action.ts',
    tests: list,
    changes: [
      ["f.severity === 'act-now' &&", "f.severity === 'check' &&"],
      [': f.deviceId === device.id ||', ': f.deviceId !== device.id ||'],
      ["f.series?.measure !== 'head_circumference' ||", 'false ||'],
      ["rule?.region === 'head'", "rule?.region !== 'head'"],
      [
        'const inOrder: readonly Rule[] = [\n  seeNow,\n  replaced,',
        'const inOrder: readonly Rule[] = [\n  replaced,\n  seeNow,',
      ],
      ['  repair,\n  beingMade,', '  beingMade,\n  repair,'],
      ['  adjust,\n  renewPart,\n  castOrCheck,', '  castOrCheck,\n  adjust,\n  renewPart,'],
      ['  judgedOutgrown,\n  measure,', '  measure,\n  judgedOutgrown,'],
      ['  measure,\n  fitChanged,', '  fitChanged,'],
      ['  fitChanged,\n  hipAngleOff,', '  hipAngleOff,'],
      ['  castOrCheck,\n  noted,', '  castOrCheck,'],
      ['  noted,\n  readingsSayLess,', '  noted,'],
      ['  usualLifeOver,\n  review,\n];', '  usualLifeOver,\n];'],
      ["if (history.lostOn) return choose('repair'", "if (history.lostOn) return choose('review'"],
      ["if (history.brokenOn) return choose('repair'", "if (history.brokenOn) return choose('review'"],
      ['if (by > until) return null;\n  const wear', 'if (by < until) return null;\n  const wear'],
      ['fundedFrom && fundedFrom > castBy', 'fundedFrom && fundedFrom < castBy'],
      ["castUnseen ? 'cast' : 'check', castBy, 'beyond-use'", "'review', castBy, 'beyond-use'"],
      ['(neededAtVisit ?? 0) >= WORTH_A_LOOK', '(neededAtVisit ?? 0) > 1'],
      [
        "if (expected === null) return choose('check', today, 'never-fitted'",
        "if (expected === null) return choose('none', today, 'never-fitted'",
      ],
      ['const PLAIN = 0.8', 'const PLAIN = 0.2'],
    ],
  },
  {
    harm: 'who meets the child does not hear of latex or of skin that cannot warn',
    file: 'src/recall/decide/alerts-of.ts',
    tests: list,
    changes: [
      ["child.insensateSkin ? (['skin-cannot-warn']", "!child.insensateSkin ? (['skin-cannot-warn']"],
    ],
  },
  {
    harm: 'who meets the child does not hear of latex',
    file: 'src/records/records.ts',
    tests: list,
    changes: [
      ['c === spinaBifida[0] || c === spinaBifida[1]', 'c === spinaBifida[0]'],
      ['c === spinaBifida[0] || c === spinaBifida[1]', 'c === spinaBifida[1]'],
    ],
  },
  {
    harm: 'a day beyond use is accepted too lightly',
    file: 'src/recall/decide/accepted-chance.ts',
    tests: dates,
    changes: [
      ['waste / (waste + harm)', 'harm / (waste + harm)'],
      ['Math.min(0.5,', 'Math.min(0.9,'],
      ['insensateSkin ? Math.max(device', 'insensateSkin ? Math.min(device'],
      ['settings.harmADay[rule.id] ?? rule.harmADay.value', 'rule.harmADay.value'],
    ],
  },
  {
    harm: 'the next device is fitted too late',
    file: 'src/recall/decide/cast-by.ts',
    tests: dates,
    changes: [
      ['turnaround.p80Days + fitWaitDays', 'turnaround.p80Days'],
      ['turnaround.p80Days + fitWaitDays', 'turnaround.p80Days - fitWaitDays'],
      ['day - Math.ceil(waitDays)', 'day'],
      ['day - Math.ceil(waitDays)', 'day + Math.ceil(waitDays)'],
      ['Math.min(0.5, accepted)', 'Math.max(0.5, accepted)'],
      [
        'Math.max(cast, Math.min(day, dayNumber(notBefore)))',
        'Math.min(cast, Math.min(day, dayNumber(notBefore)))',
      ],
    ],
  },
  {
    harm: 'the next device is fitted too late',
    file: 'src/turnaround/estimate-turnaround.ts',
    tests: ['tests/turnaround/estimate-turnaround.test.ts'],
    changes: [
      ['p80Days: at(0.8)', 'p80Days: at(0.5)'],
      ['j.stages.cast <= today &&', ''],
      ['const running = fit === undefined || fit > today', 'const running = fit === undefined'],
    ],
  },
  {
    harm: 'skin that does not feel is looked at too seldom',
    file: 'src/rules/by-age.ts',
    tests: ['tests/rules/fit-rules.test.ts', ...list],
    changes: [
      ['insensateSkin ? Math.min(usual', 'insensateSkin ? Math.max(usual'],
      ['insensateSkin ? Math.min(usual, rule.insensateReviewDays.value) : usual', 'usual'],
      ['age >= b.fromYears && age < b.toYears', 'age > b.toYears'],
    ],
  },
  {
    harm: 'skin that does not feel is looked at too seldom',
    file: 'src/recall/decide/review-by.ts',
    tests: list,
    changes: [
      ['wearOnly && seldom', 'wearOnly'],
      ['insensateSkin ? INSENSATE_DAYS : USUAL_DAYS', 'USUAL_DAYS'],
      ['INSENSATE_DAYS = 91', 'INSENSATE_DAYS = 183'],
      ['lastSeen(record, today) ?? today', 'today'],
    ],
  },
  {
    harm: 'a family is told over the telephone counts as seen in the clinic',
    file: 'src/recall/decide/last-seen.ts',
    tests: list,
    changes: [["m.method !== 'parent'", 'true']],
  },
  {
    harm: 'the child harmed most by waiting is called last',
    file: 'src/recall/decide/working-order.ts',
    tests: list,
    changes: [
      ['b.harmPerWeek - a.harmPerWeek', 'a.harmPerWeek - b.harmPerWeek'],
      ['b.daysBeyondUse - a.daysBeyondUse', 'a.daysBeyondUse - b.daysBeyondUse'],
      ['rank(a) - rank(b) ||', ''],
      ["['see-now', 'repair']", "['repair', 'see-now']"],
      [
        "(a.dueBy ?? '9999').localeCompare(b.dueBy ?? '9999')",
        "(b.dueBy ?? '9999').localeCompare(a.dueBy ?? '9999')",
      ],
    ],
  },
  {
    harm: 'the figure at the bench sends a child home in a brace that will not last',
    file: 'src/recall/decide/check-figure.ts',
    tests: dates,
    changes: [
      ['(reviewDays + waitDays)) / YEAR', 'reviewDays) / YEAR'],
      ['paceReserve(room, accepted) * (', '('],
      ['Math.ceil(growth - 1e-9)', 'Math.floor(growth)'],
      ['normalQuantile(1 - accepted)', 'normalQuantile(accepted)'],
      ['addDaysIso(visit, reviewDays)', 'addDaysIso(visit, 2 * reviewDays)'],
    ],
  },
  {
    harm: 'an adjustment comes too late or is set too small',
    file: 'src/recall/decide/adjust-step.ts',
    tests: dates,
    changes: [
      ['x.by.localeCompare(y.by)', 'y.by.localeCompare(x.by)'],
      ['Math.ceil(wanted / stepMm)', '1'],
      ['Math.floor(left / stepMm)', '99'],
      ['+ 2 * reviewDays', '- 2 * reviewDays'],
    ],
  },
  {
    harm: 'the harm of waiting is counted wrong',
    file: 'src/recall/decide/decide-device.ts',
    tests: dates,
    changes: [
      ['harmPerWeek: WEEK * harm *', 'harmPerWeek: WEEK *'],
      ['addDaysIso(today, plannedWait(turnaround, settings.fitWaitDays))', 'today'],
      [
        "if (choice.action === 'repair') return Math.max(beyond, 1)",
        "if (choice.action === 'repair') return 0",
      ],
      ["['measure', 'check'].includes(choice.action) ? UNKNOWN : 0", '0'],
      ['half <= today ? half : null', 'half <= today ? today : null'],
      ["said && said.verdict !== 'outgrown' ? said.date : null", 'said?.date ?? null'],
    ],
  },
  {
    harm: 'a child is called in for the wrong one of its devices, or not at all',
    file: 'src/recall/decide/visit-of.ts',
    tests: list,
    changes: [
      ['order(a) - order(b) ||', 'order(b) - order(a) ||'],
      ["d.action !== 'none' && d.dueBy !== null", "d.action === 'none' && d.dueBy !== null"],
      ['harmPerWeek: Math.max(', 'harmPerWeek: Math.min('],
      ['dueBy < today', 'dueBy > today'],
    ],
  },
  {
    harm: 'a child to be seen at once waits for a place in a week',
    file: 'src/recall/level/plan-requests.ts',
    tests: ['tests/recall/plan-requests.test.ts', ...list],
    changes: [
      ["e.action !== 'see-now'", 'true'],
      ["entry.alerts.includes('skin-cannot-warn')", 'false'],
      ['context.settings.fitWaitDays,', '0,'],
    ],
  },
  {
    harm: 'a record that cannot be computed vanishes from the list',
    file: 'src/recall/decide/safe-plan.ts',
    tests: ['tests/recall/build-recall-list.test.ts'],
    changes: [
      ["action: flag ? 'see-now' : 'measure'", "action: 'measure'"],
      ['due: true, inProgress', 'due: false, inProgress'],
      ['HARM_DAYS = 7 * 0.5', 'HARM_DAYS = 0'],
    ],
  },
  {
    harm: 'a device on its way hides that the worn one is beyond use',
    file: 'src/recall/decide/replacement-status.ts',
    tests: [...list, 'tests/recall/build-recall-list.test.ts'],
    changes: [
      ['risk > accepted)', 'risk < accepted)'],
      ['late: lost ||', 'late:'],
    ],
  },
  {
    harm: 'another limb’s new device takes a worn one off the list',
    file: 'src/recall/decide/replacement-in-progress.ts',
    tests: list,
    changes: [
      ["a === b || a === 'both' || b === 'both'", 'true'],
      ['regionOf(d.family, rules) === regionOf(worn.family, rules) &&', ''],
      ["d.status === 'ordered' &&", ''],
    ],
  },
];
