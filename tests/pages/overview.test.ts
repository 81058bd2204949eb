/** Reckoned by hand. */
import { expect, it } from 'vitest';
import { yearCounts } from '../../src/pages/clinic/overview-counts.js';
import { deviceRecord } from '../../src/records/device.js';

const device = (childId: string, rest: object) =>
  deviceRecord.parse({
    id: `${childId}-d`,
    childId,
    family: 'solid-afo',
    side: 'left',
    fittedDate: '2026-09-20',
    status: 'worn',
    ...rest,
  });

it('tells first casts of the year from those that follow another', () => {
  const devices = [
    device('a', { castDate: '2025-10-01' }),
    device('a', { id: 'a-2', castDate: '2026-09-01' }),
    device('a', { id: 'a-right', castDate: '2026-09-01', side: 'right' }),
    device('b', { castDate: '2026-09-01', replaces: 'elsewhere' }),
  ];
  const { casts, firstCasts } = yearCounts({ children: [], devices }, { visits: 0, last: [] }, '2026-11-27');
  expect([casts, firstCasts]).toEqual([3, 1]);
});
