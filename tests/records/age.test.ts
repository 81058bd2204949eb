import { expect, test } from 'vitest';
import { growthAgeYears } from '../../src/growth/population/growth-age.js';
import { decimalAgeYears, referenceAgeYears, weeksCorrectedFor } from '../../src/records/age.js';
import { dayNumber, isIsoDate } from '../../src/records/dates.js';
import { measures, technicalErrorAt } from '../../src/records/measure.js';

test('decimal age counts leap days', () => {
  // From 2020-02-29 to 2024-02-29 there are 1461 days, four mean years.
  expect(decimalAgeYears('2020-02-29', '2024-02-29')).toBe(4);
  expect(decimalAgeYears('2020-01-01', '2021-01-01')).toBeCloseTo(366 / 365.25, 12);
});

test('a child born at 28 weeks and 7 months old is read at 4.2 months', () => {
  // Common practice, no source (corrected age, 12 weeks early).
  const months = referenceAgeYears('2026-01-01', '2026-08-01', 28) * 12;
  expect(months).toBeCloseTo(4.2, 1);
});

test('correction ends at two years of chronological age, and term children have none', () => {
  expect(referenceAgeYears('2024-01-01', '2026-06-01', 28)).toBe(decimalAgeYears('2024-01-01', '2026-06-01'));
  expect(referenceAgeYears('2026-01-01', '2026-08-01', 37)).toBe(decimalAgeYears('2026-01-01', '2026-08-01'));
  expect(referenceAgeYears('2026-01-01', '2026-08-01', null)).toBe(
    decimalAgeYears('2026-01-01', '2026-08-01'),
  );
  expect(referenceAgeYears('2026-01-01', '2026-01-08', 30)).toBeLessThan(0);
});

test('technical errors stand as usual practice has them', () => {
  // Common practice, no source: foot 2 mm, 3 under 3 y; ankle height 4; knee 5; hip 7; girths 4.
  expect(technicalErrorAt('foot_length', 2.9)).toBe(3);
  expect(technicalErrorAt('foot_length', 3)).toBe(2);
  expect(measures.ankle_height.technicalError).toBe(4);
  expect(measures.knee_height.technicalError).toBe(5);
  expect(measures.hip_height.technicalError).toBe(7);
  expect(measures.calf_girth.technicalError).toBe(4);
});

test('the growth model’s age fades from corrected to calendar between two and four years, and never jumps', () => {
  // Twelve weeks early: whole at two years, half at three, none at four (common practice for the first two years).
  const birth = '2020-01-01';
  const early = (years: number) => years - growthAgeYears(birth, dayNumber(birth) + years * 365.25, 28);
  const whole = (12 * 7) / 365.25;
  expect(early(0.5)).toBeCloseTo(whole, 9);
  expect(early(1.99)).toBeCloseTo(whole, 9);
  expect(early(3)).toBeCloseTo(whole / 2, 9);
  expect(early(4)).toBeCloseTo(0, 9);
  expect(early(9)).toBeCloseTo(0, 9);
  expect(growthAgeYears(birth, dayNumber(birth) + 365.25, 36)).toBeCloseTo(1 - 28 / 365.25, 9);
  expect(growthAgeYears(birth, dayNumber(birth) + 365.25, 37)).toBe(1);
});

test('a child of 36 weeks is corrected by four, one of 37 not', () => {
  expect(weeksCorrectedFor({ birthDate: '2026-01-01', gestationWeeks: 36 }, '2026-08-01')).toBe(4);
  expect(weeksCorrectedFor({ birthDate: '2026-01-01', gestationWeeks: 37 }, '2026-08-01')).toBeNull();
  expect(weeksCorrectedFor({ birthDate: '2024-01-01', gestationWeeks: 28 }, '2025-12-30')).toBe(12);
  expect(weeksCorrectedFor({ birthDate: '2024-01-01', gestationWeeks: 28 }, '2026-01-02')).toBeNull();
});

test('a date is a day of the calendar', () => {
  for (const day of ['2024-02-29', '2026-12-31']) expect(isIsoDate(day), day).toBe(true);
  for (const day of ['2026-02-29', '2026-02-30', '2026-13-01', '2026-1-1', '2026-01-01T00:00', ''])
    expect(isIsoDate(day), day).toBe(false);
});
