import type { MutationGroup } from '../mutation.js';

/** What is judged of a device and said of it: the choice of an action, weeks, limits, growth, sheets, words. */
export const judged: readonly MutationGroup[] = [
  {
    harm: 'A reviewer is not believed, or a cast is made of a reading that says otherwise.',
    file: 'src/recall/decide/choose-action.ts',
    tests: [
      'tests/recall/safe-list.test.ts',
      'tests/recall/device-facts.test.ts',
      'tests/recall/choices.test.ts',
      'tests/recall/dates.test.ts',
      'tests/recall/practitioner-cases.test.ts',
    ],
    changes: [
      ["said?.verdict !== 'outgrown') return null;", "said?.verdict === 'outgrown') return null;"],
      ["leftMm < LEAST_MM ? 'cast' : 'check'", "leftMm < LEAST_MM ? 'check' : 'cast'"],
      ['date > fits || (', 'date < fits || ('],
      ["choose('check', end, 'usual-life-over'", "choose('none', end, 'usual-life-over'"],
      ['plainRoom.leftMm > plainRoom.toleranceMm;', 'plainRoom.leftMm > -plainRoom.toleranceMm;'],
      ['addDaysIso(castBy, Math.ceil(waitDays)) < today', 'addDaysIso(castBy, -Math.ceil(waitDays)) < today'],
      ['  hipAngleOff,\n  adjust,', '  adjust,'],
      ['!readAfterVerdict(facts) &&\n  saidToFit', 'readAfterVerdict(facts) &&\n  saidToFit'],
      ['reviewBy >= today && reviewBy <= addDaysIso(end, LIFE_LOOK_DAYS)', 'true'],
      ['firstLookBy !== null && firstLookBy < reviewBy', 'firstLookBy !== null && firstLookBy > reviewBy'],
      ['by > reviewBy) ||', 'by < reviewBy) ||'],
      ['plainRoom.leftMm <= plainRoom.tightWithinMm', 'plainRoom.leftMm > plainRoom.tightWithinMm'],
      ['(chanceToday ?? 0) > accepted', '(chanceToday ?? 0) > 1'],
      ['facts.reviewBy <= facts.lookBy &&', 'facts.reviewBy >= facts.lookBy &&'],
    ],
  },
  {
    harm: 'Whoever must be seen now is offered a day on which nobody casts; a family is not rung again.',
    file: 'src/recall/level/next-places.ts',
    tests: ['tests/recall/next-places.test.ts'],
    changes: [
      ['NEXT_DAYS = 3', 'NEXT_DAYS = 1'],
      ['getUTCDay() + 6) % 7) + 1', 'getUTCDay() + 6) % 7)'],
      ['if (within(c.away, day)) return sum;', ''],
      ['Math.max(0, places - taken)', 'places'],
    ],
  },
  {
    harm: 'A family that was left a message is rung on a Sunday, or never.',
    file: 'src/recall/ring-again.ts',
    tests: [
      'tests/recall/carry-over.test.ts',
      'tests/recall/next-places.test.ts',
      'tests/service/replanning.test.ts',
      'tests/store/store.test.ts',
    ],
    changes: [
      ['weekday !== 0 && weekday !== 6', 'weekday !== 6'],
      ['const WORKING_DAYS = 2', 'const WORKING_DAYS = 20'],
    ],
  },
  {
    harm: 'A child is planned into a week in which the clinic is shut.',
    file: 'src/recall/level/clinic-capacity.ts',
    tests: [
      'tests/recall/level-plan.test.ts',
      'tests/recall/next-places.test.ts',
      'tests/recall/level-recall-list.test.ts',
    ],
    changes: [
      ['addDaysIso(monday, day.weekday - 1)', 'addDaysIso(monday, day.weekday)'],
      ['const closed = [...clinic.clinicClosures, ...c.away];', 'const closed = [...clinic.clinicClosures];'],
      ['date > from && !within(closed, date)) {', '!within(closed, date)) {'],
    ],
  },
  {
    harm: 'One visit made of two is planned for the later of them, or loses the skin that cannot warn.',
    file: 'src/recall/level/combine-requests.ts',
    tests: ['tests/recall/combine-requests.test.ts'],
    changes: [
      [
        'latestSafe: parts.map((p) => p.latestSafe).sort()[0]',
        'latestSafe: parts.map((p) => p.latestSafe).sort().at(-1)!',
      ],
      ['parts.some((p) => p.insensateSkin)', 'parts.every((p) => p.insensateSkin)'],
      ["parts.some((p) => p.action === 'cast')", "parts.every((p) => p.action === 'cast')"],
    ],
  },
  {
    harm: 'A day is said to be safe that a week of work makes unsafe.',
    file: 'src/recall/level/week-costs.ts',
    tests: [
      'tests/recall/level-plan.test.ts',
      'tests/recall/level-recall-list.test.ts',
      'tests/recall/combine-requests.test.ts',
    ],
    changes: [
      ['t.part.insensateSkin ? settings.insensateWeight : 1', '1'],
      ['settings.lateWeekCost) * late)', 'settings.lateWeekCost))'],
      ['t.part.routine ? settings.lateReviewWeekCost : settings.lateWeekCost', 'settings.lateWeekCost'],
      ['return !t.notIn.includes(monday);', 'return true;'],
    ],
  },
  {
    harm: 'A job in the workshop is promised too early.',
    file: 'src/turnaround/expected-fitting.ts',
    tests: ['tests/turnaround/workshop-queue.test.ts', 'tests/turnaround/estimate-turnaround.test.ts'],
    changes: [
      ['days === waited ? count - 1 : count', 'count'],
      ['SAMPLES, waited).map', 'SAMPLES, 0).map'],
      ['finish: 0.2', 'finish: 0'],
    ],
  },
  {
    harm: 'What the forecast says in words leaves its caution out.',
    file: 'src/forecast/device/explain-forecast.ts',
    tests: [
      'tests/forecast/verdicts.test.ts',
      'tests/forecast/vignettes.test.ts',
      'tests/forecast/device-outcome.test.ts',
      'tests/forecast/assess-child.test.ts',
    ],
    changes: [
      [' Check fit and skin now.', ''],
      [': check the skin and plan the replacement now.', '.'],
      [', at the latest every 12 months', ''],
      ['; measure before relying on any date.', '.'],
      [' Usual reviews go on.`;\n    default', '`;\n    default'],
    ],
  },
  {
    harm: 'A family buys a shoe that is too small over the brace.',
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
    harm: 'Two sizes that cannot both be true are taken, or exchanged where they are right.',
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
    harm: 'A slip of the unit or the keyboard is not offered, or another number is.',
    file: 'src/forecast/suggestions/likely-typed.ts',
    tests: ['tests/forecast/suggestions.test.ts'],
    changes: [
      ["[25.4, 'read as inches']", "[2.4, 'read as inches']"],
      ['Math.abs(c.value - value) >= 4 * tolerance', 'true'],
      ["[0.453592, 'read as pounds']", "[2.2046, 'read as pounds']"],
    ],
  },
  {
    harm: 'The limit of a device spreads too far, and every date with it.',
    file: 'src/forecast/device/deviation.ts',
    tests: [
      'tests/forecast/held-against-verdicts.test.ts',
      'tests/forecast/verdicts.test.ts',
      'tests/forecast/first-passage.test.ts',
      'tests/forecast/device-outcome.test.ts',
      'tests/forecast/vignettes.test.ts',
    ],
    changes: [
      ['FAR_SHARE = 0.05', 'FAR_SHARE = 0.5'],
      [
        'if (low > 0) return Math.max(0, normalCdf(-low / sd) - normalCdf(-high / sd));',
        'if (low > 0) return 0;',
      ],
    ],
  },
  {
    harm: 'A condition that brings puberty early delays it.',
    file: 'src/growth/child/candidates-of.ts',
    tests: ['tests/growth/condition-effects.test.ts', 'tests/growth/child-posterior.test.ts'],
    changes: [
      ['at.tempo * earlier -', '-at.tempo * earlier -'],
      ['doubted && tempo > 0', 'false && tempo > 0'],
    ],
  },
  {
    harm: 'Girths are predicted with an error in mm taken for a share.',
    file: 'src/growth/population/growth-scale.ts',
    tests: [
      'tests/growth/child-posterior.test.ts',
      'tests/growth/engine-agreement.test.ts',
      'tests/growth/simulated-children.test.ts',
    ],
    changes: [['sd / size : sd', 'sd : sd']],
  },
  {
    harm: 'Growth that has stopped is not seen.',
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
    harm: 'A clinic is told that a changed limit reaches no device.',
    file: 'src/rules/limit-reach.ts',
    tests: ['tests/rules/clinic-limits.test.ts', 'tests/service/fit-rules.test.ts'],
    changes: [
      ['!stated.includes(measure) &&', 'stated.includes(measure) &&'],
      ['family !== place.family ||', ''],
    ],
  },
  {
    harm: 'A flattened head seems rounder than it is.',
    file: 'src/rules/head-shape.ts',
    tests: ['tests/forecast/flags.test.ts', 'tests/rules/room-left.test.ts', 'tests/charts/charts.test.ts'],
    changes: [
      ['Math.min(leftDiagonalMm, rightDiagonalMm)', 'Math.max(leftDiagonalMm, rightDiagonalMm)'],
      ['1.96 * 2 * technicalErrorMm', '1.96 * technicalErrorMm'],
    ],
  },
  {
    harm: 'A FHIR file loses a latex alert, a side, or takes what was entered in error.',
    file: 'src/exchange/fhir/fhir-tables.ts',
    tests: ['tests/exchange/other-formats.test.ts', 'tests/exchange/hostile-input.test.ts'],
    changes: [
      ["o.status === 'entered-in-error' || ", ''],
      ['/latex/i.test(', '/^latex$/.test('],
      ['e1`)), unit:', '`)), unit:'],
      ["p.deceasedBoolean || p.deceasedDateTime ? 'died' : ''", "''"],
      ["intended: 'ordered', active: 'worn'", "intended: 'worn', active: 'worn'"],
    ],
  },
  {
    harm: 'A child whose file says nothing of walking is read as one that does not walk.',
    file: 'src/exchange/fhir/extensions.ts',
    tests: ['tests/exchange/other-formats.test.ts', 'tests/exchange/round-trip.test.ts'],
    changes: [['found?.valueBoolean ?? whenEmpty', 'found?.valueBoolean ?? false']],
  },
  {
    harm: 'Who takes over a child with spina bifida is not told to keep latex away.',
    file: 'src/exchange/fhir/to-fhir.ts',
    tests: ['tests/exchange/other-formats.test.ts'],
    changes: [
      ['if (!avoidsLatex(c)) return [];', 'if (!c.latexAlert) return [];'],
      ["'unconfirmed'),", "'confirmed'),"],
    ],
  },
  {
    harm: 'A side in a FHIR file is read as the other.',
    file: 'src/exchange/fhir/codes.ts',
    tests: ['tests/exchange/other-formats.test.ts', 'tests/exchange/hostile-input.test.ts'],
    changes: [
      ["'7771000': 'left', '24028007': 'right'", "'7771000': 'right', '24028007': 'left'"],
      ["if (left) return 'left';", "if (left) return 'right';"],
    ],
  },
  {
    harm: 'A marker or a skin check in a file is taken without the day or for a child that is not there.',
    file: 'src/exchange/csv/read-markers.ts',
    tests: [
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/round-trip.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [
      ['if (row.ok && birthDate) row.refuseFaults(', 'if (false) row.refuseFaults('],
      ["row.text('value') === '')", 'false)'],
    ],
  },
  {
    harm: 'A row of a file is taken for a child or a device that is not there.',
    file: 'src/exchange/csv/row-reader.ts',
    tests: [
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/other-formats.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [["if (id !== '' && found === null)", 'if (false)']],
  },
  {
    harm: 'A skin check of a day that cannot be, or of another child’s device, is taken from a file.',
    file: 'src/exchange/csv/read-skin-checks.ts',
    tests: [
      'tests/exchange/row-reader.test.ts',
      'tests/exchange/awkward-tables.test.ts',
      'tests/exchange/round-trip.test.ts',
      'tests/exchange/hostile-input.test.ts',
    ],
    changes: [['if (row.ok && birthDate)', 'if (false as boolean)']],
  },
  {
    harm: 'A reading of a sheet is dated by another column or lies in the future.',
    file: 'src/exchange/sheets/visit-dates.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts', 'tests/exchange/sheets/renderings.test.ts'],
    changes: [
      ['dateColumns.filter((c) => c.index < column.index).pop()', 'dateColumns[0]'],
      ['c.meaning.side === meaning.side', 'true'],
    ],
  },
  {
    harm: 'Two children that stand beside each other in a sheet are mixed up.',
    file: 'src/exchange/sheets/shapes/side-by-side.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts', 'tests/exchange/sheets/renderings.test.ts'],
    changes: [['if (start === undefined) continue;', 'if (start !== 0) continue;']],
  },
  {
    harm: 'A size in a sheet is read in the wrong unit.',
    file: 'src/exchange/sheets/usual-size.ts',
    tests: ['tests/exchange/sheets/sheets.test.ts', 'tests/exchange/sheets/renderings.test.ts'],
    changes: [
      ['size > usual / wide && size < usual * wide', 'true'],
      ['foot_length: 0.153', 'foot_length: 0.0153'],
    ],
  },
  {
    harm: 'A clinician reads that a device may be left alone, or the wrong day.',
    file: 'src/words/clinician-reason.ts',
    tests: [
      'tests/words/reason-sentence.test.ts',
      'tests/recall/safe-list.test.ts',
      'tests/pages/answers.test.tsx',
    ],
    changes: [
      ['A finding outranks every date: read what was seen in the record first.', 'The usual review.'],
      ['`Recorded as broken on ', '`Worn for long: '],
    ],
  },
];
