import type { MutationGroup } from '../mutation.js';

const store = [
  'tests/store/store.test.ts',
  'tests/service/doors.test.ts',
  'tests/service/api.test.ts',
  'tests/service/page-forms.test.ts',
  'tests/service/replanning.test.ts',
  'tests/service/refusals.test.ts',
  'tests/service/small-clinics.test.ts',
  'tests/service/access-log.test.ts',
];

export const storeWork: readonly MutationGroup[] = [
  {
    harm: 'the same write is done twice, or the answer to another request is given',
    file: 'src/store/work/idempotency.ts',
    tests: store,
    changes: [['kept.request_hash !== requestHash', 'false']],
  },
  {
    harm: 'A family of a child who died is called',
    file: 'src/store/work/recall-briefs.ts',
    tests: ['tests/store/store.test.ts'],
    changes: [["'active'", "'discharged'"]],
  },
  {
    harm: 'a word that was taken back is taken back once more, and the call made is forgotten',
    file: 'src/store/work/recall-entry-rows.ts',
    tests: store,
    changes: [
      ['\n  and not exists (select 1 from recall_state_changes u where u.undoes_seq = s.seq)', ''],
      ['s.undoes_seq is null\n  and', ''],
    ],
  },
  {
    harm: 'A list shows children who died or moved away since it was made',
    file: 'src/store/work/recall.ts',
    tests: store,
    changes: [
      ["query.where('c.status', '=', 'active').orderBy", 'query.orderBy'],
      ['appointment: last.from_appointment, undoes', 'appointment: before.appointment, undoes'],
      ['refuseStale(expected, before.version);', ''],
    ],
  },
  {
    harm: 'an import taken back removes what people entered since',
    file: 'src/store/work/take-back-import.ts',
    tests: store,
    changes: [
      ["? 'revision > 1' : 'version > 1'", "? 'revision > 9' : 'version > 9'"],
      [' or not id = any', ' and not id = any'],
      ['from family_questions q where q.device_id = d.id', 'from family_questions q where false'],
      ['from skin_checks s where s.device_id = d.id', 'from skin_checks s where false'],
      ['if (row.revision > 1) corrected++;', 'if (row.revision > 9) corrected++;'],
      ['{ withdrawn: true, reason: TAKEN_BACK }', '{ reason: TAKEN_BACK }'],
    ],
  },
  {
    harm: 'work stands still for a day after a clock was put right',
    file: 'src/store/work/take-jobs.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'a job written while the clock',
    changes: [['await afterClockJump(connection);', '']],
  },
];
