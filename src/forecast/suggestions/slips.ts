import { type ChildPosterior, GROSS } from '../../growth/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { dayNumber } from '../../records/dates.js';
import { measures } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import type { DataSuggestion } from '../contract.js';
import { plainDate, plainSeries, wholeMm } from '../words.js';
import { expectedWithout } from './expected-without.js';
import { likelyTyped } from './likely-typed.js';

/** Doubted less than a gross error, but at least so much: asked about where a known slip leads within so many SD of what was expected. */
const SUSPECT = 0.1;
const CLOSE_SD = 1.5;
/** A single reading this far outside what a body can be is a wrong unit, not a rare size. */
const FAR_OUTSIDE = 1.6;
/** What was meant must come within this many SD of what the model expected. */
const NEAR_SD = 3.5;
/** Without the model a candidate must come this near what was expected, as a share of how far off is doubtful. */
const NEAR = 0.6;

interface Doubt {
  readonly reading: Measurement;
  readonly expected: number;
  readonly tolerance: number;
}

/**
 * Unit and digit slips: readings the growth model holds for gross errors; where it knows nothing of a measure, those
 * far from the child's others, furthest first; and single ones outside what a body can be.
 */
export function slipSuggestions(record: ChildRecord, posterior: ChildPosterior | null): DataSuggestion[] {
  const inModel = (m: Measurement) =>
    posterior !== null && posterior.zScore(m, dayNumber(m.date), m.value) !== null;
  const doubts = [
    ...modelDoubts(record, posterior),
    ...neighbourDoubts(
      record,
      record.measurements.filter((m) => !inModel(m)),
    ),
  ];
  return [...doubts, ...impossibleSizes(record, posterior, inModel, doubts)].map((d) =>
    suggestion(record, d),
  );
}

function modelDoubts(record: ChildRecord, posterior: ChildPosterior | null): Doubt[] {
  return (posterior?.suspicions ?? []).flatMap((s) => {
    const reading = record.measurements.find((m) => m.id === s.measurementId);
    if (!reading || s.probability < SUSPECT) return [];
    // Fast head growth looks like a gross error; only a wrong unit is ever suggested for it, the rest is a flag.
    if (reading.measure === 'head_circumference' && Math.abs(reading.value / s.expected - 1) < 0.25)
      return [];
    const far = Math.abs(reading.value - s.expected) > NEAR_SD * s.expectedSd;
    // Weight and girths do jump: for them only a slip whose cause is seen counts.
    if ((s.probability >= GROSS || far) && measures[reading.measure].skeletal)
      return [{ reading, expected: s.expected, tolerance: NEAR_SD * s.expectedSd }];
    const close = (s.probability >= GROSS ? NEAR_SD : CLOSE_SD) * s.expectedSd;
    const typed = likelyTyped(reading.measure, reading.value, s.expected, close);
    const known = typed !== null && typed.reason !== 'one digit wrong';
    return known ? [{ reading, expected: s.expected, tolerance: close }] : [];
  });
}

function neighbourDoubts(record: ChildRecord, readings: readonly Measurement[]): Doubt[] {
  let trusted = [...readings];
  const found: Doubt[] = [];
  for (;;) {
    const worst = trusted
      .flatMap((reading) => {
        const e = expectedWithout(reading, trusted, record.child.birthDate);
        const off = e ? Math.abs(reading.value - e.value) / e.doubtful : 0;
        return e && off > 1 ? [{ reading, expected: e.value, tolerance: NEAR * e.doubtful, off }] : [];
      })
      .sort((a, b) => b.off - a.off)[0];
    if (!worst) return found;
    trusted = trusted.filter((m) => m.id !== worst.reading.id);
    found.push(worst);
  }
}

/** Readings no body can have, tried against what the model expects, or the middle of what is possible where it knows nothing. */
function impossibleSizes(
  record: ChildRecord,
  posterior: ChildPosterior | null,
  inModel: (m: Measurement) => boolean,
  known: readonly Doubt[],
): Doubt[] {
  return record.measurements.flatMap((reading) => {
    const [low, high] = measures[reading.measure].plausible;
    const possible = reading.value >= low / FAR_OUTSIDE && reading.value <= high * FAR_OUTSIDE;
    if (possible || known.some((d) => d.reading.id === reading.id)) return [];
    if (posterior === null || !inModel(reading))
      return [{ reading, expected: (low + high) / 2, tolerance: (high - low) / 2 }];
    const { mean, sd } = posterior.predict(reading, [dayNumber(reading.date)]);
    const tolerance = NEAR_SD * Math.hypot(sd[0], measures[reading.measure].technicalError);
    const typed = likelyTyped(reading.measure, reading.value, mean[0], tolerance);
    return typed ? [{ reading, expected: mean[0], tolerance }] : [];
  });
}

/** A length nobody read is told in whole millimetres; a weight keeps its tenth. */
const aboutSo = (m: Pick<Measurement, 'measure'>, value: number) =>
  measures[m.measure].unit === 'mm' ? wholeMm(value) : shown(m, value);

const shown = (m: Pick<Measurement, 'measure'>, value: number) =>
  `${Math.round(value * 10) / 10} ${measures[m.measure].unit}`;

function suggestion(record: ChildRecord, { reading: m, expected, tolerance }: Doubt): DataSuggestion {
  const typed = likelyTyped(m.measure, m.value, expected, tolerance);
  const base = {
    childId: record.child.id,
    measurementIds: [m.id],
    deviceId: null,
    kind: typed?.kind ?? ('digit-slip' as const),
    id: `${typed?.kind ?? 'digit-slip'}-${m.id}`,
    seen: `${plainSeries(m)} of ${plainDate(m.date)} is ${shown(m, m.value)}; about ${aboutSo(m, expected)} was expected from everything else.`,
  };
  if (!typed) return { ...base, corrections: [], action: 'Look up what was written down, or measure again.' };
  return {
    ...base,
    corrections: [{ measurementId: m.id, value: typed.value }],
    action: `Take ${shown(m, typed.value)} instead (${typed.reason}); the entry as typed is kept.`,
  };
}
