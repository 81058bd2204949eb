import type { ChildRecord } from '../../records/caseload.js';
import { type MeasureId, measures, type Side } from '../../records/measure.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';

/** The first is always smaller than the second on the same body. */
const SMALLER_THAN: readonly (readonly [MeasureId, MeasureId])[] = [
  ['ankle_height', 'knee_height'],
  ['knee_height', 'hip_height'],
  ['hip_height', 'asis_height'],
  ['knee_height', 'leg_length'],
  ['asis_height', 'stature'],
  ['hip_height', 'stature'],
  ['leg_length', 'stature'],
  ['sitting_height', 'stature'],
  ['foot_breadth', 'foot_length'],
  ['ankle_girth', 'calf_girth'],
  ['calf_girth', 'thigh_girth'],
  ['head_breadth', 'head_circumference'],
  ['head_length', 'head_circumference'],
];

/** Exchanging two fields is offered where they are clearly apart; nearer ones are measuring errors. */
const CLEARLY = 0.8;

const sameSide = (a: Side, b: Side) => a === b || a === 'none' || b === 'none';

/** Pairs of one visit that cannot both be true, such as a knee above the hip; exchanging them is offered where it would help. */
export function impossiblePairSuggestions(record: ChildRecord): DataSuggestion[] {
  return SMALLER_THAN.flatMap(([small, large]) =>
    record.measurements
      .filter((m) => m.measure === small)
      .flatMap((a) =>
        record.measurements
          .filter(
            (b) => b.measure === large && b.date === a.date && sameSide(a.side, b.side) && a.value >= b.value,
          )
          .map((b): DataSuggestion => {
            const fits = (id: MeasureId, value: number) =>
              value >= measures[id].plausible[0] && value <= measures[id].plausible[1];
            const exchange = b.value < CLEARLY * a.value && fits(small, b.value) && fits(large, a.value);
            return {
              id: `impossible-pair-${a.id}-${b.id}`,
              childId: record.child.id,
              kind: 'impossible-pair',
              measurementIds: [a.id, b.id],
              deviceId: null,
              seen: `On ${plainDate(a.date)} ${plainSeries(a)} is ${wholeMm(a.value)} and ${plainSeries(b)} ${wholeMm(b.value)}; the first must be smaller.`,
              corrections: exchange
                ? [
                    { measurementId: a.id, value: b.value },
                    { measurementId: b.id, value: a.value },
                  ]
                : [],
              action: exchange
                ? 'Exchange the two values if they were typed into each other’s field; otherwise measure again.'
                : 'Measure both again.',
            };
          }),
      ),
  );
}
