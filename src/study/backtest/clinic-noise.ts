import { randomStream } from '../../statistics/random-stream.js';
import { scattered, textHash } from '../../statistics/text-hash.js';
import type { BacktestMeasure, GrowthRecord, Visit } from './growth-record.js';

export type Noise = 'clean' | 'clinic';

/**
 * SD of the error a recorded size carries before any noise is added, mm (kg): what a smooth curve leaves over in
 * the Berkeley records, which look smoothed when they were written down, but less so before 8 years (the growth
 * model is fitted with the same figures).
 */
export function recordErrorSd(measure: BacktestMeasure, ageYears: number): number {
  if (measure === 'weight') return 0.3;
  if (measure === 'leg_length') return 1.5;
  return ageYears < 8 ? 5 : 1;
}

/** SD added by 'clinic' noise, mm; weight stays as recorded. */
const addedSd: Readonly<Partial<Record<BacktestMeasure, number>>> = { stature: 4, leg_length: 5 };

/** SD of the error of a reading as a method is given it, mm (kg). */
export const readingErrorSd = (noise: Noise, measure: BacktestMeasure, ageYears: number): number =>
  Math.hypot(recordErrorSd(measure, ageYears), noise === 'clinic' ? (addedSd[measure] ?? 0) : 0);

/**
 * The record as a clinic would have measured it: every reading with its own seeded error. A reading's error
 * depends on seed, child, age and measure alone, so that changing one reading moves no other.
 */
export function withNoise(record: GrowthRecord, noise: Noise, seed: number): GrowthRecord {
  if (noise === 'clean') return record;
  return { ...record, visits: record.visits.map((visit) => noisyVisit(record.id, visit, seed)) };
}

export function noisyVisit(childId: string, visit: Visit, seed: number): Visit {
  const sizes = Object.entries(visit.sizes).map(([measure, size]) => {
    const sd = addedSd[measure as BacktestMeasure] ?? 0;
    if (sd === 0) return [measure, size];
    const own = hash(`${seed}|${childId}|${visit.ageYears.toFixed(4)}|${measure}`);
    return [measure, size + sd * randomStream(own).normal()];
  });
  return { ageYears: visit.ageYears, sizes: Object.fromEntries(sizes) };
}

/** The seed of a text, far from that of a near one. */
export const hash = (text: string): number => scattered(textHash(text));
