/** So many children on so many threads, as the command line has them assessed, in a process of its own. */
import { readFileSync } from 'node:fs';
import { assessInParallel, startThreads } from '../../src/commands/assess-in-parallel.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { copiesOf } from './copies-of.js';

const [file, count, draws, threads] = process.argv.slice(2);
const { today, records } = JSON.parse(readFileSync(file, 'utf8'));
const children = copiesOf(records, Number(count));
const settings = { today, model: undefined, rules: loadRules(), seed: 1, draws: Number(draws) };
const began = performance.now();
startThreads(settings, children.length, Number(threads));
const answers = await assessInParallel(children, settings, () => {});
const wall = (performance.now() - began) / 1000;
const { user, system } = process.cpuUsage();
const each = new Set(answers.map((a) => a.childId)).size === children.length;
if (!each) throw new Error('a child was not assessed, or twice');
console.log(JSON.stringify({ wall, cpu: (user + system) / 1e6 }));
