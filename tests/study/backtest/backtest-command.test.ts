import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backtest } from '../../../src/commands/backtest.js';
import { inventedRecord } from './invented-records.js';

const folder = mkdtempSync(join(tmpdir(), 'doorpost-backtest-'));
const csv = (lines: readonly string[]) => {
  const path = join(folder, `children-${lines.length}-${lines[1]?.length}.csv`);
  writeFileSync(path, `${lines.join('\n')}\n`);
  return path;
};
const heading = 'id,sex,age,stature_cm,leg_cm,weight_kg';
const rowsOf = (record: ReturnType<typeof inventedRecord>) =>
  record.visits.map(({ ageYears, sizes }) =>
    [
      record.id,
      record.sex,
      ageYears,
      (sizes.stature! / 10).toFixed(1),
      sizes.leg_length === undefined ? '' : (sizes.leg_length / 10).toFixed(1),
      sizes.weight!.toFixed(1),
    ].join(','),
  );

describe('doorpost backtest', () => {
  it('reports every table for a file of the followed cohort’s columns', async () => {
    const children = csv([
      heading,
      ...rowsOf(inventedRecord('a', 'male', 0.3)),
      ...rowsOf(inventedRecord('b', 'female', -0.5)),
    ]);
    const out = join(folder, 'report.json');
    await backtest({ children, out, noise: 'clinic' });
    const report = JSON.parse(readFileSync(out, 'utf8'));
    const cell = report.rows.filter(
      (r: Record<string, unknown>) =>
        r.measure === 'leg_length' && r.sex === 'all' && r.ageBand === 'all' && r.horizonYears === 1,
    );
    const methods = cell.map((r: { method: string }) => r.method);
    for (const method of [
      'doorpost',
      'last-velocity',
      'published-increment',
      'published-centile',
      'own-reference-centile',
      'cohort-centile',
    ])
      expect(methods).toContain(method);
    // The same forecasts for every method: leg length at 8 to 17, two children, two noise draws.
    for (const r of cell) expect(r).toMatchObject({ n: 40, noise: 'clinic', children: 2 });
    expect(new Set(report.dates.map((d: { allowanceMm: number }) => d.allowanceMm))).toEqual(
      new Set([10, 15, 20]),
    );
  });

  it('says the same when run again', async () => {
    const children = csv([heading, ...rowsOf(inventedRecord('c', 'male')).filter((_, i) => i > 4 && i < 14)]);
    const run = async (name: string) => {
      const out = join(folder, name);
      await backtest({ children, out, noise: 'clinic' });
      return readFileSync(out, 'utf8');
    };
    expect(await run('again.json')).toBe(await run('once.json'));
  });

  it.each([
    [['id,sex,age', 'a,male,9'], /no column 'stature_cm'/],
    [[heading, 'a,male,9,134,,28', 'a,boy,10,140,,30'], /row 3, column 'sex': 'boy'/],
    [[heading, 'a,male,9,1340,,28'], /row 2, column 'stature_cm': '1340'.*40 to 220/],
    [[heading, 'a,male,nine,134,,28'], /row 2, column 'age': 'nine'/],
    [[heading, 'a,male,9,134,,28', 'a,female,10,140,,30'], /row 3, column 'sex'/],
  ])('refuses a bad file and says where: %j', async (lines, message) => {
    await expect(backtest({ children: csv(lines) })).rejects.toThrow(message);
  });
});
