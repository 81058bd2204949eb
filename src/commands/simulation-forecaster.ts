import type { ChildPosterior } from '../growth/contract.js';
import type { GrowthModel } from '../growth/population/growth-model.js';
import { fitChild } from '../growth/prediction/fit-child.js';
import { type DayNumber, isoDate } from '../records/dates.js';
import { measures, seriesKey } from '../records/measure.js';
import type { Measurement } from '../records/records.js';
import { randomStream } from '../statistics/random-stream.js';
import { hash } from '../study/backtest/clinic-noise.js';
import type { SimulationForecaster, SimulationLook } from '../study/simulate/contract.js';
import type { WorldChild } from './simulated-worlds.js';

const DRAWS = 160;
/** Days ahead at which paths are drawn: a fortnight apart for half a year, then four weeks, to a year and a half. */
const AHEAD = [
  ...Array.from({ length: 14 }, (_, k) => 14 * k),
  ...Array.from({ length: 13 }, (_, k) => 210 + 28 * k),
];
/** SD of the room at the toes as read in the device, mm (the shipped tolerance of the plate; common practice, no source). */
const LOOK_SD = 1.5;
/** So much of a draw's say is left however far it lies from what was seen. */
const LEAST_SAY = 1e-6;

/** One reading with its own error, which depends on child, series, day and seed alone: the same under every policy. */
function noisy(child: WorldChild, k: number, day: DayNumber, seed: number): number | null {
  const { series, at } = child.sizes[k];
  const size = at(day);
  if (size === null) return null;
  const error = randomStream(hash(`${seed}|${child.id}|${seriesKey(series)}|${day}`)).normal();
  return size + measures[series.measure].technicalError * error;
}

export function simulationLook(seed: number): SimulationLook {
  return (child, day, roomMm) =>
    roomMm + LOOK_SD * randomStream(hash(`${seed}|${child.id}|look|${day}`)).normal();
}

/** Forecasts from the growth model, given the readings of the days a child was seen on and nothing later. */
export function simulationForecaster(model: GrowthModel, seed: number): SimulationForecaster {
  const last = new Map<string, { readonly seen: string; readonly posterior: ChildPosterior | null }>();
  const posteriorOf = (child: WorldChild, days: readonly DayNumber[]): ChildPosterior | null => {
    const seen = days.join();
    const known = last.get(child.id);
    if (known?.seen === seen) return known.posterior;
    const measurements = days.flatMap((day) =>
      child.sizes.flatMap(({ series }, k): Measurement[] => {
        const value = noisy(child, k, day, seed);
        if (value === null) return [];
        const id = `${seriesKey(series)}@${day}`;
        const plain = { method: '', observer: '', technicalError: null, entered: '', extra: {} };
        return [{ id, childId: child.id, ...series, value, date: isoDate(day), ...plain }];
      }),
    );
    const outcome = fitChild({ ...child.who, measurements, markers: [] }, model);
    const posterior = outcome.kind === 'posterior' ? outcome.posterior : null;
    last.set(child.id, { seen, posterior });
    return posterior;
  };
  return (child, readingDays, device, today) => {
    const known = child as WorldChild;
    const posterior = posteriorOf(
      known,
      readingDays.filter((d) => d <= today),
    );
    if (!posterior) return { dates: [], probabilityOutgrown: [] };
    const past = device.castDay < today ? [device.castDay] : [];
    const days = [...past, ...AHEAD.map((d) => today + d)];
    const [paths] = posterior.sample([known.limiting], days, DRAWS, seed);
    const grown = (i: number, k: number) => paths[i * days.length + past.length + k] - paths[i * days.length];
    const { allowanceMm, roomSeenMm } = device;
    const weights = Array.from({ length: DRAWS }, (_, i) =>
      roomSeenMm === null
        ? 1
        : LEAST_SAY + Math.exp(-0.5 * ((allowanceMm - grown(i, 0) - roomSeenMm) / LOOK_SD) ** 2),
    );
    const whole = weights.reduce((sum, w) => sum + w, 0);
    return {
      dates: AHEAD.map((d) => isoDate(today + d)),
      probabilityOutgrown: AHEAD.map(
        (_, k) => weights.reduce((sum, w, i) => sum + (grown(i, k) > allowanceMm ? w : 0), 0) / whole,
      ),
    };
  };
}
