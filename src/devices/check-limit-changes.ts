import { DoorpostError } from '../errors.js';
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

/**
 * Refuses changes that cannot stand, naming the change and what is accepted; all of them are judged as they would be
 * together, so that a limit and its warning can move in one step. `shipped` are the rules as shipped, `current` what
 * the clinic has set so far.
 */
export function checkLimitChanges(
  shipped: FitRules,
  current: readonly ClinicLimit[],
  changes: readonly LimitChange[],
): void {
  const after = new Map(current.map((l) => [limitKey(l), l.mm]));
  const seen = new Set<string>();
  for (const [i, change] of changes.entries()) {
    const refuse = refusal(i);
    const key = limitKey(change);
    if (seen.has(key))
      throw refuse('figure', 'this figure is changed twice', change.figure, 'one change a figure');
    seen.add(key);
    checkPlace(shipped, change, refuse);
    if (change.mm === null) {
      if (!after.has(key)) throw refuse('mm', 'it has the shipped figure already', 'null', 'a number of mm');
      after.delete(key);
    } else {
      checkSize(figureOf(shipped, change)!.value, change.mm, refuse);
      after.set(key, change.mm);
    }
  }
  for (const [i, { family, measure }] of changes.entries()) {
    const mmOf = (figure: LimitFigure): number | null => {
      const place = { family, measure, figure };
      return after.get(limitKey(place)) ?? figureOf(shipped, place)?.value ?? null;
    };
    checkTogether(mmOf, refusal(i));
  }
}

type Refuse = (field: string, why: string, given: string, accepted: string) => DoorpostError;

const refusal =
  (i: number): Refuse =>
  (field, why, given, accepted) =>
    new DoorpostError('invalid-rule', `Change ${i + 1}, ${field} '${given}': ${why}. Accepted: ${accepted}`, {
      field: `changes.${i}.${field}`,
      given,
      accepted,
    });

function checkPlace(shipped: FitRules, change: LimitChange, refuse: Refuse): void {
  const rule = shipped.get(change.family);
  if (!rule) throw refuse('family', 'there is no such family', change.family, [...shipped.keys()].join(', '));
  const dimension = rule.dimensions.find((d) => d.measure === change.measure);
  if (!dimension)
    throw refuse(
      'measure',
      'it does not limit this family',
      change.measure,
      rule.dimensions.map((d) => d.measure).join(', '),
    );
  if (!dimension[change.figure])
    throw refuse(
      'figure',
      'this dimension has no such figure',
      change.figure,
      limitFigures.filter((f) => dimension[f]).join(', '),
    );
}

function checkSize(shippedMm: number, mm: number, refuse: Refuse): void {
  const { lowestMm, highestMm } = limitBounds(shippedMm);
  const accepted = `${lowestMm} to ${highestMm} mm (a quarter to four times the shipped ${shippedMm}), to a tenth of a mm`;
  if (!(mm >= lowestMm && mm <= highestMm))
    throw refuse(
      'mm',
      'so far from the shipped figure is likely a slip of unit or decimals',
      String(mm),
      accepted,
    );
  if (Math.abs(mm * 10 - Math.round(mm * 10)) > 1e-6)
    throw refuse('mm', 'nobody measures finer than a tenth of a mm', String(mm), accepted);
}

/** What must hold between the figures of one dimension. */
function checkTogether(mmOf: (figure: LimitFigure) => number | null, refuse: Refuse): void {
  const allowance = Math.min(mmOf('allowanceMm')!, mmOf('allowanceBehindToesMm') ?? Number.POSITIVE_INFINITY);
  const below = {
    tightWithinMm: 'a new device would be tight at once',
    toleranceMm: 'a device could not be told from an outgrown one at its cast',
  } as const;
  for (const figure of Object.keys(below) as (keyof typeof below)[]) {
    const mm = mmOf(figure);
    if (mm !== null && mm >= allowance)
      throw refuse(figure, below[figure], String(mm), `less than the allowance of ${allowance} mm`);
  }
}
