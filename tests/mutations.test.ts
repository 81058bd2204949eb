import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { mutations } from './operations/mutate/mutations/index.js';

// A line that was moved or reworded takes its mutation with it; else nothing breaks that line any more.
test('every line that `npm run mutate` breaks stands once in its file, and its tests are there', () => {
  const stale = mutations.flatMap(({ file, tests, changes }) => {
    const whole = readFileSync(file, 'utf8');
    const moved = changes
      .filter(([from]) => whole.split(from).length !== 2)
      .map(([from]) => `${file}: ${from}`);
    return [...moved, ...tests.filter((path) => !existsSync(path))];
  });
  expect(stale).toEqual([]);
});
