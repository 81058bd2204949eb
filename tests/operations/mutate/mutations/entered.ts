import type { MutationGroup } from '../mutation.js';

const service = [
  'tests/store/store.test.ts',
  'tests/service/doors.test.ts',
  'tests/service/api.test.ts',
  'tests/service/page-forms.test.ts',
  'tests/service/replanning.test.ts',
  'tests/service/refusals.test.ts',
  'tests/service/small-clinics.test.ts',
  'tests/service/access-log.test.ts',
];

/** What is entered and kept: checks of a record, rows of the store, who may see and change them. */
export const entered: readonly MutationGroup[] = [
  {
    harm: 'A size, a date or a side that cannot be is taken and a forecast is made of it.',
    file: 'src/records/check/marker-faults.ts',
    tests: ['tests/records/check.test.ts', 'tests/service/refusals.test.ts'],
    changes: [
      ["'pelvis-stage': { min: 0, max: 5,", "'pelvis-stage': { min: 0, max: 50,"],
      ['(whole && !Number.isInteger(value))', 'false'],
      ['from: birthDate, since', "from: '0001-01-01', since"],
    ],
  },
  {
    harm: 'A device is fitted before its cast, or has room nobody can give.',
    file: 'src/records/check/device-faults.ts',
    tests: ['tests/records/check.test.ts', 'tests/service/refusals.test.ts'],
    changes: [
      ['from: device.castDate,', 'from: birthDate,'],
      ['!fit.sides.includes(device.side)', 'fit.sides.length === 0'],
    ],
  },
  {
    harm: 'A judgement is kept for the other leg, or for a size the device does not limit.',
    file: 'src/records/check/event-faults.ts',
    tests: ['tests/records/check.test.ts', 'tests/service/refusals.test.ts'],
    changes: [
      ["device.side === 'none' || device.side === side;", "device.side === 'none' || device.side !== side;"],
      ['limiting && !limiting.includes(event.measure)', 'limiting && limiting.length === 0'],
      ['!measures[measure].sided)', 'false)'],
    ],
  },
  {
    harm: 'A stage of the workshop is dated before the one before it and the turnaround is wrong.',
    file: 'src/records/check/workshop-job-faults.ts',
    tests: ['tests/records/check.test.ts', 'tests/service/refusals.test.ts'],
    changes: [['[from, since] = [date,', '[from, since] = [from,']],
  },
  {
    harm: 'A skin check is kept for a device of another child.',
    file: 'src/records/check/skin-check-faults.ts',
    tests: ['tests/records/check.test.ts', 'tests/service/refusals.test.ts'],
    changes: [['device?.childId !== check.childId', 'device === null']],
  },
  {
    harm: 'Sizes in inches or pounds, and shoe sizes, come in a few per cent wrong.',
    file: 'src/records/shoe-size.ts',
    tests: ['tests/records/shoe-size.test.ts'],
    changes: [
      ['LAST_BEYOND_FOOT_MM = 15', 'LAST_BEYOND_FOOT_MM = 5'],
      ['child: 10, adult: 23', 'child: 9, adult: 23'],
    ],
  },
  {
    harm: 'A scheduler reads diagnoses and notes.',
    file: 'src/store/records/visible-to.ts',
    tests: ['tests/safety/who-sees-what.test.tsx', ...service],
    changes: [
      ['    palliative: false,\n', ''],
      ['    markers: [],\n', ''],
      ["note: ''", 'note: e.note'],
      ['    skinChecks: [],\n', ''],
    ],
  },
  {
    harm: 'An entry taken back or dated anew leaves the device worn or retired.',
    file: 'src/store/records/events.ts',
    tests: service,
    changes: [
      ['if (isRetired !== (after === null)) return device;', 'return device;'],
      [": { ...device, status: 'ordered', fittedDate: null };", ': device;'],
      ["status: 'worn', fittedDate: after.date", "status: 'worn', fittedDate: device.castDate"],
    ],
  },
  {
    harm: 'A correction writes what may not be entered, or over what somebody else corrected.',
    file: 'src/store/records/revised.ts',
    tests: service,
    changes: [
      ['if (!withdrawn) refuse(', 'if (false) refuse('],
      ['refuseStale(expected, last.revision);', ''],
    ],
  },
  {
    harm: 'A visit moved to its right day leaves its skin checks or judgements behind.',
    file: 'src/store/records/move-visit.ts',
    tests: service,
    changes: [
      ['(await move(skinCheckKind))', '0'],
      ["({ kind }) => kind === 'verdict'", "({ kind }) => kind !== 'verdict'"],
    ],
  },
  {
    harm: 'An erased child comes back, or one who moved away is on the list.',
    file: 'src/store/records/children.ts',
    tests: service,
    changes: [
      ['      await refuseTombstone(tx, [child.id]);\n', ''],
      ["search.status ?? 'active'", "search.status ?? 'any'"],
      ['change.birthDate ? (await firstEntries(tx, [childId])).get(childId) : undefined', 'undefined'],
    ],
  },
  {
    harm: 'A family answers for another child, or twice.',
    file: 'src/store/people/family-questions.ts',
    tests: service,
    changes: [
      ['if (device.childId !== childId)', 'if (false)'],
      ["        .where('answered_at', 'is', null)\n        .returningAll()", '        .returningAll()'],
      ["      .where('c.status', '=', 'active')\n", ''],
    ],
  },
  {
    harm: 'Whoever moved away is rung up; a word taken back leaves the child off the lists.',
    file: 'src/service/set-recall-state.ts',
    tests: service,
    changes: [
      ["if (change.state === 'moved-away')", 'if (false)'],
      ["if (child.status === 'moved-away')", 'if (false)'],
      ['if (day < today)', 'if (day > today && false)'],
      ['placesOn(clinicWeekOf(settings), day) === 0', 'false'],
    ],
  },
  {
    harm: 'A list shows children who died or moved away since it was made.',
    file: 'src/store/work/recall.ts',
    tests: service,
    changes: [
      ["query.where('c.status', '=', 'active').orderBy", 'query.orderBy'],
      ['appointment: last.from_appointment, undoes', 'appointment: before.appointment, undoes'],
      ['refuseStale(expected, before.version);', ''],
    ],
  },
  {
    harm: 'An import taken back removes what people entered since.',
    file: 'src/store/work/take-back-import.ts',
    tests: service,
    changes: [
      ["? 'revision > 1' : 'version > 1'", "? 'revision > 9' : 'version > 9'"],
      [' or not id = any', ' and not id = any'],
      [
        "const BUILT = ['recall_state_changes', 'family_links'] as const;",
        "const BUILT = ['family_links'] as const;",
      ],
      ['if (row.revision > 1) corrected++;', 'if (row.revision > 9) corrected++;'],
    ],
  },
  {
    harm: 'The same write is done twice, or the answer to another request is given.',
    file: 'src/store/work/idempotency.ts',
    tests: service,
    changes: [['kept.request_hash !== requestHash', 'false']],
  },
  {
    harm: 'Somebody with a first password set by another reads records before changing it.',
    file: 'src/service/access.ts',
    tests: service,
    changes: [['if (request.user.passwordByOther && ', 'if (false && ']],
  },
  {
    harm: 'A child can be recognised in an export for research.',
    file: 'src/service/pseudonymised-export.ts',
    tests: ['tests/safety/pseudonymised-export.test.ts', 'tests/service/api.test.ts'],
    changes: [
      ['SMALLEST_CELL = 5', 'SMALLEST_CELL = 2'],
      ['addDaysIso(m.date, shiftOf(child.id))', 'm.date'],
      ['addDaysIso(d.castDate, shiftOf(child.id))', 'd.castDate'],
    ],
  },
  {
    harm: 'A scheduler changes a birth date or a diagnosis.',
    file: 'src/records/child-fields.ts',
    tests: ['tests/service/api.test.ts'],
    name: 'lets a scheduler change contact',
    changes: [["birthDate: { part: 'child'", "birthDate: { part: 'reach'"]],
  },
  {
    harm: 'The next device is cast for the other side, or its job is never closed.',
    file: 'src/service/cast-next.ts',
    tests: ['tests/service/api.test.ts'],
    name: 'casts the next one',
    changes: [
      ['      limitsMm: {},\n', '      limitsMm: before.limitsMm,\n'],
      ['replaces: deviceId,', 'replaces: null,'],
      ["fit: event.date }, status: 'fitted'", "fit: event.date }, status: 'in-progress'"],
      ["if (status !== 'ordered')", 'if (false)'],
    ],
  },
];
