/**
 * An assessment that speaks for some days, held against the same child assessed on each of those days by itself.
 */
import { describe, expect, it } from 'vitest';
import { demoClinic } from '../../src/demo/demo-clinic.js';
import { assessChild } from '../../src/forecast/assess-child.js';
import type { DeviceForecast } from '../../src/forecast/contract.js';
import { assessUntil, onDay } from '../../src/forecast/for-days.js';
import { loadGrowthModel } from '../../src/growth/population/model.js';
import { GROWN_YEARS } from '../../src/records/age.js';
import { type ChildRecord, groupByChild } from '../../src/records/caseload.js';
import { addDaysIso } from '../../src/records/dates.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { buildChild } from './build-record.js';

const today = '2026-03-02';
const last = addDaysIso(today, 6);
const context = { today, model: loadGrowthModel(), rules: loadRules(), seed: 1, draws: 512 };
const untilLast = (record: ChildRecord) => assessUntil(record, context, last);
/** What a reading is worth is said as of the first day. */
const withoutWorth = (forecasts: readonly DeviceForecast[]) =>
  forecasts.map(({ readingWorth: _r, ...f }) => f);

describe('an assessment for some days', () => {
  const records = groupByChild(demoClinic({ children: 45, seed: 5, today }).caseload);
  const spanning = records.map((record) => ({ record, first: untilLast(record) }));
  // Kept as text in between, as the store keeps it.
  const told = ({ record, first: { growth: _, ...first } }: (typeof spanning)[number], day: string) =>
    onDay(
      JSON.parse(JSON.stringify({ ...first, today })) as typeof first & { today: string },
      record,
      context,
      day,
    );

  it('is on the first day what it would be alone, and speaks for nearly every child', () => {
    for (const { record, first } of spanning) {
      const { lastDay: _, growth: __, ...own } = first;
      const { growth: ___, ...alone } = assessChild(record, context);
      expect(own, record.child.id).toEqual(alone);
    }
    expect(spanning.filter(({ first }) => first.lastDay).length / records.length).toBeGreaterThan(0.9);
  });

  it('is on the last day the same as one made on that day', () => {
    for (const child of spanning.filter(({ first }) => first.lastDay)) {
      const own = assessChild(child.record, { ...context, today: last });
      const then = told(child, last)!;
      expect(then.today).toBe(last);
      expect([then.flags, then.suggestions]).toEqual(
        JSON.parse(JSON.stringify([own.flags, own.suggestions])),
      );
      const [a, b] = [then.forecasts, own.forecasts].map((f) => JSON.stringify(withoutWorth(f), rounded));
      expect(a, child.record.child.id).toBe(b);
    }
  });

  it('and in between says the same, its sizes within a tenth of a millimetre', () => {
    const day = addDaysIso(today, 3);
    for (const child of spanning.filter(({ first }) => first.lastDay)) {
      const own = assessChild(child.record, { ...context, today: day });
      const then = told(child, day)!;
      expect(then.flags).toEqual(JSON.parse(JSON.stringify(own.flags)));
      own.forecasts.forEach((f, i) => {
        const g = then.forecasts[i];
        const words = ({ outcome, p10, p50, p90, adjustments, parts, readingNeeded }: DeviceForecast) =>
          JSON.stringify([outcome, p10, p50, p90, adjustments, parts, readingNeeded]);
        expect(words(g), f.deviceId).toBe(words(f));
        expect(Math.abs(g.probabilityOutgrownNow - f.probabilityOutgrownNow), f.deviceId).toBeLessThan(0.02);
        f.room.forEach(({ roomMm }, d) => {
          expect(Math.abs(g.room[d].roomMm - roomMm), f.deviceId).toBeLessThan(0.1);
        });
      });
    }
  });

  it('speaks for no other day', () => {
    const child = spanning.find(({ first }) => first.lastDay)!;
    expect(told(child, addDaysIso(last, 1))).toBeNull();
    expect(told(child, addDaysIso(today, -1))).toBeNull();
  });
});

describe('an assessment speaks for its own day alone', () => {
  const worn = (child: Record<string, unknown> = {}) =>
    buildChild(today, 8, { sex: 'female', ...child })
      .series('foot_length', 'left', [
        [13, 184],
        [1, 189],
      ])
      .device('solid-afo', 'left', 3);

  it('where something else is to be said within the days: here the child is grown up by then', () => {
    const years = Number(today.slice(0, 4)) - GROWN_YEARS;
    const born = (days: number) => addDaysIso(`${years}${today.slice(4)}`, days);
    expect(untilLast(worn({ birthDate: born(3) }).record).lastDay).toBeUndefined();
    expect(untilLast(worn({ birthDate: born(30) }).record).lastDay).toBeDefined();
  });

  it('where a row of the record is dated within them', () => {
    expect(untilLast(worn().record).lastDay).toBeDefined();
    const { record } = worn().event('verdict', -4 / 30.44, { verdict: 'good' });
    expect(record.events.at(-1)!.date > today && record.events.at(-1)!.date <= last).toBe(true);
    expect(untilLast(record).lastDay).toBeUndefined();
  });
});

const rounded = (_key: string, value: unknown) =>
  typeof value === 'number' ? Number(value.toPrecision(9)) : value;
