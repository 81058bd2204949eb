import { expect, test } from 'vitest';
import { askThread } from '../../src/launch/ask-thread.js';

/** Answers with its own number and how many it has answered; asked to die it dies. */
const counting = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort, threadId } from 'node:worker_threads';
    let answered = 0;
    parentPort.on('message', ({ id, question }) => {
      if (question === 'die') process.exit(1);
      setTimeout(() => parentPort.postMessage({ id, answer: [threadId, ++answered] }), 5);
    });
  `)}`,
);
type Counted = readonly [thread: number, answered: number];

test('a thread is renewed behind those who ask: the new one takes over once it has answered the last questions', async () => {
  const thread = askThread<string, Counted>(counting, { asksAThread: 5, rehearsed: 3 });
  const answers: Counted[] = [];
  while (new Set(answers.map(([id]) => id)).size < 3)
    answers.push(...(await Promise.all([thread.ask('first'), thread.ask('second')])));
  await thread.end();
  const ids = [...new Set(answers.map(([id]) => id))];
  const firstOf = (id: number) => answers.find(([of]) => of === id)?.[1];
  expect(ids.map(firstOf)).toEqual([1, 4, 4]);
  // Of one thread after another, without going back.
  expect(answers.map(([id]) => ids.indexOf(id))).toEqual(answers.map(([id]) => ids.indexOf(id)).toSorted());
});

test('who asked a thread that died is refused, and the next is answered by another', async () => {
  const thread = askThread<string, Counted>(counting);
  const [before] = await thread.ask('question');
  await expect(thread.ask('die')).rejects.toThrow('the thread ended');
  const [after, answered] = await thread.ask('question');
  expect(after).not.toBe(before);
  expect(answered).toBe(1);
  await thread.end();
  await expect(thread.ask('question')).rejects.toThrow('the thread ended');
});
