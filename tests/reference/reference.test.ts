import { cpSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { DoorpostError } from '../../src/errors.js';
import { measures } from '../../src/records/measure.js';
import {
  centile,
  curveOf,
  lmsAt,
  loadReferenceSource,
  loadReferences,
  referenceSources,
  sizeAtZ,
  zScore,
} from '../../src/reference/reference.js';
import { surveyMeasures } from '../../src/reference/survey-records.js';

const shipped = fileURLToPath(new URL('../../reference-data/', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'doorpost-reference-'));
afterAll(() => rmSync(folder, { recursive: true }));

const refs = loadReferences();
const sexes = ['male', 'female'] as const;
const ages = Array.from({ length: 401 }, (_, i) => i / 20);

function refusal(run: () => unknown): DoorpostError {
  try {
    run();
  } catch (error) {
    if (error instanceof DoorpostError) return error;
  }
  throw new Error('nothing was refused');
}

test('every folder of reference-data has a source.md that says who, when and how', () => {
  const folders = readdirSync(shipped, { withFileTypes: true }).filter((f) => f.isDirectory());
  expect(folders.length).toBeGreaterThanOrEqual(6);
  for (const { name } of folders) {
    const text = readdirSync(join(shipped, name)).includes('source.md');
    expect(text, `${name}/source.md`).toBe(true);
  }
  for (const name of referenceSources()) expect(loadReferenceSource(name).curves.size).toBeGreaterThan(3);
});

test('a table without a source is refused, and so is one with an empty source', () => {
  cpSync(join(shipped, 'nl-1997', 'table.csv'), join(folder, 'orphan', 'table.csv'));
  expect(refusal(() => loadReferenceSource('orphan', folder)).code).toBe('reference-without-source');
  writeFileSync(join(folder, 'orphan', 'source.md'), ' \n');
  expect(refusal(() => loadReferenceSource('orphan', folder)).code).toBe('reference-without-source');
  writeFileSync(join(folder, 'orphan', 'source.md'), 'Fredriks 2005');
  expect(loadReferenceSource('orphan', folder).curves.size).toBe(4);
});

test('a table that does not exist is refused with the names of those that do', () => {
  const error = refusal(() => loadReferenceSource('nowhere-1900'));
  expect(error.code).toBe('reference-missing');
  expect(error.place.accepted).toContain('cdc-2000');
});

test('a broken row is refused with its place', () => {
  cpSync(join(shipped, 'nl-1997'), join(folder, 'broken'), { recursive: true });
  writeFileSync(
    join(folder, 'broken', 'table.csv'),
    'measure,sex,age_years,l,m_mm,m_kg,s\nleg_length,male,1,1,300,,0.05\nleg_length,male,2,1,,,0.05\n',
  );
  const error = refusal(() => loadReferenceSource('broken', folder));
  expect(error.code).toBe('invalid-file');
  expect(error.place).toMatchObject({ row: 3, field: 'm', given: 'leg_length,male,2,1,,,0.05' });
});

test('every measure has a curve for both sexes from birth to 20 years, and null outside', () => {
  for (const measure of surveyMeasures)
    for (const sex of sexes) {
      expect(lmsAt(refs, measure, sex, 0), `${measure} ${sex}`).not.toBeNull();
      expect(lmsAt(refs, measure, sex, 20), `${measure} ${sex}`).not.toBeNull();
      expect(lmsAt(refs, measure, sex, -0.01)).toBeNull();
      expect(lmsAt(refs, measure, sex, 20.01)).toBeNull();
      expect(lmsAt(refs, measure, sex, Number.NaN)).toBeNull();
    }
  expect(curveOf(refs, 'head_diagonal', 'male')).toBeNull();
});

test('the median of a skeletal measure never falls', () => {
  for (const measure of surveyMeasures.filter((m) => measures[m].skeletal))
    for (const sex of sexes) {
      const medians = ages.map((age) => lmsAt(refs, measure, sex, age)!.m);
      medians.slice(1).forEach((m, i) => {
        expect(m - medians[i], `${measure} ${sex} at ${ages[i]}`).toBeGreaterThan(-0.05);
      });
    }
});

test('centiles stand in order and inside what a clinic would accept, at every age', () => {
  const wrong: string[] = [];
  for (const measure of surveyMeasures)
    for (const sex of sexes)
      for (const age of ages) {
        const lms = lmsAt(refs, measure, sex, age)!;
        const sizes = [-3, -2, -1, 0, 1, 2, 3].map((z) => sizeAtZ(lms, z));
        const [least, most] = measures[measure].plausible;
        const holds = {
          'in order': sizes.slice(1).every((size, i) => size > sizes[i]),
          accepted: age < 1 || (sizes[1] > least && sizes[5] < most),
          'one SD is one SD': Math.abs(zScore(lms, sizes[4]) - 1) < 5e-7,
          'the median is the median': Math.abs(centile(lms, sizes[3]) - 50) < 5e-10,
        };
        for (const [what, is] of Object.entries(holds))
          if (!is) wrong.push(`${measure} ${sex} ${age}: not ${what} ${sizes}`);
      }
  expect(wrong).toEqual([]);
});

test('no curve jumps: a month changes no median by more than 2 SD once a child is a month old', () => {
  for (const measure of surveyMeasures)
    for (const sex of sexes)
      for (let age = 1 / 12; age < 19.9; age += 1 / 12) {
        const now = lmsAt(refs, measure, sex, age)!;
        expect(
          Math.abs(zScore(now, lmsAt(refs, measure, sex, age + 1 / 12)!.m)),
          `${measure} ${sex} ${age}`,
        ).toBeLessThan(2);
      }
});

test('the working reference reads stature and weight from CDC 2000 and WHO 2006 at their own ages', () => {
  const cdc = loadReferenceSource('cdc-2000');
  const who = loadReferenceSource('who-2006');
  for (const sex of sexes) {
    for (const age of [0, 0.25, 1, 1.5])
      for (const measure of ['stature', 'weight'] as const)
        expect(lmsAt(refs, measure, sex, age)!.m).toBeCloseTo(lmsAt(who, measure, sex, age)!.m, 2);
    for (const age of [3.3, 5, 10.1, 15, 20])
      for (const measure of ['stature', 'weight'] as const)
        expect(lmsAt(refs, measure, sex, age)!.m).toBeCloseTo(lmsAt(cdc, measure, sex, age)!.m, 2);
    for (const age of [0, 0.5, 1, 1.4])
      expect(lmsAt(refs, 'head_circumference', sex, age)!.m).toBeCloseTo(
        lmsAt(who, 'head_circumference', sex, age)!.m,
        1,
      );
  }
});
