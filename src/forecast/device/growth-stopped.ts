import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type DayNumber, dayNumber, daysBetween } from '../../records/dates.js';
import { measures, type Series } from '../../records/measure.js';
import type { Sex } from '../../records/records.js';

/** Less than this is no growth (common practice, no source). */
const NO_GROWTH_MM = 2;
/** Growth has stopped: no more than that between readings at least this far apart; visits half a year apart fall a little early (common practice, no source). */
const APART_DAYS = 165;
/**
 * So long readings of a child who is not mature must agree before a halt is believed: a foot of eight grows some 3 mm in
 * half a year, which two errors of a reading hide in one child of several, and a held foot has no date to be outgrown on
 * (common practice, no source).
 */
export const AGREE_DAYS = 330;
/** From these ages a halt is the usual end of growth; feet stop first (Anderson 1956, from memory; sources differ). */
const MATURE_YEARS = { female: 12, male: 14, unknown: 12 } as const;
const MARGIN_YEARS = 1;
/** A year younger a child is still to grow, and a halt is asked about. */
export const isStillToGrow = (sex: Sex, ageYears: number): boolean =>
  ageYears < MATURE_YEARS[sex] - MARGIN_YEARS;
const GROWN_PELVIS_STAGE = 4;
const YEARS_AFTER_MENARCHE = 2;

export interface Halt {
  /** Day of the reading that showed it. */
  readonly day: DayNumber;
  /** Maturity explains it, or three readings over nearly a year agree; else it must be read again before it is believed. */
  readonly proved: boolean;
}

/** Readings of one series by day, from the last one at least so many days before the newest on; null where it grew in them. */
export function standstill<R extends { readonly day: DayNumber; readonly value: number }>(
  byDay: readonly R[],
  apartDays: number,
): readonly R[] | null {
  const last = byDay.at(-1);
  const before = last && byDay.findLast((r) => r.day <= last.day - apartDays);
  if (!last || !before) return null;
  const span = byDay.filter((r) => r.day >= before.day);
  const grew = Math.max(...span.map((r) => r.value)) - before.value >= NO_GROWTH_MM;
  const shrank = before.value - last.value >= 3 * NO_GROWTH_MM;
  return grew || shrank ? null : span;
}

/** The same of a child's own readings of a series. */
export const stoodStill = ({ measurements }: ChildRecord, { measure, side }: Series, apartDays: number) =>
  standstill(
    measurements
      .filter((m) => m.measure === measure && m.side === side)
      .map(({ date, value }) => ({ date, value, day: dayNumber(date) }))
      .toSorted((a, b) => a.day - b.day),
    apartDays,
  );

/** Whether the readings of a skeletal series say that it no longer grows, whatever the population still would. */
export function growthStopped(record: ChildRecord, series: Series): Halt | null {
  if (!measures[series.measure].skeletal) return null;
  const span = stoodStill(record, series, APART_DAYS);
  if (span === null) return null;
  const last = span[span.length - 1];
  const agreeing = stoodStill(record, series, AGREE_DAYS) ?? [];
  return { day: last.day, proved: isMature(record, last.date) || agreeing.length >= 3 };
}

function isMature({ child, markers }: ChildRecord, on: string): boolean {
  return (
    decimalAgeYears(child.birthDate, on) >= MATURE_YEARS[child.sex] ||
    markers.some(
      (m) =>
        (m.kind === 'pelvis-stage' && m.value >= GROWN_PELVIS_STAGE) ||
        (m.kind === 'menarche' && daysBetween(m.date, on) >= YEARS_AFTER_MENARCHE * 365),
    )
  );
}
