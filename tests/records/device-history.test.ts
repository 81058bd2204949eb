import { expect, it } from 'vitest';
import { deviceEventRecord, deviceRecord } from '../../src/records/device.js';
import { deviceHistory } from '../../src/records/device-history.js';

const device = deviceRecord.parse({
  id: 'd',
  childId: 'c',
  family: 'solid-afo',
  side: 'left',
  castDate: '2025-01-10',
  fittedDate: '2025-02-01',
});
type Event = readonly [date: string, kind: string, more?: Record<string, unknown>];
const after = (...events: readonly Event[]) =>
  deviceHistory(
    device,
    events.map(([date, kind, more], i) =>
      deviceEventRecord.parse({ id: `e${i}`, deviceId: 'd', date, kind, ...more }),
    ),
  );
const outgrown: Event = ['2025-05-01', 'verdict', { verdict: 'outgrown' }];

it('the last word of a reviewer stands, in whatever order it was typed', () => {
  const good: Event = ['2025-06-01', 'verdict', { verdict: 'good' }];
  expect(after(outgrown).judgedOutgrown).toMatchObject({ date: '2025-05-01' });
  for (const events of [
    [outgrown, good],
    [good, outgrown],
  ])
    expect(after(...events)).toMatchObject({ judgedOutgrown: null });
});

it('an adjustment after it answers a verdict of outgrown', () => {
  const adjusted: Event = ['2025-05-02', 'adjusted', { measure: 'foot_length', changeMm: 3 }];
  expect(after(outgrown, adjusted)).toMatchObject({ judgedOutgrown: null });
});

it('broken or lost holds until it is handed over again', () => {
  for (const [kind, field] of [
    ['broken', 'brokenOn'],
    ['lost', 'lostOn'],
    ['retired', 'retiredOn'],
  ] as const) {
    expect(after(['2025-04-01', kind])[field]).toBe('2025-04-01');
    const mended = after(['2025-04-01', kind], ['2025-04-20', 'delivered']);
    expect(mended).toMatchObject({ [field]: null, fittedDate: '2025-04-20', castDate: '2025-01-10' });
  }
});

it('a new cast counts once it is delivered; what was said of the old one is then gone', () => {
  const recast: Event = ['2025-05-10', 're-cast'];
  const tight: Event = ['2025-03-01', 'verdict', { verdict: 'tight' }];
  expect(after(tight, recast)).toMatchObject({ castDate: '2025-01-10', pendingCast: '2025-05-10' });
  expect(after(tight, recast).since).toHaveLength(1);
  expect(after(tight, outgrown, recast, ['2025-06-20', 'delivered'])).toMatchObject({
    castDate: '2025-05-10',
    pendingCast: null,
    fittedDate: '2025-06-20',
    judgedOutgrown: null,
    since: [],
  });
});

it('what another device went through is not its own', () => {
  expect(after(['2025-04-01', 'broken', { deviceId: 'other' }]).brokenOn).toBeNull();
});

it('the cast it was made from, entered as an event too, is no newer one', () => {
  expect(after(['2025-01-10', 'cast'])).toMatchObject({ pendingCast: null, castDate: '2025-01-10' });
  expect(after(['2025-08-01', 'cast'])).toMatchObject({ pendingCast: '2025-08-01' });
});
