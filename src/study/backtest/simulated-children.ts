import type { GrowthModel } from '../../growth/population/growth-model.js';
import { simulateChild } from '../../growth/prediction/simulate-child.js';
import { randomStream } from '../../statistics/random-stream.js';
import { hash } from './clinic-noise.js';
import { backtestMeasures, type GrowthRecord } from './growth-record.js';

const AGES = [7, ...Array.from({ length: 19 }, (_, i) => 8 + i / 2)];

/** Half boys, half girls, drawn from the model, in the shape of the followed records at 7 to 17 years. */
export function simulatedRecords(model: GrowthModel, count: number, seed: number): GrowthRecord[] {
  return Array.from({ length: count }, (_, i): GrowthRecord => {
    const sex = i % 2 === 0 ? 'male' : 'female';
    const sizes = simulateChild(
      model,
      sex,
      backtestMeasures,
      AGES,
      randomStream(hash(`${seed}|simulated|${i}`)),
    );
    return {
      id: `simulated-${i}`,
      sex,
      visits: AGES.map((ageYears, a) => ({
        ageYears,
        sizes: ageYears < 8 ? { stature: sizes[a].stature, weight: sizes[a].weight } : sizes[a],
      })),
    };
  });
}
