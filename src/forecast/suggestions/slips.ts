import type { ChildRecord } from '../../devices/caseload.js';
import { measures } from '../../measurements/measure.js';
import type { Measurement } from '../../measurements/records.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, plainSeries } from '../words.js';
import { expectedWithout } from './expected-without.js';
import { likelyTyped } from './likely-typed.js';

/** A candidate must come this near what was expected, as a share of how far off is doubtful. */
const NEAR = 0.6;

const shown = (m: Pick<Measurement, 'measure'>, value: number) =>
  `${Math.round(value * 10) / 10} ${measures[m.measure].unit}`;

/** Unit and digit slips: a reading far from the child's others, with what was probably meant, furthest first. */
export function slipSuggestions(record: ChildRecord): DataSuggestion[] {
  let trusted = [...record.measurements];
  const found: DataSuggestion[] = [];
  for (;;) {
    const worst = trusted
      .flatMap((m) => {
        const expected = expectedWithout(m, trusted, record.child.birthDate);
        if (!expected) return [];
        const off = Math.abs(m.value - expected.value) / expected.doubtful;
        return off > 1 ? [{ m, expected, off }] : [];
      })
      .sort((a, b) => b.off - a.off)[0];
    if (!worst) return found;
    const { m, expected } = worst;
    trusted = trusted.filter((x) => x.id !== m.id);
    found.push(suggestion(record, m, expected.value, NEAR * expected.doubtful));
  }
}

/** A single reading outside what a human body can be: tried against the middle of what is possible. */
export function impossibleSizeSuggestions(record: ChildRecord): DataSuggestion[] {
  return record.measurements.flatMap((m) => {
    const [low, high] = measures[m.measure].plausible;
    const alone = expectedWithout(m, record.measurements, record.child.birthDate) === null;
    if (!alone || (m.value >= low && m.value <= high)) return [];
    return [suggestion(record, m, (low + high) / 2, (high - low) / 2)];
  });
}

function suggestion(
  record: ChildRecord,
  m: Measurement,
  expected: number,
  tolerance: number,
): DataSuggestion {
  const typed = likelyTyped(m.measure, m.value, expected, tolerance);
  const what = `${plainSeries(m)} of ${plainDate(m.date)}`;
  const base = { childId: record.child.id, measurementIds: [m.id], deviceId: null };
  const seen = `${what} is ${shown(m, m.value)}; about ${shown(m, expected)} was expected from the other readings.`;
  if (!typed)
    return {
      ...base,
      id: `digit-slip-${m.id}`,
      kind: 'digit-slip',
      seen,
      corrections: [],
      action: `Look up what was written down, or measure again.`,
    };
  return {
    ...base,
    id: `${typed.kind}-${m.id}`,
    kind: typed.kind,
    seen,
    corrections: [{ measurementId: m.id, value: typed.value }],
    action: `Take ${shown(m, typed.value)} instead (${typed.reason}); the entry as typed is kept.`,
  };
}
