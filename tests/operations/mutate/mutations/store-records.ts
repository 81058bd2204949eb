import type { MutationGroup } from '../mutation.js';

const words = [
  'tests/words',
  'tests/pages',
  'tests/safety',
  'tests/store/store.test.ts',
  'tests/service/doors.test.ts',
  'tests/service/api.test.ts',
  'tests/service/page-forms.test.ts',
  'tests/service/replanning.test.ts',
  'tests/service/refusals.test.ts',
  'tests/service/small-clinics.test.ts',
  'tests/service/access-log.test.ts',
];

const kept = [
  'tests/store/store.test.ts',
  'tests/service/refusals.test.ts',
  'tests/service/api.test.ts',
  'tests/service/page-forms.test.ts',
];

export const storeRecords: readonly MutationGroup[] = [
  {
    harm: [
      'an erased child comes back, or one who moved away is on the list',
      'A reading or a change leaves no row in the log',
    ],
    file: 'src/store/records/children.ts',
    tests: words,
    changes: [
      ['      await refuseTombstone(tx, [child.id]);\n', ''],
      ["search.status ?? 'active'", "search.status ?? 'any'"],
      ['change.birthDate ? (await firstEntries(tx, [childId])).get(childId) : undefined', 'undefined'],
      ["await writeAudit(db, actor, 'read', 'child', { childId });", ''],
      ["await writeAudit(db, actor, 'list', 'children', { childIds: found.items.map((c) => c.id) });", ''],
      ["await writeAudit(db, actor, 'list', 'children', { childIds: rows.map((r) => r.id) });", ''],
      [
        "await writeAudit(tx, actor, 'change', 'child', { childId, fields: Object.keys(change), version });",
        '',
      ],
      ["await writeAudit(tx, actor, 'create', 'child', { childId: child.id });", ''],
    ],
  },
  {
    harm: 'of a child that was erased something stays, or an import taken back removes what was built on it',
    file: 'src/store/records/delete-child.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [", 'record_history'] as const", '] as const'],
      ["'forecast_history', ", ''],
      [", 'family_questions'] as const", '] as const'],
      ["['recall_state_changes', ", '['],
      ["'family_links', ", ''],
      ['count(distinct id)', 'count(id)'],
      ['caseloadParts.toReversed()', 'caseloadParts'],
    ],
  },
  {
    harm: 'what was entered is lost, or what should be gone stays',
    file: 'src/store/records/erase-child.ts',
    tests: ['tests/store/store.test.ts'],
    name: 'store',
    changes: [
      [
        ".updateTable('idempotency_keys').set({ body: null })",
        ".updateTable('idempotency_keys').set({ method: 'x' } as never)",
      ],
      [
        "tx.deleteFrom('import_rows').where('import_id', 'in', waiting)",
        "tx.deleteFrom('import_rows').where('part', '=', 'x')",
      ],
      ['JSON.stringify(NO_WORDS)', "'{}'"],
      [
        ".insertInto('tombstones').values({ child_id: childId",
        ".insertInto('tombstones').values({ child_id: 'another'",
      ],
    ],
  },
  {
    harm: 'of a child that was erased something stays',
    file: 'src/store/records/erase-child.ts',
    tests: ['tests/store/store.test.ts', 'tests/service/api.test.ts'],
    changes: [
      [
        ".updateTable('idempotency_keys').set({ body: null }).where('body', 'is not', null)",
        ".updateTable('idempotency_keys').set({ body: null }).where('body', 'is', null)",
      ],
      ['kept: false, files: null', 'kept: false'],
    ],
  },
  {
    harm: 'an entry taken back or dated anew leaves the device worn or retired',
    file: 'src/store/records/events.ts',
    tests: words,
    changes: [
      ['if (isRetired !== (after === null)) return device;', 'return device;'],
      [": { ...device, status: 'ordered', fittedDate: null };", ': device;'],
      ["status: 'worn', fittedDate: after.date", "status: 'worn', fittedDate: device.castDate"],
    ],
  },
  {
    harm: 'a device that cannot be is kept, or over what somebody else changed',
    file: 'src/store/records/devices.ts',
    tests: kept,
    changes: [
      ['refuse(deviceFaults(device, {', 'void (deviceFaults(device, {'],
      ['refuse(deviceFaults(value, {', 'void (deviceFaults(value, {'],
      ['refuseStale(expected, before.version);', ''],
    ],
  },
  {
    harm: 'a second child or device takes the number of the first, or a change is laid over another',
    file: 'src/store/records/in-place.ts',
    tests: kept,
    changes: [
      ['if (!added)', 'if (false)'],
      ['const version = before + 1;', 'const version = before;'],
    ],
  },
  {
    harm: 'a job is dated as it cannot be, or over what somebody else said of it',
    file: 'src/store/records/workshop-jobs.ts',
    tests: kept,
    changes: [
      ['refuse(workshopJobFaults(', 'void (workshopJobFaults('],
      ['refuseStale(expected, before?.version ?? 0);', ''],
    ],
  },
  {
    harm: 'A visit moved to its right day leaves its skin checks or judgements behind',
    file: 'src/store/records/visits.ts',
    tests: words,
    changes: [
      ['(await move(skinCheckKind))', '0'],
      ["({ kind }) => kind === 'verdict'", "({ kind }) => kind !== 'verdict'"],
    ],
  },
  {
    harm: 'A correction writes what may not be entered, or over what somebody else corrected',
    file: 'src/store/records/revised.ts',
    tests: kept,
    changes: [
      ['if (!withdrawn) opened.refuseFaults(', 'if (false) opened.refuseFaults('],
      ['refuseStale(expected, last.revision);', ''],
      ['birthDateOf: () => child.birthDate', "birthDateOf: () => '0000-01-01'"],
      ['deviceOf: () => device?.value', 'deviceOf: () => undefined'],
      ['if (device !== null) await kind.follow', 'if (false) await kind.follow'],
      ['withdrawn: before.withdrawn', 'withdrawn: false'],
    ],
  },
  {
    harm: [
      'who rings the family does not see that its skin cannot warn, or sees a diagnosis',
      'what a record says is read wrongly',
      'A scheduler reads diagnoses and notes',
      'who does not see the diagnosis does not see what it means for the hands',
    ],
    file: 'src/store/records/visible-to.ts',
    tests: words,
    changes: [
      ['conditions: [],', ''],
      ['palliative: false,', 'palliative: false, insensateSkin: false,'],
      ['palliative: false,', 'palliative: false, latexAlert: false,'],
      ['markers: [],', ''],
      ['skinChecks: [],', ''],
      ["({ ...e, note: '' })", '({ ...e })'],
      ['gestationWeeks: null,', ''],
      ["affectedSide: 'none',\n", ''],
      ['({ ...d, extra: {} })', 'd'],
      ['    palliative: false,\n', ''],
      ["note: ''", 'note: e.note'],
      ['latexAlert: avoidsLatex(child),', ''],
    ],
  },
];
