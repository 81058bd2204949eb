import {
  type ClinicLimit,
  type LimitChange,
  type LimitFigure,
  limitFigures,
  limitKey,
} from './clinic-limits.js';
import { figureOf } from './figure-of.js';
import type { FitRules } from './fit-rule.js';
import { limitBounds } from './limit-bounds.js';

/** Why one of several changes cannot stand, and what would be accepted. */
export interface LimitProblem {
  /** Which of the changes, from 0. */
  readonly change: number;
  readonly field: 'family' | 'measure' | 'figure' | 'mm';
  readonly given: string;
  readonly why: string;
  readonly accepted: string;
}

/**
 * What is wrong with these changes over `shipped` rules and what the clinic has set so far, one problem a change at
 * most; they are judged as they would stand together, so that a limit and what hangs on it can move in one step.
 */
export function findLimitProblems(
  shipped: FitRules,
  current: readonly ClinicLimit[],
  changes: readonly LimitChange[],
): LimitProblem[] {
  const set = new Map(current.map((l) => [limitKey(l), l.mm]));
  const after = new Map(set);
  const seen = new Set<string>();
  const alone = changes.flatMap((change, i): LimitProblem[] => {
    const key = limitKey(change);
    const again = seen.has(key);
    seen.add(key);
    const problem = again
      ? { field: 'figure', given: change.figure, why: 'it is changed twice', accepted: 'one change a figure' }
      : (placeProblem(shipped, change) ?? sizeProblem(shipped, change, set.has(key)));
    if (problem) return [{ change: i, ...problem } as LimitProblem];
    if (change.mm === null) after.delete(key);
    else after.set(key, change.mm);
    return [];
  });
  if (alone.length > 0) return alone;
  return changes.flatMap((change, i): LimitProblem[] => {
    const mmOf = (figure: LimitFigure): number | null => {
      const place = { ...change, figure };
      return after.get(limitKey(place)) ?? figureOf(shipped, place)?.value ?? null;
    };
    const problem = togetherProblem(mmOf);
    return problem ? [{ change: i, field: 'mm', given: String(change.mm ?? 'shipped'), ...problem }] : [];
  });
}

type Found = Omit<LimitProblem, 'change'> | null;

function placeProblem(shipped: FitRules, { family, measure, figure }: LimitChange): Found {
  const rule = shipped.get(family);
  if (!rule)
    return {
      field: 'family',
      given: family,
      why: 'there is no such family',
      accepted: [...shipped.keys()].join(', '),
    };
  const dimension = rule.dimensions.find((d) => d.measure === measure);
  if (!dimension) {
    const accepted = rule.dimensions.map((d) => d.measure).join(', ');
    return { field: 'measure', given: measure, why: 'it does not limit this family', accepted };
  }
  if (dimension[figure]) return null;
  const accepted = limitFigures.filter((f) => dimension[f]).join(', ');
  return { field: 'figure', given: figure, why: 'this dimension has no such figure', accepted };
}

function sizeProblem(shipped: FitRules, change: LimitChange, isSet: boolean): Found {
  const { mm } = change;
  if (mm === null)
    return isSet
      ? null
      : { field: 'mm', given: 'null', why: 'it has the shipped figure already', accepted: 'a number of mm' };
  const shippedMm = figureOf(shipped, change)!.value;
  const { lowestMm, highestMm } = limitBounds(shippedMm);
  const accepted = `${lowestMm} to ${highestMm} mm (a quarter to four times the shipped ${shippedMm}), to a tenth of a mm`;
  if (!(mm >= lowestMm && mm <= highestMm))
    return {
      field: 'mm',
      given: String(mm),
      why: 'so far from the shipped figure is likely a slip of unit',
      accepted,
    };
  if (Math.abs(mm * 10 - Math.round(mm * 10)) > 1e-6)
    return { field: 'mm', given: String(mm), why: 'nobody measures finer than a tenth of a mm', accepted };
  return null;
}

/** What must hold between the figures of one dimension. */
function togetherProblem(mmOf: (figure: LimitFigure) => number | null) {
  const allowance = Math.min(mmOf('allowanceMm')!, mmOf('allowanceBehindToesMm') ?? Number.POSITIVE_INFINITY);
  const tight = mmOf('tightWithinMm')!;
  const spread = mmOf('toleranceMm')!;
  if (tight >= allowance)
    return {
      why: `with ${tight} mm of room called tight a new device would be tight at once`,
      accepted: `tight within less than the allowance of ${allowance} mm`,
    };
  if (spread >= allowance)
    return {
      why: `with a spread of ${spread} mm a device may be outgrown at its own cast`,
      accepted: `a spread below the allowance of ${allowance} mm`,
    };
  return null;
}
