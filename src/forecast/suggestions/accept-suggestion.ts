import { DoorpostError } from '../../errors.js';
import type { ChildRecord } from '../../records/caseload.js';
import type { Side } from '../../records/measure.js';
import type { DataSuggestion } from '../contract.js';

/** One change a person accepted; appended beside the measurement, which itself never changes. */
export interface MeasurementCorrection {
  readonly measurementId: string;
  readonly value: number;
  readonly side: Side;
  /** Left out of every calculation from now on. */
  readonly withdrawn: boolean;
  readonly reason: string;
}

/** The corrections that accepting a suggestion means, to be appended by the caller with who and when. Changes nothing itself. */
export function acceptSuggestion(record: ChildRecord, suggestion: DataSuggestion): MeasurementCorrection[] {
  return suggestion.corrections.map((c) => {
    const m = record.measurements.find((x) => x.id === c.measurementId);
    if (!m)
      throw new DoorpostError('not-found', 'The measurement this suggestion is about is not in the record', {
        field: 'measurementId',
      });
    return {
      measurementId: m.id,
      value: c.value ?? m.value,
      side: c.side ?? m.side,
      withdrawn: c.exclude ?? false,
      reason: `${suggestion.kind}: ${suggestion.seen}`,
    };
  });
}
