/**
 * Breaks, one at a time, the lines that keep a child safe, and runs the tests that should notice:
 *   npm run mutate                     all of them
 *   npm run mutate -- --only recall    those whose file's path has this in it; several with a comma between
 * A change that no test notices is a survivor and ends the run with 1, as does one whose text is no longer there. Works in a copy of the tree, so that a run that
 * is stopped leaves nothing broken behind.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { MutationGroup } from './mutation.js';
import { mutations } from './mutations/index.js';

const { values } = parseArgs({ options: { only: { type: 'string', default: '' } } });
const root = fileURLToPath(new URL('../../../', import.meta.url));
const copied = ['src', 'tests', 'charts', 'models', 'reference-data', 'package.json', 'tsconfig.json'];
/** An endless loop is noticed too. */
const LONGEST_MS = 240_000;

const asked = values.only.split(',');
const groups = mutations.filter((g) => asked.some((part) => g.file.includes(part)));
const copy = mkdtempSync(join(tmpdir(), 'doorpost-mutate-'));
for (const name of [...copied, 'vitest.config.ts'])
  cpSync(join(root, name), join(copy, name), { recursive: true });
symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));

/** Do these tests all pass? */
function pass({ tests, name }: Pick<MutationGroup, 'tests' | 'name'>): boolean {
  const vitest = join(copy, 'node_modules/vitest/vitest.mjs');
  const only = name === undefined ? [] : ['-t', name];
  const run = spawnSync('node', [vitest, 'run', '--bail', '1', '--reporter', 'dot', ...only, ...tests], {
    cwd: copy,
    timeout: LONGEST_MS,
    killSignal: 'SIGTERM',
  });
  return run.status === 0;
}

const survivors: string[] = [];
const gone: string[] = [];
let broken = 0;
try {
  for (const group of groups) {
    const path = join(copy, group.file);
    const whole = readFileSync(path, 'utf8');
    if (!pass(group)) throw new Error(`${group.tests.join(' ')}: not green before anything was broken`);
    for (const [from, to] of group.changes) {
      if (whole.split(from).length !== 2) {
        gone.push(`${group.file}: '${from}'`);
        continue;
      }
      writeFileSync(
        path,
        whole.replace(from, () => to),
      );
      const survived = pass(group);
      broken++;
      const line = `${group.file}: '${from}' -> '${to}'`.replaceAll(/\s+/g, ' ');
      if (survived) survivors.push(`${line} (${group.harm})`);
      console.log(`${survived ? 'SURVIVED' : 'noticed '} ${line}`);
    }
    writeFileSync(path, whole);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
console.log(`${broken - survivors.length} of ${broken} changes noticed.`);
for (const survivor of survivors) console.log(`Survivor: ${survivor}`);
for (const text of gone) console.log(`Not there once, to be written anew: ${text}`);
process.exitCode = survivors.length + gone.length > 0 ? 1 : 0;
