import { fitted, hips, kid, type PractitionerCase, read } from '../case-kit.js';

/** The usual review, or the first look at a new device. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const reviewCases: readonly PractitionerCase[] = [
  {
    name: 'AFO half used, usual review due',
    child: () => read(kid(7, 'male'), 'foot_length/left 12:185 6:190 4.6:191').device('solid-afo', 'left', 6),
    action: 'review',
    why: 'last seen four and a half months ago, toes still have room',
  },
  {
    name: 'hip abduction orthosis, ordinary course',
    child: () => {
      const b = kid(0.5, 'female', { conditions: ['hip-dysplasia'] });
      for (const side of ['left', 'right'] as const) {
        read(b, `hip_height/${side} 1.5:240 .4:244`);
        read(b, `thigh_girth/${side} 1.5:195 .4:198`);
      }
      return b.device('hip-abduction-orthosis', 'both', 1.5);
    },
    action: 'review',
    why: 'every four weeks at this age',
  },
  {
    name: 'cranial orthosis, usual growth',
    child: () =>
      read(
        kid(0.46, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 1.9:420 .92:430 0:437',
      ).device('cranial-orthosis', 'none', 0.92),
    action: 'review',
    why: 'every three weeks; foam comes out when it is close',
  },
  {
    name: 'full-grown girl, not seen for a year',
    child: () =>
      read(kid(16.5, 'female'), 'foot_length/left 30:241 21:241 12:242').device('solid-afo', 'left', 14),
    action: 'review',
    why: 'wear, straps and skin once a year',
  },
  {
    name: 'one reading, at the cast a month ago',
    child: () => read(kid(6, 'female'), 'foot_length/left 1:172').device('solid-afo', 'left', 1),
    action: 'review',
    why: 'fitted last week: the first look at it, in three weeks, will bring the second reading',
  },
  {
    name: 'palliative, not seen for over a year',
    child: () =>
      read(kid(9, 'male', { palliative: true }), 'foot_length/left 20:200 13:204').device(
        'solid-afo',
        'left',
        20,
      ),
    action: 'review',
    why: 'skin and straps once a year at least, at home if they prefer',
  },
  {
    name: 'insensate, three months since the last look',
    child: () =>
      read(kid(9, 'female', { insensateSkin: true }), 'foot_length/left 9:205 3.3:208')
        .device('articulated-afo', 'left', 3.3)
        .event('verdict', 3.2, { verdict: 'good' }),
    action: 'review',
    why: 'every three months at most where the skin does not feel',
  },
  {
    name: 'both AFOs, skin cannot warn, review within the month',
    child: () =>
      read(
        kid(6, 'female', { conditions: ['myelomeningocele-low'], insensateSkin: true }),
        'foot_length/left 8:172 2.6:174; foot_length/right 8:172 2.6:174',
      )
        .device('solid-afo', 'left', 3.5)
        .device('solid-afo', 'right', 3.5),
    action: 'review',
    why: 'every three months at most where the skin does not feel; room is no matter yet',
  },
  {
    name: 'helmet with half its room, seen three days ago',
    child: () =>
      read(
        kid(0.6, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 3:412 1.5:426 .1:436',
      ).device('cranial-orthosis', 'none', 1.5),
    action: 'review',
    why: 'every three weeks; half the room is there and foam can come out',
  },
  {
    name: 'new one given a month ago, old one never ended',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 16:180 8:186 2:189 1:190')
        .device('solid-afo', 'left', 14)
        .device('solid-afo', 'left', 2, { fittedDate: '2026-10-26' }),
    action: 'review',
    devices: [1],
    why: 'she wears the new one, which nobody has looked at yet; the old one is only to be taken off the books',
  },
  {
    name: 'spinal orthosis, six of twenty used, review due next week',
    child: () =>
      read(
        kid(12.5, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 9:752 5:762 2.8:767',
      ).device('spinal-orthosis', 'none', 5),
    action: 'review',
    why: 'three-monthly at this age; a third used by now',
    differs: {
      action: 'check',
      why: 'the same visit, with a place for a cast: at the pace of her own readings more than half is used by today',
    },
  },
  {
    name: 'helmet, head grows as it should, review next week',
    child: () =>
      read(
        kid(0.75, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 2.5:440 1:450 .5:453',
      ).device('cranial-orthosis', 'none', 1),
    action: 'review',
    why: 'every three weeks',
  },
  {
    name: 'helmet given a fortnight ago, on course',
    child: () =>
      read(
        kid(0.5, 'female', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 1:420 .5:423 .1:425',
      ).device('cranial-orthosis', 'none', 0.6),
    action: 'review',
    why: 'seen every two to three weeks',
  },
  {
    name: 'GRAFO of a teenager with spina bifida, low level, feet not sensate, four of eight used, seen in early September',
    child: () =>
      read(
        kid(12, 'male', { conditions: ['myelomeningocele-low'], insensateSkin: true }),
        'foot_length/left 8:222 2.6:226',
      ).device('ground-reaction-afo', 'left', 8),
    action: 'review',
    why: 'three months without a look at skin that cannot warn',
    differs: {
      action: 'cast',
      why: 'six of eight are likely used by now, and a day too small counts three times',
    },
  },
  {
    name: 'AFO, girl just cast and fitted three weeks ago, first review due',
    child: () =>
      read(kid(3, 'female', { conditions: ['cerebral-palsy'] }), 'foot_length/left 1.6:140').device(
        'solid-afo',
        'left',
        1.6,
      ),
    action: 'review',
    why: 'new: the first look at it is due within four weeks of the fitting, then the usual visit in the new year',
  },
  {
    name: 'helmet, voids gone: 20 of 20 and all foam ground out',
    child: () =>
      read(
        kid(0.75, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 4:420 2:437 .2:446',
      )
        .device('cranial-orthosis', 'none', 4)
        .event('adjusted', 2, { measure: 'head_circumference', changeMm: 10, adjustment: 'relief' })
        .event('adjusted', 0.5, { measure: 'head_circumference', changeMm: 10, adjustment: 'relief' }),
    action: 'review',
    why: 'twenty-six grown of forty: room yet for some weeks, review due',
  },
  {
    name: 'adult of twenty-one in the same list, not seen for two years',
    child: () =>
      read(kid(21, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 26:265').device(
        'solid-afo',
        'left',
        26,
      ),
    action: 'review',
    why: 'wear, skin, strength',
  },
  {
    name: 'helmet, twelve of twenty used in two months',
    child: () =>
      read(kid(0.5, 'male'), 'head_circumference 2:425 1:432 .3:437').device('cranial-orthosis', 'none', 2),
    action: 'review',
    why: 'two months of room, seen every few weeks anyway',
    differs: { action: 'adjust', why: 'foam is taken out while the head still grows six a month' },
  },
  {
    name: 'brace of a grown girl, looked at a quarter of a year ago',
    child: () =>
      read(
        kid(14.8, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'stature 12.2:1630 2.9:1632; sitting_height 12.2:860 2.9:861',
      )
        .marker('pelvis-stage', 2.9, 4)
        .device('spinal-orthosis', 'none', 11.7)
        .event('verdict', 2.9, { verdict: 'good' }),
    action: 'review',
    why: 'a curve may go on after growth has ended: no year between looks',
  },
  {
    name: 'AFO handed over two weeks ago, nobody has looked at it since',
    child: () => fitted('2026-11-11'),
    action: 'review',
    why: 'skin and gait in a new one are looked at within four weeks',
  },
  {
    name: 'AFO handed over six weeks ago to skin that does not feel, not seen since',
    child: () => fitted('2026-10-14', { insensateSkin: true, conditions: ['myelomeningocele-low'] }),
    action: 'review',
    why: 'a new brace on skin that cannot warn, and nobody has looked under it',
  },
  {
    name: 'foot orthoses of a girl of twelve, no growth for half a year, seen half a year ago',
    child: () =>
      read(kid(12.7, 'female'), 'foot_length/left 17.7:231 11.5:234 5.3:234')
        .device('foot-orthosis', 'left', 11.5, { allowancesMm: { foot_length: 12 } })
        .event('verdict', 5.3, { verdict: 'good' }),
    action: 'review',
    why: 'half a year without growth is not the end of it: six-monthly as before',
  },
  {
    name: 'hip orthosis handed over a week ago, straps to be let out in about a fortnight',
    child: () =>
      read(
        kid(0.42, 'male', { conditions: ['hip-dysplasia'] }),
        'thigh_girth/left 2.3:190 1:199 .26:202; thigh_girth/right 2.3:191 1:200 .26:202; hip_girth 2.3:364 1:376 .26:380',
      ).device('hip-abduction-orthosis', 'both', 1, { fittedDate: '2026-11-17' }),
    action: 'review',
    why: 'the first look is due by then, and the straps are let out there',
  },
  {
    name: 'hip orthosis set to 40 to 60 degrees, both hips found within it last week',
    child: () => hips(45),
    action: 'review',
    why: 'it holds where it was set: the usual look in three weeks',
  },
  {
    name: 'AFOs of a grown boy, the left foot the same for a year, the right two millimetres longer, seen half a year ago',
    child: () =>
      read(
        kid(14.9, 'male', { conditions: ['muscular-dystrophy'] }),
        'foot_length/left 18:240 12:241 6.4:241; foot_length/right 18:239 12:240 6.4:241',
      )
        .device('solid-afo', 'left', 12)
        .device('solid-afo', 'right', 12),
    action: 'review',
    why: 'growth ends in the boy and not in one foot: both at the usual half-year',
    devices: [0, 1],
  },
  {
    name: 'supramalleolar orthosis handed over two weeks ago, fast feet',
    child: () =>
      read(kid(1.7, 'female'), 'foot_length/left 4.4:119 2.8:121 1.2:124').device(
        'supramalleolar-orthosis',
        'left',
        1.2,
        {
          fittedDate: '2026-11-12',
        },
      ),
    action: 'review',
    why: 'nobody casts at the first look at a new device, and it comes before the next cast is due',
  },
];
