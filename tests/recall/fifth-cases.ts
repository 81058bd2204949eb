import { kid, type PractitionerCase, read } from './case-kit.js';

/** Written down after the rules were mended on those before and before any was run. Common practice, no source. */
export const fifthCases: readonly PractitionerCase[] = [
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
    name: 'fast grower, seven of eight in four months',
    child: () =>
      read(kid(4.5, 'male'), 'foot_length/left 10:151 4:156 .2:163').device('solid-afo', 'left', 4),
    action: 'cast',
    why: 'one left, however it came',
  },
  {
    name: 'fast toddler, six of eight in three months, seen yesterday',
    child: () =>
      read(kid(1.6, 'female'), 'foot_length/left 3:116 1.5:119 .05:122').device('solid-afo', 'left', 3),
    action: 'cast',
    why: 'two at two a month',
  },
  {
    name: 'growth hormone begun in June, foot up four since, four left',
    child: () =>
      read(
        kid(9, 'male'),
        'foot_length/left 18:193 12:195 5:197 .5:201; stature 18:1180 12:1200 5:1222 .5:1260',
      )
        .device('solid-afo', 'left', 5)
        .event('verdict', 5, { note: 'growth hormone started' }),
    action: 'none',
    why: 'pace has doubled; look in December',
  },
  {
    name: 'botox three weeks ago, AFO fits well today',
    child: () =>
      read(kid(6, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 4:175 .1:178')
        .device('articulated-afo', 'left', 4)
        .event('verdict', 0.7, { note: 'had botox to calves today' })
        .event('verdict', 0.05, { verdict: 'good', note: 'fits well after toxin' }),
    action: 'none',
    why: 'looked at since and good',
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
    name: 'KAFO, foot section and knee both at their end',
    child: () =>
      read(
        kid(7, 'female', { conditions: ['spinal-muscular-atrophy'] }),
        'foot_length/left 10:180 .3:188; knee_height/left 10:300 .3:311; hip_height/left 10:540 .3:556',
      ).device('kafo', 'left', 10, { extensionRangeMm: { knee_height: 30, hip_height: 30 } }),
    action: 'adjust',
    why: 'both in one visit',
    differs: {
      action: 'renew-part',
      why: 'what has to be made gives the visit its name; the bars are let out in it',
    },
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
    name: 'head plus 24 mm in three weeks',
    child: () =>
      read(kid(0.5, 'female'), 'head_circumference 2:405 1:412 .75:414 0:438').device(
        'cranial-orthosis',
        'none',
        2,
      ),
    action: 'see-now',
    why: 'crossing centiles',
  },
  {
    name: 'hip abduction orthosis, eleven weeks, hips stiff, straps near their end',
    child: () =>
      read(
        kid(0.6, 'female', { conditions: ['hip-dysplasia'] }),
        'thigh_girth/left 4:180 2:205 .1:222; thigh_girth/right 4:180 2:205 .1:222; hip_height/left 4:222 .1:246',
      )
        .device('hip-abduction-orthosis', 'both', 4)
        .event('adjusted', 2, { measure: 'thigh_girth', changeMm: 30, adjustment: 'strap' }),
    action: 'none',
    why: 'forty-two of forty-five used: out a little more at this visit',
    differs: {
      action: 'check',
      why: 'the thigh may be too long for the cuffs by now, and only one side was measured',
    },
  },
  {
    name: 'foot orthosis, girl of eight, seven of eight used',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 10:190 .2:197; foot_length/right 10:190 .2:197')
        .device('foot-orthosis', 'left', 10)
        .device('foot-orthosis', 'right', 10),
    action: 'cast',
    why: 'both done',
    devices: [0, 1],
  },
  {
    name: 'only the left is filled, the right has room',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 9:170 .2:178; foot_length/right 9:168 4:172 .2:174')
        .device('solid-afo', 'left', 9)
        .device('solid-afo', 'right', 4),
    action: 'cast',
    why: 'the left; the right has six left',
    devices: [0],
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
    name: 'AFO lost, spare in use',
    child: () =>
      read(kid(5, 'female'), 'foot_length/left 6:160 .5:164')
        .device('solid-afo', 'left', 6)
        .event('lost', 0.1),
    action: 'repair',
    why: 'nothing to wear',
  },
  {
    name: 'measured at school in inches',
    child: () => read(kid(6, 'female'), 'foot_length/left 8:170 3:173 .1:68').device('solid-afo', 'left', 8),
    action: 'measure',
    why: 'no foot of six is 68 mm',
  },
  {
    name: 'stale: last seen eight months ago, AFO ten months old, boy of four',
    child: () => read(kid(4, 'male'), 'foot_length/left 10:145 8:147').device('solid-afo', 'left', 10),
    action: 'measure',
    why: 'certainly too small by now: see him this week, measure and cast',
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
    name: 'new AFO fitted last week, strap mark fades in ten minutes',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 1.2:180')
        .device('solid-afo', 'left', 1.2)
        .event('verdict', 0.1, { verdict: 'good', note: 'pink under strap, gone in 10 min' }),
    action: 'none',
    why: 'as it should be',
  },
  {
    name: 'KAFO, foot section three past its room, knee bars due to be let out too',
    child: () =>
      read(
        kid(9, 'male', { conditions: ['spinal-muscular-atrophy'] }),
        'knee_height/left 10.5:330 .5:342; hip_height/left 10.5:650 .5:672; foot_length/left 10.5:182 .5:193',
      ).device('kafo', 'left', 10.5, {
        extensionRangeMm: { knee_height: 30, hip_height: 55 },
        allowancesMm: { foot_length: 8 },
      }),
    action: 'renew-part',
    why: 'the section must be made; the bars are let out in the same visit',
  },
];
