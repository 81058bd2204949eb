import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { checkReference, type ReferenceReport } from '../../src/commands/check-reference.js';
import { DoorpostError } from '../../src/errors.js';
import type { ShareRow } from '../../src/reference/survey-shares.js';

const folder = mkdtempSync(join(tmpdir(), 'doorpost-check-'));
afterAll(() => rmSync(folder, { recursive: true }));
const silent = { out: () => {}, err: () => {}, progress: () => {} };
const survey = fileURLToPath(new URL('../../../shared/data/us-children-1977/children.csv', import.meta.url));

async function report(children: string): Promise<ReferenceReport> {
  const out = join(folder, 'report.json');
  await checkReference({ children, out }, silent);
  return JSON.parse(readFileSync(out, 'utf8'));
}
function written(text: string): string {
  const path = join(folder, 'children.csv');
  writeFileSync(path, text);
  return path;
}

test('counts by measure, sex and band, whatever other columns a file has', async () => {
  const { records, rows } = await report(
    written(
      '\uFEFFperson,sex,age_years,foot_length_mm,stature_mm,sitting_height_mm,shoe\n' +
        '1,male,2.0,100,900,500,a\n1,male,4.999,300,,,b\n2,female,5,,1100,600,\n3,female,0,110,,,\n4,male,,110,,,\n',
    ),
  );
  expect(records).toBe(3);
  expect(rows).toHaveLength(20 * 5 * 3);
  const row = (measure: string, sex: string, band: string) =>
    rows.find((r) => r.measure === measure && r.sex === sex && r.band === band)!;
  expect(row('foot_length', 'male', '2-5').n).toBe(2);
  expect(row('foot_length', 'male', '2-5').below).toEqual({
    3: 0.5,
    10: 0.5,
    25: 0.5,
    50: 0.5,
    75: 0.5,
    90: 0.5,
    97: 0.5,
  });
  expect(row('foot_length', 'all', '5-8').n).toBe(0);
  expect(row('foot_length', 'all', '5-8').below['50']).toBeNull();
  expect(row('leg_length', 'female', '5-8').n).toBe(1);
});

test.each([
  ['sex,age_years,foot_length_mm\nmale,4,"16,3"\n', { row: 2, field: 'foot_length_mm', given: '16,3' }],
  ['sex,age_years\nboy,4\n', { row: 2, field: 'sex', given: 'boy' }],
  ['sex,foot_length_mm\nmale,160\n', { row: 1, field: 'age_years' }],
  ['', { row: 1, field: 'sex' }],
])('refuses %j with its place', async (text, place) => {
  const error = await report(written(text)).catch((e: unknown) => e);
  expect(error).toBeInstanceOf(DoorpostError);
  expect((error as DoorpostError).place).toMatchObject(place);
});

test('a file that is not there is named', async () => {
  await expect(report(join(folder, 'nobody.csv'))).rejects.toThrow('nobody.csv');
});

/** Cells of a report farther than `limit` binomial standard errors from nominal, and how many were looked at. */
function misses(rows: readonly ShareRow[], limit: number) {
  const cells = rows
    .filter((r) => r.n >= 20 && r.sex !== 'all')
    .flatMap((r) =>
      Object.entries(r.below).map(([c, share]) => {
        const p = Number(c) / 100;
        return Math.abs((share! - p) / Math.sqrt((p * (1 - p)) / r.n));
      }),
    );
  return { cells: cells.length, share: cells.filter((z) => z > limit).length / cells.length };
}

test.skipIf(!existsSync(survey))(
  'the survey itself falls on the centiles as it should (skipped where ../shared is not there)',
  async () => {
    // Source: Snyder et al. 1977, individual records (NIST). By chance 5 % of cells miss by 1.96 standard errors and
    // 0.3 % by 3. These records made the curves: records held out are reported in source.md.
    // Feet are laid at the reference's stature, which the survey's boys and girls of 11 to 14 fall short of: their check
    // is the proportion to stature, in known-values/fitted-references.
    const rows = (await report(survey)).rows.filter((r) => !r.measure.startsWith('foot_'));
    expect(misses(rows, 1.96).cells).toBeGreaterThan(1200);
    expect(misses(rows, 1.96).share).toBeLessThan(0.05);
    expect(misses(rows, 3).share).toBeLessThan(0.004);
  },
);
if (!existsSync(survey)) console.log('skipped: ../shared/data/us-children-1977 is not there');
