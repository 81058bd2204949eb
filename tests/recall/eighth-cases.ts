import { kid, type PractitionerCase, read } from './case-kit.js';

const fitted = (date: string, more: Record<string, unknown> = {}) =>
  read(
    kid(7, 'female', { conditions: ['cerebral-palsy'], ...more }),
    'foot_length/left 12:171 6:175 2:178',
  ).device('solid-afo', 'left', 2, { fittedDate: date });

/**
 * Two rounds were written down before any was run: 31 of 39 devices agreed, then 21 of 25. Where the list was at fault it is
 * here. Common practice, no source.
 */
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
  {
    name: 'TLSO of nine months, trunk hardly grows, its usual life over a fortnight before the review',
    child: () =>
      read(
        kid(14.8, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 9.5:842 5.3:845 1.2:846; waist_girth 9.5:640 5.3:643 1.2:645',
      ).device('spinal-orthosis', 'none', 9.5),
    action: 'none',
    why: 'looked at for wear at the review in January, as everything else',
  },
  {
    name: 'AFO at the end of its usual life, the review not for three months',
    child: () =>
      read(
        kid(9, 'male', { conditions: ['cerebral-palsy'] }),
        'foot_length/left 20:196 14:197 8:197.5 .5:198',
      ).device('solid-afo', 'left', 14),
    action: 'check',
    why: 'straps, joint and shell are fourteen months old and no look is due before spring',
  },
];
