import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Command } from 'commander';
import { expect, test } from 'vitest';
import { caseloadCommands } from '../src/commands/caseload-commands.js';
import { serviceCommands } from '../src/commands/service-commands.js';
import { studyCommands } from '../src/commands/study-commands.js';
import { configuration } from '../src/service/configuration.js';
import { KEEP_DRY_RUNS_DAYS } from '../src/service/jobs/run-worker.js';
import { uploadLimits } from '../src/service/uploads/read-multipart.js';
import { MOST_RECORDS } from '../src/service/uploads/reader-process.js';

// What a document promises must be there: files and folders, scripts, commands and their options, pictures.
const root = fileURLToPath(new URL('../', import.meta.url));
const read = (file: string) => readFileSync(join(root, file), 'utf8');
const files = execFileSync('git', ['ls-files'], { cwd: root, encoding: 'utf8' })
  .trim()
  .split('\n')
  .filter((file) => existsSync(join(root, file)));
const guides = ['README.md', 'DEVELOPERS.md'];

/** The text of a file that people read: a document whole, of code only its comments. */
function prose(file: string): string {
  if (file.endsWith('.md')) return read(file);
  return (read(file).match(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm) ?? []).join('\n');
}

test('every source file or document that a comment or a document names is in the repository', () => {
  const known = (name: string, from: string) =>
    files.some((file) => file === name || file.endsWith(`/${name}`)) ||
    files.includes(normalize(join(dirname(from), name)));
  const missing = files
    .filter((file) => /\.(ts|tsx|mjs|md)$/.test(file))
    .flatMap((file) =>
      [...prose(file).matchAll(/(?<![\w./@:-])((?:[\w.@-]+\/)*[\w-]+\.(?:ts|tsx|mjs|md))\b/g)]
        .filter(([, name]) => !known(name, file))
        .map(([, name]) => `${file}: ${name}`),
    );
  expect(missing).toEqual([]);
});

test('every picture and page a document leads to is there', () => {
  const missing = files
    .filter((file) => file.endsWith('.md'))
    .flatMap((file) =>
      [...read(file).matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)]
        .filter(([, to]) => !/^https?:/.test(to))
        .filter(([, to]) => !existsSync(join(root, dirname(file), to)))
        .map(([, to]) => `${file}: ${to}`),
    );
  expect(missing).toEqual([]);
});

test('every script the guides run is one of package.json', () => {
  const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
  const named = guides.flatMap((guide) =>
    [...read(guide).matchAll(/npm run ([\w:-]+)/g)].map(([, name]) => name),
  );
  expect(named.length).toBeGreaterThan(5);
  expect(named.filter((name) => !(name in scripts))).toEqual([]);
});

test('every command and option the guides show is one of the command line', () => {
  const program = new Command('doorpost');
  const load = (() => async () => undefined) as never;
  for (const add of [caseloadCommands, studyCommands, serviceCommands]) add(program, load);
  const unknown = guides.flatMap((guide) =>
    [...read(guide).matchAll(/(?:npx doorpost|npm run (?:fit|backtest) --) *(.*)/g)].flatMap(
      ([line, rest]) => {
        const script = /npm run (fit|backtest)/.exec(line)?.[1];
        const words = [...(script ? [script] : []), ...rest.split(/[`#]/)[0].trim().split(/\s+/)];
        let command = program;
        for (const word of words) {
          const next = command.commands.find((c) => c.name() === word || c.aliases().includes(word));
          if (!next) break;
          command = next;
        }
        if (command === program) return [line];
        return words
          .filter((word) => word.startsWith('--') && !command.options.some((option) => option.long === word))
          .map((word) => `${line}: ${word}`);
      },
    ),
  );
  expect(unknown).toEqual([]);
});

test('the figures of settings and limits that the guides tell are those of the program', () => {
  const shipped = configuration({
    OIDC_ISSUER: 'https://sign-in.example',
    OIDC_CLIENT_ID: 'doorpost',
    OIDC_CLIENT_SECRET: 'of the test only',
    PUBLIC_URL: 'https://clinic.example',
  });
  const told = read('README.md') + read('DEVELOPERS.md');
  for (const figure of [
    `(${shipped.host}:${shipped.port})`,
    `\`SESSION_HOURS\` (${shipped.sessionHours})`,
    `\`SESSION_IDLE_MINUTES\` (${shipped.sessionIdleMinutes})`,
    `\`OIDC_RECHECK_MINUTES\` (${shipped.oidc?.recheckMinutes})`,
    `An upload may have ${uploadLimits.bytes / 1024 / 1024} MiB and ${MOST_RECORDS.toLocaleString('en')} records`,
    `let bodies of ${uploadLimits.bytes / 1024 / 1024 + 1} MiB pass`,
    `is deleted after ${KEEP_DRY_RUNS_DAYS} days`,
  ])
    expect(told).toContain(figure);
});

test('the figures that the documents tell of a kept report are those of the report', () => {
  const flat = (file: string) => read(file).replace(/\s+/g, ' ');
  const { children, reading, visits } = JSON.parse(read('models/evidence/report.json'));
  const [none, one, two] = visits.map((v: { medianErrorDays: number }) => v.medianErrorDays);
  for (const told of [
    `on ${children} invented children`,
    `promised to narrow the dates from ${reading.beforeDays} to ${reading.promisedDays} days, and did to ${reading.afterDays} (standard error ${reading.seDays})`,
    `from ${none} to ${one} days, a second one to ${two}`,
  ])
    expect(flat('README.md')).toContain(told);
  const { atEqualVisits, children: simulated } = JSON.parse(read('models/policies/report.json'));
  const ratio = (policy: string) =>
    `${Math.round(100 * atEqualVisits.find((c: { policy: string }) => c.policy.includes(policy)).ratio)} %`;
  for (const told of [
    `${simulated} growing children`,
    `the shipped one has ${ratio('(shipped)')} of the weighted days`,
    `20 % accepted has ${ratio('20 %')}`,
  ])
    expect(flat('models/policies/README.md')).toContain(told);
});
