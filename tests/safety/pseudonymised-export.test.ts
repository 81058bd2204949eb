/** What an export for research tells of a child. */
import { expect, it } from 'vitest';
import { daysBetween } from '../../src/records/dates.js';
import { pseudonymisedExport } from '../../src/service/pseudonymised-export.js';
import { testRecord } from '../recall/build-a-clinic.js';

function clinic(sex: 'female' | 'male', condition: 'none' | 'cerebral-palsy', count: number) {
  return Array.from({ length: count }, (_, i) => {
    const record = testRecord({ id: `${sex}-${condition}-${i}`, birthDate: `2019-0${1 + i}-11` });
    return {
      ...record,
      child: { ...record.child, sex, conditions: condition === 'none' ? [] : [condition] },
    };
  });
}

// No cell of fewer than five: a common threshold of statistical disclosure control, from memory.
it('leaves out, or takes together with others, whoever shares sex and condition with fewer than four', () => {
  const told = (...records: ReturnType<typeof clinic>[]) =>
    pseudonymisedExport(records.flat(), 'key').children.map((c) => `${c.sex} ${c.condition}`);
  expect(told(clinic('female', 'none', 5), clinic('female', 'cerebral-palsy', 4))).toEqual(
    Array.from({ length: 5 }, () => 'female none'),
  );
  expect(told(clinic('female', 'cerebral-palsy', 5))).toHaveLength(5);
  expect(told(clinic('male', 'none', 4))).toEqual([]);
});

it('moves every date of a child by one number of days that only the key tells, and keeps what lies between them', () => {
  const records = clinic('female', 'none', 6);
  const shifts = (key: string) => {
    const { measurements, devices } = pseudonymisedExport(records, key);
    return records.map((r, i) => [
      daysBetween(r.measurements[0].date, measurements[i].shiftedDate),
      daysBetween(r.devices[0].castDate, devices[i].shiftedCastDate),
    ]);
  };
  const one = shifts('one key');
  for (const [reading, cast] of one) expect(reading).toBe(cast);
  // Six children at one place of 365 would be a chance of one in 10^12.
  expect(new Set(one.map(([days]) => days)).size).toBeGreaterThan(1);
  expect(shifts('another key')).not.toEqual(one);
});

it('names nobody: a key that is no id, an age in whole months, and no shift that the key gives away', () => {
  const records = clinic('male', 'none', 6);
  const { children, measurements, devices } = pseudonymisedExport(records, 'key');
  const text = JSON.stringify({ children, measurements, devices });
  for (const { child } of records)
    for (const own of [child.id, child.birthDate]) expect(text).not.toContain(own);
  expect(new Set(children.map((c) => c.key)).size).toBe(6);
  expect(measurements.map((m) => m.child)).toEqual(children.map((c) => c.key));
  // Born on 11 January 2019, read on 2 May 2026, a hundred days before that day cast.
  expect(measurements[0].ageMonths).toBe(87);
  const shifts = records.map((r, i) => daysBetween(r.measurements[0].date, measurements[i].shiftedDate));
  const byKey = children.map(({ key }) => (Number.parseInt(key.slice(0, 8), 16) % 365) - 182);
  expect(shifts).not.toEqual(byKey);
});
