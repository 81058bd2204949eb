import { decimalAgeYears } from '../../records/age.js';
import { daysBetween } from '../../records/dates.js';
import { headShape } from '../../rules/head-shape.js';
import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { growthHormoneStart } from '../record-until.js';
import { staleAfterDays } from '../stale-after.js';
import { plainDate, plainSpan, wholeMm } from '../words.js';
import { type FlagInput, flag } from './flag-input.js';
import { historyOf } from './history-of.js';

/** What the record as a whole says: long unmeasured, treatment the model does not know, head asymmetry. */
export function recordFlags(input: FlagInput): Flag[] {
  return [...staleFlags(input), ...hormoneFlags(input), ...headShapeFlags(input), ...headBasisFlags(input)];
}

function staleFlags(input: FlagInput): Flag[] {
  const { record, today, plans } = input;
  const last = record.measurements
    .map((m) => m.date)
    .sort()
    .at(-1);
  if (!last || plans.length === 0) return [];
  const days = daysBetween(last, today);
  const age = decimalAgeYears(record.child.birthDate, today);
  if (!plans.some((p) => days > staleAfterDays(p.rule, age))) return [];
  return [
    flag(
      input,
      'stale',
      'check',
      cautions.stale,
      `Last measured on ${plainDate(last)}, ${plainSpan(days)} ago.`,
    ),
  ];
}

function hormoneFlags(input: FlagInput): Flag[] {
  const start = growthHormoneStart(input.record);
  if (start === null || start > input.today) return [];
  const seen = `Growth hormone since ${plainDate(start)}.`;
  return [flag(input, 'growth-hormone', 'check', cautions.growthHormone, seen)];
}

/** Said once a child, whatever its head devices: what their dates rest on. */
function headBasisFlags(input: FlagInput): Flag[] {
  const first = input.plans.find((p) => p.rule.region === 'head');
  if (!first) return [];
  const about = { deviceId: first.device.id };
  return [flag(input, 'head-basis', 'note', cautions.headBasis, 'A head orthosis is forecast.', about)];
}

function headShapeFlags(input: FlagInput): Flag[] {
  const both = historyOf(input, ['head_diagonal']);
  const left = both.find((h) => h.series.side === 'left')?.visits ?? [];
  const right = both.find((h) => h.series.side === 'right')?.visits ?? [];
  const pairs = left.flatMap((l) => {
    const r = right.find((v) => v.date === l.date);
    return r ? [{ date: l.date, shape: headShape(l.value, r.value, l.error) }] : [];
  });
  const last = pairs.at(-1);
  if (!last) return [];
  const first = pairs[0];
  const change = last.shape.asymmetryMm - first.shape.asymmetryMm;
  const moved =
    Math.abs(change) < last.shape.detectableChangeMm
      ? `No change beyond measuring error (${wholeMm(last.shape.detectableChangeMm)})`
      : `${change < 0 ? 'Less' : 'More'} by ${wholeMm(Math.abs(change))}`;
  const course = pairs.length < 2 ? '' : ` ${moved} since ${plainDate(first.date)}.`;
  const seen = `Diagonals differ by ${wholeMm(last.shape.asymmetryMm)} (${last.shape.asymmetryPercent.toFixed(1)} % of the shorter one).${course}`;
  return [flag(input, 'head-asymmetry', 'note', cautions.asymmetry, seen)];
}
