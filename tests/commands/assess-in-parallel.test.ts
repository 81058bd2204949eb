import { expect, it } from 'vitest';
import { answering, assessInParallel, startThreads } from '../../src/commands/assess-in-parallel.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from '../forecast/build-record.js';

const today = '2026-11-25';
const settings = { today, model: undefined, rules: loadRules(), seed: 1, draws: 64 };

it('gives every child its own answer in the order asked, whichever thread gives it', async () => {
  const records = Array.from({ length: 12 }, (_, i) => {
    const { record } = buildChild(today, 6, { sex: 'female' })
      .measured('foot_length', 'left', 0, 170 + i)
      .device('solid-afo', 'left', 3);
    return { ...record, child: { ...record.child, id: `child-${i}` } };
  });
  startThreads(settings, 10_000, 2);
  const heard: number[] = [];
  const answers = await assessInParallel(records, settings, (done) => heard.push(done));
  expect(answers).toEqual(records.map(answering(settings)));
  expect(heard.at(-1)).toBe(records.length);
  // Both had some: hand-overs are small where children are few.
  expect(heard.length).toBeGreaterThan(2);
  // The pool is kept, and answers whoever asks next: of one child the thread, for it is handed over first.
  expect(await assessInParallel(records.slice(0, 1), settings, () => {})).toEqual(answers.slice(0, 1));
}, 60_000);
