import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parse } from 'csv-parse/sync';
import { DoorpostError } from '../errors.js';
import { type MeasureId, measures } from '../records/measure.js';
import { type ReferenceSex, referenceSex } from './reference-table.js';

/** One child measured once in a cross-sectional survey. mm, kg, decimal years. */
export interface SurveyRecord {
  readonly sex: ReferenceSex;
  readonly ageYears: number;
  readonly values: Partial<Record<MeasureId, number>>;
}

/** The survey's columns for each measure; leg length is derived (stature less sitting height). */
const columns: Partial<Record<MeasureId, string>> = {
  foot_length: 'foot_length_mm',
  foot_breadth: 'foot_breadth_mm',
  ankle_height: 'sphyrion_height_mm',
  knee_height: 'tibiale_height_mm',
  hip_height: 'trochanteric_height_mm',
  asis_height: 'iliospinale_height_mm',
  sitting_height: 'sitting_height_mm',
  stature: 'stature_mm',
  ankle_girth: 'ankle_circ_mm',
  calf_girth: 'calf_circ_mm',
  thigh_girth: 'upper_thigh_circ_mm',
  hip_girth: 'hip_circ_mm',
  waist_girth: 'waist_circ_mm',
  chest_girth: 'chest_circ_mm',
  pelvic_breadth: 'bispinous_breadth_mm',
  head_circumference: 'head_circ_mm',
  head_breadth: 'head_breadth_mm',
  head_length: 'head_length_mm',
  weight: 'weight_kg',
};

export const surveyMeasures = [...(Object.keys(columns) as MeasureId[]), 'leg_length' as const];

/**
 * Reads a file in the columns of the 1977 survey of US children. An empty cell was not measured; a row
 * without an age, or aged 0, is left out because it has no place on an age axis. Rows are kept apart by
 * their place in the file: the survey's person numbers repeat.
 */
export function readSurveyRecords(path: string): SurveyRecord[] {
  const file = basename(path);
  const [header, ...lines] = readCells(path, file);
  for (const field of ['sex', 'age_years'])
    if (!header?.includes(field))
      throw new DoorpostError('invalid-file', `${file} has no column ${field}`, {
        file,
        row: 1,
        field,
        accepted: ['sex', 'age_years', ...Object.values(columns)].join(', '),
      });
  const rows = lines.map((cells) => Object.fromEntries(header.map((field, i) => [field, cells[i]])));
  return rows.flatMap((row, i) => {
    const number = (field: string) => numberIn(row[field], { file, row: i + 2, field });
    const ageYears = number('age_years');
    if (!ageYears) return [];
    const sex = referenceSex.safeParse(row.sex.toLowerCase());
    if (!sex.success)
      throw new DoorpostError('invalid-value', `${file} row ${i + 2}: sex is '${row.sex}'`, {
        file,
        row: i + 2,
        field: 'sex',
        given: row.sex,
        accepted: 'male, female',
      });
    const values: SurveyRecord['values'] = {};
    for (const [measure, field] of Object.entries(columns) as [MeasureId, string][]) {
      const value = number(field);
      if (value !== undefined) values[measure] = value;
    }
    if (values.stature !== undefined && values.sitting_height !== undefined)
      values.leg_length = values.stature - values.sitting_height;
    return [{ sex: sex.data, ageYears, values: onlyPlausible(values) }];
  });
}

function readCells(path: string, file: string): string[][] {
  try {
    return parse(readFileSync(path), { bom: true, trim: true, skip_empty_lines: true });
  } catch (error) {
    throw new DoorpostError('invalid-file', `${file} cannot be read as CSV: ${(error as Error).message}`, {
      file,
    });
  }
}

/** Leaves out what no child measures: a slip in the survey must not bend a curve. */
function onlyPlausible(values: SurveyRecord['values']): SurveyRecord['values'] {
  return Object.fromEntries(
    Object.entries(values).filter(([id, value]) => {
      const [least, most] = measures[id as MeasureId].plausible;
      return value >= least && value <= most;
    }),
  );
}

function numberIn(text: string | undefined, place: { file: string; row: number; field: string }) {
  if (text === undefined || text === '') return undefined;
  const value = Number(text);
  if (Number.isFinite(value) && value >= 0) return value;
  throw new DoorpostError(
    'invalid-value',
    `${place.file} row ${place.row}: ${place.field} is '${text}'; a number with a decimal point, or nothing, is accepted`,
    { ...place, given: text, accepted: 'a number with a decimal point, or nothing' },
  );
}
