import type { MutationGroup } from '../mutation.js';

const safeForecast = [
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/flags.test.ts',
  'tests/forecast/vignettes.test.ts',
  'tests/safety/clinical-safety.test.ts',
];
const verdicts = [
  'tests/forecast/verdicts.test.ts',
  'tests/forecast/flags.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/vignettes.test.ts',
];

export const forecastFlags: readonly MutationGroup[] = [
  {
    harm: 'A warning sign is not shown, or shown the wrong way round',
    file: 'src/forecast/flags/device-flags.ts',
    tests: verdicts,
    changes: [
      ['s.likelihood < SURPRISE', 's.likelihood > SURPRISE'],
      ['[unplaced?.date, plan.history.amountUnknownOn]', '[unplaced?.date]'],
    ],
  },
  {
    harm: 'skin, breath or nerve wait for a date',
    file: 'src/forecast/flags/find-findings.ts',
    tests: verdicts,
    changes: [
      ["f.severity === 'look' && cannotWarn(f, record)", 'false'],
      ['child.insensateSkin || skinChecks.some(numb)', 'child.insensateSkin'],
      ['OPEN_DAYS = 60', 'OPEN_DAYS = 6'],
      ["f.severity === 'look' || gone || fine", 'true'],
      ["f.severity === 'look' || gone || fine", "f.severity === 'look' || fine"],
      ["f.severity === 'look' || gone || fine", "f.severity === 'look' || gone"],
      [
        "if (check.state === 'none' || check.state === 'fades') return []",
        "if (check.state !== 'open') return []",
      ],
      ['c.date > f.date && sameDevice(c.deviceId)', 'sameDevice(c.deviceId)'],
      ['if (!ofTheSkin.includes(f.kind)) return false', ''],
      ["'delivered', 'retired'].includes(e.kind)", "'delivered', 'retired', 'verdict'].includes(e.kind)"],
      ['c.cannotWarn && (c.deviceId === null || c.deviceId === f.deviceId)', 'c.cannotWarn'],
    ],
  },
  {
    harm: [
      'a red flag stands below a note, or is set aside with a slip',
      'A warning sign is not shown, or shown the wrong way round',
      'A reading held for a slip hides a head that races, or a slip raises an alarm',
    ],
    file: 'src/forecast/flags/find-flags.ts',
    tests: safeForecast,
    changes: [
      ["['act-now', 'check', 'note']", "['note', 'check', 'act-now']"],
      ['...headGrowthFlags(trusted),\n', ''],
      ['...findingFlags(trusted),\n', ''],
      ['...deviceFlags(trusted),\n', ''],
      ['...sideDriftFlags(trusted),\n', ''],
      ['...girthGainFlags(trusted),\n', ''],
      ['...recordFlags(trusted),\n', ''],
      ['...standingCautions(input.record, input.today),\n', ''],
      ["ALWAYS_KEPT = 'head_circumference'", "ALWAYS_KEPT = 'foot_length'"],
      ['slipped.has(m.id) ||', ''],
      ['&& m.measure !== ALWAYS_KEPT', ''],
      ['m.measure !== ALWAYS_KEPT', 'true'],
      [
        'severities.indexOf(a.severity) - severities.indexOf(b.severity)',
        'severities.indexOf(b.severity) - severities.indexOf(a.severity)',
      ],
    ],
  },
  {
    harm: [
      'skin, breath or nerve wait for a date',
      'A warning sign is not shown, or shown the wrong way round',
      'A red flag is not a visit today',
      'A mark where the skin cannot warn is told like one that fades',
    ],
    file: 'src/forecast/flags/finding-flags.ts',
    tests: safeForecast,
    changes: [
      ["f.severity === 'see-now' ? 'act-now' : 'check'", "'check'"],
      ['const about = { deviceId: f.deviceId ?? undefined }', 'const about = {}'],
      ["'skin-open': cautions.skinNow", "'skin-open': cautions.falls"],
      ['breathing: cautions.breathingNow', 'breathing: cautions.falls'],
      ["'head-warning': cautions.headNow", "'head-warning': cautions.falls"],
      ['numbness: cautions.feelingNow', 'numbness: cautions.falls'],
      ["f.severity === 'see-now' && MAY_BE_SKIN.includes(f.kind)", 'false'],
      ["const severity = f.severity === 'see-now' ? 'act-now' : 'check'", "const severity = 'check'"],
      ['deviceId: f.deviceId ?? undefined', 'deviceId: undefined'],
      ['? cautions.skinNow : cautionOf[f.kind]', '? cautions.skinLook : cautionOf[f.kind]'],
      ['numbness: cautions.feelingNow', 'numbness: cautions.skinLook'],
      ['if (!latest.has(key)) latest.set(key, f);', 'latest.set(key, f);'],
    ],
  },
  {
    harm: 'skin, breath or nerve wait for a date',
    file: 'src/forecast/flags/finding.ts',
    tests: verdicts,
    changes: [
      ["'skin-open': 'see-now'", "'skin-open': 'look'"],
      ["'skin-lasting': 'see-now'", "'skin-lasting': 'look'"],
      ["'skin-infected': 'see-now'", "'skin-infected': 'look'"],
      ["numbness: 'see-now'", "numbness: 'look'"],
      ["breathing: 'see-now'", "breathing: 'look'"],
      ["'head-warning': 'see-now'", "'head-warning': 'look'"],
      ["'function-lost': 'see-now'", "'function-lost': 'look'"],
      ["pain: 'see-now'", "pain: 'look'"],
      ["swelling: 'see-now'", "swelling: 'look'"],
      ["broken: 'repair'", "broken: 'look'"],
    ],
  },
  {
    harm: [
      'A warning sign is not shown, or shown the wrong way round',
      'A limb that swells or fattens into its shell is not seen',
    ],
    file: 'src/forecast/flags/girth-gain.ts',
    tests: verdicts,
    changes: [
      ['if (shift < Math.max(BAND', 'if (-shift < Math.max(BAND'],
      ['if (forecast?.p50 && forecast.p50 < driver.p50) return [];', ''],
      ['if (shift < Math.max(BAND', 'if (shift < 9 * Math.max(BAND'],
      ['measures[driver.series.measure].skeletal) return []', 'true) return []'],
    ],
  },
  {
    harm: ['a head that grows too fast gets a larger helmet', 'A head that races is waited for'],
    file: 'src/forecast/flags/head-growth.ts',
    tests: safeForecast,
    changes: [
      ["'head-growth-up', 'act-now'", "'head-growth-up', 'check'"],
      ['worst.shift > 0\n', 'worst.shift < 0\n'],
      ['const SHIFT = 1', 'const SHIFT = 3'],
      ["flag(input, 'head-growth-down'", "flag(input, 'head-fell-behind'"],
      ['worst.shift > 0\n    ?', 'worst.shift < 0\n    ?'],
      ['const WITHIN_DAYS = 190', 'const WITHIN_DAYS = 19'],
      ['const UNTIL_YEARS = 5', 'const UNTIL_YEARS = 0.5'],
    ],
  },
  {
    harm: 'A warning sign is not shown, or shown the wrong way round',
    file: 'src/forecast/flags/history-of.ts',
    tests: verdicts,
    changes: [
      ['1.96 * Math.hypot(a, b)', '1.96 * (a + b)'],
      ['single / Math.sqrt(repeats.length)', 'single'],
    ],
  },
  {
    harm: [
      'one leg that grows apart from the other is not seen',
      'A leg is called the shorter one that is the longer',
    ],
    file: 'src/forecast/flags/leg-difference.ts',
    tests: verdicts,
    changes: [
      ["gap < 0 ? 'left' : 'right'", "gap < 0 ? 'right' : 'left'"],
      ["gap < 0 ? 'left' : 'right'", "gap > 0 ? 'left' : 'right'"],
    ],
  },
  {
    harm: [
      'growth that has stopped too early is not asked about',
      'growth that ended too early is not asked about',
    ],
    file: 'src/forecast/flags/plateau.ts',
    tests: verdicts,
    changes: [
      ['!isStillToGrow(sex, last.ageYears)', 'last.ageYears >= 3'],
      ['span === null || span.length < 3', 'span === null'],
      ['const MIN_DAYS = 300', 'const MIN_DAYS = 3000'],
      ['!isStillToGrow(sex, last.ageYears)', 'false'],
    ],
  },
  {
    harm: [
      'A warning sign is not shown, or shown the wrong way round',
      'A leg that stays behind, growth that stops or a curve at risk is not asked about',
    ],
    file: 'src/forecast/flags/record-flags.ts',
    tests: safeForecast,
    changes: [
      ['if (start === null || start > input.today) return [];', 'return [];'],
      ["change < 0 ? 'Less' : 'More'", "change > 0 ? 'Less' : 'More'"],
      ['if (!first) return [];', 'if (first) return [];'],
      ['days > staleAfterDays(p.rule, age)', 'days > 10 * staleAfterDays(p.rule, age)'],
      ['start === null || start > input.today', 'true'],
    ],
  },
  {
    harm: [
      'A warning sign is not shown, or shown the wrong way round',
      'A leg that stays behind, growth that stops or a curve at risk is not asked about',
      'A hip that moves or a leg that falls behind is not asked about',
    ],
    file: 'src/forecast/flags/side-drift.ts',
    tests: safeForecast,
    changes: [
      ['p.l.value - p.r.value', 'p.r.value - p.l.value'],
      ["child.affectedSide === 'right' ||", ''],
      ['beyond\n        ? flag(input, id', '!beyond\n        ? flag(input, id'],
      ['const beyond = Math.abs(change) > mdc', 'const beyond = change > mdc'],
      ['1.96 * Math.hypot', '9 * Math.hypot'],
      ["'check', cautions.oneSide", "'note', cautions.oneSide"],
      ['!beyond && !(watched &&', '!beyond && !(false &&'],
    ],
  },
  {
    harm: [
      'A warning sign is not shown, or shown the wrong way round',
      'A leg that stays behind, growth that stops or a curve at risk is not asked about',
      'A spinal curve that may move is not looked at',
    ],
    file: 'src/forecast/flags/trunk-growth.ts',
    tests: safeForecast,
    changes: [
      ["input.plans.some((p) => p.rule.region === 'trunk')", 'false'],
      ['sitting_height: 30', 'sitting_height: 68'],
      ["p.rule.region === 'trunk'", "p.rule.region === 'head'"],
      ['pace < limit ||', 'pace > limit ||'],
      ["|| c === 'neuromuscular-scoliosis'", ''],
      ['stature: 68', 'stature: 168'],
      ["'check', cautions.trunkCurve", "'note', cautions.trunkCurve"],
    ],
  },
  {
    harm: [
      'A warning sign is not shown, or shown the wrong way round',
      'an ankle that outgrew its shell is not seen, because no curve follows it',
    ],
    file: 'src/forecast/flags/uncurved.ts',
    tests: verdicts,
    changes: [
      ['room.roomMm >= 0 || !real', 'room.roomMm >= 0'],
      ['today - now.day > RECENT_DAYS', 'false'],
      [".filter((d) => d.status === 'worn')", ''],
      ['room.roomMm >= 0 || !real', '!real'],
      ["d.status === 'worn'", "d.status === 'ordered'"],
    ],
  },
  {
    harm: [
      'growth that a diagnosis explains is taken for growth',
      'growth that falls behind or races is told the wrong way round',
    ],
    file: 'src/forecast/flags/z-shift.ts',
    tests: verdicts,
    changes: [
      ['const SHIFT = 1', 'const SHIFT = 4'],
      ['shift < 0 ? cautions.fallingZ', 'shift > 0 ? cautions.fallingZ'],
      ["last.ageYears < 2 ? 'note' : 'check'", "'note'"],
      [
        'shift < 0 ? cautions.fallingZ : cautions.risingZ',
        'shift > 0 ? cautions.fallingZ : cautions.risingZ',
      ],
      ['const SHIFT = 1;', 'const SHIFT = 4;'],
    ],
  },
];
