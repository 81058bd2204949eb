import { h } from 'preact';
import { expect, test } from 'vitest';
import { RoomBars } from '../../src/pages/child/room-bars.js';
import { workshopSlip } from '../../src/pages/child/workshop-slip.js';
import { madeLarger, WorkshopSlipPage } from '../../src/pages/child/workshop-slip-page.js';
import { formatFor } from '../../src/pages/parts/format.js';
import { renderPage } from '../../src/pages/parts/page-context.js';
import { type ClinicWeekInput, clinicDays } from '../../src/recall/level/clinic-week.js';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { childRecord } from '../../src/records/records.js';
import { dimensionLimits, limitOn } from '../../src/rules/dimension-limits.js';
import { loadRules } from '../../src/rules/load-rules.js';
import { fullAtMm } from '../../src/rules/room-left.js';
import { ruleOf } from '../../src/rules/rule-of.js';

const rules = loadRules();
const format = formatFor('en-GB');
const open = clinicDays({});

/** The slip of a device of a family, cast at sizes of 200 mm in every dimension. */
function slipOf(family: string, more: Record<string, unknown> = {}) {
  const device = deviceRecord.parse({
    ...{ id: 'd', childId: 'c', family, side: 'left', castDate: '2026-05-01' },
    ...more,
  });
  const rule = ruleOf(rules, family);
  const sizes = rule.dimensions.flatMap(({ measure }) =>
    (['left', 'none'] as const).map((side) => ({ measure, side, expected: 200, low: 195, high: 205 })),
  );
  const view = { record: { child: { birthDate: '2020-05-01' }, measurements: [] }, inUse: [] };
  return workshopSlip(view as never, device, rule, sizes as never, null, open).rows;
}

// Common practice, no source: a joint axis is set at the anatomical joint and an edge at its trim line; only the toe
// room of a plate, the voids of a shell for the head and the tip of a hand piece are made larger than the body.
const bars = (forecast: object) =>
  renderPage(h(RoomBars, { forecast } as never) as never, { format } as never);

test('the workshop makes a plate longer by its room, and no joint axis, edge or strap', () => {
  const kafo = slipOf('kafo', { allowancesMm: { foot_length: 9, knee_height: 11, hip_height: 30 } });
  const of = (measure: string) => kafo.find((r) => r.measure === measure && r.side === 'left');
  expect(of('foot_length')).toMatchObject({ builtIn: true, madeToMm: 209 });
  expect(of('knee_height')).toMatchObject({ builtIn: false, servesToMm: 211 });
  expect(of('hip_height')).toMatchObject({ builtIn: false, servesToMm: 230 });
  const larger = [...rules.values()].flatMap((f) => f.dimensions.filter((d) => d.builtIn));
  expect([...new Set(larger.map((d) => d.measure))].sort()).toEqual([
    'foot_length',
    'hand_length',
    'head_breadth',
    'head_circumference',
    'head_length',
  ]);
});

test('a plate that ends behind the toes is not made longer than the foot', () => {
  const of = (footplate: string) =>
    slipOf('solid-afo', { footplate, allowancesMm: { foot_length: 8 } }).find(
      (r) => r.measure === 'foot_length',
    );
  expect(of('full')).toMatchObject({ builtIn: true, madeToMm: 208 });
  expect(of('behind-toes')?.builtIn).toBe(false);
});

// A foot section renewed every 8 mm is no plate of 40 mm of room, whenever the slip of its cast is read again.
test('a slip printed again after adjustments still says how the device was cast', () => {
  const adjusted = ['2026-08-01', '2027-01-01'].map((date, i) =>
    deviceEventRecord.parse({
      ...{ id: `e${i}`, deviceId: 'd', date, kind: 'adjusted', changeMm: 16, adjustment: 'other' },
      ...{ measure: 'foot_length', side: 'left' },
    }),
  );
  const rule = ruleOf(rules, 'kafo');
  const device = deviceRecord.parse({
    id: 'd',
    childId: 'c',
    family: 'kafo',
    side: 'left',
    castDate: '2026-05-01',
  });
  const [limit] = dimensionLimits(rule, device, adjusted).filter((l) => l.series.measure === 'foot_length');
  expect(limitOn(limit, '2027-02-01')).toBe(40);
  const view = {
    record: { child: { birthDate: '2020-05-01' }, measurements: [], events: adjusted },
    inUse: [],
    assessment: {
      forecasts: [{ deviceId: 'd', room: [{ series: limit.series, allowanceMm: 40, extensionLeftMm: 0 }] }],
    },
  };
  const size = { measure: 'foot_length', side: 'left', expected: 200, low: 195, high: 205 };
  const { rows } = workshopSlip(view as never, device, rule, [size] as never, null, open);
  expect(rows.find((r) => r.measure === 'foot_length')).toMatchObject({ allowanceMm: 8, servesToMm: 208 });
});

test('a plate nobody measured is not left to be made to the cast alone', () => {
  const row = { madeToMm: null, allowanceMm: 8 } as never;
  expect(madeLarger(row, format)).toBe('the cast and 8');
});

test('where it is full is told in whole mm, alike on slip, page and chart, and never beyond', () => {
  expect(fullAtMm(222.9)).toBe(222);
  expect(fullAtMm(214 + 8)).toBe(222);
  // Sums of tenths do not fall short of their own millimetre.
  expect(fullAtMm(214.7 + 8.3)).toBe(223);
  expect(madeLarger({ madeToMm: 222.6, allowanceMm: 8 } as never, format)).toBe('222');
  const row = { series: { measure: 'foot_length', side: 'left' }, share: 1 };
  const room = { ...row, allowanceMm: 8, roomMm: 3, roomLowMm: 1, roomHighMm: 5, limitMm: 222.6 };
  const forecast = { room: [room], drivers: [row] } as never;
  expect(bars(forecast)).toContain('full at 222 mm');
});

test('it serves up to the size at which the page says it is full, and is made by the reading at its cast', () => {
  const rule = ruleOf(rules, 'solid-afo');
  const device = deviceRecord.parse({
    ...{ id: 'd', childId: 'c', family: 'solid-afo', side: 'left', castDate: '2026-05-01' },
    allowancesMm: { foot_length: 8 },
  });
  const series = { measure: 'foot_length', side: 'left' };
  const room = { series, allowanceMm: 8, roomMm: 3, roomLowMm: 1, roomHighMm: 5, limitMm: 247.4 };
  const forecast = { room: [room], drivers: [{ series, share: 1 }] };
  const view = {
    record: {
      child: { birthDate: '2016-05-01' },
      measurements: [{ ...series, value: 240, date: '2026-05-01' }],
    },
    inUse: [{ device, forecast }],
  };
  const { rows } = workshopSlip(view as never, device, rule, [], null, open);
  const foot = rows.find((r) => r.measure === 'foot_length')!;
  expect(bars(forecast)).toContain('full at 247 mm');
  expect(fullAtMm(foot.servesToMm!)).toBe(247);
  expect(madeLarger(foot, format)).toBe('248');
});

test('it is to be ready on a day the clinic works: the last one before a weekend and closed days', () => {
  const device = deviceRecord.parse({
    ...{ id: 'd', childId: 'c', family: 'solid-afo', side: 'left', castDate: '2026-11-28' },
  });
  const view = { record: { child: { birthDate: '2020-05-01' }, measurements: [] }, inUse: [] };
  const readyBy = (clinic: ClinicWeekInput) =>
    workshopSlip(view as never, device, null, [], { p80Days: 28 } as never, clinicDays(clinic)).fittedBy;
  // 26 December 2026 is a Saturday.
  expect(readyBy({})).toBe('2026-12-25');
  expect(readyBy({ clinicClosures: [{ from: '2026-12-24', to: '2026-12-25' }] })).toBe('2026-12-23');
  const saturdays = [{ id: 'a', slotsByWeekday: [{ weekday: 6, slots: 2 }] }];
  expect(readyBy({ clinicians: saturdays })).toBe('2026-12-26');
});

test('says between which angles a device is to hold the hips, and nothing of them where nobody said', () => {
  const child = childRecord.parse({ id: 'c', birthDate: '2025-11-01', sex: 'female' });
  const slipWith = (angles: object) => {
    const device = deviceRecord.parse({
      ...{ id: 'd', childId: 'c', family: 'hip-abduction-orthosis', side: 'both', castDate: '2026-05-01' },
      ...angles,
    });
    const slip = { device, rows: [], fittedBy: null, neededBy: null };
    return renderPage(
      h(WorkshopSlipPage, { child, rule: null, slip }) as never,
      { format, today: '2026-05-01', unsigned: [] } as never,
    );
  };
  expect(slipWith({ hipAngleFrom: 40, hipAngleTo: 60 })).toContain('<strong>from 40° to 60°</strong>');
  expect(slipWith({ hipAngleTo: 60 })).toContain('<strong>to 60°</strong>');
  expect(slipWith({})).not.toContain('Hip abduction set');
});
