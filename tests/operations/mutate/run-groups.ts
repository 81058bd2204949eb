/** Called by mutate.ts: the tests of each change after another in one vitest, so that what is not changed is read once. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createVitest, type TestModule } from 'vitest/node';
import type { MutationGroup } from './mutation.js';
import { mutations } from './mutations/index.js';

/** Where to begin: the groups by their place in the whole list, and the first change of the first of them. */
export interface Asked {
  readonly copy: string;
  readonly groups: readonly number[];
  readonly first: number;
}
/** Change by its place in its group. */
export interface Told {
  readonly group: number;
  readonly change: number;
  readonly survived: boolean;
  /** What failed before anything was broken: the changes of this group say nothing. */
  readonly red?: string;
}

const { copy, groups, first } = JSON.parse(process.argv[2] as string) as Asked;
const vitest = await createVitest('test', {
  root: copy,
  config: join(copy, 'vitest.config.ts'),
  watch: false,
  bail: 1,
  maxWorkers: 1,
  reporters: [{}],
});
try {
  for (const [n, index] of groups.entries()) await breakGroup(index, n === 0 ? first : 0);
} finally {
  await vitest.close();
}
// A test that fails sets the exit code of vitest's process: here it is what was asked for.
process.exit(0);

async function breakGroup(index: number, from: number): Promise<void> {
  const group = mutations[index] as MutationGroup;
  const path = join(copy, group.file);
  const whole = readFileSync(path, 'utf8');
  const write = (text: string): void => {
    writeFileSync(path, text);
    vitest.invalidateFile(path);
  };
  const red = from === 0 ? await firstFailure(group) : null;
  if (red !== null) {
    const told: Told = { group: index, change: group.changes.length - 1, survived: false, red };
    process.send?.(told);
    return;
  }
  for (const [i, [text, broken]] of group.changes.entries()) {
    if (i < from || whole.split(text).length !== 2) continue;
    write(whole.replace(text, () => broken));
    const told: Told = { group: index, change: i, survived: (await firstFailure(group)) === null };
    process.send?.(told);
  }
  write(whole);
}

/** What failed of this group's tests, null for nothing. One file after another: the quickest stands first and mostly decides. */
async function firstFailure({ name, tests }: MutationGroup): Promise<string | null> {
  if (name === undefined) vitest.resetGlobalTestNamePattern();
  else vitest.setGlobalTestNamePattern(name);
  for (const file of tests) {
    vitest.state.filesMap.clear();
    vitest.state.idMap.clear();
    // A folder stands for the files in it.
    const found = (await vitest.globTestSpecifications([file])).filter(
      ({ moduleId }) => moduleId.endsWith(file) || moduleId.includes(`/${file}/`),
    );
    if (found.length === 0) throw new Error(`${file}: no such test file`);
    const { testModules, unhandledErrors } = await vitest.runTestSpecifications(found);
    const failed = testModules.filter((module) => !module.ok());
    if (unhandledErrors.length > 0 || failed.length > 0) return `${file}: ${why(failed, unhandledErrors)}`;
  }
  return null;
}

function why(failed: readonly TestModule[], unhandled: readonly unknown[]): string {
  const tests = failed.flatMap((module) => [...module.children.allTests('failed')]);
  const suites = failed.flatMap((module) => [...module.children.allSuites()]);
  const errors = [
    ...failed.flatMap((module) => module.errors()),
    ...suites.flatMap((suite) => suite.errors()),
    ...tests.flatMap((test) => test.result().errors ?? []),
    ...unhandled,
  ];
  return [
    ...tests.map((test) => test.fullName),
    ...errors.map((e) => String((e as Error).message ?? e)),
  ].join('; ');
}
