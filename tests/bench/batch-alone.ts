/** So many children one after another, by whichever version this is built with, in a process of its own. */
import { readFileSync } from 'node:fs';
import { assessChild } from '../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { loadRules } from '../../src/rules/load-rules.js';

const [file, count, draws] = process.argv.slice(2);
const { today, records } = JSON.parse(readFileSync(file, 'utf8'));
const context = { today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: Number(draws) };
const began = performance.now();
for (let i = 0; i < Number(count); i++) assessChild(records[i % records.length], context);
const { user, system } = process.cpuUsage();
console.log(JSON.stringify({ wall: (performance.now() - began) / 1000, cpu: (user + system) / 1e6 }));
