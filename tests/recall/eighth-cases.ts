import { kid, type PractitionerCase, read } from './case-kit.js';

const fitted = (date: string, more: Record<string, unknown> = {}) =>
  read(
    kid(7, 'female', { conditions: ['cerebral-palsy'], ...more }),
    'foot_length/left 12:171 6:175 2:178',
  ).device('solid-afo', 'left', 2, { fittedDate: date });

/** Of 39 devices written down before any was run 31 agreed; of the others one was the list's fault. Common practice, no source. */
export const eighthCases: readonly PractitionerCase[] = [
  {
    name: 'AFO handed over two weeks ago, nobody has looked at it since',
    child: () => fitted('2026-11-11'),
    action: 'review',
    why: 'skin and gait in a new one are looked at within four weeks',
  },
  {
    name: 'AFO handed over five weeks ago and seen a fortnight later',
    child: () => fitted('2026-10-21').event('verdict', 0.7, { verdict: 'good' }),
    action: 'none',
    why: 'the first look has been; the usual one comes in the spring',
  },
  {
    name: 'AFO handed over six weeks ago to skin that does not feel, not seen since',
    child: () => fitted('2026-10-14', { insensateSkin: true, conditions: ['myelomeningocele-low'] }),
    action: 'review',
    why: 'a new brace on skin that cannot warn, and nobody has looked under it',
  },
  {
    name: 'AFO worn for months, handed back last week with a new strap',
    child: () =>
      read(kid(7, 'female', { conditions: ['cerebral-palsy'] }), 'foot_length/left 12:171 5:175 1:178')
        .device('solid-afo', 'left', 5)
        .event('broken', 0.5)
        .event('delivered', 0.3),
    action: 'none',
    why: 'a new strap makes no new brace of it',
  },
];
