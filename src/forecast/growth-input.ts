import type { GrowthInput } from '../growth/contract.js';
import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import { type MeasureId, measures, technicalErrorAt } from '../records/measure.js';
import type { Measurement } from '../records/records.js';
import { withStandIns } from './futures.js';
import { growthHormoneEnd, growthHormoneStart } from './record-until.js';

/** Readings from before growth hormone count as if measured this much less exactly (common practice, no source). */
const BEFORE_TREATMENT = 2;

/**
 * What the growth room is told of a child. Where growth hormone was started the growth clock may run faster from that
 * day, and earlier readings are weighted down, so that the new pace can be followed.
 */
export function growthInput(
  record: ChildRecord,
  model: { readonly measures: readonly MeasureId[] } | null = null,
): GrowthInput {
  const { child } = record;
  const start = growthHormoneStart(record);
  // What is learned from is only what was read.
  const measurements = withShoes(
    model ? withStandIns(record.measurements, (m) => model.measures.includes(m)) : record.measurements,
  );
  return {
    birthDate: child.birthDate,
    sex: child.sex,
    gestationWeeks: child.gestationWeeks,
    conditions: child.conditions,
    affectedSide: child.affectedSide,
    markers: record.markers,
    hormoneFrom: start,
    hormoneTo: growthHormoneEnd(record),
    measurements:
      start === null
        ? measurements
        : measurements.map((m) =>
            m.date >= start
              ? m
              : {
                  ...m,
                  technicalError:
                    BEFORE_TREATMENT *
                    (m.technicalError ??
                      technicalErrorAt(m.measure, decimalAgeYears(child.birthDate, m.date))),
                },
          ),
  };
}

/**
 * A shoe says of the foot in it no more than one size either way (common practice, no source), and of both feet together:
 * each takes half of what it says.
 */
const withShoes = (measurements: readonly Measurement[]): readonly Measurement[] =>
  measurements.flatMap((m) =>
    m.measure !== 'shoe_length'
      ? [m]
      : (['left', 'right'] as const).map((side) => ({
          ...m,
          measure: 'foot_length' as const,
          side,
          technicalError: Math.SQRT2 * Math.max(m.technicalError ?? 0, measures.shoe_length.technicalError),
        })),
  );
