/**
 * What if several things change at once. Checked against the same things really recorded: an imagined day must answer
 * exactly as the record answers once they have been done, and the record at hand must stay as it was.
 */
import { describe, expect, it } from 'vitest';
import { assessChild } from '../../src/forecast/assess-child.js';
import { type Imagined, imaginedRecord } from '../../src/forecast/imagined-record.js';
import { addDaysIso } from '../../src/records/dates.js';
import { buildChild, contextOn } from './build-record.js';

const TODAY = '2026-11-25';
const girl = () =>
  buildChild(TODAY, 8, { sex: 'female' })
    .series('foot_length', 'left', [
      [13, 184],
      [7, 189],
      [1, 194],
    ])
    .series('knee_height', 'left', [
      [13, 310],
      [7, 319],
      [1, 327],
    ])
    .device('kafo', 'left', 7);
const { record } = girl();
const [device] = record.devices;
const base: Imagined = { on: TODAY, how: 'keep', roomMm: {}, readings: [] };
const answer = (imagined: Imagined, draws = 1000) =>
  assessChild(imaginedRecord(record, device, imagined), contextOn(imagined.on, { draws })).forecasts[0];

describe('several things imagined at once', () => {
  it('imagining nothing changes nothing', () => {
    expect(answer(base)).toEqual(assessChild(record, contextOn(TODAY, { draws: 1000 })).forecasts[0]);
  });

  it('room gained in two dimensions answers as two recorded adjustments do', () => {
    const done = girl();
    for (const [measure, changeMm] of [
      ['foot_length', 5],
      ['knee_height', 8],
    ])
      done.event('adjusted', 0, { measure, changeMm, adjustment: 'other' });
    const recorded = assessChild(done.record, contextOn(TODAY, { draws: 1000 })).forecasts[0];
    const imagined = answer({ ...base, roomMm: { foot_length: 5, knee_height: 8 } });
    expect(imagined).toEqual(recorded);
    // One alone does less than both: the other dimension gives first.
    const now = answer(base);
    const one = answer({ ...base, roomMm: { foot_length: 5 } });
    expect(imagined.p50! > one.p50! && one.p50! >= now.p50!).toBe(true);
  });

  it('readings of two measures on a later day answer as the visit does once it has been recorded', () => {
    const on = addDaysIso(TODAY, 90);
    const readings = [
      { series: { measure: 'foot_length', side: 'left' }, value: 200 },
      { series: { measure: 'knee_height', side: 'left' }, value: 335 },
    ] as const;
    const done = girl();
    for (const { series, value } of readings)
      done.measured(series.measure, series.side, 0, value, { date: on });
    const recorded = assessChild(done.record, contextOn(on, { draws: 1000 })).forecasts[0];
    expect(answer({ ...base, on, readings })).toEqual(recorded);
  });

  it('a new cast counts from its day, with the room typed and the family’s usual room elsewhere', () => {
    const cast = answer({ ...base, how: 'new-cast', roomMm: { foot_length: 14 } });
    const room = (measure: string) => cast.room.find((r) => r.series.measure === measure);
    expect(room('foot_length')).toMatchObject({ allowanceMm: 14, grownMm: 0 });
    // The family's rule (src/rules/families/kafo.json): 11 mm at the knee.
    expect(room('knee_height')).toMatchObject({ allowanceMm: 11, grownMm: 0 });
    expect(cast.p50! > answer(base).p50!).toBe(true);
  });

  it('leaves the record at hand alone', () => {
    const before = JSON.stringify(record);
    imaginedRecord(record, device, {
      on: TODAY,
      how: 'new-cast',
      roomMm: { foot_length: 20 },
      readings: [{ series: { measure: 'foot_length', side: 'left' }, value: 196 }],
    });
    expect(JSON.stringify(record)).toBe(before);
  });
});
