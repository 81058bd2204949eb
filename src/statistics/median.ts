import { median as medianOfSome } from 'simple-statistics';

/** The middle number, or the mean of the two middle ones; null without any. */
export const median = (values: readonly number[]): number | null =>
  values.length === 0 ? null : medianOfSome([...values]);
