import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

const project = fileURLToPath(new URL('../../', import.meta.url));
/** A program of two files that starts as doorpost does. */
let root: string;
let temporary: string;

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'doorpost-launch-'));
  temporary = join(root, 'tmp');
  for (const folder of ['src/commands', 'node_modules', 'tmp'])
    mkdirSync(join(root, folder), { recursive: true });
  cpSync(join(project, 'src/launch'), join(root, 'src/launch'), { recursive: true });
  symlinkSync(join(project, 'node_modules/esbuild'), join(root, 'node_modules/esbuild'));
  for (const file of ['package.json', 'package-lock.json', 'tsconfig.json'])
    cpSync(join(project, file), join(root, file));
  write(
    'main.ts',
    "import { where } from './where.js';\n\nconst said: string = where();\nconsole.log(said);\n",
  );
  write('where.ts', "export const where = () => new URL('x', import.meta.url).pathname;\n");
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const write = (file: string, text: string) => writeFileSync(join(root, 'src/commands', file), text);
const kept = () => join(root, 'node_modules/.cache/doorpost');
const start = () =>
  spawnSync(
    process.execPath,
    [
      '--input-type=module',
      '-e',
      `await (await import('${root}/src/launch/launch.mjs')).launch('commands/main.ts')`,
    ],
    { encoding: 'utf8', env: { PATH: process.env.PATH, TMPDIR: temporary } },
  );

it('builds once, finds what lies beside its sources, and builds anew after a change', () => {
  for (let i = 0; i < 2; i++) expect(start().stdout).toBe(`${root}/src/commands/x\n`);
  const [built, ...others] = readdirSync(kept());
  expect(others).toEqual([]);
  expect(statSync(join(kept(), built)).mode & 0o777).toBe(0o755);
  write('where.ts', "export const where = (): string => {\n  throw new Error('changed');\n};\n");
  // The line of the source, not of the build.
  expect(start().stderr).toMatch(/changed[\s\S]*src\/commands\/where\.ts:2/);
  expect(readdirSync(kept())).toHaveLength(2);
});

it.skipIf(process.getuid?.() === undefined)('runs no build that others could have written', () => {
  chmodSync(kept(), 0o777);
  start();
  expect(readdirSync(temporary)).toEqual([`doorpost-${process.getuid?.()}`]);
  chmodSync(kept(), 0o755);
});
