import type { MutationGroup } from '../mutation.js';

const forecasts = [
  'tests/forecast/device-plan.test.ts',
  'tests/forecast/first-passage.test.ts',
  'tests/forecast/device-outcome.test.ts',
  'tests/forecast/dimension-room.test.ts',
  'tests/forecast/assess-child.test.ts',
  'tests/forecast/safe-forecast.test.ts',
];

/** What stands around the rules themselves: horizons, quantiles, what a clinic sets, the words of a week, rules merged. */
export const edges: readonly MutationGroup[] = [
  {
    harm: 'A child with spina bifida meets latex because nobody ticked a box.',
    file: 'src/records/records.ts',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ['child.latexAlert || hasSpinaBifida(child)', 'child.latexAlert'],
      ['child.latexAlert || hasSpinaBifida(child)', 'hasSpinaBifida(child)'],
    ],
  },
  {
    harm: 'Whoever meets the child is not told.',
    file: 'src/pages/child/visit-devices.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [
      ["child.insensateSkin, 'Look", "false, 'Look"],
      ["avoidsLatex(child), 'Use", "child.latexAlert, 'Use"],
      ["child.palliative, 'Growth", "false, 'Growth"],
    ],
  },
  {
    harm: 'Whoever meets the child is not told.',
    file: 'src/pages/child/workshop-slip-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['<ChildAlerts child={child} />', '']],
  },
  {
    harm: 'Whoever meets the child is not told.',
    file: 'src/pages/child/visit-page.tsx',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['<ChildAlerts child={child} />', '']],
  },
  {
    harm: 'Who does not see the diagnosis does not see what it means for the hands.',
    file: 'src/store/records/visible-to.ts',
    tests: ['tests/safety/who-sees-what.test.tsx'],
    changes: [['latexAlert: avoidsLatex(child),', '']],
  },
  {
    harm: 'A forecast ends too early, or tells of what was not measured.',
    file: 'src/forecast/device/device-plan.ts',
    tests: forecasts,
    changes: [
      ['Math.max(last, dayNumber(m.date))', 'Math.min(last, dayNumber(m.date))'],
      ['follows(series.measure) && wearer.measured.has(series.measure)', 'follows(series.measure)'],
      [
        'follows(series.measure) && wearer.measured.has(series.measure)',
        'wearer.measured.has(series.measure)',
      ],
      ['read + rule.horizonDays.value', 'cast + rule.horizonDays.value'],
      ["rule.resolution === 'day' ? 1 : 7", '28'],
    ],
  },
  {
    harm: 'An early day is told later than it is.',
    file: 'src/forecast/device/weighted-quantile.ts',
    tests: forecasts,
    changes: [
      ['Math.ceil((p - 1e-12) * n) - 1', 'Math.ceil((p - 1e-12) * n)'],
      ['(sum += weights[i]) >= p - 1e-12', '(sum += weights[i]) > 1 - p'],
      ['weights[i] * (values[i] - mean) ** 2', 'weights[i] * Math.abs(values[i] - mean)'],
    ],
  },
  {
    harm: 'A look back judges what is not over, or knows what came later.',
    file: 'src/forecast/look-back.ts',
    tests: ['tests/forecast/look-back.test.ts'],
    changes: [
      ['day <= latest', 'day >= latest'],
      ['if (d.fittedDate === null)', 'if (false)'],
      ['endless || ended(d, then.events)', 'ended(d, then.events)'],
      ["status: 'active' },", 'status: record.child.status },'],
    ],
  },
  {
    harm: 'Two readings of one day are taken for one.',
    file: 'src/forecast/suggestions/duplicates.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ['{m.observer}`', '{m.childId}`'],
      ['{m.value}/', '{m.childId}/'],
      ['rows.slice(1).map', 'rows.map'],
    ],
  },
  {
    harm: 'A marker is asked for where it says nothing.',
    file: 'src/forecast/device/worth-of-one-more.ts',
    tests: ['tests/forecast/reading-worth.test.ts'],
    changes: [
      ['if (age < MARKER_AGES.from || age > MARKER_AGES.to) return null;', ''],
      ['a.thenDays - b.thenDays', 'b.thenDays - a.thenDays'],
    ],
  },
  {
    harm: 'A slip in a reading moves the dates.',
    file: 'src/growth/child/condition-child.ts',
    tests: ['tests/growth/child-posterior.test.ts', 'tests/growth/maturity-markers.test.ts'],
    changes: [
      ['if (doubts.breaksPair) {', 'if (false) {'],
      ['if (parts.differenceIn[i] === 0) own', 'if (false as boolean) own'],
      ['believed = doubts.variance;', ''],
    ],
  },
  {
    harm: 'What a clinic has not set is another than what it is told.',
    file: 'src/recall/decide/recall-settings.ts',
    tests: ['tests/recall/dates.test.ts'],
    changes: [
      ['.default(1 / 3)', '.default(0.45)'],
      ['max(20).default(3)', 'max(20).default(1)'],
      ['max(60).default(0)', 'max(60).default(14)'],
      ['max(182).default(35)', 'max(182).default(7)'],
      ['max(182).default(56)', 'max(182).default(0)'],
      ['max(36).default(12)', 'max(36).default(24)'],
    ],
  },
  {
    harm: 'A scheduler is not told what came of the week before.',
    file: 'src/recall/level/week-reason.ts',
    tests: ['tests/recall/carry-over.test.ts'],
    changes: [
      ['missed > 1', 'missed > 2'],
      ["p.why === 'did-not-come'", "p.why === 'declined'"],
      ['visit.overtime ?', 'false ?'],
      ['movedFrom && movedFrom !== last?.week', 'false'],
      ['if (visit.childIds.length > 1)', 'if (false)'],
      ['if (others > 0)', 'if (false)'],
    ],
  },
  {
    harm: 'A clinic’s own rule keeps what it wrote over, or takes along what it did not.',
    file: 'src/rules/load-rules.ts',
    tests: ['tests/rules/fit-rules.test.ts', 'tests/rules/clinic-limits.test.ts'],
    changes: [
      ["!('value' in value)", 'true'],
      ['basedOn !== undefined && !rules.has(basedOn)', 'false'],
      ['if (!extra.success)', 'if (false)'],
      ['changed.has(d.measure) ? merge(d, changed.get(d.measure)!) : d', 'd'],
      ['!isObject(d) || !known.has(d.measure)', 'false'],
      ['if (parsed.success) return parsed.data;', 'if (true) return parsed.data as FamilyRule;'],
    ],
  },
  {
    harm: 'A clinic sets a limit that cannot be, or nobody reads why.',
    file: 'src/rules/clinic-limits.ts',
    tests: ['tests/rules/clinic-limits.test.ts'],
    changes: [
      ['z.number().min(0).max(1000)', 'z.number()'],
      ['.trim().min(4)', '.trim()'],
      ['{measure}/', '{family}/'],
    ],
  },
  {
    harm: 'A child’s row loses what protects it.',
    file: 'src/exchange/csv/read-children.ts',
    tests: ['tests/exchange/row-reader.test.ts'],
    changes: [
      ['if (row.ok) row.refuseFaults(childFaults(child, settings.today));', ''],
      ['if (days.includes(0)) row.refuse', 'if (false) row.refuse'],
      ['indexOf(word.slice(0, 3).toLowerCase()) + 1', 'indexOf(word.slice(0, 3).toLowerCase())'],
      ["known.map((id) => id ?? 'other')", "known.map((id) => id ?? 'none')"],
    ],
  },
  {
    harm: 'A job in a file is of no device, or done that is not.',
    file: 'src/exchange/csv/read-jobs.ts',
    tests: [
      'tests/exchange/row-reader.test.ts',
      'tests/exchange/other-formats.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [
      ["stages.fit ? 'fitted' : 'in-progress'", "'in-progress'"],
      ['if (row.ok && birthDate)', 'if (false as boolean)'],
      ["device?.family ?? ''", "''"],
    ],
  },
];
