/** node --import tsx tests/operations/kill-many.ts [kills, 200 when absent] */
import { killMany } from './kill-harness.js';

const started = performance.now();
const report = await killMany(Number(process.argv[2] ?? 200), (line) => console.error(line));
console.log(
  JSON.stringify({ ...report, seconds: Math.round((performance.now() - started) / 1000) }, null, 2),
);
process.exit(report.faults.length === 0 ? 0 : 1);
