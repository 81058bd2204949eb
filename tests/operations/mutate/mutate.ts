/**
 * Breaks, one at a time, the lines that keep a child safe, and runs the tests that should notice:
 *   npm run mutate                     all of them
 *   npm run mutate -- --only recall    those whose file's path has this in it; several with a comma between
 *   npm run mutate -- --list store     those of one list
 * A change that no test notices is a survivor and ends the run with 1, as do one whose text is no longer there and tests
 * that fail before anything is broken; the run goes on with the next. Works in a copy of the tree and on a database of its
 * own, so that a run that is stopped leaves nothing behind.
 */
import { fork } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { startOnePostgres } from '../../database/one-postgres.js';
import type { MutationGroup } from './mutation.js';
import { lists, mutations } from './mutations/index.js';
import type { Asked, Told } from './run-groups.js';

const { values } = parseArgs({
  options: { only: { type: 'string', default: '' }, list: { type: 'string', default: '' } },
});
const root = fileURLToPath(new URL('../../../', import.meta.url));
const copied = [
  'src',
  'tests',
  'charts',
  'models',
  'reference-data',
  'package.json',
  // A process that a test starts builds itself by these.
  'package-lock.json',
  'tsconfig.json',
  'vitest.config.ts',
];
/** An endless loop is noticed too; it is counted apart, since a busy machine looks the same. */
const LONGEST_MS = 240_000;

const asked = values.only.split(',');
const named = values.list === '' ? mutations : values.list.split(',').flatMap((name) => lists[name] ?? []);
const groups = named.filter((g) => asked.some((part) => g.file.includes(part)));
const copy = mkdtempSync(join(tmpdir(), 'doorpost-mutate-'));
for (const name of copied) cpSync(join(root, name), join(copy, name), { recursive: true });
// Packages are those that are there; what is built of broken sources stays in the copy.
mkdirSync(join(copy, 'node_modules'));
for (const name of readdirSync(join(root, 'node_modules')))
  if (name !== '.cache') symlinkSync(join(root, 'node_modules', name), join(copy, 'node_modules', name));

const survivors: string[] = [];
const gone: string[] = [];
const red: string[] = [];
let broken = 0;
let endless = 0;

function tell({ group, change, survived, red: failed }: Told, hung = false): void {
  const { file, harm, changes } = mutations[group] as MutationGroup;
  if (failed !== undefined) {
    red.push(`${file}: ${failed}`);
    console.log(`not green before ${file} was broken`);
    return;
  }
  const [from, to] = changes[change] as readonly [string, string];
  const line = `${file}: '${from}' -> '${to}'`.replaceAll(/\s+/g, ' ');
  if (survived) survivors.push(`${line} (${[harm].flat().join('; ')})`);
  broken++;
  if (hung) endless++;
  const ended = survived ? 'SURVIVED' : 'noticed ';
  console.log(`${hung ? 'no end  ' : ended} ${line}`);
}

/** The group of processes that runs tests now: it outlives this one unless it is ended too. */
let running: number | null = null;
/** It is this process's and not that group's, which is killed where tests hang. */
const database = await startOnePostgres();
process.env.TEST_POSTGRES_URL = database.url;
for (const signal of ['SIGINT', 'SIGTERM'] as const)
  process.on(signal, async () => {
    if (running !== null) process.kill(-running, 'SIGKILL');
    await database.stop();
    rmSync(copy, { recursive: true, force: true });
    process.exit(1);
  });

/** Runs groups from a change of the first on; answers where it hung, if it did. */
function run(asked: Asked): Promise<Told | null> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('run-groups.ts', import.meta.url)), [JSON.stringify(asked)], {
      execArgv: ['--import', 'tsx'],
      detached: true,
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    running = child.pid ?? null;
    let at: Told = { group: asked.groups[0] as number, change: asked.first - 1, survived: false };
    let hung = false;
    const stop = (): void => {
      hung = true;
      if (running !== null) process.kill(-running, 'SIGKILL');
    };
    let timer = setTimeout(stop, LONGEST_MS);
    child.on('message', (told: Told) => {
      clearTimeout(timer);
      timer = setTimeout(stop, LONGEST_MS);
      at = told;
      tell(told);
    });
    child.on('exit', (code) => {
      clearTimeout(timer);
      running = null;
      if (hung) resolve(nextOf(at, asked.groups));
      else if (code === 0) resolve(null);
      else reject(new Error('vitest ended'));
    });
  });
}

/** The change after this one. */
function nextOf({ group, change }: Told, all: readonly number[]): Told {
  const more = change + 1 < (mutations[group] as MutationGroup).changes.length;
  return more
    ? { group, change: change + 1, survived: false }
    : { group: all[all.indexOf(group) + 1] as number, change: 0, survived: false };
}

try {
  for (const { file, changes } of groups) {
    const whole = readFileSync(join(copy, file), 'utf8');
    for (const [from] of changes) if (whole.split(from).length !== 2) gone.push(`${file}: '${from}'`);
  }
  let left = groups.map((g) => mutations.indexOf(g));
  for (let first = 0; left.length > 0; ) {
    const hung = await run({ copy, groups: left, first });
    if (hung === null) break;
    tell(hung, true);
    const { file } = mutations[hung.group] as MutationGroup;
    cpSync(join(root, file), join(copy, file));
    const next = nextOf(hung, left);
    left = left.slice(left.indexOf(next.group));
    if (next.group === undefined) break;
    first = next.change;
  }
} finally {
  await database.stop();
  rmSync(copy, { recursive: true, force: true });
}
console.log(
  `${broken - survivors.length} of ${broken} changes noticed, ${endless} of them by tests that did not end.`,
);
for (const survivor of survivors) console.log(`Survivor: ${survivor}`);
for (const failed of red) console.log(`Not green before anything was broken: ${failed}`);
for (const text of gone) console.log(`Not there once, to be written anew: ${text}`);
process.exitCode = survivors.length + gone.length + red.length > 0 ? 1 : 0;
