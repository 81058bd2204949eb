import type { FamilyRule } from './fit-rule.js';

const inBand = (age: number) => (b: { fromYears: number; toYears: number }) =>
  age >= b.fromYears && age < b.toYears;

/** Usual life of a device cast at this age, months, or null where the rule is silent. */
export function usualLifetimeMonths(
  rule: FamilyRule,
  ageYears: number,
): { low: number; high: number } | null {
  const band = rule.lifetimeMonths.find(inBand(ageYears));
  return band ? { low: band.low, high: band.high } : null;
}

/** Days to the next review; shorter where the skin cannot warn. */
export function reviewIntervalDays(rule: FamilyRule, ageYears: number, insensateSkin: boolean): number {
  const usual = (rule.reviewDays.find(inBand(ageYears)) ?? rule.reviewDays[rule.reviewDays.length - 1]).days;
  return insensateSkin ? Math.min(usual, rule.insensateReviewDays.value) : usual;
}
