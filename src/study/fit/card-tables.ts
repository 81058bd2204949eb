import { normalCdf } from '../../statistics/normal-cdf.js';
import type { DateRow } from '../backtest/outgrown-dates.js';
import type { InfantResidual } from './infant-residual.js';
import { type MeasuredError, NOISE_DRAWS } from './measured-error.js';

const LEAST_COVER = 0.76;
const MOST_COVER = 0.84;
/** Staying on the cohort's own centile is what nobody may be worse off than, but for this. */
const WORST_RATIO = 1.02;

/** Error and cover in every cell of sex, age and horizon, with what is amiss in front. */
export function errorTable(errors: readonly MeasuredError[]): string {
  const rows = errors.map((e) => {
    const cells = [
      ...[e.measure, e.sex, e.ages, e.horizonYears, e.n],
      `${e.maeMm.toFixed(1)} (${e.maeSeMm.toFixed(1)})`,
      e.biasMm.toFixed(1),
      `${(100 * e.coverage80).toFixed(0)} (${(100 * e.coverage80Se).toFixed(0)})`,
      e.toCentile === null ? '-' : `${e.toCentile.toFixed(2)} (${(e.toCentileSe ?? 0).toFixed(2)})`,
    ];
    return `| ${cells.join(' | ')} |`;
  });
  return `Children left out of the estimate in turn (5 groups of children), three yearly visits known, error of 4 mm added to
stature and 5 mm to leg length, ${NOISE_DRAWS} times over; bands widened by the record's own error. In brackets the standard error,
counted by child. ${amiss(errors)}

| measure | sex | age at forecast | years ahead | n | mean absolute error, mm | bias, mm | 80 % band covers, % | error over staying on the cohort's centile |
|---|---|---|---|---|---|---|---|---|
${rows.join('\n')}`;
}

/** Cells whose cover is not what it should be, and how many would not be by chance alone. */
function amiss(errors: readonly MeasuredError[]): string {
  const off = (e: MeasuredError) => e.coverage80 - 0.8;
  const cells = errors.filter((e) => e.coverage80 < LEAST_COVER || e.coverage80 > MOST_COVER);
  const sure = errors.filter((e) => Math.abs(off(e)) > 2 * e.coverage80Se);
  const chance = errors.reduce(
    (sum, e) => sum + 2 * normalCdf(-(MOST_COVER - 0.8) / Math.max(e.coverage80Se, 1e-3)),
    0,
  );
  const named = (list: readonly MeasuredError[]) =>
    `${list.length} (${list.map((e) => `${e.measure} ${e.sex} ${e.ages} +${e.horizonYears}`).join('; ') || 'none'})`;
  const worse = errors.filter((e) => (e.toCentile ?? 0) > WORST_RATIO);
  return `Of the
${errors.length} cells ${cells.length} lie outside 76-84 %; were every band right, about ${chance.toFixed(0)} would by chance alone. Beyond two standard errors lie
${sure.length}: too narrow ${named(sure.filter((e) => off(e) < 0))}, too wide ${named(sure.filter((e) => off(e) > 0))}.
Worse than ${WORST_RATIO} of staying on the cohort's own centile: ${named(worse)}.`;
}

/** How near the outgrown date came, with how near it can come beside it. */
export function datesTable(dates: readonly DateRow[], floors: readonly DateRow[]): string {
  const rows = dates.map((d) => {
    const floor = floors.find((f) => f.allowanceMm === d.allowanceMm);
    const by = d.outgrownByDate;
    const share = (v: number | undefined) => (v === undefined ? '-' : (100 * v).toFixed(0));
    const cells = [
      ...[d.allowanceMm, d.n, d.medianAbsoluteErrorDays, floor?.medianAbsoluteErrorDays ?? '-', d.biasDays],
      ...[d.devices, d.censored, d.medianLeastErrorDays, floor?.medianLeastErrorDays ?? '-'],
      `${share(by?.p10)}, ${share(by?.p50)}, ${share(by?.p90)}`,
    ];
    return `| ${cells.join(' | ')} |`;
  });
  return `Dates: a device cast at each birthday from 9 to 15, outgrown when leg length has grown by the allowance, the same children
left out. The floor is the same error for children drawn from the model itself: no forecast of theirs can come nearer.
'All' counts a device nobody saw outgrown within record and 30 months as at least as much too early as it was followed longer.
Outgrown by the forecast's P10, P50 and P90 dates ought to be 10, 50 and 90 %.

| allowance, mm | seen outgrown | median error, days | floor, days | bias, days | all | not seen outgrown | median error of all, days | floor, days | outgrown by P10, P50, P90, % |
|---|---|---|---|---|---|---|---|---|---|
${rows.join('\n')}`;
}

/** Infants left out of the estimate of their residual process. */
export function infantTable({ errors, errorMm, children }: InfantResidual): string {
  const rows = errors.map((e) => {
    const cover = `${(100 * e.coverage80).toFixed(0)} (${(100 * e.coverage80Se).toFixed(0)})`;
    const ratio = `${e.toCentile.toFixed(2)} (${e.toCentileSe.toFixed(2)})`;
    return `| ${[e.monthsAhead, e.n, e.maeMm.toFixed(1), cover, ratio].join(' | ')} |`;
  });
  return `Infants' length: ${children} children left out in turn (5 groups), two or three readings known; bands hold the later
reading's own error (${errorMm} mm). In brackets the standard error, counted by child.

| months ahead | n | mean absolute error, mm | 80 % band covers, % | error over staying on the published centile |
|---|---|---|---|---|
${rows.join('\n')}`;
}
