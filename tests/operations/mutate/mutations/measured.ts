import type { MutationGroup } from '../mutation.js';

const decisions = [
  'tests/recall/safe-list.test.ts',
  'tests/recall/build-recall-list.test.ts',
  'tests/recall/dates.test.ts',
  'tests/recall/device-facts.test.ts',
  'tests/recall/choices.test.ts',
];
const flags = [
  'tests/forecast/flags.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/vignettes.test.ts',
  'tests/safety/clinical-safety.test.ts',
];
const prior = ['tests/growth/condition-effects.test.ts', 'tests/growth/maturity-markers.test.ts'];
const files = [
  'tests/exchange/awkward-tables.test.ts',
  'tests/exchange/round-trip.test.ts',
  'tests/exchange/hostile-input.test.ts',
];

/** From a reading to a call: what a figure, a day, a side or a limit off by a little does. */
export const measured: readonly MutationGroup[] = [
  {
    harm: 'A red flag is not a visit today.',
    file: 'src/forecast/flags/finding-flags.ts',
    tests: flags,
    changes: [['deviceId: f.deviceId ?? undefined', 'deviceId: undefined']],
  },
  {
    harm: 'A head that races is waited for.',
    file: 'src/forecast/flags/head-growth.ts',
    tests: flags,
    changes: [
      ['worst.shift > 0\n    ?', 'worst.shift < 0\n    ?'],
      ['const WITHIN_DAYS = 190', 'const WITHIN_DAYS = 19'],
      ['const UNTIL_YEARS = 5', 'const UNTIL_YEARS = 0.5'],
    ],
  },
  {
    harm: 'A reading held for a slip hides a head that races, or a slip raises an alarm.',
    file: 'src/forecast/flags/find-flags.ts',
    tests: flags,
    changes: [
      ['m.measure !== ALWAYS_KEPT', 'true'],
      [
        'severities.indexOf(a.severity) - severities.indexOf(b.severity)',
        'severities.indexOf(b.severity) - severities.indexOf(a.severity)',
      ],
      ['    ...standingCautions(input.record, input.today),\n', ''],
    ],
  },
  {
    harm: 'A leg that stays behind, growth that stops or a curve at risk is not asked about.',
    file: 'src/forecast/flags/side-drift.ts',
    tests: flags,
    changes: [
      ['const beyond = Math.abs(change) > mdc', 'const beyond = change > mdc'],
      ["child.affectedSide === 'right' ||", ''],
    ],
  },
  {
    harm: 'A leg that stays behind, growth that stops or a curve at risk is not asked about.',
    file: 'src/forecast/flags/trunk-growth.ts',
    tests: flags,
    changes: [
      ["p.rule.region === 'trunk'", "p.rule.region === 'head'"],
      ['pace < limit ||', 'pace > limit ||'],
      ["|| c === 'neuromuscular-scoliosis'", ''],
    ],
  },
  {
    harm: 'A leg that stays behind, growth that stops or a curve at risk is not asked about.',
    file: 'src/forecast/flags/record-flags.ts',
    tests: flags,
    changes: [
      ['days > staleAfterDays(p.rule, age)', 'days > 10 * staleAfterDays(p.rule, age)'],
      ['start === null || start > input.today', 'true'],
    ],
  },
  {
    harm: 'A forecast is made for who has left, is grown, or is cared for to the end.',
    file: 'src/forecast/device/named-outcome.ts',
    tests: ['tests/forecast/device-outcome.test.ts', 'tests/forecast/vignettes.test.ts'],
    changes: [
      ['>= GROWN_YEARS', '>= 2 * GROWN_YEARS'],
      [' || history.retiredOn !== null)', ')'],
    ],
  },
  {
    harm: 'A reading too old for its age bears a date.',
    file: 'src/forecast/stale-after.ts',
    tests: [
      'tests/forecast/device-outcome.test.ts',
      'tests/forecast/vignettes.test.ts',
      'tests/forecast/flags.test.ts',
    ],
    changes: [['INTERVALS = 2', 'INTERVALS = 8']],
  },
  {
    harm: 'The affected leg is taken for the other, or a condition counts twice.',
    file: 'src/growth/child/child-prior.ts',
    tests: prior,
    changes: [
      [
        "if (input.affectedSide === 'right') prior.right[d]",
        "if (input.affectedSide === 'right') prior.left[d]",
      ],
      ['residual: Math.max(1, ...effects.map((e) => e.residualVariance))', 'residual: 1'],
      ['prior.spread[d] = Math.max(1, ...effects.map((e) => e.spread));', ''],
    ],
  },
  {
    harm: 'A bone is read a stage too young or too old.',
    file: 'src/growth/child/marker-evidence.ts',
    tests: ['tests/growth/maturity-markers.test.ts'],
    changes: [
      ['marker.value - mature', 'mature - marker.value + 2'],
      ['ageYears - submodel.peakVelocityAgeYears', 'ageYears + submodel.peakVelocityAgeYears'],
      ["{ ...given(PUBERTY_ONSET[sex]), open: 'before' }", "{ ...given(PUBERTY_ONSET[sex]), open: 'after' }"],
      ['marker.value - sincePeak', 'marker.value + sincePeak'],
    ],
  },
  {
    harm: 'A child that came early is held against children born on its day.',
    file: 'src/records/age.ts',
    tests: ['tests/records/age.test.ts', 'tests/forecast/device-outcome.test.ts'],
    changes: [
      ['age - (weeks * 7) / DAYS_A_YEAR', 'age + (weeks * 7) / DAYS_A_YEAR'],
      ['TERM_WEEKS - gestationWeeks', 'EARLY_BEFORE_WEEKS - gestationWeeks'],
      ['GROWN_YEARS = 20', 'GROWN_YEARS = 18'],
    ],
  },
  {
    harm: 'A size comes in a unit off.',
    file: 'src/records/units.ts',
    tests: ['tests/records/units.test.ts'],
    changes: [
      ['cm: 10,', 'cm: 1,'],
      ['value / (isLengthUnit(unit)', 'value * (isLengthUnit(unit)'],
      ["in: 'inch'", "in: 'cm'"],
    ],
  },
  {
    harm: 'A birth after the first reading, or in the future, is taken.',
    file: 'src/records/check/child-faults.ts',
    tests: ['tests/records/check.test.ts'],
    changes: [
      ['child.birthDate > today', 'false'],
      ['firstEntry !== undefined && child.birthDate > firstEntry', 'false'],
    ],
  },
  {
    harm: 'A kind of record comes in a file without its check.',
    file: 'src/records/check/caseload-faults.ts',
    tests: ['tests/records/check.test.ts', ...files],
    changes: [
      ['for (const child of rows.children ?? []) yield* childFaults(child, today);', ''],
      ['rows.markers ?? []', '[] as typeof rows.markers & {}'],
      ['rows.jobs ?? []', '[] as typeof rows.jobs & {}'],
      ["device: deviceOf(check.deviceId ?? '') ?? null", 'device: null'],
      ["else yield { what, field: 'childId'", "else if (false) yield { what, field: 'childId'"],
    ],
  },
  {
    harm: 'Skin that cannot warn waits as long as skin that can.',
    file: 'src/rules/by-age.ts',
    tests: ['tests/rules/fit-rules.test.ts', ...decisions],
    changes: [
      ['Math.min(usual, rule.insensateReviewDays.value)', 'Math.max(usual, rule.insensateReviewDays.value)'],
    ],
  },
  {
    harm: 'A clinic sets a limit ten times off, or its own limit is not used.',
    file: 'src/rules/limit-bounds.ts',
    tests: ['tests/rules/clinic-limits.test.ts'],
    changes: [
      ['const FACTOR = 4', 'const FACTOR = 40'],
      ['Math.ceil((10 * shippedMm)', 'Math.ceil((0 * shippedMm)'],
    ],
  },
  {
    harm: 'A clinic sets a limit ten times off, or its own limit is not used.',
    file: 'src/rules/clinic-rules.ts',
    tests: ['tests/rules/clinic-limits.test.ts', 'tests/rules/adjustments.test.ts'],
    changes: [
      ['value: set.mm', 'value: figureOf(shipped, place)!.value'],
      ['allowanceByAge.length > 0 && own', 'false && own'],
      ['set && figureOf(shipped, place) ?', 'set ?'],
    ],
  },
  {
    harm: 'A clinic sets a limit ten times off, or its own limit is not used.',
    file: 'src/rules/check-limit-changes.ts',
    tests: ['tests/rules/clinic-limits.test.ts'],
    changes: [['if (!problem) return;', 'if (problem) return;']],
  },
  {
    harm: 'A device at its limit is said to have room.',
    file: 'src/rules/room-left.ts',
    tests: ['tests/rules/room-left.test.ts'],
    changes: [
      ["if (roomMm >= 0) return 'tight'", "if (roomMm > 0) return 'tight'"],
      ["if (roomMm >= tightWithinMm) return 'room'", "if (roomMm > tightWithinMm) return 'room'"],
      ['roomMm + leftMm >= 0', 'roomMm + leftMm > 0'],
      ["limit.kind === 'size' ? now : now - cast)", "limit.kind === 'size' ? now - cast : now - cast)"],
    ],
  },
  {
    harm: 'A second device made for the other side stops the call for this one.',
    file: 'src/recall/decide/replacement-in-progress.ts',
    tests: decisions,
    changes: [
      ['      sidesOverlap(d.side, worn.side),', '      true,'],
      ["a === b || a === 'both' || b === 'both'", 'a === b'],
      [
        "d.status === 'ordered' &&\n      d.castDate >= worn",
        "d.status !== 'retired' &&\n      d.castDate >= worn",
      ],
      ['begun > worn.fittedDate', 'begun < worn.fittedDate'],
    ],
  },
  {
    harm: 'A device lost in the workshop is waited for.',
    file: 'src/recall/decide/replacement-status.ts',
    tests: decisions,
    changes: [
      ['late: lost ||', 'late:'],
      ['risk > accepted', 'risk > 1'],
      ['expectedFitting: lost ? null', 'expectedFitting: false ? null'],
    ],
  },
  {
    harm: 'A list leaves a child out, or is in another order than the week it is planned in.',
    file: 'src/recall/decide/build-recall-list.ts',
    tests: decisions,
    changes: [
      ['entries.sort(byHarm)', 'entries.sort((a, b) => byHarm(b, a))'],
      ['(plan.due ? entries : notDue).push', '(plan.due ? entries : []).push'],
      [
        'month ? monthEnd(month) : addDaysIso(today, settings.aheadDays)',
        'addDaysIso(today, settings.aheadDays)',
      ],
      ['notPlanned.push(record.child.id);', ''],
    ],
  },
  {
    harm: 'A list leaves a child out, or is in another order than the week it is planned in.',
    file: 'src/recall/decide/working-order.ts',
    tests: decisions,
    changes: [["(a.dueBy ?? '9999')", "(a.dueBy ?? '0000')"]],
  },
  {
    harm: 'A list leaves a child out, or is in another order than the week it is planned in.',
    file: 'src/recall/decide/visit-of.ts',
    tests: decisions,
    changes: [
      ['dueBy !== null && dueBy < today', 'dueBy !== null && dueBy <= today'],
      ['tooLateSince: earliest(wanted.map((d) => d.tooLateSince))', 'tooLateSince: null'],
      ['Math.max(...wanted.map((d) => d.harmPerWeek))', 'Math.min(...wanted.map((d) => d.harmPerWeek))'],
      ["d.action === 'cast' || d.action === 'check'", "d.action === 'cast'"],
    ],
  },
  {
    harm: 'A review is counted from a day on which nobody saw the child.',
    file: 'src/recall/decide/last-seen.ts',
    tests: decisions,
    changes: [['.filter((d) => d <= today)', '']],
  },
  {
    harm: 'Latex or skin that cannot warn is not said to who must know.',
    file: 'src/recall/decide/alerts-of.ts',
    tests: decisions,
    changes: [],
  },
  {
    harm: 'A date is accepted at another chance than the clinic chose.',
    file: 'src/recall/decide/accepted-chance.ts',
    tests: decisions,
    changes: [
      ['Math.max(device, settings.harmInsensate)', 'Math.min(device, settings.harmInsensate)'],
      ['(1 - settings.acceptedChance)', '(1 + settings.acceptedChance)'],
    ],
  },
  {
    harm: 'A cast day is later than the wait for the workshop allows.',
    file: 'src/recall/decide/cast-by.ts',
    tests: decisions,
    changes: [['Math.min(day, dayNumber(notBefore))', 'dayNumber(notBefore)']],
  },
  {
    harm: 'A cast day is later than the wait for the workshop allows.',
    file: 'src/recall/decide/beyond-use-chance.ts',
    tests: decisions,
    changes: [
      ['const i = lastOnOrBefore(days, day);', 'const i = 0;'],
      ['((chance[i] + chance[i - 1]) / 2)', '(chance[i] + chance[i - 1])'],
    ],
  },
  {
    harm: 'A strap or a flare falls due and is set too far or too short.',
    file: 'src/recall/decide/adjust-step.ts',
    tests: decisions,
    changes: [
      ['due.sort((x, y) => x.by.localeCompare(y.by))', 'due.sort((x, y) => y.by.localeCompare(x.by))'],
      ['(pace * daysAhead) / YEAR - roomNow', '(pace * daysAhead) / YEAR + roomNow'],
    ],
  },
  {
    harm: 'A strap or a flare falls due and is set too far or too short.',
    file: 'src/recall/decide/adjust-by-readings.ts',
    tests: decisions,
    changes: [
      ['roomMm > least || !way', 'roomMm > -50 || !way'],
      ['? 0 : toleranceMm', '? 0 : 0'],
    ],
  },
  {
    harm: 'A record that cannot be planned loses its place or its red flag.',
    file: 'src/recall/decide/safe-plan.ts',
    tests: decisions,
    changes: [
      ["flag ? 'see-now' : 'measure'", "'measure'"],
      ['if (date !== null && !isIsoDate(date)) throw', 'if (false) throw'],
      ["figure === 'number' && !Number.isFinite(figure)", "figure === 'number' && false"],
      ['alerts: alertsOf(record)', 'alerts: []'],
    ],
  },
  {
    harm: 'A child is not planned for, or who has left is.',
    file: 'src/recall/decide/plan-child.ts',
    tests: decisions,
    changes: [
      ["if (record.child.status !== 'active' || questions", 'if (questions'],
      ["d.status === 'worn' && d.castDate <= today &&", "d.status === 'worn' &&"],
      ['!followed.has(d.id)', 'false'],
      ["ahead.action === 'cast' || ahead.action === 'check' ? ahead : alone", 'alone'],
      ['flags: assessment?.flags ?? []', 'flags: []'],
    ],
  },
  {
    harm: 'A family that did not come, or whose day was given up, is not called again.',
    file: 'src/recall/carry-over.ts',
    tests: ['tests/recall/carry-over.test.ts'],
    changes: [
      ["visit.state === 'declined' || visit.state === 'did-not-come'", "visit.state === 'did-not-come'"],
      ["rang && !same ? 'to-call' : visit.state", 'visit.state'],
      [
        "visit.state === 'done' || visit.state === 'moved-away' || passed",
        "visit.state === 'moved-away' || passed",
      ],
      ["visit.state === 'booked' ? { ...stands, bookedWeek: week } : stands", 'stands'],
    ],
  },
];
