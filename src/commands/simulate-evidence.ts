import { writeFileSync } from 'node:fs';
import { loadGrowthModel } from '../growth/population/model.js';
import { loadRules } from '../rules/load-rules.js';
import { simulateEvidence as simulate } from '../study/simulate/simulate-evidence.js';
import { terminal, textTable } from './terminal.js';

/** `doorpost simulate-evidence`: is one more reading worth what it is said to be, and what do judged visits teach? */
export function simulateEvidence(opts: { children: number; out?: string }): void {
  const report = simulate(loadGrowthModel(), loadRules(), opts.children, 1);
  if (opts.out !== undefined) writeFileSync(opts.out, `${JSON.stringify(report, null, 1)}\n`);
  const { reading, visits } = report;
  terminal.out(
    `One more reading of the foot, ${reading.devices} devices: P10 to P90 ${reading.beforeDays} days, promised ${reading.promisedDays}, came to ${reading.afterDays} (standard error of the difference ${reading.seDays})`,
  );
  terminal.out(
    textTable(
      ['visits judged', 'devices', 'median error of P50, days', 'mean', 'against none', 'standard error'],
      visits.map((v) =>
        [v.judged, v.devices, v.medianErrorDays, v.meanErrorDays, v.gainDays, v.seDays].map(String),
      ),
    ),
  );
}
