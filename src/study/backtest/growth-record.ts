/** One followed child of a backtest file. Sizes in mm, weight in kg. */
export const backtestMeasures = ['stature', 'leg_length', 'weight'] as const;
export type BacktestMeasure = (typeof backtestMeasures)[number];

export interface Visit {
  readonly ageYears: number;
  readonly sizes: Readonly<Partial<Record<BacktestMeasure, number>>>;
}

export interface GrowthRecord {
  readonly id: string;
  readonly sex: 'male' | 'female';
  readonly visits: readonly Visit[];
}

/** What a forecaster is told: sex, and the visits up to and including the forecast's date. Never an id. */
export interface Known {
  readonly sex: 'male' | 'female';
  /** Ascending; the last one is the forecast's date. */
  readonly visits: readonly Visit[];
}

/** Yearly visits known at each forecast. */
export const HISTORY = 3;
/** How far a visit may lie from a birthday and still be that year's visit, years. */
const BIRTHDAY_TOLERANCE_YEARS = 0.13;

/** The visit nearest to a birthday, or null where none lies within about seven weeks of it. */
export function birthdayVisit(record: GrowthRecord, wholeAge: number): Visit | null {
  let nearest: Visit | null = null;
  for (const visit of record.visits) {
    const distance = Math.abs(visit.ageYears - wholeAge);
    if (distance > BIRTHDAY_TOLERANCE_YEARS) continue;
    if (nearest === null || distance < Math.abs(nearest.ageYears - wholeAge)) nearest = visit;
  }
  return nearest;
}

/**
 * What is known at a birthday from the last HISTORY yearly visits, that birthday's included; fewer where
 * the record starts later. Null where there is no visit at that birthday.
 */
export function knownAt(record: GrowthRecord, wholeAge: number): Known | null {
  if (birthdayVisit(record, wholeAge) === null) return null;
  const visits: Visit[] = [];
  for (let age = wholeAge - HISTORY + 1; age <= wholeAge; age++) {
    const visit = birthdayVisit(record, age);
    if (visit !== null) visits.push(visit);
  }
  return { sex: record.sex, visits };
}
