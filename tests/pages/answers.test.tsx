/** What a clinician's page says in words: checked as text, on the components themselves. */
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import type { Flag } from '../../src/forecast/contract.js';
import { ChildCautions } from '../../src/pages/child/child-cautions.js';
import { DeviceHistory } from '../../src/pages/child/device-history.js';
import { outgrownText, urgency } from '../../src/pages/child/outgrown-text.js';
import { byDriver, roomText } from '../../src/pages/child/room-bars.js';
import { chosenRoom, monthsInForce } from '../../src/pages/child/room-table.js';
import { dueText } from '../../src/pages/parts/due-text.js';
import { formatFor } from '../../src/pages/parts/format.js';
import { type PageContext, renderPage } from '../../src/pages/parts/page-context.js';
import { deviceRecord } from '../../src/records/device.js';

const format = formatFor('en-GB');
const room = (measure: string, side: string, roomMm: number, allowanceMm = 8) =>
  ({ series: { measure, side }, roomMm, allowanceMm }) as never;

// IANA time zones as Intl has them: in Auckland (UTC+13 in summer) a day is half over before it begins in Greenwich.
describe('a moment', () => {
  it('is told by the day and the clock of where the clinic is', () => {
    const there = formatFor('en-GB', 'Pacific/Auckland');
    expect([there.day('2026-11-27T19:05:00Z'), there.time('2026-11-27T19:05:00Z')]).toEqual([
      '28 Nov 2026',
      '08:05',
    ]);
    expect(there.dayOf('2026-11-27T10:59:00Z')).toBe('2026-11-27');
    expect(format.day('2026-11-27T19:05:00Z')).toBe('27 Nov 2026');
  });
});

describe('room', () => {
  it('is told in whole millimetres, and past its limit by how much', () => {
    expect(roomText(room('foot_length', 'left', 2.6))).toBe('3 of 8 mm left');
    expect(roomText(room('foot_length', 'left', -11.7))).toBe('12 mm over');
    expect(roomText(room('foot_length', 'left', 0.3))).toBe('none left of 8 mm');
  });

  it('stands with what limits first on top, left before right', () => {
    const rooms = [
      room('calf_girth', 'right', 1),
      room('foot_length', 'right', 4),
      room('foot_length', 'left', 5),
      room('calf_girth', 'left', 9),
    ];
    const drivers = [{ series: { measure: 'foot_length', side: 'right' }, share: 0.8 }] as never;
    expect(byDriver({ room: rooms, drivers }).map((r) => `${r.series.measure} ${r.series.side}`)).toEqual([
      'foot_length left',
      'foot_length right',
      'calf_girth left',
      'calf_girth right',
    ]);
  });

  it('for the next one is built in, or set by a bar in whole holes beyond the allowance', () => {
    const base = {
      deviceId: 'd',
      series: { measure: 'knee_height', side: 'left' },
      inForceMm: 11,
      usualMm: 11,
    };
    const bar = { ...base, bar: { travelMm: 12, holeMm: 6 }, neededMm: [] } as never;
    expect(chosenRoom(bar, 20)).toEqual({ allowanceMm: 11, barMm: 12 });
    expect(chosenRoom(bar, 9)).toEqual({ allowanceMm: 11, barMm: 0 });
    const without = (builtIn: boolean) =>
      chosenRoom({ ...(bar as object), bar: null, builtIn } as never, 20).allowanceMm;
    expect(without(true), 'a plate is made longer').toBe(20);
    expect(without(false), 'an axis or an edge is made to the cast, whatever is wished').toBe(11);
    const row = { ...(bar as object), neededMm: [[8, 15, 23, 24]] } as never;
    expect(monthsInForce(row, 0)).toBe(5);
  });
});

describe('what is wanted', () => {
  it('says how late it is, and never a later day than it was', () => {
    const today = '2026-06-15';
    expect(dueText({ action: 'cast', dueBy: '2025-12-24' }, today, format)).toEqual({
      what: 'Cast',
      when: 'was due by 24 Dec 2025, 6 months ago',
      late: true,
    });
    expect(dueText({ action: 'see-now', dueBy: today }, today, format).when).toBe('today');
    expect(dueText({ action: 'none', dueBy: '2026-07-15' }, today, format).when).toMatch(/^before 15 Jul/);
  });
});

describe('when it is outgrown', () => {
  const today = '2026-06-15';
  const of = (outcome: string, p10: string | null = null, p90: string | null = null) =>
    ({ outcome, p10, p50: null, p90 }) as never;
  it('is a band of months, open to the end where no end is known', () => {
    const text = (...given: Parameters<typeof of>) => outgrownText(of(...given), today, format);
    expect(text('forecast', '2026-09-01', '2027-03-01')).toBe('Sept 2026 to Mar 2027');
    expect(text('forecast', '2026-09-01', '2026-09-28')).toBe('In Sept 2026');
    expect(text('forecast', '2026-05-01', '2026-09-28')).toBe('Now to Sept 2026');
    expect(text('forecast', '2026-09-01')).toBe('From Sept 2026 on');
    expect(text('already-outgrown')).toBe('Outgrown now');
    expect(text('blocked')).toBe('No date: see the caution');
  });
  it('is marked by how much it presses, and what cannot be forecast is never calm', () => {
    const mark = (...given: Parameters<typeof of>) => urgency(of(...given), today);
    expect(mark('already-outgrown')).toBe('alert');
    for (const outcome of ['too-few-measurements', 'blocked', 'not-computed'])
      expect(mark(outcome), outcome).toBe('due');
    expect(mark('forecast', '2026-06-15')).toBe('due');
    expect(mark('forecast', '2026-06-16')).toBe('plan');
    expect(mark('full-grown')).toBe('calm');
  });
});

describe('cautions', () => {
  const flag = (id: string, severity: Flag['severity']): Flag => ({
    id,
    childId: 'c',
    severity,
    title: `Title ${id}`,
    seen: `Seen ${id}`,
    caution: `Caution ${id}`,
    askWhom: `Whom ${id}`,
    series: null,
    deviceId: null,
  });
  const open = (flags: Flag[]) => renderToString(<ChildCautions flags={flags} />).split('<details')[0];

  it('are folded after two, the gravest first', () => {
    const html = open([flag('a', 'note'), flag('b', 'check'), flag('c', 'note')]);
    expect(html.indexOf('Seen b')).toBeLessThan(html.indexOf('Seen a'));
    expect(html).not.toContain('Seen c');
  });

  it('that must be acted on now are never folded', () => {
    const html = open([flag('n', 'note'), flag('a', 'act-now'), flag('b', 'act-now'), flag('c', 'act-now')]);
    for (const id of ['a', 'b', 'c'])
      for (const said of ['Title', 'Seen', 'Caution', 'Whom']) expect(html).toContain(`${said} ${id}`);
    expect(html).not.toContain('Seen n');
  });
});

it('a change of a device’s record names every field that changed', () => {
  const first = deviceRecord.parse({
    ...{ id: 'd', childId: 'c', family: 'hip-abduction-orthosis', side: 'both', castDate: '2026-01-10' },
    ...{ hipAngleFrom: 40, hipAngleTo: 60 },
  });
  const later = { ...first, castDate: '2026-01-12', hipAngleTo: 50, extensionRangeMm: { hip_height: 6 } };
  const versions = [later, first].map((device, i) => ({ version: 2 - i, device, at: null, by: 'somebody' }));
  const page = renderPage(
    <DeviceHistory own="/d" device={later} events={[]} versions={versions as never} />,
    { format, today: '2026-02-01' } as PageContext,
  );
  expect(page).toContain(
    'Cast or scanned on: 12 Jan 2026, was 10 Jan 2026; Hip abduction set to, °: 50, was 60; ' +
      'Side-bar travel: hip height 6 mm, was none',
  );
});
