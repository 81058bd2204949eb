import { hips, kid, type PractitionerCase, read } from '../case-kit.js';

/** Looked at, and cast if it is needed. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const checkCases: readonly PractitionerCase[] = [
  {
    name: 'funding not due yet',
    child: () => read(kid(8, 'female'), 'foot_length/left 15:195 9:200 0:207').device('solid-afo', 'left', 9),
    eligibleAfterMonths: { 'solid-afo': 12 },
    action: 'check',
    why: 'nobody pays before June: look at skin and toes, ask for an exception if it is needed',
  },
  {
    name: 'old AFO of a full-grown youth',
    child: () =>
      read(kid(17.5, 'male'), 'foot_length/left 30:270 18:270 2:270').device('solid-afo', 'left', 28),
    action: 'check',
    why: 'past its usual two years: shell, joints and straps are looked at, and cast if worn',
  },
  {
    name: 'AFO not looked at for half a year, little used then',
    child: () => read(kid(5.5, 'male'), 'foot_length/left 12:168 8:171 6:173').device('solid-afo', 'left', 8),
    action: 'check',
    why: 'reckoned on there may be a millimetre or three left: look, and cast if it is so',
  },
  {
    name: 'AFO past its usual life with room at the toes',
    child: () =>
      read(kid(10, 'male'), 'foot_length/left 15:208 6:210 2.5:212').device('solid-afo', 'left', 15.5),
    action: 'check',
    why: 'fifteen months old: straps and shell are looked at, toes are not what ends it',
    differs: {
      action: 'cast',
      why: 'growth of 4 mm in a year is taken for a reading error against 7 expected; the same visit',
    },
  },
  {
    name: 'SMO, half used in three months',
    child: () =>
      read(kid(2.5, 'female', { conditions: ['hypotonia'] }), 'foot_length/left 5:138 3:141 0:144').device(
        'supramalleolar-orthosis',
        'left',
        3,
      ),
    action: 'check',
    why: 'looked at again in five weeks and cast then if two millimetres are left',
  },
  {
    name: 'cast five months ago and never fitted, the old one ended',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 14:165 5:172')
        .device('solid-afo', 'left', 14, { status: 'retired' })
        .device('solid-afo', 'left', 5, { status: 'ordered', fittedDate: null }),
    action: 'check',
    why: 'where is it, and does it still fit? five months of growth went by',
  },
  {
    name: 'growth hormone, pace up, two and a half left',
    child: () =>
      read(
        kid(8, 'male', { extra: { growth_hormone_start: '2026-07-25' } }),
        'foot_length/left 18:187 12:189 6:191 0:196.5',
      ).device('solid-afo', 'left', 6),
    action: 'check',
    why: 'eleven weeks at this pace less four to make one: look in a month, cast if it is two',
  },
  {
    name: 'AFO of a teenager who hardly grows, a quarter used',
    child: () =>
      read(kid(15, 'female'), 'foot_length/left 14:238 7:239 1:240').device('solid-afo', 'left', 14),
    action: 'check',
    why: 'fourteen months old: usual life, not growth',
    differs: {
      action: 'none',
      why: 'a teenager’s lasts up to two years by its rule; fourteen months are usual only before',
    },
  },
  {
    name: 'AFO of a girl of three, review a month overdue, half used then',
    child: () => read(kid(3.2, 'female'), 'foot_length/left 8:140 4:144').device('solid-afo', 'left', 8),
    action: 'check',
    why: 'four used in August and five more may have gone since: look now',
  },
  {
    name: 'ordered half a year ago and not heard of, the old one far too small',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 18:178 12:182 6:187')
        .device('solid-afo', 'left', 12)
        .device('solid-afo', 'left', 6, { status: 'ordered', fittedDate: null }),
    action: 'check',
    why: 'find it, and see what the child walks in',
  },
  {
    name: 'insensate, five of eight used today',
    child: () =>
      read(
        kid(7, 'female', { insensateSkin: true, conditions: ['myelomeningocele-low'] }),
        'foot_length/left 14:170 8:173 0:178',
      ).device('solid-afo', 'left', 8),
    action: 'check',
    why: 'three left and no pain to tell: looked at again within the month',
  },
  {
    name: 'judged tight last week, readings leave five millimetres',
    child: () =>
      read(kid(11, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 9:221 4:223 .7:224')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.25, { verdict: 'tight' }),
    action: 'check',
    why: 'something is tight that the foot gauge does not show: look where',
  },
  {
    name: 'heel cord lengthened six weeks ago, brace no longer matches the ankle',
    child: () =>
      read(kid(8, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 5:200 1:203')
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.3, {
          note: 'post heel cord lengthening 6/52, AFO no longer matches ankle position',
        }),
    action: 'check',
    why: 'made for another ankle: look and decide on a new cast',
  },
  {
    name: 'note of an operation planned next month, fit good',
    child: () =>
      read(kid(9, 'female', { conditions: ['cerebral-palsy'] }), 'foot_length/left 5:205 .5:208')
        .device('articulated-afo', 'left', 5)
        .event('verdict', 0.5, {
          verdict: 'good',
          note: 'hamstring lengthening listed for January, hold any recast until after surgery',
        }),
    action: 'check',
    why: 'surgery changes what it must fit: plan with the team',
  },
  {
    name: 'spinal orthosis, girl of twelve and a half, seven of twenty used',
    child: () =>
      read(
        kid(12.5, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 9:745 5:756 .5:763; stature 9:1430 5:1450 .5:1464',
      ).device('spinal-orthosis', 'none', 5),
    // At 24 mm a year half a year; the trunk is nearing its peak, so the forecast is somewhat sooner and asks for a look.
    action: 'check',
    castBy: ['2026-12-20', '2027-04-30'],
    why: 'thirteen millimetres at 24 a year, quickening, are some months',
  },
  {
    name: 'next AFO cast three months ago, not heard of, old one past its end',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 12:180 3:187 .5:189')
        .device('solid-afo', 'left', 12)
        .device('solid-afo', 'left', 3, { status: 'ordered', fittedDate: null }),
    action: 'check',
    why: 'overdue at the workshop and too small now: where is it, and has she room in a fresh cast',
  },
  {
    name: 'AFO of a boy of six worn for nineteen months, foot slow, room left',
    child: () =>
      read(kid(6, 'male', { conditions: ['down-syndrome'] }), 'foot_length/left 19:155 10:158 1:160').device(
        'solid-afo',
        'left',
        19,
      ),
    action: 'check',
    why: 'past its usual life: shell, straps',
  },
  {
    name: 'slow grower, three of eight in fourteen months, seen last week',
    child: () =>
      read(
        kid(8, 'female', { conditions: ['down-syndrome'] }),
        'foot_length/left 26:166 20:167.5 14:169 7:170.5 .2:172',
      ).device('solid-afo', 'left', 14),
    action: 'check',
    why: 'past usual life at fourteen months; the length would do for another year',
  },
  {
    name: 'heel not down in AFO, calf tighter',
    child: () =>
      read(kid(7, 'female', { conditions: ['cerebral-palsy'] }), 'foot_length/right 5:182 .3:185')
        .device('solid-afo', 'right', 5)
        .event('verdict', 0.3, { verdict: 'tight', note: 'heel not seating, calf tighter since half term' }),
    action: 'check',
    why: 'position, not growth',
  },
  {
    name: 'teenager, foot stopped, AFO two years old',
    child: () =>
      read(
        kid(16, 'male', { conditions: ['cerebral-palsy'] }),
        'foot_length/left 30:262 24:263 12:263 1:263',
      ).device('solid-afo', 'left', 24),
    action: 'check',
    why: 'wear at the end of usual life',
  },
  {
    name: 'spinal orthosis rubs at the axilla, chest 22 of 25 used, straps left',
    child: () =>
      read(
        kid(13, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 6:790 .3:796; chest_girth 6:720 .3:746',
      ).device('spinal-orthosis', 'none', 6),
    // The trunk's latest day to cast is already past by the forecast: a look comes before the straps are let out.
    action: 'check',
    why: 'let the straps out',
  },
  {
    name: 'falls told by the school, nobody looked',
    child: () =>
      read(kid(9, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 4:210 1:212')
        .device('articulated-afo', 'left', 4)
        .event('verdict', 0.2, { note: 'school rang: tripping a lot over toes this week' }),
    action: 'check',
    why: 'look at fit and strength',
  },
  {
    name: 'SMO, three of six used in four months, seen today',
    child: () =>
      read(kid(3.5, 'female'), 'foot_length/left 4:146 .02:149').device('supramalleolar-orthosis', 'left', 4),
    action: 'check',
    why: 'three left at one a month, less than a review and a workshop',
  },
  {
    name: 'TAL three weeks ago in shorthand',
    child: () =>
      read(kid(8, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 6:186 .3:189')
        .device('solid-afo', 'left', 6)
        .event('verdict', 0.3, { note: 'TAL 3/52, out of cast Fri' }),
    action: 'check',
    why: 'another ankle than the one it was cast on',
  },
  {
    name: 'SEMLS listed, seven of eight used',
    child: () =>
      read(kid(9, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 9:190 .3:197')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.3, { note: 'SEMLS listed 14 Jan' }),
    action: 'check',
    why: 'a cast now would be for nothing',
  },
  {
    name: 'hips rebuilt two months ago, HKAFO',
    child: () =>
      read(
        kid(7, 'female', { conditions: ['cerebral-palsy'] }),
        'foot_length/left 5:176 .4:178; knee_height/left 5:330 .4:334',
      )
        .device('hkafo', 'left', 5, { extensionRangeMm: { knee_height: 25, hip_height: 25 } })
        .event('verdict', 0.4, { note: 'VDRO + adductor release 8/52 ago, spica off' }),
    action: 'check',
    why: 'other hips than it was made for',
  },
  {
    name: 'toxin a fortnight ago, three of eight',
    child: () =>
      read(kid(5, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 4:160 .5:163')
        .device('articulated-afo', 'left', 4)
        .event('verdict', 0.5, { note: 'BoNT-A gastrocs today' }),
    action: 'check',
    why: 'see whether the ankle angle still suits once it works',
  },
  {
    name: 'foot halted, AFO of two years, not looked at for eight months',
    child: () =>
      read(kid(16, 'male'), 'foot_length/left 30:265 20:265 8:265.5').device('solid-afo', 'left', 26),
    action: 'check',
    why: 'straps and shell are old; no growth',
  },
  {
    name: 'wrist-hand orthosis, five of six used in a year',
    child: () =>
      read(kid(11, 'female'), 'hand_length/right 12:150 6:152.5 .2:155').device(
        'wrist-hand-orthosis',
        'right',
        12,
      ),
    action: 'check',
    why: 'two months of room; quickly made',
    differs: { action: 'cast', why: 'one left, and a new one takes three weeks' },
  },
  {
    name: 'KAFO, knee axis twenty off, nobody wrote down how far its bars go',
    child: () =>
      read(kid(9, 'male'), 'knee_height/left 12:360 .3:380; foot_length/left 12:210 .3:213').device(
        'kafo',
        'left',
        12,
      ),
    action: 'check',
    why: 'bars that can be let out are seen at the bench, not cast unseen',
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
  {
    name: 'AFO of thirteen months, eight of eight used when it was called good seven weeks ago',
    child: () =>
      read(
        kid(10, 'female', { conditions: ['hemiplegia'] }),
        'foot_length/right 19:207 13:211 7:215 1.7:219; stature 19:1310 7:1360 1.7:1381',
      )
        .device('afo-with-straps', 'right', 13)
        .event('verdict', 1.7, { verdict: 'good' }),
    action: 'check',
    why: 'good was said of skin and walking; by the tape there is nothing left',
  },
  {
    name: 'AFO with two millimetres left by now, review in four weeks',
    child: () =>
      read(
        kid(4.2, 'female', { conditions: ['other'] }),
        'foot_length/left 14.8:153 8.5:158 5.5:160 2.1:163; foot_length/right 14.8:152 8.5:157 5.5:160 2.1:162',
      )
        .device('solid-afo', 'left', 8.5)
        .event('verdict', 5.5, { verdict: 'good' }),
    action: 'check',
    why: 'the review will nearly surely end in a cast: a place for one is kept',
  },
  {
    name: 'hip orthosis set to 40 to 60 degrees, the left hip found at 30 last week',
    child: () => hips(30),
    action: 'check',
    why: 'straps and angle are what is watched: it does not hold the hip where it should',
  },
  {
    name: 'ground-reaction AFO, six of eight used five weeks ago, nobody called it tight',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 15:186 9:191 1.2:197').device('ground-reaction-afo', 'left', 9),
    action: 'check',
    why: 'as likely as not good until January, begun in three weeks: looked at, and cast if there is little room',
  },
  {
    name: 'AFO, seven of eight used, called good a fortnight ago',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 15:186 9:190 .5:197')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.5, { verdict: 'good' }),
    action: 'check',
    why: 'either the tape or the eye is wrong; which of them is seen before the room is gone',
  },
];
