import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { DoorpostError } from '../../src/errors.js';
import { lmsAt, loadReferenceSource, zScore } from '../../src/reference/reference.js';
import { readSurveyRecords, surveyMeasures } from '../../src/reference/survey-records.js';
import { normalCdf } from '../../src/statistics/normal-cdf.js';

const folder = mkdtempSync(join(tmpdir(), 'doorpost-survey-'));
afterAll(() => rmSync(folder, { recursive: true }));
const survey = fileURLToPath(new URL('../../../shared/data/us-children-1977/children.csv', import.meta.url));

function read(text: string) {
  const path = join(folder, 'children.csv');
  writeFileSync(path, text);
  return readSurveyRecords(path);
}

test('reads whom it can place by sex and age, whatever other columns a file has', () => {
  const records = read(
    '\uFEFFperson,sex,age_years,foot_length_mm,stature_mm,sitting_height_mm,shoe\n' +
      '1,male,2.0,100,900,500,a\n1,male,4.999,300,,,b\n2,female,5,,1100,600,\n3,female,0,110,,,\n4,male,,110,,,\n',
  );
  expect(records.map((r) => [r.sex, r.ageYears, r.values.foot_length, r.values.leg_length])).toEqual([
    ['male', 2, 100, 400],
    ['male', 4.999, 300, undefined],
    ['female', 5, undefined, 500],
  ]);
});

test.each([
  ['sex,age_years,foot_length_mm\nmale,4,"16,3"\n', { row: 2, field: 'foot_length_mm', given: '16,3' }],
  ['sex,age_years\nboy,4\n', { row: 2, field: 'sex', given: 'boy' }],
  ['sex,foot_length_mm\nmale,160\n', { row: 1, field: 'age_years' }],
  ['', { row: 1, field: 'sex' }],
])('refuses %j with its place', (text, place) => {
  const refused = () => read(text);
  expect(refused).toThrow(DoorpostError);
  expect(refused).toThrow(expect.objectContaining({ place: expect.objectContaining(place) }));
});

test.skipIf(!existsSync(survey))(
  'the survey itself falls on the centiles as it should (skipped where ../shared is not there)',
  () => {
    // Source: Snyder et al. 1977, individual records (NIST). By chance 5 % of cells miss by 1.96 standard errors and
    // 0.3 % by 3. These records made the curves: records held out are reported in source.md.
    // Feet are laid at the reference's stature, which the survey's boys and girls of 11 to 14 fall short of: their check
    // is the proportion to stature, in known-values/fitted-references.
    const refs = loadReferenceSource('us-children-1977');
    const records = readSurveyRecords(survey);
    const misses: number[] = [];
    for (const measure of surveyMeasures.filter((m) => !m.startsWith('foot_')))
      for (const sex of ['male', 'female'] as const)
        for (const [from, to] of [2, 5, 8, 11, 14, 18].flatMap((age, i, ages) =>
          i ? [[ages[i - 1], age]] : [],
        )) {
          const below = records.flatMap(({ sex: of, ageYears, values }) => {
            const value = values[measure];
            const lms = lmsAt(refs, measure, sex, ageYears);
            if (of !== sex || ageYears < from || ageYears >= to || value === undefined || !lms) return [];
            return [normalCdf(zScore(lms, value))];
          });
          const n = below.length;
          if (n < 20) continue;
          for (const p of [0.03, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97])
            misses.push(Math.abs((below.filter((c) => c < p).length / n - p) / Math.sqrt((p * (1 - p)) / n)));
        }
    const beyond = (limit: number) => misses.filter((z) => z > limit).length / misses.length;
    expect(misses.length).toBeGreaterThan(1200);
    expect(beyond(1.96)).toBeLessThan(0.05);
    expect(beyond(3)).toBeLessThan(0.004);
  },
);
if (!existsSync(survey)) console.log('skipped: ../shared/data/us-children-1977 is not there');
