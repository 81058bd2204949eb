import { bigImport } from './big-import.js';
import { clock } from './clock.js';
import { databaseAway } from './database-away.js';
import { diskFull } from './disk-full.js';
import { kills } from './kills.js';
import type { Scenario } from './scenario.js';
import { sigterm } from './sigterm.js';
import { twoStarts } from './two-starts.js';

/**
 * What breaks in a hospital, done to a real service on a real database while people write.
 *
 *   npm run faults                       every scenario, short
 *   npm run faults -- kills 200 3        one of them, with how often and a seed
 */
const scenarios: Record<string, Scenario> = {
  kills,
  'disk-full': diskFull,
  'database-away': databaseAway,
  clock,
  'two-starts': twoStarts,
  sigterm,
  'big-import': bigImport,
};

const [name, times, seed] = process.argv.slice(2);
if (name !== undefined && !(name in scenarios)) {
  console.error(`faults: there is no scenario '${name}'; there are ${Object.keys(scenarios).join(', ')}`);
  process.exit(2);
}
let failed = false;
for (const [each, run] of Object.entries(scenarios)) {
  if (name !== undefined && each !== name) continue;
  const started = performance.now();
  const report = await run(
    (line) => console.error(`${each}: ${line}`),
    times === undefined ? undefined : Number(times),
    seed === undefined ? undefined : Number(seed),
  ).catch((error: Error) => ({ faults: [error.stack ?? error.message], figures: {}, answers: undefined }));
  failed ||= report.faults.length > 0;
  console.log(
    JSON.stringify(
      {
        scenario: each,
        seconds: Math.round((performance.now() - started) / 1000),
        ...report,
        answers: report.answers && Object.fromEntries(report.answers),
      },
      null,
      2,
    ),
  );
}
process.exit(failed ? 1 : 0);
