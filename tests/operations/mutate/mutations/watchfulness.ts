import type { MutationGroup } from '../mutation.js';

const flags = ['tests/forecast/flags.test.ts', 'tests/forecast/safe-forecast.test.ts'];
const slips = ['tests/forecast/suggestions.test.ts'];
const facts = ['tests/recall/device-facts.test.ts'];
const list = ['tests/recall/safe-list.test.ts', 'tests/recall/dates.test.ts'];
const cases = [...list, 'tests/recall/practitioner-cases.test.ts'];

/** What is looked at though no date asks for it, and what a list makes of it. */
export const watchfulness: readonly MutationGroup[] = [
  {
    harm: 'growth that a diagnosis explains is taken for growth',
    file: 'src/forecast/flags/z-shift.ts',
    tests: flags,
    changes: [
      ['const SHIFT = 1', 'const SHIFT = 4'],
      ['shift < 0 ? cautions.fallingZ', 'shift > 0 ? cautions.fallingZ'],
      ["last.ageYears < 2 ? 'note' : 'check'", "'note'"],
    ],
  },
  {
    harm: 'growth that has stopped too early is not asked about',
    file: 'src/forecast/flags/plateau.ts',
    tests: flags,
    changes: [
      ['last.ageYears >= MATURE_YEARS[sex] - MARGIN_YEARS', 'last.ageYears >= 3'],
      ['span === null || span.length < 3', 'span === null'],
    ],
  },
  {
    harm: 'one leg that grows apart from the other is not seen',
    file: 'src/forecast/flags/leg-difference.ts',
    tests: ['tests/forecast/findings.test.ts'],
    changes: [["gap < 0 ? 'left' : 'right'", "gap < 0 ? 'right' : 'left'"]],
  },
  {
    harm: 'a red flag stands below a note, or is set aside with a slip',
    file: 'src/forecast/flags/find-flags.ts',
    tests: [...flags, 'tests/forecast/findings.test.ts'],
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
    ],
  },
  {
    harm: 'a slip of the keyboard decides a date',
    file: 'src/forecast/suggestions/swapped-sides.ts',
    tests: slips,
    changes: [
      ['const STRONG = 6', 'const STRONG = 60'],
      ["{ measurementId: pair.left.id, side: 'right' }", "{ measurementId: pair.left.id, side: 'left' }"],
      ['if (others.length < 2) return []', 'return []'],
    ],
  },
  {
    harm: 'a slip of the keyboard decides a date',
    file: 'src/forecast/suggestions/slips.ts',
    tests: slips,
    changes: [
      ['s.probability < SUSPECT', 's.probability < 1.1'],
      ['Math.abs(reading.value / s.expected - 1) < 0.25', 'false'],
    ],
  },
  {
    harm: 'a child whose sums fail loses what its skin check said',
    file: 'src/forecast/assess-child.ts',
    tests: [
      'tests/forecast/assess-child.test.ts',
      'tests/forecast/safe-forecast.test.ts',
      'tests/forecast/findings.test.ts',
    ],
    changes: [
      ['[...findingFlags(seen), ...standingCautions(record, today)]', '[...standingCautions(record, today)]'],
      ['else if (!rule) named.set(device.id, unknownFamily(device.family));', 'else if (!rule) continue;'],
      ["outcome: 'blocked',", "outcome: 'full-grown',"],
      ['...(named ?? notComputed)', '...named'],
    ],
  },
  {
    harm: 'a size that stopped growing goes on, or one that grows is held',
    file: 'src/forecast/device/hold-stopped.ts',
    tests: ['tests/forecast/dimension-room.test.ts'],
    changes: [['proved ? paths.get(key) : undefined', 'paths.get(key)']],
  },
  {
    harm: 'room that is left is shown wrong',
    file: 'src/forecast/device/dimension-room.ts',
    tests: ['tests/forecast/dimension-room.test.ts'],
    changes: [
      ['line + deviationMm[i] - grown[i]', 'line - deviationMm[i] - grown[i]'],
      ["limit.kind === 'size' ? atCast[i] : 0", '0'],
      ['[0.1, 0.9]', '[0.4, 0.6]'],
      ['* YEAR) / PACE_DAYS', '* YEAR) / YEAR'],
    ],
  },
  {
    harm: 'a device in the workshop, or one that is replaced, is planned wrong',
    file: 'src/recall/decide/successor-of.ts',
    tests: facts,
    changes: [
      ['d.castDate > device.castDate &&', ''],
      ['sidesOverlap(d.side, device.side)', 'true'],
      ['d.fittedDate <= today,', 'true,'],
    ],
  },
  {
    harm: 'the harm of waiting, or whether a cast is needed, is reckoned from another day',
    file: 'src/forecast/device/chance-by-day.ts',
    tests: [...facts, 'tests/forecast/safe-forecast.test.ts'],
    changes: [
      ['if (j < 0) return 0', 'if (j < 0) return chance[0]'],
      ['if (j === days.length - 1) return chance[j]', 'if (j === days.length - 1) return 0'],
      ['chance[j] < p) j++', 'chance[j] <= p) j++'],
      ['return days[j - 1] + part', 'return days[j - 1] - part'],
      ['days[middle] <= day) low', 'days[middle] < day) low'],
    ],
  },
  {
    harm: 'an adjustment or a part is ordered too late',
    file: 'src/recall/decide/due-by-chance.ts',
    tests: facts,
    changes: [
      ['c >= p - 1e-9', 'c > p + 0.1'],
      ['if (passed < 0) return 0', 'if (passed < 0) return 1'],
      ['part * (to - from)', '(to - from)'],
    ],
  },
  {
    harm: 'an adjustment or a part is ordered too late',
    file: 'src/recall/decide/part-due.ts',
    tests: facts,
    changes: [
      ['-Math.ceil(wait)', 'Math.ceil(wait)'],
      ['const P80_Z = 0.842', 'const P80_Z = 0'],
      ['a.by.localeCompare(b.by)', 'b.by.localeCompare(a.by)'],
    ],
  },
  {
    harm: 'readings that leave no room are not believed',
    file: 'src/recall/decide/room-by-readings.ts',
    tests: facts,
    changes: [
      ['const NEAR_DAYS = 31', 'const NEAR_DAYS = 3'],
      ['(late.value - atCast.value) - grownSince', '(late.value - atCast.value)'],
      ['const same = all.filter((m) => m.side === side)', 'const same = all.filter((m) => m.side !== side)'],
    ],
  },
  {
    harm: 'a child wanted now is not on the list, or one that is not wanted crowds it out',
    file: 'src/recall/decide/plan-child.ts',
    tests: [...cases, 'tests/recall/build-recall-list.test.ts'],
    changes: [
      ["d.status === 'worn' && d.castDate <= today && forecasts", "d.status === 'worn' && forecasts"],
      ["d.status === 'ordered' && d.castDate <= today && !followed.has(d.id)", 'false'],
      ["record.child.status !== 'active' || questions.length === 0", 'questions.length === 0'],
      ["outcome !== 'not-in-use',", "outcome === 'not-in-use',"],
    ],
  },
  {
    harm: 'a family that did not come, or was told of a week, is forgotten',
    file: 'src/recall/carry-over.ts',
    tests: ['tests/recall/carry-over.test.ts'],
    changes: [
      ["visit.state === 'declined' || visit.state === 'did-not-come'", "visit.state === 'declined'"],
      ['day ? day < today : week < thisWeek', 'false'],
      ["return visit.state === 'booked' ? { ...stands, bookedWeek: week } : stands", 'return stands'],
      ['const REMEMBERED_DAYS = 182', 'const REMEMBERED_DAYS = 1'],
    ],
  },
  {
    harm: 'two of the clinic’s own jobs move everybody’s date, or jobs of years ago do',
    file: 'src/turnaround/estimate-turnaround.ts',
    tests: ['tests/turnaround/estimate-turnaround.test.ts'],
    changes: [
      ['const PRIOR_WEIGHT = 8', 'const PRIOR_WEIGHT = 0.1'],
      ['const HISTORY_DAYS = 3 * 365', 'const HISTORY_DAYS = 30 * 365'],
      ['      j.family === family &&\n', ''],
    ],
  },
  {
    harm: 'readings of one day count as several, or one that contradicts the other is averaged away',
    file: 'src/growth/child/readings.ts',
    tests: ['tests/growth/child-posterior.test.ts'],
    changes: [
      ['1 / (1 / last.variance + 1 / r.variance)', 'last.variance + r.variance'],
      ['const AGREE_WITHIN_SD = 4', 'const AGREE_WITHIN_SD = 400'],
      ['m.technicalError ?? technicalErrorAt', 'technicalErrorAt'],
    ],
  },
];
