import type { MutationGroup } from '../mutation.js';

export const store: readonly MutationGroup[] = [
  {
    harm: 'A record, its corrections or its links are read and leave no row in the log',
    file: 'src/store/audit.ts',
    tests: ['tests/service/access-log.test.ts', 'tests/store/store.test.ts'],
    changes: [
      ['(Object.values(row))} from child)', '(Object.values(row))} from child where false)'],
      ["if (!rows[0].known) throw notFound('child');", ''],
    ],
  },
  {
    harm: 'what was entered is lost, or what should be gone stays',
    file: 'src/store/backup.ts',
    tests: ['tests/operations/backup.test.ts'],
    changes: [
      ['mode: 0o600', 'mode: 0o644'],
      ["  'skin_checks',\n  'workshop_jobs'", "  'workshop_jobs'"],
      ["  'sign_offs',\n", ''],
      ["  'tombstones',\n", ''],
      ["  'fit_limit_changes',\n  'sign", "  'sign"],
      ['digest.update(text);', ''],
      ["numbered.has(table) ? 'seq' : '1'", "'1'"],
    ],
  },
  {
    harm: 'a database that says nothing holds every page for minutes',
    file: 'src/store/connect.ts',
    tests: ['tests/store/lost-answers.test.ts'],
    name: 'an answer that does not come',
    changes: [['query_timeout: answersWithinMs', 'query_timeout: undefined']],
  },
  {
    harm: 'pages wait for what the night asks of the database',
    file: 'src/store/connect.ts',
    tests: ['tests/store/store.test.ts'],
    name: 'behind what pages ask',
    changes: [["if (goesLast) pool.on('connect', serverGoesLast);", '']],
  },
  {
    harm: 'Whoever saves a visit waits for a night’s write that waits for the processor.',
    file: 'src/store/open-store.ts',
    tests: ['tests/store/store.test.ts'],
    name: 'behind what pages ask',
    changes: [['open(WRITING_CONNECTIONS, false)', 'open(WRITING_CONNECTIONS, true)']],
  },
  {
    harm: 'A damaged copy is restored, or over what is there',
    file: 'src/store/restore.ts',
    tests: ['tests/operations/backup.test.ts'],
    changes: [
      ["  await tx.deleteFrom('secrets').execute();\n", ''],
      ["if (line.sha256 !== digest.digest('hex'))", 'if (false)'],
      ['await refuseUnlessEmpty(tx);', ''],
      ["if (!ended) throw damaged('its end is missing');", ''],
      ["if (sinceOne(line.migrations as string[], 'backup').some((m) => !own.has(m)))", 'if (false)'],
    ],
  },
  {
    harm: 'what another host has changed is not seen: limits, settings, who has signed',
    file: 'src/store/standing.ts',
    tests: ['tests/store/standing.test.ts'],
    changes: [
      ['const version = (await standing(db))[of];', 'const version = of;'],
      ['asked.delete(db);', ''],
    ],
  },
];
