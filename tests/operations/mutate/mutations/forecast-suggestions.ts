import type { MutationGroup } from '../mutation.js';

const suggestions = ['tests/forecast/suggestions.test.ts', 'tests/forecast/safe-forecast.test.ts'];

export const forecastSuggestions: readonly MutationGroup[] = [
  {
    harm: 'A slip of the tape or the keyboard is believed',
    file: 'src/forecast/suggestions/accept-suggestion.ts',
    tests: suggestions,
    changes: [['side: c.side ?? m.side', 'side: m.side']],
  },
  {
    harm: 'two readings of one day are taken for one',
    file: 'src/forecast/suggestions/duplicates.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ['{m.observer}`', '{m.childId}`'],
      ['{m.value}/', '{m.childId}/'],
      ['rows.slice(1).map', 'rows.map'],
    ],
  },
  {
    harm: 'two sizes that cannot both be true are taken, or exchanged where they are right',
    file: 'src/forecast/suggestions/impossible-pairs.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ["['knee_height', 'hip_height']", "['hip_height', 'knee_height']"],
      ['sameSide(a.side, b.side) &&', ''],
      ['b.value < CLEARLY * a.value', 'true'],
      ['b.date === a.date &&', ''],
    ],
  },
  {
    harm: 'A slip of the unit or the keyboard is not offered, or another number is',
    file: 'src/forecast/suggestions/likely-typed.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ["[25.4, 'read as inches']", "[2.4, 'read as inches']"],
      ['Math.abs(c.value - value) >= 4 * tolerance', 'true'],
      ["[0.453592, 'read as pounds']", "[2.2046, 'read as pounds']"],
    ],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed',
    file: 'src/forecast/suggestions/limit-below-size.ts',
    tests: suggestions,
    changes: [['limitMm >= near.value', 'limitMm <= near.value']],
  },
  {
    harm: 'A slip of the tape or the keyboard is believed',
    file: 'src/forecast/suggestions/unlikely-growth.ts',
    tests: [...suggestions, 'tests/forecast/readings-in-question.test.ts'],
    changes: [
      ['(isLatest ? LATEST : HARDLY)', 'HARDLY'],
      ['const grownMm = m.value - before.value', 'const grownMm = before.value - m.value'],
      ['(was - is) / (oneMore - is)', '0'],
      ['Math.min(sdOf([own, other]), 2 * alone)', 'alone'],
      ['Math.min(sdOf([own, other]), 2 * alone)', 'sdOf([own, other])'],
      ['&& isStillToGrow(child.sex, age(m))', ''],
      ['const jumps = isLatest &&', 'const jumps ='],
      ['sdOff(sides, true, 1) > HARDLY', 'false'],
      ['&& sides[0].expectedMm !== null', ''],
    ],
  },
  {
    harm: 'a reading that is asked about puts a date off meanwhile',
    file: 'src/forecast/readings-in-question.ts',
    tests: ['tests/forecast/readings-in-question.test.ts'],
    changes: [
      ['asRead.p50 <= without.p50', 'true'],
      ['UNANSWERED.includes(readingNeeded.why)', 'false'],
    ],
  },
  {
    harm: 'a slip of the keyboard decides a date',
    file: 'src/forecast/suggestions/slips.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ['s.probability < SUSPECT', 's.probability < 1.1'],
      ['Math.abs(reading.value / s.expected - 1) < 0.25', 'false'],
    ],
  },
  {
    harm: 'a slip of the keyboard decides a date',
    file: 'src/forecast/suggestions/swapped-sides.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ['strong: 6, nearSd: 2', 'strong: 60, nearSd: 2'],
      ['strong: 2.5, nearSd: 1', 'strong: 60, nearSd: 1'],
      ['|| pair.date === last', '|| true'],
      ["{ measurementId: pair.left.id, side: 'right' }", "{ measurementId: pair.left.id, side: 'left' }"],
      ['if (others.length < 2) return []', 'return []'],
    ],
  },
];
