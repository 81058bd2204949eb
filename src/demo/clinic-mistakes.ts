import type { ChildRecord } from '../records/caseload.js';
import { measures } from '../records/measure.js';
import type { Measurement } from '../records/records.js';
import type { Chance } from './chance.js';

/** A slip hidden in the readings, for tests and for the curious: which readings, and what was done to them. */
export interface HiddenMistake {
  readonly kind: 'swapped-sides' | 'digit-slip' | 'unit-slip' | 'duplicate';
  readonly childId: string;
  readonly measurementIds: readonly string[];
}

const SHARE_OF_CHILDREN = 0.1;

/** Puts one slip into the readings of about every tenth child who has been seen at least three times. */
export function withMistakes(
  records: readonly ChildRecord[],
  c: Chance,
): { records: ChildRecord[]; mistakes: HiddenMistake[] } {
  const mistakes: HiddenMistake[] = [];
  const changed = records.map((record) => {
    const dates = new Set(record.measurements.map((m) => m.date));
    if (dates.size < 3 || !c.happens(SHARE_OF_CHILDREN)) return record;
    const kind = c.oneOf(['swapped-sides', 'digit-slip', 'unit-slip', 'duplicate'] as const);
    const slipped = SLIPS[kind](record.measurements, c);
    if (slipped === null) return record;
    mistakes.push({ kind, childId: record.child.id, measurementIds: slipped.ids });
    return { ...record, measurements: slipped.measurements };
  });
  return { records: changed, mistakes };
}

type Slip = (
  rows: readonly Measurement[],
  c: Chance,
) => { measurements: Measurement[]; ids: string[] } | null;

const replace = (rows: readonly Measurement[], changes: ReadonlyMap<string, Partial<Measurement>>) => ({
  measurements: rows.map((row) => ({ ...row, ...changes.get(row.id) })),
  ids: [...changes.keys()],
});

const SLIPS: Readonly<Record<HiddenMistake['kind'], Slip>> = {
  /** Left written for right on one visit; it shows only where the sides differ. */
  'swapped-sides': (rows) => {
    const left = rows.findLast(
      (l) => l.side === 'left' && rows.some((r) => isOtherSide(l, r) && Math.abs(r.value - l.value) >= 6),
    );
    const right = left && rows.find((r) => isOtherSide(left, r));
    return left && right
      ? replace(
          rows,
          new Map([
            [left.id, { value: right.value }],
            [right.id, { value: left.value }],
          ]),
        )
      : null;
  },
  /** Two digits in the wrong order: 182 as 128, as far as a body can have it. */
  'digit-slip': (rows, c) => {
    const candidates = rows.flatMap((row) => {
      const text = String(Math.round(row.value));
      const value = Number(text.slice(0, -2) + text.at(-1) + text.at(-2));
      const [min, max] = measures[row.measure].plausible;
      return Math.abs(value - row.value) >= 15 && value >= min && value <= max ? [{ row, value }] : [];
    });
    if (candidates.length === 0) return null;
    const { row, value } = c.oneOf(candidates);
    return replace(rows, new Map([[row.id, { value, entered: '' }]]));
  },
  /** Inches written in the centimetre column, where the result is still a size some body has. */
  'unit-slip': (rows, c) => {
    const candidates = rows.flatMap((row) => {
      const inches = Math.round((row.value / 25.4) * 10) / 10;
      return inches * 10 >= measures[row.measure].plausible[0] && measures[row.measure].unit === 'mm'
        ? [{ row, inches }]
        : [];
    });
    if (candidates.length === 0) return null;
    const { row, inches } = c.oneOf(candidates);
    return replace(
      rows,
      new Map([[row.id, { value: Math.round(inches * 100) / 10, entered: `${inches} cm` }]]),
    );
  },
  /** The same reading entered twice under two numbers. */
  duplicate: (rows, c) => {
    const row = c.oneOf(rows);
    const again = { ...row, id: `${row.id}-again` };
    return { measurements: [...rows, again], ids: [row.id, again.id] };
  },
};

const isOtherSide = (left: Measurement, right: Measurement): boolean =>
  right.side === 'right' && right.measure === left.measure && right.date === left.date;
