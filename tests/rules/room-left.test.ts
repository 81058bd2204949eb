import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { deviceHistory } from '../../src/records/device-history.js';
import { dimensionLimits, limitOn } from '../../src/rules/dimension-limits.js';
import { headShape } from '../../src/rules/head-shape.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { outcomeOf, roomLeft } from '../../src/rules/room-left.js';

const rules = loadRules();
const device = (family: string, more: Record<string, unknown> = {}) =>
  deviceRecord.parse({ id: 'd1', childId: 'c1', family, side: 'left', castDate: '2026-01-10', ...more });
const event = (date: string, kind: string, more: Record<string, unknown> = {}) =>
  deviceEventRecord.parse({ id: `e-${date}-${kind}`, deviceId: 'd1', date, kind, ...more });
const bar = (side: string, leftMm: number) => ({
  kind: 'side-bar',
  measure: 'knee_height',
  side,
  leftMm,
  stepMm: 6,
});
const sizes = (o: Record<string, number>) => new Map(Object.entries(o));

describe('roomLeft', () => {
  // Vignette 1: knee drift L 9, R 12 mm, 20 travel left: the right one is adjusted now.
  it('asks for an adjustment, not a new device, while the side bars have travel', () => {
    const kafo = device('kafo', { side: 'both', extensionRangeMm: { knee_height: 20 } });
    const room = roomLeft(
      dimensionLimits(rules.get('kafo')!, kafo, []),
      sizes({ 'knee_height/left': 262, 'knee_height/right': 262 }),
      sizes({ 'knee_height/left': 271, 'knee_height/right': 274 }),
      '2026-08-01',
    );
    expect(room.map((r) => [r.series.side, r.roomMm, r.adjustments, r.outcome])).toEqual([
      ['left', 2, [bar('left', 20)], 'tight'],
      ['right', -1, [bar('right', 20)], 'adjust'],
    ]);
  });

  it('moves the limit from the date of the adjustment on, on the side it was made, and lifts what is above it', () => {
    const kafo = device('kafo', { side: 'both', extensionRangeMm: { knee_height: 20 } });
    const events = [
      event('2026-06-01', 'adjusted', {
        measure: 'knee_height',
        side: 'right',
        changeMm: 12,
        adjustment: 'side-bar',
      }),
    ];
    const limit = (measure: string, side: string, on: string) => {
      const all = dimensionLimits(rules.get('kafo')!, kafo, events);
      return limitOn(all.find((l) => l.series.measure === measure && l.series.side === side)!, on);
    };
    expect(limit('knee_height', 'right', '2026-05-31')).toBe(11);
    expect(limit('knee_height', 'right', '2026-06-01')).toBe(23);
    expect(limit('knee_height', 'left', '2026-06-01')).toBe(11);
    expect(limit('hip_height', 'right', '2026-06-01') - limit('hip_height', 'right', '2026-05-31')).toBe(12);
    expect(limit('foot_length', 'right', '2026-06-01')).toBe(limit('foot_length', 'right', '2026-05-31'));
  });

  it('treats the footplate as a field: behind the toes another allowance, without a plate no foot limit', () => {
    const foot = (footplate: string) =>
      dimensionLimits(rules.get('solid-afo')!, device('solid-afo', { footplate }), []).find(
        (l) => l.series.measure === 'foot_length',
      );
    expect(foot('full')?.baseMm).toBe(8);
    // The middle of the 8-10 mm by which an edge ends short (common practice, no source).
    expect(foot('behind-toes')?.baseMm).toBe(9);
    expect(foot('none')).toBeUndefined();
  });

  it('takes the maker’s largest size before the allowance, and a person’s allowance before the family’s', () => {
    const afo = device('solid-afo', { limitsMm: { foot_length: 180 }, allowancesMm: { knee_height: 18 } });
    const room = roomLeft(
      dimensionLimits(rules.get('solid-afo')!, afo, []),
      sizes({ 'foot_length/left': 171, 'knee_height/left': 300 }),
      sizes({ 'foot_length/left': 176, 'knee_height/left': 309 }),
      '2026-08-01',
    );
    expect(room.map((r) => [r.series.measure, r.roomMm])).toEqual([
      ['foot_length', 4],
      ['knee_height', 9],
    ]);
  });

  it('a maker’s largest size stands whatever room was cast for, and speaks of today without a reading at the cast', () => {
    const stated = { limitsMm: { foot_length: 180 }, allowancesMm: { foot_length: 9 } };
    const limits = dimensionLimits(rules.get('solid-afo')!, device('solid-afo', stated), []);
    const now = sizes({ 'foot_length/left': 182, 'knee_height/left': 300 });
    // What counts growth since the cast says nothing without one.
    expect(roomLeft(limits, sizes({}), now, '2026-08-01')).toMatchObject([
      { series: { measure: 'foot_length' }, roomMm: -2, outcome: 'outgrown' },
    ]);
  });

  it('is sure of a figure that a person stated: a quarter and a half of the family’s own doubt', () => {
    const doubt = (more: Record<string, unknown>) =>
      dimensionLimits(rules.get('solid-afo')!, device('solid-afo', more), [])[0].toleranceMm;
    const usual = doubt({});
    expect(doubt({ limitsMm: { foot_length: 180 } })).toBe(usual / 4);
    expect(doubt({ allowancesMm: { foot_length: 9 } })).toBe(usual / 2);
  });

  it('on the line itself: as much as is tight is room, nothing left is tight, below it is over', () => {
    expect([3.01, 3, 2.99, 0, -0.01].map((mm) => outcomeOf(mm, 0, 3))).toEqual([
      'room',
      'room',
      'tight',
      'tight',
      'outgrown',
    ]);
    expect([-5, -6].map((mm) => outcomeOf(mm, 5, 3))).toEqual(['adjust', 'outgrown']);
  });

  it('never has less room with a larger allowance, and no less after an adjustment that gains room', () => {
    fc.assert(
      fc.property(fc.nat(40), fc.nat(40), fc.nat(60), fc.nat(30), (a, b, grown, gain) => {
        const room = (allowance: number, events: ReturnType<typeof event>[]) =>
          roomLeft(
            dimensionLimits(
              rules.get('solid-afo')!,
              device('solid-afo', { allowancesMm: { foot_length: allowance } }),
              events,
            ),
            sizes({ 'foot_length/left': 170 }),
            sizes({ 'foot_length/left': 170 + grown }),
            '2026-08-01',
          )[0].roomMm;
        const relief = event('2026-07-01', 'adjusted', {
          measure: 'foot_length',
          changeMm: gain,
          adjustment: 'relief',
        });
        expect(room(Math.max(a, b), [])).toBeGreaterThanOrEqual(room(Math.min(a, b), []));
        expect(room(a, [relief]) - room(a, [])).toBe(gain);
      }),
    );
  });
});

describe('deviceHistory', () => {
  it('counts a re-cast from its cast date once delivered, and shows it pending before', () => {
    const recast = event('2026-05-01', 're-cast');
    expect(deviceHistory(device('kafo'), [recast])).toMatchObject({
      castDate: '2026-01-10',
      pendingCast: '2026-05-01',
    });
    expect(deviceHistory(device('kafo'), [event('2026-06-01', 'delivered'), recast])).toMatchObject({
      castDate: '2026-05-01',
      fittedDate: '2026-06-01',
      pendingCast: null,
    });
  });

  it('takes the last word of a reviewer, and an adjustment after it, as the state', () => {
    const outgrown = event('2026-06-01', 'verdict', { verdict: 'outgrown', measure: 'knee_height' });
    const moved = event('2026-06-08', 'adjusted', {
      measure: 'knee_height',
      changeMm: 12,
      adjustment: 'side-bar',
    });
    expect(deviceHistory(device('kafo'), [outgrown]).judgedOutgrown?.date).toBe('2026-06-01');
    expect(deviceHistory(device('kafo'), [moved, outgrown])).toMatchObject({
      judgedOutgrown: null,
    });
  });
});

describe('head shape', () => {
  // Loveday & de Chalain 2001 as quoted on a clinic page: (a - b) / b x 100, a the longer diagonal. 8 / 132 = 6.06 %.
  it('gives asymmetry in mm and per cent of the shorter diagonal', () => {
    const shape = headShape(140, 132, 2);
    expect(shape.asymmetryMm).toBe(8);
    expect(shape.asymmetryPercent).toBeCloseTo(6.06, 2);
    expect(shape.detectableChangeMm).toBeCloseTo(7.84, 2);
  });
});
