import type { MutationGroup } from '../mutation.js';

const timing = [
  'tests/growth/timing.test.ts',
  'tests/growth/unusual-paces.test.ts',
  'tests/growth/child-posterior.test.ts',
  'tests/growth/condition-effects.test.ts',
  'tests/growth/maturity-markers.test.ts',
  'tests/growth/against-r.test.ts',
];

export const growth: readonly MutationGroup[] = [
  {
    harm: 'A condition that brings puberty early delays it',
    file: 'src/growth/child/candidates-of.ts',
    tests: ['tests/growth/condition-effects.test.ts', 'tests/growth/child-posterior.test.ts'],
    changes: [
      ['at.tempo * earlier -', '-at.tempo * earlier -'],
      ['doubted && tempo > 0', 'false && tempo > 0'],
    ],
  },
  {
    harm: [
      'the wrong leg is taken for the affected one',
      'A child is expected to grow as another would',
      'the affected leg is taken for the other, or a condition counts twice',
    ],
    file: 'src/growth/child/child-prior.ts',
    tests: timing,
    changes: [
      [
        "input.affectedSide === 'left') prior.left[d] = affected",
        "input.affectedSide === 'left') prior.right[d] = affected",
      ],
      [
        "input.affectedSide === 'right') prior.right[d] = affected",
        "input.affectedSide === 'right') prior.left[d] = affected",
      ],
      [
        "input.affectedSide === 'both') prior.shift[d] += affected",
        "input.affectedSide === 'both') prior.shift[d] -= affected",
      ],
      ['Math.abs(pick(e)) > Math.abs(most)', 'pick(e) > most'],
      [
        'Math.max(1, ...effects.map((e) => e.residualVariance))',
        'Math.min(1, ...effects.map((e) => e.residualVariance))',
      ],
      ['Math.max(1, ...effects.map((e) => e.spread))', '1'],
      ['Math.max(HEALTHY_SIDE_SD, ...effects.map((e) => e.sideSd))', 'HEALTHY_SIDE_SD'],
      ['oneSided ? ONE_SIDED_SD : 0', '0'],
      [
        "if (input.affectedSide === 'both') prior.shift[d] += affected;",
        "if (input.affectedSide === 'both') prior.shift[d] -= affected;",
      ],
      [
        "if (input.affectedSide === 'left') prior.left[d]",
        "if (input.affectedSide === 'left') prior.right[d]",
      ],
      [
        "if (input.affectedSide === 'right') prior.right[d]",
        "if (input.affectedSide === 'right') prior.left[d]",
      ],
      ['residual: Math.max(1, ...effects.map((e) => e.residualVariance))', 'residual: 1'],
      ['prior.spread[d] = Math.max(1, ...effects.map((e) => e.spread));', ''],
    ],
  },
  {
    harm: 'A slip in a reading moves the dates',
    file: 'src/growth/child/condition-child.ts',
    tests: ['tests/growth/child-posterior.test.ts', 'tests/growth/maturity-markers.test.ts'],
    changes: [
      ['while (doubts.breaksPairsOf !== null) {', 'while (false) {'],
      ['if (parts.differenceIn[i] === 0) own', 'if (false as boolean) own'],
      ['believed = doubts.variance;', ''],
    ],
  },
  {
    harm: ['A child is expected to grow as another would', 'A reading that is right is taken for a slip'],
    file: 'src/growth/child/doubt.ts',
    tests: timing,
    changes: [
      ['GROSS_ERROR_SD = 8', 'GROSS_ERROR_SD = 1'],
      ['GROSS_ERROR_RATE = 0.003', 'GROSS_ERROR_RATE = 0.3'],
      ['WORTH_ASKING = 2;', 'WORTH_ASKING = 6;'],
      ['GROSS_ERROR_RATE = 0.003', 'GROSS_ERROR_RATE = 0.2'],
    ],
  },
  {
    harm: [
      'a child is taken for more or less mature than its bones say',
      'A bone is read a stage too young or too old',
    ],
    file: 'src/growth/child/marker-evidence.ts',
    tests: ['tests/growth/maturity-markers.test.ts'],
    changes: [
      ['stageOf(HAND, marker.value - 1)', 'stageOf(HAND, marker.value)'],
      ['stageOf(HAND, marker.value - 1)', 'stageOf(HAND, marker.value - 2)'],
      ['stageOf(PELVIS, marker.value)', 'stageOf(PELVIS, marker.value - 1)'],
      ['stageOf(PELVIS, marker.value)', 'stageOf(PELVIS, marker.value + 1)'],
      ['MENARCHE: Stage = { years: 1.2', 'MENARCHE: Stage = { years: -1.2'],
      ['normalLog(marker.value - sincePeak', 'normalLog(marker.value + sincePeak'],
      ['normalLog(marker.value - mature', 'normalLog(marker.value + mature'],
      [
        "open === 'before') return Math.log(Math.max(normalCdf(-z)",
        "open === 'before') return Math.log(Math.max(normalCdf(z)",
      ],
      [
        "open === 'after') return Math.log(Math.max(normalCdf(z)",
        "open === 'after') return Math.log(Math.max(normalCdf(-z)",
      ],
      [
        'female: { years: -1.2, sd: 0.8 }, male: { years: -2',
        'female: { years: 1.2, sd: 0.8 }, male: { years: 2',
      ],
      ['marker.sdYears ?? BONE_AGE_SD_YEARS', 'BONE_AGE_SD_YEARS'],
      [
        '- submodel.peakVelocityAgeYears - submodel.tempoYears(at.tempo)',
        '- submodel.peakVelocityAgeYears + submodel.tempoYears(at.tempo)',
      ],
      ['marker.value - mature', 'mature - marker.value + 2'],
      ['ageYears - submodel.peakVelocityAgeYears', 'ageYears + submodel.peakVelocityAgeYears'],
      ["{ ...given(PUBERTY_ONSET[sex]), open: 'before' }", "{ ...given(PUBERTY_ONSET[sex]), open: 'after' }"],
      ['marker.value - sincePeak', 'marker.value + sincePeak'],
    ],
  },
  {
    harm: [
      'readings of one day count as several, or one that contradicts the other is averaged away',
      'A child is expected to grow as another would',
    ],
    file: 'src/growth/child/readings.ts',
    tests: [
      'tests/growth/child-posterior.test.ts',
      'tests/growth/timing.test.ts',
      'tests/growth/unusual-paces.test.ts',
      'tests/growth/condition-effects.test.ts',
      'tests/growth/maturity-markers.test.ts',
      'tests/forecast/shoe-evidence.test.ts',
    ],
    changes: [
      ['1 / (1 / last.variance + 1 / r.variance)', 'last.variance + r.variance'],
      ['const AGREE_WITHIN_SD = 4', 'const AGREE_WITHIN_SD = 400'],
      ['m.technicalError ?? technicalErrorAt', 'technicalErrorAt'],
      ['AGREE_WITHIN_SD = 4', 'AGREE_WITHIN_SD = 400'],
      ['m.technicalError ?? technicalErrorAt(m.measure, ageYears)', 'technicalErrorAt(m.measure, ageYears)'],
    ],
  },
  {
    harm: 'growth that has stopped is not seen',
    file: 'src/growth/child/standstills.ts',
    tests: [
      'tests/growth/child-posterior.test.ts',
      'tests/growth/unusual-paces.test.ts',
      'tests/forecast/vignettes.test.ts',
      'tests/forecast/device-outcome.test.ts',
    ],
    changes: [
      ['SHORTEST_YEARS = 0.4', 'SHORTEST_YEARS = 4'],
      ['due(r) > LEAST_ERRORS * error', 'due(r) < LEAST_ERRORS * error'],
    ],
  },
  {
    harm: 'A child is expected to grow as another would',
    file: 'src/growth/child/unusual-paces.ts',
    tests: timing,
    changes: [
      ['male: { feet: 14.5, legs: 15, trunk: 16 }', 'male: { feet: 12.5, legs: 13, trunk: 14 }'],
      ['CATCH_UP_TIMES = 1.7', 'CATCH_UP_TIMES = 1'],
      ['[1.6, 0.3],', '[1.6, 0.01],'],
      ['return m.value >= 7;', 'return m.value >= 1;'],
      ['return m.value >= 4;', 'return m.value >= 6;'],
      ['input.gestationWeeks) >= 2;', 'input.gestationWeeks) >= 20;'],
    ],
  },
  {
    harm: 'a condition makes a child look larger, or grow later, than it does',
    file: 'src/growth/population/condition-effects.ts',
    tests: ['tests/growth/condition-effects.test.ts', 'tests/forecast/safe-forecast.test.ts'],
    changes: [
      ["  'spinal-muscular-atrophy',\n];", '];'],
      [
        "'cerebral-palsy': { ...wide(1.5, 1.3, OWN), shift: bones(-",
        "'cerebral-palsy': { ...wide(1.5, 1.3, OWN), shift: bones(+",
      ],
      ['...bones(0, -0.25, -0.6)', '...bones(0, 0.25, 0.6)'],
      ['calf_girth: -0.7, thigh_girth: -0.5', 'calf_girth: 0.7, thigh_girth: -0.5'],
      ['calf_girth: -0.7, thigh_girth: -0.5', 'calf_girth: -0.7, thigh_girth: 0.5'],
      ['shift: bones(-3.13, -3.13, -2)', 'shift: bones(3.13, 3.13, 2)'],
      ['shift: bones(-3.13, -3.13, -2)', 'shift: bones(-1.13, -1.13, -2)'],
      ['shift: bones(-0.46, -0.46, -0.46)', 'shift: bones(0.46, 0.46, 0.46)'],
      ['EARLY_SPINA_BIFIDA = -0.8', 'EARLY_SPINA_BIFIDA = 0.8'],
      ['shift: bones(-0.7, -0.7, -0.5)', 'shift: bones(0.7, 0.7, 0.5)'],
      ['shift: bones(-0.3, -0.3, -0.5)', 'shift: bones(0.3, 0.3, 0.5)'],
      [
        'arthrogryposis: { ...wide(1.5, 1.4, OWN), shift: bones(-',
        'arthrogryposis: { ...wide(1.5, 1.4, OWN), shift: bones(+',
      ],
      [
        'foot_length: -0.9, foot_breadth: -0.3, calf_girth: -0.8',
        'foot_length: 0.9, foot_breadth: -0.3, calf_girth: -0.8',
      ],
      [
        'foot_length: -0.9, foot_breadth: -0.3, calf_girth: -0.8',
        'foot_length: -0.9, foot_breadth: 0.3, calf_girth: -0.8',
      ],
      [
        'foot_length: -0.9, foot_breadth: -0.3, calf_girth: -0.8',
        'foot_length: -0.9, foot_breadth: -0.3, calf_girth: 0.8',
      ],
      ['shift: bones(-2, -2, -1.8)', 'shift: bones(2, 2, 1.8)'],
      ['shift: bones(-0.8, -0.8, -0.6)', 'shift: bones(0.8, 0.8, 0.6)'],
      ["'idiopathic-scoliosis': wide(1.1, 1.1, OWN)", "'idiopathic-scoliosis': wide(0.5, 1.1, OWN)"],
      ['sideSd: 0.6, source: OWN', 'sideSd: 0, source: OWN'],
      ['...wide(2, 1.5, OWN), sideSd: 0.5', '...wide(1, 1, OWN), sideSd: 0.5'],
      ['hypotonia: wide(1.2, 1.15, OWN)', 'hypotonia: wide(1.2, 0.85, OWN)'],
      [
        "'hip-dysplasia': { ...wide(1.2, 1.1, OWN), sideSd: 0.25 }",
        "'hip-dysplasia': { ...wide(1.2, 1.1, OWN), sideSd: 0 }",
      ],
      [
        "'leg-length-difference': { ...wide(1.2, 1.1, OWN), sideSd: 0.5 }",
        "'leg-length-difference': { ...wide(1.2, 1.1, OWN), sideSd: 0 }",
      ],
      ['other: { ...wide(1.4, 1.3, OWN), sideSd: 0.25 }', 'other: { ...wide(0.4, 1.3, OWN), sideSd: 0.25 }'],
      ['ankle_height: foot,', 'ankle_height: leg,'],
    ],
  },
  {
    harm: 'a child born early is compared with the wrong age',
    file: 'src/growth/population/growth-age.ts',
    tests: ['tests/records/age.test.ts'],
    changes: [
      ['return age - early * Math.min', 'return age + early * Math.min'],
      ['NO_CORRECTION_FROM = 4', 'NO_CORRECTION_FROM = 2.01'],
      ['(NO_CORRECTION_FROM - age)', '(age - NO_CORRECTION_FROM)'],
    ],
  },
  {
    harm: 'girths are predicted with an error in mm taken for a share',
    file: 'src/growth/population/growth-scale.ts',
    tests: [
      'tests/growth/child-posterior.test.ts',
      'tests/growth/engine-agreement.test.ts',
      'tests/growth/simulated-children.test.ts',
    ],
    changes: [['sd / size : sd', 'sd : sd']],
  },
  {
    harm: 'A child is expected to grow as another would',
    file: 'src/growth/population/points.ts',
    tests: timing,
    changes: [['middle: 0, left: 1, right: 2,', 'middle: 0, left: 2, right: 1,']],
  },
  {
    harm: 'a sound foot is foretold too short beside one that hardly grows',
    file: 'src/growth/population/side-covariance.ts',
    tests: ['tests/growth/unlike-sides.test.ts'],
    changes: [
      ['+ grownA[ci] * grownB[cj]', ''],
      ['readTable(median[d], seenFrom)', 'readTable(median[d], x)'],
    ],
  },
  {
    harm: 'the band of a head that nobody followed is as narrow as that of body length, which was followed',
    file: 'src/growth/population/z-score-submodel.ts',
    tests: ['tests/growth/fitted-velocities.test.ts'],
    changes: [['head ? settings.headWiden : 1', '1']],
  },
];
