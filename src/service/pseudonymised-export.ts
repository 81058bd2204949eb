import { createHmac } from 'node:crypto';
import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import { addDaysIso } from '../records/dates.js';
import type { ConditionId } from '../records/records.js';
import { groupBy } from '../statistics/group-by.js';

/** Fewer children than this sharing sex and condition could be guessed at (common practice, no source). */
const SMALLEST_CELL = 5;
const SHIFT_DAYS = 182;

export interface PseudonymisedExport {
  readonly note: string;
  readonly children: readonly { key: string; sex: string; condition: string }[];
  readonly measurements: readonly {
    child: string;
    measure: string;
    side: string;
    value: number;
    ageMonths: number;
    shiftedDate: string;
  }[];
  readonly devices: readonly {
    child: string;
    family: string;
    side: string;
    castAgeMonths: number;
    shiftedCastDate: string;
    status: string;
  }[];
}

/**
 * Readings and devices for research: keyed ids instead of ids, no name, birth date, contact or free text, age in whole
 * months, every date of a child shifted by the same secret number of days, rare conditions and too small groups
 * merged. Pseudonymous, not anonymous: it still belongs under the study's protection.
 */
export function pseudonymisedExport(records: readonly ChildRecord[], key: string): PseudonymisedExport {
  const digest = (what: string, id: string) => createHmac('sha256', key).update(`${what} ${id}`).digest();
  const keyOf = (id: string) => digest('id', id).toString('hex').slice(0, 16);
  const shiftOf = (id: string) => (digest('shift', id).readUInt32BE(0) % (2 * SHIFT_DAYS + 1)) - SHIFT_DAYS;
  const months = (birth: string, on: string) => Math.floor(decimalAgeYears(birth, on) * 12);
  const condition = generalised(records);
  const shown = records.filter((r) => condition(r) !== null);
  return {
    note: `Pseudonymous, not anonymous. ${records.length - shown.length} children left out: their group is smaller than ${SMALLEST_CELL}.`,
    children: shown.map((r) => ({ key: keyOf(r.child.id), sex: r.child.sex, condition: condition(r)! })),
    measurements: shown.flatMap(({ child, measurements }) =>
      measurements.map((m) => ({
        child: keyOf(child.id),
        measure: m.measure,
        side: m.side,
        value: m.value,
        ageMonths: months(child.birthDate, m.date),
        shiftedDate: addDaysIso(m.date, shiftOf(child.id)),
      })),
    ),
    devices: shown.flatMap(({ child, devices }) =>
      devices.map((d) => ({
        child: keyOf(child.id),
        family: d.family,
        side: d.side,
        castAgeMonths: months(child.birthDate, d.castDate),
        shiftedCastDate: addDaysIso(d.castDate, shiftOf(child.id)),
        status: d.status,
      })),
    ),
  };
}

/** First condition, 'other' where too few share it, null where even 'other' holds too few of that sex. */
function generalised(records: readonly ChildRecord[]): (record: ChildRecord) => string | null {
  const first = (r: ChildRecord): ConditionId => r.child.conditions[0] ?? 'none';
  const cell = (r: ChildRecord, c: string) => `${r.child.sex} ${c}`;
  const sizes = groupBy(records, (r) => cell(r, first(r)));
  const merged = (r: ChildRecord) =>
    (sizes.get(cell(r, first(r)))?.length ?? 0) >= SMALLEST_CELL ? first(r) : 'other';
  const after = groupBy(records, (r) => cell(r, merged(r)));
  return (r) => ((after.get(cell(r, merged(r)))?.length ?? 0) >= SMALLEST_CELL ? merged(r) : null);
}
