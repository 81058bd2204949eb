import type { MutationGroup } from '../mutation.js';

const device = [
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/verdicts.test.ts',
  'tests/forecast/assess-child.test.ts',
];
const rules = ['tests/rules/room-left.test.ts', 'tests/rules/adjustments.test.ts'];
const flags = [
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/flags.test.ts',
];

/** When a device is beyond use, and what outranks every date. */
export const forecast: readonly MutationGroup[] = [
  {
    harm: 'a device that is outgrown is said to fit',
    file: 'src/forecast/device/forecast-device.ts',
    tests: device,
    changes: [
      ["if (now >= 0.5) return 'already-outgrown'", "if (now > 0.6) return 'already-outgrown'"],
      ["if (now >= 0.5) return 'already-outgrown'", "if (now >= 0.4) return 'already-outgrown'"],
      ["if (stale) return 'too-few-measurements'", ''],
      ['if (said !== null) for (let j = 0', 'if (said === null) for (let j = 0'],
      ['const chanceNow = said !== null ? 1 :', 'const chanceNow ='],
      ['return answered ? null : said.date', 'return said.date'],
      ['adjustmentsLeftOn(l, today).length > 0', 'false'],
      [
        "return end < 0.1 ? 'beyond-horizon' : 'forecast'",
        "return end < 0.9 ? 'beyond-horizon' : 'forecast'",
      ],
      ['renewed.has(l.series.measure) ? [] : [d]', '[d]'],
      ['beyondRoom(d)) < NEGLIGIBLE_CHANCE', 'beyondRoom(d)) < 0.9'],
    ],
  },
  {
    harm: 'what a device’s own limit may be is counted wrongly',
    file: 'src/forecast/device/passage-curve.ts',
    tests: ['tests/forecast/first-passage.test.ts'],
    changes: [
      ['if (over > most) {', 'if (over < most) {'],
      ['now *= survival[d * tried + e]', 'now = survival[d * tried + e]'],
      ['passed[e] += 1 - left;', 'passed[e] += left;'],
      ['passed[e] += 1;', 'passed[e] += 0;'],
    ],
  },
  {
    harm: 'a limit judged to hold is passed all the same',
    file: 'src/forecast/device/own-limit.ts',
    tests: ['tests/forecast/first-passage.test.ts'],
    changes: [
      ['normalTail(low[i] * perMm) -', 'normalTail((low[i] - 9) * perMm) -'],
      ['/ nearWidth', '/ 1'],
      ['= normalTail((high[i] * perMm) / FAR_FACTOR)', '= 1'],
    ],
  },
  {
    harm: 'of two limits the later one decides',
    file: 'src/forecast/device/first-passage.ts',
    tests: ['tests/forecast/first-passage.test.ts', 'tests/forecast/safe-forecast.test.ts'],
    changes: [
      ['j === at[i] && over <= excess', 'j === at[i]'],
      ['j === at[i] && over <= excess', 'j === at[i] && over >= excess'],
      ['if (over <= 0 ||', 'if (over <= 3 ||'],
      ['j < end[g] && j <= at[i]', 'j < end[g] && j < at[i]'],
      ['Math.max(rise, 0) - base', 'Math.min(rise, 0) - base'],
    ],
  },
  {
    harm: 'what a person saw counts for less than a default',
    file: 'src/forecast/device/judgements.ts',
    tests: device,
    changes: [
      ["outgrown: 'none'", "outgrown: 'good'"],
      ["good: 'good'", "good: 'tight'"],
      ["j.said !== 'none'", "j.said === 'none'"],
      ['e.side === series.side', 'e.side !== series.side'],
      ['e.measure === series.measure', 'e.measure !== series.measure'],
      ['g.date < date ? sum', 'g.date <= date ? sum'],
    ],
  },
  {
    harm: 'what a person saw counts for less than a default',
    file: 'src/forecast/device/judged-draws.ts',
    tests: device,
    changes: [
      ['need[k][i] + enough', 'need[k][i] - enough'],
      ["need[k][i] + (said === 'tight' ? Math.max(0.5, seen) : 0)", 'need[k][i] + 99'],
      ['? WHOLE_SHARE : 1', '? 1 : 1'],
      ['if (short(k) > short(worst))', 'if (short(k) < short(worst))'],
    ],
  },
  {
    harm: 'a maker’s limit is overrun',
    file: 'src/rules/dimension-limits.ts',
    tests: rules,
    changes: [
      ["stated === undefined ? 'growth' : 'size'", "'growth'"],
      ['stated ?? own ?? usualAllowance', 'own ?? usualAllowance'],
      ['stated ?? own ?? usualAllowance', 'stated ?? usualAllowance'],
      ['STATED_LIMIT = 0.25', 'STATED_LIMIT = 1'],
      ['return measured.has(d.measure) || device.limitsMm[d.measure] !== undefined', 'return true'],
      [
        'return measured.has(d.measure) || device.limitsMm[d.measure] !== undefined',
        'return measured.has(d.measure)',
      ],
      ['(g.date <= date ? sum + g.mm : sum), limit.baseMm', 'sum + g.mm, limit.baseMm'],
      ['leftMm >= (stepMm ?? 0)', 'true'],
      ['mm - used(kind, i === 0)', 'mm'],
      [
        "kind === 'side-bar' ? (device.extensionRangeMm[dimension.measure] ?? 0) : upToMm.value",
        'upToMm.value',
      ],
      ["e.side === null || e.side === 'none' || e.side === side", 'true'],
      ["device.footplate === 'behind-toes' && d.allowanceBehindToesMm", 'false && d.allowanceBehindToesMm'],
      ['d.footplates.includes(device.footplate) &&', ''],
      ['Math.max(0, grownMm(series) - given)', 'rangeMm'],
    ],
  },
  {
    harm: 'a device at its limit is said to have room',
    file: 'src/rules/room-left.ts',
    tests: rules,
    changes: [
      ['if (roomMm >= tightWithinMm)', 'if (roomMm > tightWithinMm)'],
      ['if (roomMm >= 0)', 'if (roomMm > 0)'],
      ['if (roomMm >= 0)', 'if (roomMm >= -1)'],
      ['leftMm > 0 && roomMm + leftMm >= 0', 'leftMm > 0'],
      ["limit.kind === 'size' ? now : now - cast", 'now - cast'],
    ],
  },
  {
    harm: 'skin, breath or nerve wait for a date',
    file: 'src/forecast/flags/finding-flags.ts',
    tests: flags,
    changes: [
      ["f.severity === 'see-now' ? 'act-now' : 'check'", "'check'"],
      ['const about = { deviceId: f.deviceId ?? undefined }', 'const about = {}'],
      ["'skin-open': cautions.skinNow", "'skin-open': cautions.falls"],
      ['breathing: cautions.breathingNow', 'breathing: cautions.falls'],
      ["'head-warning': cautions.headNow", "'head-warning': cautions.falls"],
      ['numbness: cautions.feelingNow', 'numbness: cautions.falls'],
    ],
  },
  {
    harm: 'skin, breath or nerve wait for a date',
    file: 'src/forecast/flags/finding.ts',
    tests: flags,
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
    harm: 'skin, breath or nerve wait for a date',
    file: 'src/forecast/flags/find-findings.ts',
    tests: flags,
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
    ],
  },
  {
    harm: 'a cheerful note hides what cannot wait, or a note to act on is passed over',
    file: 'src/forecast/flags/notes/read-note.ts',
    tests: ['tests/forecast/notes/unseen-writer.test.ts', 'tests/forecast/findings.test.ts'],
    changes: [
      ['HARM_ABOVE = 1.5', 'HARM_ABOVE = 15'],
      ['HARMLESS_BELOW = -1.5;', 'HARMLESS_BELOW = -10;'],
      ['HARMLESS_BELOW = -1.5;', 'HARMLESS_BELOW = 3;'],
      ["severityOf[kind] !== 'look' ||", ''],
      ["kind === 'treatment-planned' ||", ''],
      ['daysBefore !== undefined,', 'false,'],
    ],
  },
  {
    harm: 'a cheerful note hides what cannot wait, or a note to act on is passed over',
    file: 'src/forecast/flags/notes/note-odds.ts',
    tests: ['tests/forecast/notes/unseen-writer.test.ts'],
    changes: [
      ['words.length < FEWEST_WORDS ||', ''],
      ['|| known.length < KNOWN_SHARE * words.length', ''],
    ],
  },
  {
    harm: 'a head that grows too fast gets a larger helmet',
    file: 'src/forecast/flags/head-growth.ts',
    tests: flags,
    changes: [
      ["'head-growth-up', 'act-now'", "'head-growth-up', 'check'"],
      ['worst.shift > 0\n', 'worst.shift < 0\n'],
      ['const SHIFT = 1', 'const SHIFT = 3'],
      ["flag(input, 'head-growth-down'", "flag(input, 'head-fell-behind'"],
    ],
  },
  {
    harm: 'a head that grows too fast gets a larger helmet',
    file: 'src/forecast/assess-child.ts',
    tests: flags,
    changes: [
      ["plan?.rule.region === 'head' && blocked", 'false'],
      ["plan?.rule.region === 'head' && blocked", 'plan && blocked'],
    ],
  },
  {
    harm: 'a caution is not shown',
    file: 'src/forecast/cautions.ts',
    tests: flags,
    changes: [
      ["worn ? [make('skin'", "!worn ? [make('skin'"],
      ['child.insensateSkin\n', 'child.latexAlert\n'],
      ["child.conditions.includes('cerebral-palsy')", "child.conditions.includes('hemiplegia')"],
      ['weeksCorrectedFor(child, today) !== null', 'false'],
    ],
  },
  {
    harm: 'a date rests on readings that are too old',
    file: 'src/forecast/stale-after.ts',
    tests: device,
    changes: [
      ['const INTERVALS = 2', 'const INTERVALS = 20'],
      [
        'INTERVALS * reviewIntervalDays(rule, ageYears, false)',
        'INTERVALS * reviewIntervalDays(rule, ageYears, true)',
      ],
    ],
  },
  {
    harm: 'nobody asks for the reading that the date rests on',
    file: 'src/forecast/device/reading-needed.ts',
    tests: ['tests/forecast/safe-forecast.test.ts', 'tests/recall/practitioner-cases.test.ts'],
    changes: [
      [
        "if (missing) return { why: 'never-measured'",
        "if (missing && !missing) return { why: 'never-measured'",
      ],
      ['if (slip) return slip', ''],
      ['if (daysBetween(known, today) > lasts)', 'if (daysBetween(known, today) > 9 * lasts)'],
      ['if (stopped?.proved) return null', ''],
      ['near > nearCastDays(rule, ageAtCast)', 'near > 9 * nearCastDays(rule, ageAtCast)'],
    ],
  },
  {
    harm: 'growth that has stopped is not believed, or growth that goes on is taken for none',
    file: 'src/forecast/device/growth-stopped.ts',
    tests: device,
    changes: [
      ['NO_GROWTH_MM = 2', 'NO_GROWTH_MM = 9'],
      ['APART_DAYS = 165', 'APART_DAYS = 16'],
      ['GROWN_PELVIS_STAGE = 4', 'GROWN_PELVIS_STAGE = 2'],
      ['>= YEARS_AFTER_MENARCHE * 365', '>= 0'],
      ['agreeing.length >= 3', 'agreeing.length >= 2'],
      ['AGREE_DAYS = 330', 'AGREE_DAYS = 165'],
      ['isMature(record, last.date) ||', ''],
    ],
  },
  {
    harm: 'the workshop sets a joint axis above the joint',
    file: 'src/pages/child/workshop-slip.ts',
    tests: ['tests/pages/workshop-slip.test.ts'],
    changes: [
      ['builtIn: isBuiltIn(dimension, device.footplate)', 'builtIn: true'],
      ['?? usualAllowance(dimension', '?? 5 * usualAllowance(dimension'],
    ],
  },
  {
    harm: 'the workshop makes longer what is made to the cast',
    file: 'src/rules/fit-rule.ts',
    tests: ['tests/pages/workshop-slip.test.ts'],
    changes: [[" && footplate !== 'behind-toes'", '']],
  },
];
