import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Command } from 'commander';
import { expect, test } from 'vitest';
import { caseloadCommands } from '../src/commands/caseload-commands.js';
import { DEADLINE_MS, GRACE_SECONDS } from '../src/commands/close-service.js';
import { exitCodes } from '../src/commands/exit-codes.js';
import { serviceCommands } from '../src/commands/service-commands.js';
import { studyCommands } from '../src/commands/study-commands.js';
import { MOST_LINES } from '../src/exchange/parse-caseload.js';
import { DAYS_TO_FITTING } from '../src/exchange/sheets/devices/device-dates.js';
import { FADES_WITHIN_MINUTES } from '../src/records/skin-check.js';
import { configuration } from '../src/service/configuration.js';
import { KEEP_DRY_RUNS_DAYS, MORNING_HOUR } from '../src/service/jobs/run-worker.js';
import { uploadLimits } from '../src/service/uploads/read-multipart.js';
import { MOST_RECORDS } from '../src/service/uploads/reader-process.js';
import { readerLimits } from '../src/service/uploads/upload-reader.js';
import { ANSWERS_WITHIN_MS } from '../src/store/open-store.js';
import { benchTable } from './bench/measure.js';

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

test('every folder, table and constant of the code that the guide for contributors names is there', () => {
  const named = [
    ...read('DEVELOPERS.md').matchAll(/`((?:[\w.-]+\/)+|[\w./-]+\.(?:csv|json|sql)|[A-Z]+_[A-Z_]+)`/g),
  ];
  const code = execFileSync('git', ['grep', '-hoE', '[A-Z]+_[A-Z_]+', '--', 'src'], {
    cwd: root,
    encoding: 'utf8',
  });
  const constants = new Set(code.split('\n'));
  const madeByPeople = ['../shared/data', 'models/<name>/'];
  const missing = named
    .map(([, name]) => name)
    .filter((name) => !madeByPeople.includes(name) && !constants.has(name))
    .filter((name) => !files.some((file) => `/${file}`.includes(`/${name}`)));
  expect(named.length).toBeGreaterThan(30);
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

/** A document as one line, so that a figure is found wherever its line breaks. */
const flat = (file: string) => read(file).replace(/\s+/g, ' ');

/** Every figure that the guides tell, in the words they tell it, out of what it comes from. */
function figuresOfTheGuides(): string[] {
  const shipped = configuration({
    OIDC_ISSUER: 'https://sign-in.example',
    OIDC_CLIENT_ID: 'doorpost',
    OIDC_CLIENT_SECRET: 'of the test only',
    PUBLIC_URL: 'https://clinic.example',
  });
  const upload = uploadLimits.bytes / 1024 / 1024;
  const { linter } = JSON.parse(read('biome.json'));
  const { noExcessiveLinesPerFunction: lines, noExcessiveCognitiveComplexity: complexity } =
    linter.rules.complexity;
  const oldest = files
    .map((file) => /^tests\/store\/schema-at-(\d+)\.sql$/.exec(file)?.[1])
    .find((number) => number !== undefined);
  const image = JSON.parse(read('tests/operations/image.json'));
  return [
    `redness that does not fade within ${FADES_WITHIN_MINUTES}-30 minutes`,
    `its cast is taken as ${DAYS_TO_FITTING} days before it`,
    `(${shipped.host}:${shipped.port})`,
    `\`SESSION_HOURS\` (${shipped.sessionHours})`,
    `\`SESSION_IDLE_MINUTES\` (${shipped.sessionIdleMinutes})`,
    `\`OIDC_RECHECK_MINUTES\` (${shipped.oidc?.recheckMinutes})`,
    `An upload may have ${upload} MiB and ${MOST_RECORDS.toLocaleString('en')} records, a clinic's own list ${MOST_LINES.toLocaleString('en')} lines`,
    `ends at once with status ${exitCodes.failed} and`,
    `a function of \`src\` over ${lines.options.maxLines} lines, or of a cognitive complexity over ${complexity.options.maxAllowedComplexity}`,
    `with at most ${readerLimits.memoryMebibytes / 1024} GiB`,
    `is deleted after ${KEEP_DRY_RUNS_DAYS} days`,
    `A server that says nothing for ${ANSWERS_WITHIN_MS / 1000} s`,
    `${image.on}, ${image.with}: ${image.megabytes} MB`,
    `from any version since ${oldest} (tested)`,
    `no list since ${String(MORNING_HOUR).padStart(2, '0')}:00`,
    `answered within ${GRACE_SECONDS} s, jobs go back, all is gone within ${Math.ceil(DEADLINE_MS / 1000)} s`,
    `let bodies of ${upload + 1} MiB pass and answers take ${readerLimits.seconds} s`,
  ];
}

/** Names with a figure in them, and examples, which nothing measures. */
const NAMED =
  /Node(?:\.js)? (?:20|22)|FHIR R4|\bR4\b|OWASP ASVS level 2|80 % (?:prediction|time)|Apache-2\.0|at 7\.4 years|'6 mm past the toes'|if 4 mm or less|99999 mm|of a 404|get 503|200, or 503|any 500|1440, 900 and 390 px|as user 1000|\d{4}-\d\d-\d\d|\d+ November 2026|\b0\.1\.0|11\.0\.2|6\.6\.0|Kysely 0\.29|; 11 and later|commander 15/g;

test('every figure of the guides is that of the program or of a report that is kept', () => {
  const told = figuresOfTheGuides();
  const text = guides.map(flat).join(' ');
  expect(told.filter((figure) => !text.includes(figure))).toEqual([]);
  // Nothing else in their sentences is a figure: code, the table of the bench and names aside.
  const sentences = guides
    .map((guide) =>
      read(guide).replace(/<!-- measured[\s\S]*<!-- end of measured -->|^(?: {4}|!\[).*$/gm, ''),
    )
    .join(' ')
    .replace(/\s+/g, ' ');
  const rest = told
    .reduce((left, figure) => left.replaceAll(figure, ''), sentences)
    .replace(/`[^`]*`|\]\([^)]*\)/g, '')
    .replace(NAMED, '');
  expect(rest.match(/.{0,40}\d.{0,20}/g) ?? []).toEqual([]);
});

test('the table of speeds is what the bench wrote', () => {
  expect(read('DEVELOPERS.md')).toContain(benchTable(JSON.parse(read('tests/bench/measured.json'))));
});

test('the figures told of the policies are those of their report', () => {
  const { atEqualVisits, bestInWords, children: simulated } = JSON.parse(read('models/policies/report.json'));
  const ratio = (policy: string) =>
    `${Math.round(100 * atEqualVisits.find((c: { policy: string }) => c.policy.includes(policy)).ratio)} %`;
  for (const told of [
    `${simulated} growing children`,
    `the shipped one has ${ratio('(shipped)')} of the weighted days`,
    `20 % accepted has ${ratio('20 %')}`,
    bestInWords,
  ])
    expect(flat('models/policies/README.md').replaceAll(' > ', ' ')).toContain(told);
});
