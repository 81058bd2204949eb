import type { MutationGroup } from '../mutation.js';

const safeForecast = [
  'tests/forecast/safe-forecast.test.ts',
  'tests/forecast/findings.test.ts',
  'tests/forecast/flags.test.ts',
  'tests/forecast/assess-child.test.ts',
];

export const forecast: readonly MutationGroup[] = [
  {
    harm: 'what is to be said of a child on Thursday is said a week later, or not at all',
    file: 'src/forecast/for-days.ts',
    tests: ['tests/forecast/for-days.test.ts'],
    changes: [
      ["if (said(first).join('\\n') !== said(then).join('\\n')) return first;", ''],
      [' || !isSame(record, context.today, last)', ''],
      ['today < first || today > lastDay.today', 'today < first'],
    ],
  },
  {
    harm: [
      'a head that grows too fast gets a larger helmet',
      'a child whose sums fail loses what its skin check said',
    ],
    file: 'src/forecast/assess-child.ts',
    tests: safeForecast,
    changes: [
      ['headGrowthFlags(withoutSlips(view)).length > 0', 'false'],
      ["plan?.rule.region === 'head' &&", 'plan &&'],
      ['[...findingFlags(seen), ...standingCautions(record, today)]', '[...standingCautions(record, today)]'],
      ['else if (!rule) named.set(device.id, unknownFamily(device.family));', 'else if (!rule) continue;'],
      ["outcome: 'blocked',", "outcome: 'full-grown',"],
      ['...(named ?? notComputed)', '...named'],
    ],
  },
  {
    harm: ['a caution is not shown', 'A caution that always stands is left out'],
    file: 'src/forecast/cautions.ts',
    tests: safeForecast,
    changes: [
      ["the skin cannot feel.', 'check')", "the skin cannot feel.', 'note')"],
      ['a hip orthosis comes off only if the hip team says so', 'a hip orthosis comes off too'],
      ['No latex in straps', 'Little latex in straps'],
      ["worn ? [make('skin'", "!worn ? [make('skin'"],
      ['child.insensateSkin\n', 'child.latexAlert\n'],
      ["child.conditions.includes('cerebral-palsy')", "child.conditions.includes('hemiplegia')"],
      ["child.conditions.includes('cerebral-palsy')", "child.conditions[0] === 'cerebral-palsy'"],
      ['weeksCorrectedFor(child, today) !== null', 'false'],
      ['...(child.insensateSkin', '...(child.palliative'],
      ['...(populationChartsMislead(child.conditions)', '...(false'],
      ['...(early ?', '...(false && early ?'],
      ["...(worn ? [make('skin'", "...(false ? [make('skin'"],
      ['emergency care at once. The helmet stays off', 'ring in the morning. The helmet stays on'],
    ],
  },
  {
    harm: 'where nothing is known of the fit it reads as if nothing were to do',
    file: 'src/forecast/contract.ts',
    tests: ['tests/pages/answers.test.tsx', 'tests/pages/family-page.test.tsx'],
    changes: [
      ["['too-few-measurements', 'blocked', 'not-computed']", "['too-few-measurements', 'blocked']"],
      ["['too-few-measurements', 'blocked', 'not-computed']", "['blocked', 'not-computed']"],
    ],
  },
  {
    harm: 'A shoe or a treatment is taken for more than it says',
    file: 'src/forecast/growth-input.ts',
    tests: [
      'tests/forecast/shoe-evidence.test.ts',
      'tests/forecast/first-passage.test.ts',
      'tests/forecast/dimension-room.test.ts',
      'tests/forecast/device-plan.test.ts',
      'tests/forecast/verdicts.test.ts',
      'tests/forecast/safe-forecast.test.ts',
      'tests/forecast/device-outcome.test.ts',
      'tests/rules',
    ],
    changes: [
      ['Math.SQRT2 * Math.max', 'Math.max'],
      ['m.date >= start', 'm.date < start'],
      ['BEFORE_TREATMENT = 2', 'BEFORE_TREATMENT = 1'],
    ],
  },
  {
    harm: 'A look back judges what is not over, or knows what came later',
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
    harm: ['a day of what is to come counts as known', 'what lies ahead is taken for known'],
    file: 'src/forecast/record-until.ts',
    tests: [
      'tests/forecast/assess-child.test.ts',
      'tests/forecast/safe-forecast.test.ts',
      'tests/forecast/first-passage.test.ts',
      'tests/forecast/dimension-room.test.ts',
      'tests/forecast/device-plan.test.ts',
      'tests/forecast/verdicts.test.ts',
      'tests/forecast/device-outcome.test.ts',
      'tests/rules',
      'tests/recall/safe-list.test.ts',
      'tests/recall/dates.test.ts',
      'tests/recall/build-recall-list.test.ts',
      'tests/recall/device-facts.test.ts',
      'tests/recall/choices.test.ts',
    ],
    changes: [
      ['rows.filter((r) => r.date <= today)', '[...rows]'],
      ['d.castDate <= today', 'true'],
      ['events: known(record.events)', 'events: record.events'],
      ['skinChecks: known(record.skinChecks)', 'skinChecks: record.skinChecks'],
      ['{ ...d, fittedDate: null } : d', 'd : d'],
    ],
  },
  {
    harm: 'A family buys a shoe that is too small over the brace',
    file: 'src/forecast/shoe-over-device.ts',
    tests: ['tests/forecast/shoe-over-device.test.ts'],
    changes: [
      ['limitMm - roomMm + added', 'limitMm - roomMm'],
      ['b.lengthMm > a.lengthMm ? b : a', 'b.lengthMm < a.lengthMm ? b : a'],
      ['largest.lengthMm + largest.paceMmADay * FITS_FOR_DAYS', 'largest.lengthMm'],
      ['|| forecast.readingNeeded) return', ') return'],
    ],
  },
  {
    harm: ['a date rests on readings that are too old', 'A reading too old for its age bears a date'],
    file: 'src/forecast/stale-after.ts',
    tests: [
      'tests/forecast/safe-forecast.test.ts',
      'tests/forecast/verdicts.test.ts',
      'tests/forecast/assess-child.test.ts',
      'tests/forecast/device-outcome.test.ts',
      'tests/forecast/vignettes.test.ts',
      'tests/forecast/flags.test.ts',
    ],
    changes: [
      ['const INTERVALS = 2', 'const INTERVALS = 20'],
      [
        'INTERVALS * reviewIntervalDays(rule, ageYears, false)',
        'INTERVALS * reviewIntervalDays(rule, ageYears, true)',
      ],
      ['INTERVALS = 2', 'INTERVALS = 8'],
    ],
  },
];
