import { describe, expect, it } from 'vitest';
import { assessChild } from '../../../src/forecast/assess-child.js';
import { loadGrowthModel } from '../../../src/growth/population/model.js';
import { dayNumber, isoDate } from '../../../src/records/dates.js';
import type { MeasureId } from '../../../src/records/measure.js';
import { childRecord } from '../../../src/records/records.js';
import { loadRules } from '../../../src/rules/load-rules.js';
import { ruleOf } from '../../../src/rules/rule-of.js';
import { ChildInCare } from '../../../src/study/simulate/child-in-care.js';
import type {
  RecallPolicy,
  SimulatedChild,
  SimulationAssessor,
  World,
} from '../../../src/study/simulate/contract.js';
import { fixedReview } from '../../../src/study/simulate/fixed-review.js';
import { replacementNeed } from '../../../src/study/simulate/replacement-need.js';
import { simulateCaseload } from '../../../src/study/simulate/simulate-caseload.js';
import { simulationAssessor } from '../../../src/study/simulate/simulation-assessor.js';
import { bootstrap, summarisePolicy } from '../../../src/study/simulate/summarise-policies.js';

// Growth by hand in a straight line, the product's own rules, forecasts and list; no outside source.
const start = '2025-01-06';
const first = dayNumber(start);
const rules = loadRules();
const model = loadGrowthModel();
const world: World = { start, years: 2, slotsPerWeek: 2, jobsPerWeek: 2, missedShare: 0, seed: 1 };
const exact = () => 0;
const DRAWS = 32;
const assess = simulationAssessor(model, rules, 1, DRAWS);

/** Sizes at the start of a child of seven, and what they gain a year, mm; what is not named stays as it is. */
const SIZES: Partial<Record<MeasureId, number>> = {
  ...{ foot_length: 190, foot_breadth: 70, ankle_height: 55, malleolar_width: 55, stature: 1220 },
  ...{ knee_height: 340, hip_height: 600, calf_girth: 240, thigh_girth: 370, fibular_head_height: 310 },
};
const straight = (id: string, family: string, gains: Partial<Record<MeasureId, number>>): SimulatedChild => ({
  child: childRecord.parse({ id, sex: 'male', birthDate: '2018-01-06' }),
  rule: ruleOf(rules, family),
  side: 'left',
  trueSize: ({ measure }, day) =>
    (SIZES[measure] as number) + ((gains[measure] ?? 0) * (day - first)) / 365.25,
});
/** Foot 12 mm a year, 8 allowed: the ankle-foot orthosis lasts 243.5 days from its cast. */
const feet = (count: number) =>
  Array.from({ length: count }, (_, i) => straight(`s${i}`, 'solid-afo', { foot_length: 12, stature: 60 }));
const lived = async (children: SimulatedChild[], policy: RecallPolicy, of = world, asks = assess) =>
  simulateCaseload(children, policy, of, asks, exact);
const fixed = (months: number, castAheadShare: number): RecallPolicy => ({
  kind: 'fixed',
  months,
  castAheadShare,
});

describe('simulateCaseload', () => {
  it('casts at fixed reviews when the share of the allowance is used, and counts the days by hand', async () => {
    const outcome = await lived(feet(8), fixed(3, 0.5));
    const { casts } = summarisePolicy(outcome, 1);
    // By hand: half of 8 mm is used after 122 days; the first look comes 49 days after the cast, the review 91 after
    // that, which casts again: 2.6 a year, the first years' start aside; three weeks of turnaround are never late.
    expect(casts.mean).toBeGreaterThan(2.2);
    expect(casts.mean).toBeLessThan(3);
    for (const c of outcome.children) expect(c).toMatchObject({ daysOutgrown: 0, daysWaiting: 0 });
  });

  it('counts a day beyond use as much as it matters to the skin', async () => {
    const children = feet(6);
    const insensate = children.map((c) => ({ ...c, child: { ...c.child, insensateSkin: true } }));
    const [plain, weighted] = await Promise.all([
      lived(children, fixed(12, 1)),
      lived(insensate, fixed(12, 1)),
    ]);
    const days = plain.children.map((c) => c.daysOutgrown);
    expect(Math.max(...days)).toBeGreaterThan(100);
    expect(plain.children.map((c) => c.weightedDays)).toEqual(days);
    expect(weighted.children.map((c) => c.weightedDays)).toEqual(days.map((d) => 3 * d));
  });

  it('sees nobody outgrown for long by the product on the straight line, at a wear no fixed rule of as few days reaches', async () => {
    const forecast = await lived(feet(2), { kind: 'forecast', levelled: true });
    const late = await lived(feet(2), fixed(6, 0.75));
    const days = ({ children }: typeof late) => children.reduce((sum, c) => sum + c.daysOutgrown, 0);
    expect(days(forecast)).toBeLessThan(days(late) / 4);
    expect(summarisePolicy(forecast, 1).casts.mean).toBeLessThan(2.4);
  });

  it('is the same again, and hands the product nothing later than the day', async () => {
    const asked: [string, string][] = [];
    const spy: SimulationAssessor = (record, today) => {
      const days = [
        ...record.measurements.map((m) => m.date),
        ...record.events.map((e) => e.date),
        ...record.devices.flatMap((d) => [d.castDate, d.fittedDate ?? d.castDate]),
      ];
      asked.push([days.toSorted().at(-1) as string, today]);
      return assess(record, today);
    };
    const missing = { ...world, years: 1, missedShare: 0.3 };
    const policy: RecallPolicy = { kind: 'forecast', levelled: true };
    const a = await lived(feet(2), policy, missing, spy);
    expect(await lived(feet(2), policy, missing)).toEqual(a);
    expect(a.children.reduce((s, c) => s + c.missed, 0)).toBeGreaterThan(0);
    expect(asked.length).toBeGreaterThan(10);
    // A device of the history is fitted by the day the world starts.
    for (const [last, today] of asked) expect(last <= today).toBe(true);
  });
});

describe('simulationAssessor', () => {
  it('says what the product says afresh, after a reading and after what is no reading', () => {
    const child = new ChildInCare(feet(1)[0], (_, what, day) => Math.sin(what.length + day), first);
    const said = (day: number) => {
      const [record, today] = [child.record(), isoDate(day)];
      const { forecasts, flags } = assess(record, today);
      const afresh = assessChild(record, { today, model, rules, seed: 1, draws: DRAWS });
      expect({ forecasts, flags }).toEqual({ forecasts: afresh.forecasts, flags: afresh.flags });
      return forecasts[0].p50;
    };
    const before = said(first + 30);
    child.judge(first + 60);
    said(first + 60);
    child.read(first + 60);
    expect(said(first + 60)).not.toBe(before);
    child.cast(first + 60);
    said(first + 60);
  });
});

describe('a device of the world', () => {
  const leg = () =>
    new ChildInCare(straight('k', 'kafo', { knee_height: 22, foot_length: 12 }), exact, first);
  const on = (days: number) => first + days;
  const roomAt = (child: ChildInCare, measure: MeasureId, day: number) =>
    child.rooms(day).find((r) => r.limit.series.measure === measure)!;

  it('has room in every dimension its rule limits, each growing as the child does', () => {
    const child = leg();
    const { dimensions } = ruleOf(rules, 'kafo');
    expect(child.rooms(first).map((r) => r.limit.series.measure)).toEqual(dimensions.map((d) => d.measure));
    // By hand: a year takes 22 of 11 mm at the knee and 12 of 8 at the toes.
    expect(roomAt(child, 'knee_height', on(365.25)).roomMm).toBeCloseTo(-11);
    expect(roomAt(child, 'foot_length', on(365.25)).roomMm).toBeCloseTo(-4);
    expect(roomAt(child, 'calf_girth', on(365.25)).roomMm).toBe(20);
  });

  it('past a limit that a bar or a part answers it waits; past one that nothing answers it is beyond use', () => {
    const child = leg();
    child.wearAWeek(on(365));
    expect(child.tally).toMatchObject({ daysWaiting: 7, daysOutgrown: 0 });
    const { series } = roomAt(child, 'knee_height', first).limit;
    child.adjust(on(366), series, 'side-bar', 36);
    expect(roomAt(child, 'knee_height', on(366)).answer).toBeNull();
    // By hand: 11 + 36 = 47 mm of 22 a year are gone after 780 days.
    child.wearAWeek(on(770));
    expect(child.tally.daysOutgrown).toBe(0);
    child.wearAWeek(on(790));
    expect(child.tally.daysOutgrown).toBe(7);
  });

  it('a foot section starts anew with the foot of the day it was ordered, once it is there', () => {
    const child = leg();
    child.order(on(200), 'foot-section');
    child.fitWhatIsReady(on(214));
    expect(roomAt(child, 'foot_length', on(214)).roomMm).toBeCloseTo(8 - (12 * 214) / 365.25, 1);
    child.fitWhatIsReady(on(221));
    // By hand: 8 mm less what three weeks grow, to the millimetre in which it is written down.
    expect(
      Math.abs(roomAt(child, 'foot_length', on(221)).roomMm - (8 - (12 * 21) / 365.25)),
    ).toBeLessThanOrEqual(0.5);
    expect(child.tally).toMatchObject({ parts: 1, casts: 0 });
  });

  it('is eased at a fixed review by whole holes while it is tight, and not while there is room', () => {
    const child = leg();
    fixedReview(child, on(100), 1);
    expect(child.tally.adjustments).toBe(0);
    fixedReview(child, on(150), 1);
    // By hand: 11 - 9.03 = 1.97 mm of room, tight under 3: eased towards 6, one hole of 6 mm.
    const bars = child.record().events.filter((e) => e.kind === 'adjusted');
    expect(bars.map((e) => [e.measure, e.changeMm])).toEqual([['knee_height', 6]]);
  });

  it('throws away the wear that was left, for a year at most', () => {
    const child = new ChildInCare(feet(1)[0], exact, first);
    child.cast(on(100));
    child.making!.fitDay = on(121);
    child.fitWhatIsReady(on(121));
    // By hand: 243.5 - 121 = 122.5 days, in whole weeks.
    expect(child.tally.thrownAwayDays).toBe(119);
    const grown = new ChildInCare(straight('g', 'solid-afo', {}), exact, first);
    grown.cast(on(100));
    grown.making!.fitDay = on(121);
    grown.fitWhatIsReady(on(121));
    expect(grown.tally.thrownAwayDays).toBe(371);
  });
});

describe('replacementNeed', () => {
  it('is growth over allowance, bars and parts used up first', () => {
    // By hand: 8 mm at 12 a year last 243.5 days, looked at weekly 245: 1.49 a year.
    const need = replacementNeed(feet(4), { start, years: 3 });
    expect(need.reduce((a, b) => a + b) / 3).toBeCloseTo(364 / 245, 0);
    // 11 mm and 36 of travel at 22 a year last 780 days; the foot section is renewed.
    const legs = [straight('k', 'kafo', { knee_height: 22, foot_length: 12 })];
    expect(replacementNeed(legs, { start, years: 3 })).toEqual([0, 0, 1]);
  });
});

describe('bootstrap', () => {
  it('has about the textbook width: 1.96 sd/sqrt(n) each way', () => {
    const values = Array.from({ length: 400 }, (_, i) => i % 20);
    const { mean, low, high } = bootstrap(values, 1);
    const half = (1.96 * Math.sqrt((20 ** 2 - 1) / 12)) / 20;
    expect(mean).toBe(9.5);
    expect(high - low).toBeGreaterThan(1.7 * half);
    expect(high - low).toBeLessThan(2.3 * half);
  });
});
