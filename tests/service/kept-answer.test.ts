import { expect, test } from 'vitest';
import { keptAnswer } from '../../src/service/kept-answer.js';

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

test('a cheap answer follows every change and is kept without one', async () => {
  let version = 1;
  let worked = 0;
  const answer = keptAnswer(
    async () => `${version}`,
    async () => {
      worked++;
      return version;
    },
  );
  expect(await answer()).toBe(1);
  expect(await answer()).toBe(1);
  expect(worked).toBe(1);
  version = 2;
  expect(await answer()).toBe(2);
});

test('a dear answer is worked out once for all who ask, and not again with every change', async () => {
  let version = 1;
  let worked = 0;
  const answer = keptAnswer(
    async () => `${version}`,
    async () => {
      worked++;
      await sleep(200);
      return worked;
    },
  );
  expect(await Promise.all([answer(), answer(), answer()])).toEqual([1, 1, 1]);
  version = 2;
  expect(await answer()).toBe(1);
});

test('whoever asks while a dear answer is worked out anew is given the one before', async () => {
  let worked = 0;
  const answer = keptAnswer(
    async () => `${worked}`,
    async () => {
      await sleep(160);
      return ++worked;
    },
  );
  expect(await answer()).toBe(1);
  const shown = new Set<number>();
  let longest = 0;
  // A twentieth of the time is spent on it: the second one is due after three seconds.
  for (const end = performance.now() + 6000; performance.now() < end && worked < 2; ) {
    const began = performance.now();
    shown.add(await answer());
    longest = Math.max(longest, performance.now() - began);
    await sleep(5);
  }
  expect(worked).toBe(2);
  expect([...shown]).toEqual([1]);
  expect(longest).toBeLessThan(150);
  expect(await answer()).toBe(2);
});

test('a dear answer that nobody waits for rests between its parts', async () => {
  let version = 1;
  let rests: number[] = [];
  const answer = keptAnswer(
    async () => `${version}`,
    async (afterOthers) => {
      rests = [];
      for (let part = 0; part < 4; part++) {
        await sleep(40);
        const from = performance.now();
        await afterOthers();
        rests.push(performance.now() - from);
      }
      return version;
    },
  );
  expect(await answer()).toBe(1);
  // Who asked first waited for it.
  expect(Math.max(...rests)).toBeLessThan(30);
  version = 2;
  // Due anew after twenty times what it took; it then rests nine times as long as it works.
  for (const end = performance.now() + 15_000; performance.now() < end; await sleep(20))
    if ((await answer()) === 2) break;
  expect(await answer()).toBe(2);
  expect(rests).toHaveLength(4);
  expect(rests.reduce((a, b) => a + b)).toBeGreaterThan(9 * 4 * 40 * 0.9);
}, 20_000);

test('an answer that failed is not kept', async () => {
  let fails = true;
  const answer = keptAnswer(
    async () => 'same',
    async () => {
      if (fails) throw new Error('database gone');
      return 'well';
    },
  );
  await expect(answer()).rejects.toThrow('database gone');
  fails = false;
  expect(await answer()).toBe('well');
});
