/**
 * Twelve invented cases (written by people of the trade's literature, not by this
 * code): what a practitioner expects the tool to say, and above all not to say.
 */
import { describe, expect, it } from 'vitest';
import { dayNumber, daysBetween } from '../../src/records/dates.js';
import { buildChild } from './build-record.js';

const TODAY = '2026-11-25';
const days = (date: string | null) => daysBetween(TODAY, date!);
const ids = (list: readonly { id: string }[]) => list.map((f) => f.id);

describe('vignettes', () => {
  it('1: girl 6, L3, bilateral KAFOs: the right bar moves now, replacement is another date, latex and skin stand out', () => {
    const { forecasts, flags } = buildChild(TODAY, 6, {
      sex: 'female',
      conditions: ['myelomeningocele-high'],
      insensateSkin: true,
      latexAlert: true,
      walks: true,
    })
      .series('knee_height', 'left', [
        [7, 262],
        [0, 271],
      ])
      .series('knee_height', 'right', [
        [7, 262],
        [0, 276],
      ])
      .series('foot_length', 'left', [
        [7, 150],
        [0, 153],
      ])
      .series('foot_length', 'right', [
        [7, 150],
        [0, 153],
      ])
      .device('kafo', 'both', 7, { extensionRangeMm: { knee_height: 20 }, allowancesMm: { knee_height: 9 } })
      .assess();
    const [kafo] = forecasts;
    const bar = (side: string) =>
      kafo.adjustments?.find((a) => a.series.measure === 'knee_height' && a.series.side === side);
    expect(bar('right')?.dueNow).toBe(true);
    expect(bar('right')!.p50! <= bar('left')!.p50!).toBe(true);
    expect(kafo.outcome).toBe('forecast');
    expect(kafo.p50! > TODAY).toBe(true);
    expect(kafo.explanation).toContain('moving the side bar for right knee');
    expect(kafo.explanation).toMatch(/Foot section, renewed alone: likely to be wanted by \d/);
    expect(ids(flags)).toEqual(
      expect.arrayContaining(['standing-latex', 'standing-insensate-skin', 'standing-reference']),
    );
  });

  it('2: boy 20 months, supramalleolar orthoses, foot 128 to 135 in 4 months: replacement within months', () => {
    const { forecasts } = buildChild(TODAY, 20 / 12, { sex: 'male', conditions: ['hypotonia'] })
      .series('foot_length', 'left', [
        [4, 128],
        [0, 135],
      ])
      .series('foot_length', 'right', [
        [4, 128],
        [0, 135],
      ])
      .device('supramalleolar-orthosis', 'left', 4)
      .device('supramalleolar-orthosis', 'right', 4)
      .assess();
    for (const f of forecasts) {
      expect(['forecast', 'already-outgrown']).toContain(f.outcome);
      expect(days(f.p50)).toBeLessThan(120);
      expect(f.drivers[0].series.measure).toBe('foot_length');
    }
  });

  it('3: girl 12.1 with a curve, orthosis cast at 1480 mm, now 1514: spinal review early, never the end of bracing', () => {
    const { forecasts, flags } = buildChild(TODAY, 12.1, {
      sex: 'female',
      conditions: ['idiopathic-scoliosis'],
    })
      .series('stature', 'none', [
        [12, 1446],
        [5, 1480],
        [0, 1514],
      ])
      .marker('pre-pubertal', 24)
      .device('spinal-orthosis', 'none', 5)
      .assess();
    const trunk = flags.find((f) => f.id === 'trunk-growth-stature');
    expect(trunk?.severity).toBe('check');
    expect(trunk?.caution).toContain('every 3 months');
    expect(days(forecasts[0].p50)).toBeLessThan(100);
    const said = [forecasts[0].explanation, ...flags.map((f) => f.caution)].join(' ');
    expect(said).not.toMatch(/wean|bracing (is )?(finished|complete)|may stop bracing/i);
  });

  it('4: infant 5.5 months, helmet, head 430 to 439 in 4 weeks: acceptable pace, a date in weeks, stated to the day', () => {
    const { forecasts, flags } = buildChild(TODAY, 5.5 / 12, {
      sex: 'male',
      conditions: ['positional-head-asymmetry'],
    })
      .measured('head_circumference', 'none', 0.92, 430)
      .measured('head_circumference', 'none', 0, 439)
      .device('cranial-orthosis', 'none', 0.92)
      .assess();
    const [helmet] = forecasts;
    expect(ids(flags).filter((id) => id.startsWith('head-growth'))).toEqual([]);
    expect(helmet.outcome).toBe('forecast');
    // The voids are used up in weeks; foam can then be taken out, and the shell goes on.
    const foam = helmet.adjustments?.find((a) => a.series.measure === 'head_circumference');
    expect(foam?.kind).toBe('relief');
    expect(days(foam!.p50)).toBeGreaterThan(14);
    expect(days(foam!.p50)).toBeLessThan(120);
    expect(helmet.p50 === null || helmet.p50 > foam!.p50!).toBe(true);
    expect(dayNumber(helmet.dates[1]) - dayNumber(helmet.dates[0])).toBe(1);
  });

  it('5: the same, head +24 mm in 3 weeks: emergency wording, forecast blocked, never "a larger helmet"', () => {
    const { forecasts, flags } = buildChild(TODAY, 5.5 / 12, {
      sex: 'male',
      conditions: ['positional-head-asymmetry'],
    })
      .measured('head_circumference', 'none', 0.69, 430)
      .measured('head_circumference', 'none', 0, 454)
      .device('cranial-orthosis', 'none', 0.92)
      .assess();
    const head = flags.find((f) => f.id === 'head-growth-up');
    expect(head?.severity).toBe('act-now');
    expect(head?.caution).toMatch(/emergency/);
    expect(head?.caution).toMatch(/without delaying/);
    expect(forecasts[0].outcome).toBe('blocked');
    expect(forecasts[0].explanation).toMatch(
      /have the child seen first; this is not a matter of a larger device/,
    );
    expect(forecasts[0].dates).toEqual([]);
    expect(forecasts[0].p50).toBeNull();
  });

  it('6: boy 9, right hemiplegia: sides apart, a gap change of 8 mm is within error, so remeasure and do not conclude', () => {
    const { forecasts, flags } = buildChild(TODAY, 9, {
      sex: 'male',
      conditions: ['hemiplegia'],
      affectedSide: 'right',
    })
      .series('foot_length', 'right', [
        [12, 189],
        [6, 194],
        [0, 198],
      ])
      .series('foot_length', 'left', [
        [12, 197],
        [6, 202],
        [0, 206],
      ])
      .measured('leg_length', 'left', 12, 640, { technicalError: 5 })
      .measured('leg_length', 'right', 12, 629, { technicalError: 5 })
      .measured('leg_length', 'left', 0, 672, { technicalError: 5 })
      .measured('leg_length', 'right', 0, 653, { technicalError: 5 })
      .device('solid-afo', 'right', 6)
      .device('foot-orthosis', 'left', 6)
      .assess();
    const gap = flags.find((f) => f.id === 'side-drift-leg_length');
    expect(gap?.severity).toBe('note');
    expect(gap?.seen).toContain('8 mm against a detectable change of 20 mm');
    expect(gap?.caution).toContain('hips');
    for (const [f, side] of [
      [forecasts[0], 'right'],
      [forecasts[1], 'left'],
    ] as const)
      for (const r of f.room) expect(r.series.side).toBe(side);
  });

  it('7: boy 8, growth hormone for 5 months: said so, wider interval and earlier date than without the note', () => {
    const child = (extra: Record<string, string>) =>
      buildChild(TODAY, 8, { sex: 'male', extra })
        .series('foot_length', 'left', [
          [29, 178],
          [17, 182],
          [5, 186],
          [0, 190.6],
        ])
        .device('solid-afo', 'left', 5)
        .assess();
    const told = child({ growth_hormone_start: '2026-06-25' });
    const untold = child({});
    expect(ids(told.flags)).toContain('growth-hormone');
    expect(ids(untold.flags)).not.toContain('growth-hormone');
    expect(told.forecasts[0].room[0].grownSdMm).toBeGreaterThan(untold.forecasts[0].room[0].grownSdMm);
    expect(told.forecasts[0].p10! <= untold.forecasts[0].p10!).toBe(true);
  });

  it('8: ex-28-week infant: corrected age is said, with where correction stops', () => {
    const { flags, growth } = buildChild(TODAY, 7 / 12, { sex: 'female', gestationWeeks: 28 })
      .measured('head_circumference', 'none', 0, 410)
      .assess();
    const early = flags.find((f) => f.id === 'standing-corrected-age');
    expect(early?.seen).toContain('28 weeks');
    expect(early?.caution).toContain('until two years');
    // WHO girls: median about 410 mm at 4.2 months, 427 mm at 7 months (who-2006, read): read at the corrected age it is median.
    const posterior = growth.kind === 'posterior' ? growth.posterior : null;
    const z = posterior!.zScore({ measure: 'head_circumference', side: 'none' }, dayNumber(TODAY), 410)!;
    expect(Math.abs(z)).toBeLessThan(0.5);
  });

  it('9: girl 7, unmeasured for 19 months: cannot forecast, wide range, contact and safeguarding', () => {
    const seen = (monthsAgo: number) =>
      buildChild(TODAY, 7, { sex: 'female' })
        .series('foot_length', 'left', [
          [monthsAgo + 6, 170],
          [monthsAgo, 175],
        ])
        .device('solid-afo', 'left', monthsAgo, { allowancesMm: { foot_length: 20, knee_height: 60 } })
        .assess();
    const { forecasts, flags } = seen(19);
    const [f] = forecasts;
    expect(f.outcome).toBe('too-few-measurements');
    expect(f.explanation).toMatch(/Cannot forecast.*19 months.*measure before relying on any date/);
    const stale = flags.find((x) => x.id === 'stale');
    expect(stale?.caution).toMatch(/top of the contact list/);
    expect(stale?.askWhom).toMatch(/safeguarding/);
    expect(f.room[0].grownSdMm).toBeGreaterThan(2 * seen(1).forecasts[0].room[0].grownSdMm);
  });

  it('10: boy 5, 6.9 among 168-175 mm, later left and right exchanged: both offered, nothing changed', () => {
    const built = buildChild(TODAY, 5, { sex: 'male' })
      .series('foot_length', 'left', [
        [15, 160],
        [11, 164],
        [7, 168],
        [0, 174],
      ])
      .series('foot_length', 'right', [
        [15, 167],
        [11, 171],
        [7, 175],
        [0, 181],
      ])
      .measured('foot_length', 'left', 3, 6.9)
      .measured('foot_length', 'left', 1, 180)
      .measured('foot_length', 'right', 1, 172.5)
      .device('solid-afo', 'left', 3);
    const before = JSON.stringify(built.record);
    const { suggestions, forecasts } = built.assess();
    const unit = suggestions.find((s) => s.kind === 'unit-slip');
    expect(unit?.corrections[0].value).toBeCloseTo(175.3, 1);
    expect(unit?.action).toContain('inches');
    const swap = suggestions.find((s) => s.kind === 'swapped-sides');
    expect(swap?.corrections.map((c) => c.side)).toEqual(['right', 'left']);
    expect(JSON.stringify(built.record)).toBe(before);
    expect(forecasts[0].p50! > '2026-11-25').toBe(true);
  });

  it('11: girl 16 with a plateau, and an adult of 34: wear review, no growth date', () => {
    const girl = buildChild(TODAY, 16, { sex: 'female' })
      .series('foot_length', 'left', [
        [18, 241],
        [9, 241],
        [0, 242],
      ])
      .series('stature', 'none', [
        [18, 1640],
        [9, 1642],
        [0, 1642],
      ])
      .device('solid-afo', 'left', 9)
      .assess();
    expect(girl.forecasts[0].outcome).toBe('full-grown');
    expect(girl.forecasts[0].p50).toBeNull();
    expect(girl.forecasts[0].explanation).toMatch(/No measurable growth.*12 months/);
    expect(girl.forecasts[0].explanation).not.toMatch(/finished/);
    const adult = buildChild(TODAY, 34, { sex: 'male' })
      .measured('foot_length', 'left', 1, 265)
      .device('solid-afo', 'left', 9)
      .assess();
    // Grown up since the last reading, which the model would still make a date of.
    const young = buildChild(TODAY, 20.3, { sex: 'male' })
      .series('foot_length', 'left', [
        [30, 255],
        [18, 263],
      ])
      .device('solid-afo', 'left', 18)
      .assess();
    for (const { forecasts } of [adult, young]) {
      expect(forecasts[0]).toMatchObject({ outcome: 'adult', p50: null });
      expect(forecasts[0].explanation).toMatch(/wear/);
    }
  });

  it('12: boy 10, toes 7 mm past the plate, red for 40 minutes: already outgrown, date in the past, skin first', () => {
    const { forecasts, flags } = buildChild(TODAY, 10, { sex: 'male' })
      .series('foot_length', 'right', [
        [16, 205],
        [8, 213],
        [0, 220],
      ])
      .device('solid-afo', 'right', 16)
      .event('verdict', 0, { note: 'Toes past the plate, red for 40 minutes over the heel' })
      .assess();
    expect(forecasts[0].outcome).toBe('already-outgrown');
    expect(forecasts[0].p50! < TODAY).toBe(true);
    expect(forecasts[0].p90 === null || forecasts[0].p90 <= TODAY).toBe(true);
    const skin = flags.find((f) => f.id.startsWith('finding-skin-lasting'));
    expect(skin?.severity).toBe('act-now');
    expect(skin?.caution).toMatch(/exception/);
    expect(flags[0].severity).toBe('act-now');
  });
});
