import { type MeasureId, measures } from '../../records/measure.js';
import { lengthUnits, massUnits, toBaseUnit, type Unit } from '../../records/units.js';
import { foldText } from '../headings/fold-words.js';
import { choices } from './answer-choices.js';
import type { TakenTable } from './taken-table.js';
import { canBe } from './usual-size.js';

/** The answer for a column of which each size is in the unit it can only be in. */
export const EACH = 'each';
/** How a column's sizes are read: in one unit, or each in its own. */
export type ChosenUnit = Unit | typeof EACH;

/** One value with its child's age where that is known. */
export interface Valued {
  readonly value: number;
  readonly ageYears: number | null;
  /** In how many cells. */
  count: number;
}
/** Values under one heading of one measure that say no unit of their own. */
export interface ValueColumn {
  readonly key: string;
  readonly heading: string;
  readonly measure: MeasureId;
  readonly headingUnit: Unit | null;
  readonly cells: number;
  readonly values: readonly Valued[];
}

/**
 * One unit for each column: the heading's, unless its values cannot be that; else the only one in which the values can
 * be sizes of children of their age; of several the one the other columns have. Where none is left, the clinic is asked.
 */
export function chooseUnits(
  columns: readonly ValueColumn[],
  taken: TakenTable,
  fallback: Unit | null,
): Map<string, ChosenUnit> {
  const chosen = new Map<string, ChosenUnit>();
  const open: { column: ValueColumn; possible: Unit[] }[] = [];
  for (const column of columns) {
    if (column.values.length === 0) continue;
    const unit = unitAlone(column, taken);
    if (Array.isArray(unit)) open.push({ column, possible: unit });
    else if (unit !== null) chosen.set(column.key, unit);
  }
  settleOpen(open, chosen, columns, taken, fallback);
  tellRead(columns, chosen, fallback, taken);
  return chosen;
}

/** How a column by itself is read: its unit, null while the clinic has not said, or those units that are left. */
function unitAlone(column: ValueColumn, taken: TakenTable): ChosenUnit | null | Unit[] {
  const { headingUnit, measure } = column;
  const shares = unitsOf(measure).map((unit) => ({ unit, share: shareIn(column, unit) }));
  shares.sort((a, b) => b.share - a.share);
  if (headingUnit !== null) return headingOrValues(column, headingUnit, shares, taken);
  if (shares[0].share < 0.8) {
    const each = eachItsOwn(column, taken);
    if (each !== undefined) return each;
  }
  const possible = shares
    .filter((s) => s.share >= 0.8 && s.share >= shares[0].share - 0.1)
    .map((s) => s.unit);
  // Inches beside centimetres are likelier another measure than another unit: what the other columns have is seen first.
  if (possible.length === 1 && possible[0] !== 'inch') return possible[0];
  return possible.length > 0 ? possible : shares.filter((s) => s.share > 0.3).map((s) => s.unit);
}

/** Columns that say no unit, a line a unit they were read in. */
function tellRead(
  columns: readonly ValueColumn[],
  chosen: ReadonlyMap<string, ChosenUnit>,
  fallback: Unit | null,
  taken: TakenTable,
): void {
  const silent = columns.filter(({ key, headingUnit }) => headingUnit === null && chosen.has(key));
  for (const unit of new Set(silent.map(({ key }) => chosen.get(key)))) {
    const names = [...new Set(silent.filter(({ key }) => chosen.get(key) === unit).map((c) => c.heading))];
    if (unit === EACH || (unit === fallback && fallback !== null)) continue;
    taken.tell(
      `read in ${unit}, as no other unit fits the sizes or those beside them: "${names.join('", "')}".`,
    );
  }
}

/** The heading's unit, unless the values can only be another: then the clinic says which. */
function headingOrValues(
  column: ValueColumn,
  headingUnit: Unit,
  shares: readonly { unit: Unit; share: number }[],
  taken: TakenTable,
): Unit | null {
  const own = shares.find((s) => s.unit === headingUnit)?.share ?? 0;
  const better = shares[0];
  if (own >= 0.3 || better.share < 0.9) return headingUnit;
  return taken.ask({
    id: `unit:${foldText(column.heading)}:${column.measure}`,
    asks: `The heading "${column.heading}" says ${headingUnit}, but the values can only be ${better.unit}. Which is it?`,
    examples: column.values.slice(0, 4).map((v) => String(v.value)),
    cells: column.cells,
    suggested: better.unit,
    choices: choices([better.unit, headingUnit]),
  }) as Unit | null;
}

// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one column after another, by what is known of it and of those beside it
function settleOpen(
  open: readonly { column: ValueColumn; possible: Unit[] }[],
  chosen: Map<string, ChosenUnit>,
  columns: readonly ValueColumn[],
  taken: TakenTable,
  fallback: Unit | null,
): void {
  const alone: [string, Unit][] = [];
  for (const { column, possible } of open) {
    const kin = columns.filter(
      (c) => measures[c.measure].unit === measures[column.measure].unit && chosen.has(c.key),
    );
    const shared = [...new Set(kin.map((c) => chosen.get(c.key)))].filter(
      (u): u is Unit => u !== undefined && u !== EACH && possible.includes(u),
    );
    const unitChosen = (of: ValueColumn | undefined) => (of ? (chosen.get(of.key) ?? null) : null);
    const same = kin.find((c) => c.measure === column.measure && chosen.get(c.key) !== EACH);
    const settled =
      fallback !== null && measures[column.measure].unit === 'mm'
        ? fallback
        : (unitChosen(same) ?? (shared.length === 1 ? shared[0] : null));
    if (settled !== null) {
      chosen.set(column.key, settled);
      continue;
    }
    if (possible.length === 1 && kin.length === 0) {
      alone.push([column.key, possible[0]]);
      continue;
    }
    const answer = taken.ask({
      id: `unit:${foldText(column.heading)}:${column.measure}`,
      asks: `In which unit is "${column.heading}" (${measures[column.measure].label.toLowerCase()})?`,
      examples: column.values.slice(0, 4).map((v) => String(v.value)),
      cells: column.cells,
      suggested: null,
      choices: choices([...(possible.length > 0 ? possible : unitsOf(column.measure)), 'leave']),
    });
    if (answer && answer !== 'leave') chosen.set(column.key, answer as Unit);
  }
  for (const [key, unit] of alone) chosen.set(key, unit);
}

/** 178 and 17,8 under one heading: mixed once somebody agrees, where each value can be in one unit only; undefined for any other column. */
function eachItsOwn(
  { values, cells, heading, measure }: ValueColumn,
  taken: TakenTable,
): ChosenUnit | null | undefined {
  const own = values.map(({ value, ageYears }) => unitOfSize(measure, value, ageYears));
  const units = new Set(own);
  if (units.has(null) || units.size !== 2) return undefined;
  const answer = taken.ask({
    id: `unit:${foldText(heading)}:${measure}`,
    asks: `"${heading}" holds sizes in ${[...units].join(' and in ')} without a word. Is each to be read in the only unit it can be in?`,
    examples: values.slice(0, 4).map((v, n) => `${v.value} (${own[n]})`),
    cells,
    suggested: EACH,
    choices: choices([EACH, 'leave']),
  });
  return answer === 'leave' ? null : (answer as ChosenUnit | null);
}

/** The one unit in which a size can be a child's of this age; null where none or several can be. */
export function unitOfSize(measure: MeasureId, value: number, ageYears: number | null): Unit | null {
  const fitting = unitsOf(measure).filter((unit) => canBe(measure, toBaseUnit(value, unit), ageYears));
  return fitting.length === 1 ? fitting[0] : null;
}

/** Grams and feet are written with their unit: a bare number is not taken for them. */
function unitsOf(measure: MeasureId): Unit[] {
  if (measures[measure].unit === 'kg') return massUnits.filter((u) => u !== 'g');
  return lengthUnits.filter(
    (u) => u !== 'ft' && (u !== 'm' || measure === 'stature' || measure === 'sitting_height'),
  );
}

function shareIn(column: ValueColumn, unit: Unit): number {
  const fitting = column.values.filter(({ value, ageYears }) =>
    canBe(column.measure, toBaseUnit(value, unit), ageYears),
  );
  return fitting.reduce((n, { count }) => n + count, 0) / column.cells;
}
