import type { MutationGroup } from '../mutation.js';

const conditions = ['tests/growth/condition-effects.test.ts'];
const markers = ['tests/growth/maturity-markers.test.ts'];

/** How a child is taken to grow. */
export const growth: readonly MutationGroup[] = [
  {
    harm: 'the band of a head that nobody followed is as narrow as that of body length, which was followed',
    file: 'src/growth/population/z-score-submodel.ts',
    tests: ['tests/growth/fitted-velocities.test.ts'],
    changes: [['head ? settings.headWiden : 1', '1']],
  },
  {
    harm: 'a condition makes a child look larger, or grow later, than it does',
    file: 'src/growth/population/condition-effects.ts',
    tests: conditions,
    changes: [
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
    harm: 'the wrong leg is taken for the affected one',
    file: 'src/growth/child/child-prior.ts',
    tests: conditions,
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
    ],
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
    harm: 'a child is taken for more or less mature than its bones say',
    file: 'src/growth/child/marker-evidence.ts',
    tests: markers,
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
    harm: 'a child born early is compared with the wrong age',
    file: 'src/records/age.ts',
    tests: ['tests/records/age.test.ts'],
    changes: [
      ['age - (weeks * 7)', 'age + (weeks * 7)'],
      ['EARLY_BEFORE_WEEKS = 37', 'EARLY_BEFORE_WEEKS = 36'],
      ['CORRECT_UNTIL_YEARS = 2', 'CORRECT_UNTIL_YEARS = 3'],
      ['>= CORRECT_UNTIL_YEARS ? null', '> CORRECT_UNTIL_YEARS + 1 ? null'],
      ['TERM_WEEKS = 40', 'TERM_WEEKS = 37'],
    ],
  },
];
