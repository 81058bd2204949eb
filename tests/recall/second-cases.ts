import { kid, type PractitionerCase, read } from './case-kit.js';

const bars = { extensionRangeMm: { knee_height: 24, hip_height: 24 } };
const noBars = { extensionRangeMm: { knee_height: 0, hip_height: 0 } };

/** Forty more, the practitioner's word written down before any was run. Common practice, no source. */
export const secondCases: readonly PractitionerCase[] = [
  {
    name: 'AFO of a boy of five, a third used, seen two weeks ago',
    child: () => read(kid(5, 'male'), 'foot_length/left 10:165 4:170 .5:173').device('solid-afo', 'left', 4),
    action: 'none',
    why: '3 of 8 mm used and looked at two weeks ago',
  },
  {
    name: 'AFO of a girl of four, more than half used, seen last week',
    child: () =>
      read(kid(4, 'female'), 'foot_length/left 12:150 6:156 .2:160').device('solid-afo', 'left', 6),
    action: 'none',
    why: '4 mm left is four months; she is looked at again in the new year',
  },
  {
    name: 'AFO with a millimetre and a half left',
    child: () => read(kid(6, 'male'), 'foot_length/left 14:172 8:176 0:182.5').device('solid-afo', 'left', 8),
    action: 'cast',
    why: 'eight weeks of room and four weeks to make one',
  },
  {
    name: 'AFO not looked at for half a year, little used then',
    child: () => read(kid(5.5, 'male'), 'foot_length/left 12:168 8:171 6:173').device('solid-afo', 'left', 8),
    action: 'check',
    why: 'reckoned on there may be a millimetre or three left: look, and cast if it is so',
  },
  {
    name: 'AFO two months without a look, next to nothing left then',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 16:172 10:176 2:182.5').device('solid-afo', 'left', 10),
    action: 'cast',
    why: 'a millimetre and a half two months ago is gone by now',
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
    name: 'skin cannot warn, five of eight used two months ago',
    child: () =>
      read(kid(9, 'male', { insensateSkin: true }), 'foot_length/left 14:200 8:204 2:209').device(
        'articulated-afo',
        'left',
        8,
      ),
    action: 'cast',
    why: 'two millimetres by now and no pain to tell',
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
    name: 'SMO, a toddler just walking',
    child: () =>
      read(kid(1.5, 'male', { conditions: ['hypotonia'] }), 'foot_length/left 6:118 3.5:122 .1:127').device(
        'supramalleolar-orthosis',
        'left',
        3.5,
      ),
    action: 'cast',
    why: 'one of six left at fifteen a year',
  },
  {
    name: 'KAFO halfway everywhere',
    child: () =>
      read(
        kid(8, 'male'),
        'foot_length/left 10:192 4:196 .7:198; knee_height/left 10:338 4:345 .7:350',
      ).device('kafo', 'left', 4, bars),
    action: 'none',
    why: 'knee 5 of 11 off, toes 2 of 8 used, seen three weeks ago',
  },
  {
    name: 'KAFO, knee axis near its limit',
    child: () =>
      read(
        kid(5, 'female'),
        'foot_length/left 12:160 6:164 .1:166; knee_height/left 12:255 6:262 .1:272',
      ).device('kafo', 'left', 6, bars),
    action: 'adjust',
    why: '10 mm off: a hole or two of the bar now',
  },
  {
    name: 'KAFO, bar moved two months ago, toes at the edge',
    child: () =>
      read(kid(10, 'male'), 'foot_length/left 18:207 12:210 0:218; knee_height/left 18:378 12:386 0:401')
        .device('kafo', 'left', 12, bars)
        .event('adjusted', 2, { measure: 'knee_height', side: 'left', changeMm: 12, adjustment: 'side-bar' }),
    action: 'renew-part',
    why: 'the foot section alone; the joint was set two months ago',
  },
  {
    name: 'HKAFO, knees off, travel left',
    child: () =>
      read(
        kid(7, 'female'),
        'foot_length/left 8:176 0:178; foot_length/right 8:176 0:178; knee_height/left 8:300 0:312; knee_height/right 8:300 0:312; hip_height/left 8:560 0:575; hip_height/right 8:560 0:575',
      ).device('hkafo', 'both', 8, bars),
    action: 'adjust',
    why: 'both knee bars; the hips follow with them',
  },
  {
    name: 'HKAFO, knees off, no travel',
    child: () =>
      read(
        kid(7, 'female'),
        'foot_length/left 8:176 0:178; foot_length/right 8:176 0:178; knee_height/left 8:300 0:314; knee_height/right 8:300 0:314',
      ).device('hkafo', 'both', 8, noBars),
    action: 'cast',
    why: '14 mm off and nothing to move',
  },
  {
    name: 'foot orthosis of a girl of twelve, a quarter used',
    child: () =>
      read(kid(12, 'female'), 'foot_length/left 14:228 8:232 .5:234').device('foot-orthosis', 'left', 8),
    action: 'none',
    why: '2 of 8 used and she hardly grows',
  },
  {
    name: 'foot orthosis in the spurt',
    child: () =>
      read(kid(13.5, 'male'), 'foot_length/left 10:250 5:255 0:262').device('foot-orthosis', 'left', 5),
    action: 'cast',
    why: '7 of 8 in five months',
  },
  {
    name: 'foot orthosis that ends behind the toes, half used',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 8:180 .5:185').device('foot-orthosis', 'left', 8, {
        footplate: 'behind-toes',
      }),
    action: 'none',
    why: 'the edge may end ten short: five left',
  },
  {
    name: 'spinal orthosis, growth nearly over',
    child: () =>
      read(kid(14.2, 'female', { conditions: ['idiopathic-scoliosis'] }), 'sitting_height 9:838 5:841 .5:843')
        .device('spinal-orthosis', 'none', 5)
        .marker('menarche', 14),
    action: 'none',
    why: '2 of 20 mm used and seen two weeks ago: the usual three months',
  },
  {
    name: 'spinal orthosis of a boy at his fastest',
    child: () =>
      read(
        kid(14, 'male', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 8:800 4:812 0:827',
      ).device('spinal-orthosis', 'none', 4),
    action: 'cast',
    why: '15 of 20 in four months; the rest lasts six weeks',
  },
  {
    name: 'spinal orthosis, waist closes no longer, trunk has room',
    child: () =>
      read(
        kid(11, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 6:705 3:708 0:711; waist_girth 6:600 3:612 0:628',
      ).device('spinal-orthosis', 'none', 6),
    action: 'adjust',
    why: 'straps let out; the height has room for months',
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
    name: 'helmet with two millimetres of room and all its foam',
    child: () =>
      read(
        kid(0.42, 'female', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 2.1:396 1:406 .05:414',
      ).device('cranial-orthosis', 'none', 2.1),
    action: 'adjust',
    why: '18 of 20 used: grind out foam this week',
  },
  {
    name: 'hip abduction orthosis, thighs filled',
    child: () =>
      read(
        kid(0.38, 'female', { conditions: ['hip-dysplasia'] }),
        'hip_height/left 1.5:225 0:232; hip_height/right 1.5:225 0:232; thigh_girth/left 1.5:180 0:197; thigh_girth/right 1.5:180 0:197',
      ).device('hip-abduction-orthosis', 'both', 1.5),
    action: 'adjust',
    why: 'straps out a notch',
  },
  {
    name: 'boots and bar, toes at the end of the boots',
    child: () =>
      read(
        kid(1.2, 'male', { conditions: ['clubfoot'] }),
        'foot_length/left 3.5:112 1.5:118 0:121; foot_length/right 3.5:112 1.5:118 0:121',
      ).device('boots-and-bar', 'both', 3.5),
    action: 'renew-part',
    why: 'the next size of boots on the same bar',
  },
  {
    name: 'boots and bar given a week ago',
    child: () =>
      read(
        kid(0.7, 'male', { conditions: ['clubfoot'] }),
        'foot_length/left 1:100 .2:101; foot_length/right 1:100 .2:101',
      ).device('boots-and-bar', 'both', 1),
    action: 'none',
    why: 'new, seven millimetres of room, next look in the new year',
  },
  {
    name: 'shoe raise, shoes half used',
    child: () => read(kid(9, 'male'), 'foot_length/left 15:201 9:205 .3:210').device('shoe-raise', 'left', 9),
    action: 'none',
    why: '5 of 10 used',
  },
  {
    name: 'shoe raise, shoes too short',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 12:170 6:176 .2:181').device('shoe-raise', 'left', 12),
    action: 'renew-part',
    why: 'new shoes, the raise is put on them',
  },
  {
    name: 'knee orthosis longer than its shell, edge can be trimmed',
    child: () =>
      read(kid(8, 'female'), 'knee_height/left 16:312 10:320 .2:336').device('knee-orthosis', 'left', 10),
    action: 'adjust',
    why: '16 of 15 used: the edges are trimmed',
  },
  {
    name: 'wrist-hand orthosis, half used',
    child: () =>
      read(kid(6, 'male'), 'hand_length/left 15:126 9:128 .3:131').device('wrist-hand-orthosis', 'left', 9),
    action: 'none',
    why: '3 of 6 used and the hand grows five a year',
  },
  {
    name: 'wrist-hand orthosis, fingers over the edge',
    child: () =>
      read(kid(6, 'male'), 'hand_length/left 20:118 14:120 .2:127').device('wrist-hand-orthosis', 'left', 14),
    action: 'cast',
    why: '7 of 6 used',
  },
  {
    name: 'strap broke, said in a note beside a good fit',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 9:186 3:188 .3:190')
        .device('solid-afo', 'left', 3)
        .event('verdict', 0.3, { verdict: 'good', note: 'ankle strap broke, still wearing it' }),
    action: 'repair',
    why: 'a strap is sewn on this week',
  },
  {
    name: 'lost on the bus',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 9:186 3:188 .3:190')
        .device('solid-afo', 'left', 3)
        .event('lost', 0.1),
    action: 'repair',
    why: 'walks without it: replace now',
  },
  {
    name: 'first device being made, none before it',
    child: () =>
      read(kid(4, 'male'), 'foot_length/left .5:152').device('solid-afo', 'left', 0.5, { status: 'ordered' }),
    action: 'none',
    why: 'cast two weeks ago, being made',
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
    name: 'one reading only, judged good today',
    child: () =>
      read(kid(5, 'male'), 'foot_length/left 0:172')
        .device('solid-afo', 'left', 6)
        .event('verdict', 0, { verdict: 'good' }),
    action: 'none',
    why: 'a person looked today and found room; the next look is in the spring',
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
    name: 'foot that stood still at eight with little room left',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 12:190 6:196 .2:196').device('solid-afo', 'left', 12),
    action: 'measure',
    why: 'half a year without growth at eight is a slip until it is measured again, and two millimetres hang on it',
  },
  {
    name: 'left one broken, right one fine',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 9:186 3:188 .3:190; foot_length/right 9:186 3:188 .3:190')
        .device('solid-afo', 'right', 3)
        .device('solid-afo', 'left', 3)
        .event('broken', 0.1, { note: 'rivet gone at the ankle' }),
    devices: [1],
    action: 'repair',
    why: 'the left one today; the right one goes on',
  },
  {
    name: 'slight redness where the skin cannot warn',
    child: () =>
      read(kid(9, 'male', { insensateSkin: true }), 'foot_length/left 9:205 3:208 .3:209')
        .device('solid-afo', 'left', 3)
        .event('verdict', 0.2, { verdict: 'good', note: 'slight pink at medial malleolus' }),
    action: 'see-now',
    why: 'any mark on skin that does not feel is seen at once',
  },
  {
    name: 'redness that goes in ten minutes',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 9:205 3:208 .3:209')
        .device('solid-afo', 'left', 3)
        .event('verdict', 0.3, { verdict: 'good', note: 'slight red under strap, gone in 10 min' }),
    action: 'none',
    why: 'as every strap does',
  },
  {
    name: 'judged good today with a centimetre used',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 12:191 8:195 0:202.5')
        .device('solid-afo', 'left', 8)
        .event('verdict', 0, { verdict: 'good' }),
    action: 'none',
    why: 'somebody looked today and was content; the next look comes in the spring',
  },
  {
    name: 'judged tight two months ago and nothing since',
    child: () =>
      read(kid(8, 'male'), 'foot_length/left 12:196 6:200 2:204')
        .device('solid-afo', 'left', 6)
        .event('verdict', 2, { verdict: 'tight' }),
    action: 'cast',
    why: 'tight in September is too small now',
  },
];
