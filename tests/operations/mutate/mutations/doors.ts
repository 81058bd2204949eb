import type { MutationGroup } from '../mutation.js';

const hostile = ['tests/exchange/hostile-input.test.ts'];
const workbooks = ['tests/exchange/xlsx/read-sheets.test.ts'];
const uploads = ['tests/service/uploads.test.ts'];

/** What keeps strangers, broken files and a full machine from a clinic's records. */
export const doors: readonly MutationGroup[] = [
  {
    harm: 'a resource that is not as FHIR R4 says ends the reading with an error nobody understands',
    file: 'src/exchange/fhir/read-resources.ts',
    tests: hostile,
    changes: [['checkResource(type, value)', '(value as never as ReadResource | readonly never[])']],
  },
  {
    harm: 'a cell of an export runs as a formula in a spreadsheet',
    file: 'src/exchange/csv/row-reader.ts',
    tests: hostile,
    changes: [['return RUN.test(text) ?', 'return false ?']],
  },
  {
    harm: 'a workbook of a few kilobytes fills the memory',
    file: 'src/exchange/xlsx/read-sheets.ts',
    tests: workbooks,
    changes: [
      ['if (column > limits.columns)', 'if (false)'],
      ['if (characters > limits.characters)', 'if (false)'],
      ['if (cells + Math.max(column, ++filled) > limits.cells)', 'if (false)'],
      ['if (rows > limits.rows)', 'if (false)'],
      ['if (parts.sheets.length > limits.sheets)', 'if (false)'],
    ],
  },
  {
    harm: 'a packed file unpacks until the machine is full',
    file: 'src/exchange/xlsx/open-archive.ts',
    tests: workbooks,
    changes: [
      ['if (bytes.length > limits.fileBytes)', 'if (false)'],
      ['uncompressedSize > limits.ratio * Math.max(1, compressedSize)', 'false'],
      ['if (unpacked > limits.unpackedBytes)', 'if (false)'],
    ],
  },
  {
    harm: 'a chart that warns of something takes the child’s page away',
    file: 'src/app.ts',
    tests: ['tests/service/chart-warning.test.ts'],
    changes: [['  hearChartWarnings((words)', '  ((_: unknown) => {})((words: string)']],
  },
  {
    harm: 'uploads fill the memory or the disk of the web server',
    file: 'src/service/uploads/read-multipart.ts',
    tests: uploads,
    name: 'bodies',
    changes: [
      ['if (length > most) throw tooLarge();', ''],
      ['    refuseAnnounced(request);', ''],
      ['void removeUploadFolder(folder)', 'undefined'],
    ],
  },
  {
    harm: 'a service that is being stopped leaves people without an answer they could act on',
    file: 'src/service/refuse-while-stopping.ts',
    tests: uploads,
    name: 'begun before a stop',
    changes: [['    stopping = true;', '']],
  },
  {
    harm: 'who looked at a child can be wiped out',
    file: 'src/store/migrations/0001-ground-state.ts',
    tests: ['tests/service/access-log.test.ts'],
    name: 'rows of the log',
    changes: [["  'audit',\n", '']],
  },
  {
    harm: 'who looked at a child can be wiped out by the role of the service',
    file: 'src/store/migrations/0005-doors.ts',
    tests: ['tests/service/access-log.test.ts'],
    name: 'rows of the log',
    changes: [['revoke update, delete, truncate on audit from current_user, public;', '']],
  },
  {
    harm: 'a database that says nothing holds every page for minutes',
    file: 'src/store/connect.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'an answer that does not come',
    changes: [['query_timeout: answersWithinMs', 'query_timeout: undefined']],
  },
  {
    harm: 'work stands still for a day after a clock was put right',
    file: 'src/store/work/take-jobs.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'a job written while the clock',
    changes: [['await afterClockJump(connection);', '']],
  },
];
