/** How fast the median child grows, by measure, sex and age: where a reference brakes or jumps it shows here first. */
import { type MeasureId, measures } from '../records/measure.js';
import type { ReferenceSex } from '../reference/reference-table.js';
import { fillSpec, type Spec } from './fill-spec.js';
import { timeLocale } from './time-locale.js';

export interface VelocityRow {
  readonly measure: MeasureId;
  readonly sex: ReferenceSex;
  readonly ageYears: number;
  readonly perYear: number;
}

const titleOf = (measure: MeasureId) => `${measures[measure].label}, ${measures[measure].unit} a year`;

export function referenceVelocityChart(rows: readonly VelocityRow[]): Spec {
  return fillSpec(
    'reference-velocity',
    {
      title: 'How fast the median child grows',
      subtitle: 'Working reference, growth in each quarter of a year from half a year on, as a rate a year',
      description: 'Velocity of the reference median by measure, sex and age',
      measures: [...new Set(rows.map((r) => titleOf(r.measure)))],
      ageTitle: 'Age, years',
      velocityTitle: 'a year',
    },
    {
      velocity: rows.map((r) => ({
        measure: titleOf(r.measure),
        sex: r.sex === 'male' ? 'boys' : 'girls',
        ageYears: r.ageYears,
        perYear: Math.round(1000 * r.perYear) / 1000,
      })),
    },
    timeLocale('en'),
  );
}
