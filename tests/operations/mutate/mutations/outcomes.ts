import type { MutationGroup } from '../mutation.js';

const dates = [
  'tests/forecast/first-passage.test.ts',
  'tests/forecast/dimension-room.test.ts',
  'tests/forecast/device-plan.test.ts',
  'tests/forecast/verdicts.test.ts',
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/device-outcome.test.ts',
  'tests/rules',
];
const list = [
  'tests/recall/safe-list.test.ts',
  'tests/recall/dates.test.ts',
  'tests/recall/build-recall-list.test.ts',
  'tests/recall/device-facts.test.ts',
  'tests/recall/choices.test.ts',
];
const flags = [
  'tests/forecast/flags.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/vignettes.test.ts',
];
const slips = ['tests/forecast/suggestions.test.ts', 'tests/forecast/safe-forecast.test.ts'];

export const outcomes: readonly MutationGroup[] = [
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/device-lines.ts',
    tests: dates,
    changes: [
      ["castIndex: limit.kind === 'growth' ? castIndex : null", 'castIndex'],
      ['d > day);', 'd >= day + 30);'],
      ['left.some((mm) => mm > 0)', 'false'],
      ['(g.date <= on ? sum + g.mm : sum), 0))', '(sum + g.mm), 0))'],
      ['date >= day)', 'date > day)'],
    ],
  },
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/forecast-device.ts',
    tests: dates,
    changes: [
      [
        'chanceOn(search, chance, dayNumber(today)) >= 0.5',
        'chanceOn(search, chance, dayNumber(today)) >= 0.05',
      ],
      ['p10: date(0.1)', 'p10: date(0.2)'],
      ['p90: date(0.9)', 'p90: date(0.8)'],
      ['?.proved !== true);', ' === undefined);'],
      ["outcome === 'already-outgrown' && day > now ? null", 'false ? null'],
      [
        'const read = record.measurements.reduce((last, m) => Math.max(last, dayNumber(m.date)), days[castIndex]);',
        'const read = now;',
      ],
      ['(j) => j.verdict !== null)?.verdict ?? null;', '(j) => j.verdict === null)?.verdict ?? null;'],
    ],
  },
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/dimension-room.ts',
    tests: dates,
    changes: [
      ['* YEAR) / PACE_DAYS', '* PACE_DAYS) / PACE_DAYS'],
      ['[0.1, 0.9]', '[0.9, 0.1]'],
    ],
  },
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/named-outcome.ts',
    tests: dates,
    changes: [
      ["if (child.status !== 'active')", 'if (false)'],
      [' || history.retiredOn !== null', ''],
      ['if (child.palliative)', 'if (false)'],
    ],
  },
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/usual-life.ts',
    tests: [...dates, ...list],
    changes: [
      ['plan.history.fittedDate ?? plan.history.castDate', 'plan.history.castDate'],
      [
        'months.low * 30.44), to: addDaysIso(from, months.high',
        'months.high * 30.44), to: addDaysIso(from, months.low',
      ],
    ],
  },
  {
    harm: 'The dates of a device are wrong.',
    file: 'src/forecast/device/held-against-verdicts.ts',
    tests: ['tests/forecast/held-against-verdicts.test.ts'],
    changes: [
      ['(end === null || e.date <= end)', '(end === null || e.date < end)'],
      ['wilsonInterval(outgrown + between, n).high', 'wilsonInterval(outgrown, n).high'],
      ["return outgrownOn ? 'between' : 'unknown'", "return outgrownOn ? 'fitted' : 'unknown'"],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/history-of.ts',
    tests: flags,
    changes: [
      ['1.96 * Math.hypot(a, b)', '1.96 * (a + b)'],
      ['single / Math.sqrt(repeats.length)', 'single'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/side-drift.ts',
    tests: flags,
    changes: [
      ['p.l.value - p.r.value', 'p.r.value - p.l.value'],
      ["child.affectedSide === 'right' ||", ''],
      ['beyond\n        ? flag(input, id', '!beyond\n        ? flag(input, id'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/trunk-growth.ts',
    tests: flags,
    changes: [
      ["input.plans.some((p) => p.rule.region === 'trunk')", 'false'],
      ['sitting_height: 30', 'sitting_height: 68'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/girth-gain.ts',
    tests: flags,
    changes: [
      ['if (shift < Math.max(BAND', 'if (-shift < Math.max(BAND'],
      ['if (forecast?.p50 && forecast.p50 < driver.p50) return [];', ''],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/record-flags.ts',
    tests: flags,
    changes: [
      ['if (start === null || start > input.today) return [];', 'return [];'],
      ["change < 0 ? 'Less' : 'More'", "change > 0 ? 'Less' : 'More'"],
      ['if (!first) return [];', 'if (first) return [];'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/uncurved.ts',
    tests: flags,
    changes: [
      ['room.roomMm >= 0 || !real', 'room.roomMm >= 0'],
      ['today - now.day > RECENT_DAYS', 'false'],
      [".filter((d) => d.status === 'worn')", ''],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/device-flags.ts',
    tests: ['tests/forecast/verdicts.test.ts', ...flags],
    changes: [
      ['s.likelihood < SURPRISE', 's.likelihood > SURPRISE'],
      ['(e.measure === null || e.changeMm === null)', 'e.measure === null'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/finding-flags.ts',
    tests: flags,
    changes: [
      ["f.severity === 'see-now' && MAY_BE_SKIN.includes(f.kind)", 'false'],
      ["const severity = f.severity === 'see-now' ? 'act-now' : 'check'", "const severity = 'check'"],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round.',
    file: 'src/forecast/flags/find-flags.ts',
    tests: flags,
    changes: [
      ['slipped.has(m.id) ||', ''],
      ['&& m.measure !== ALWAYS_KEPT', ''],
    ],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed.',
    file: 'src/forecast/suggestions/in-shoes.ts',
    tests: slips,
    changes: [
      ["jumped('stature', STATURE_MM, STATURE_A_YEAR / 2)", 'true'],
      ['m.side === side)', 'true)'],
      ['(age >= BOTH_FROM_YEARS && bothJumped) ||', ''],
    ],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed.',
    file: 'src/forecast/suggestions/accept-suggestion.ts',
    tests: slips,
    changes: [['side: c.side ?? m.side', 'side: m.side']],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed.',
    file: 'src/forecast/suggestions/shrinking-bone.ts',
    tests: slips,
    changes: [
      ['(i === sorted.length - 2 ? LATEST : OLDER)', 'OLDER'],
      ['before.value - m.value <= detectable', 'm.value - before.value <= detectable'],
    ],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed.',
    file: 'src/forecast/suggestions/limit-below-size.ts',
    tests: slips,
    changes: [['limitMm >= near.value', 'limitMm <= near.value']],
  },
  {
    harm: 'A shoe or a treatment is taken for more than it says.',
    file: 'src/forecast/growth-input.ts',
    tests: ['tests/forecast/shoe-evidence.test.ts', ...dates],
    changes: [
      ['Math.SQRT2 * Math.max', 'Math.max'],
      ['m.date >= start', 'm.date < start'],
      ['BEFORE_TREATMENT = 2', 'BEFORE_TREATMENT = 1'],
    ],
  },
  {
    harm: 'What lies ahead is taken for known.',
    file: 'src/forecast/record-until.ts',
    tests: [...dates, ...list],
    changes: [
      ['events: known(record.events)', 'events: record.events'],
      ['skinChecks: known(record.skinChecks)', 'skinChecks: record.skinChecks'],
      ['{ ...d, fittedDate: null } : d', 'd : d'],
    ],
  },
];
