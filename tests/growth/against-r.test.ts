import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readTable } from '../../src/growth/population/curve-table.js';
import { logAge } from '../../src/growth/population/growth-age.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { child, dayAt, posteriorOf, reading } from './support.js';

const hasR = spawnSync('Rscript', ['--version']).status === 0;
if (!hasR) console.log('skipped: growth model against R (Rscript is not installed)');
const here = fileURLToPath(new URL('.', import.meta.url));

const rVector = (v: readonly number[]) => `c(${v.join(',')})`;
const rMatrix = (m: readonly (readonly number[])[]) =>
  `matrix(${rVector(m.flat())}, ${m.length}, byrow=TRUE)`;

describe.skipIf(!hasR)('one child against R', () => {
  // Independent engine: R, its splines package, dense algebra; same parameters, own grid, no shared code.
  test.each([
    { sex: 'male', ages: [10, 11, 12, 13], stature: [1382, 1433, 1489, 1560], leg: [665, 694, 728, 768] },
    { sex: 'female', ages: [8, 9, 10], stature: [1270, 1331, 1398], leg: [590, 625, 664] },
  ] as const)('tempo model of a $sex child of $ages against R splines and solve()', (c) => {
    const model = loadGrowthModel();
    const { longitudinal, peakVelocityAgeYears, growthEndYears, tempo } = model.parameters;
    const curves = model.curves[c.sex];
    const ids = ['stature', 'leg_length', 'weight'] as const;
    const index = ids.map((id) => model.index.get(id) as number);
    const correlation = index.map((d) => index.map((e) => model.parameters.correlation[d][e]));
    const residual = (d: number, age: number) => {
      const z = longitudinal.residualSd[d] / readTable(curves.sd[index[d]], logAge(age));
      return Math.min(0.25, z);
    };
    const share = correlation.map((r, i) => r.map((v, j) => (i === j ? 1 : v * tempo.residualSharing)));
    const folder = mkdtempSync(join(tmpdir(), 'doorpost-r-'));
    const file = (name: string, text: string) => {
      writeFileSync(join(folder, name), text);
      return join(folder, name);
    };
    const centre = peakVelocityAgeYears[c.sex];
    const p = file(
      'p.R',
      `list(knots=${rVector(longitudinal.knots)}, end=${growthEndYears[c.sex] + 0.5}, residualYears=${longitudinal.residualYears},
      share=${rMatrix(share)}, covariance=${rMatrix(longitudinal.covariance)}, centre=${centre},
      tempoSd=${longitudinal.tempoSd[c.sex]}, intensitySd=${longitudinal.intensitySd[c.sex]}, mean=${rVector(longitudinal.mean[c.sex])},
      tempoEffect=${rVector(longitudinal.tempoEffect[c.sex])}, intensityEffect=${rVector(longitudinal.intensityEffect[c.sex])})`,
    );
    // The residual process is scaled by the spread at the child's maturity; R is given it at the calendar age, which
    // differs by a few per cent of 3.5 mm: the tolerance below allows for that.
    const line = (d: number, age: number) => residual(d, age) * readTable(curves.sd[index[d]], logAge(age));
    const real = c.ages.map((age) => (dayAt(age) - dayAt(0)) / 365.25);
    const seen = real.flatMap((age, i) => [
      { age, d: 0, value: c.stature[i], error: 4 },
      { age, d: 1, value: c.leg[i], error: 5 },
    ]);
    const later = [0.5, 1, 2].map((h) => c.ages[c.ages.length - 1] + h);
    const targets = later.flatMap((age) => [0, 1].map((d) => ({ age: (dayAt(age) - dayAt(0)) / 365.25, d })));
    const obs = file(
      'obs.csv',
      `age,d,value,error,residual\n${seen.map((s) => [s.age, s.d + 1, s.value, s.error, line(s.d, s.age)].join()).join('\n')}\n`,
    );
    const target = file(
      'target.csv',
      `age,d,residual\n${targets.map((t) => [t.age, t.d + 1, line(t.d, t.age)].join()).join('\n')}\n`,
    );
    const out = execFileSync('Rscript', ['--vanilla', join(here, 'tempo-model.R'), p, obs, target], {
      encoding: 'utf8',
    })
      .trim()
      .split('\n');
    const posterior = posteriorOf(
      child(
        c.ages.flatMap((age, i) => [
          reading('stature', age, c.stature[i], { technicalError: 4 }),
          reading('leg_length', age, c.leg[i], { technicalError: 5 }),
        ]),
        { sex: c.sex },
      ),
      model,
    );
    targets.forEach((t, i) => {
      const [mean, sd] = out[i].trim().split(/\s+/).map(Number);
      const ours = posterior.predict({ measure: ids[t.d], side: 'none' }, [
        dayAt(0) + Math.round(t.age * 365.25),
      ]);
      expect(Math.abs(ours.mean[0] - mean)).toBeLessThan(0.4);
      expect(Math.abs(ours.sd[0] / sd - 1)).toBeLessThan(0.03);
    });
    const [, tempoMean, tempoSd] = out[targets.length].trim().split(/\s+/).map(Number);
    const years = (b: number) => (centre + 0.75) * Math.expm1(b * longitudinal.tempoSd[c.sex]);
    expect(Math.abs(posterior.tempoYears.mean - years(tempoMean))).toBeLessThan(0.06);
    expect(Math.abs(posterior.tempoYears.sd / (years(tempoSd) || 1) - 1)).toBeLessThan(0.08);
  });
});
