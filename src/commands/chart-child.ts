import { assess } from './assess.js';
import { oneChild } from './child-words.js';
import { drawChild } from './draw-child.js';
import { readRules } from './read-rules.js';
import { type ReadingOptions, readPaths, tell, todayOf } from './reading-options.js';
import { terminal } from './terminal.js';

/** `doorpost chart`: one child's charts as files. */
export async function chartChild(
  paths: readonly string[],
  options: ReadingOptions & { child: string; out: string; seed?: number },
): Promise<number> {
  const parsed = await readPaths(paths, options);
  const assessed = await assess(oneChild(parsed.caseload, options.child), {
    today: todayOf(options),
    rules: readRules(options.rules),
    seed: options.seed,
  });
  const [record] = assessed.records;
  terminal.progress('Drawing ...');
  const written = await drawChild(record, assessed, options.out);
  terminal.progress('');
  return tell(parsed, options, { written }, written, true);
}
