import { kid, type PractitionerCase, read } from './case-kit.js';

/** Forty more, each written down before any was run. Common practice, no source. */
export const fourthCases: readonly PractitionerCase[] = [
  {
    name: 'girl of seven, AFO, five of eight used, seen last week',
    child: () =>
      read(kid(7.2, 'female'), 'foot_length/left 6:182 3:184 .3:187').device('solid-afo', 'left', 6),
    action: 'none',
    castBy: ['2026-12-25', '2027-02-28'],
    why: 'three millimetres are four months; cast early in the year',
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
    name: 'judged tight last week, seven of eight used',
    child: () =>
      read(kid(6, 'female'), 'foot_length/right 9:170 .3:177')
        .device('solid-afo', 'right', 9)
        .event('verdict', 0.3, { verdict: 'tight' }),
    action: 'cast',
    why: 'reading and eye agree',
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
    name: 'infant in hip abduction orthosis, thighs grown 20 mm in six weeks',
    child: () =>
      read(
        kid(0.42, 'female', { conditions: ['hip-dysplasia'] }),
        'thigh_girth/left 1.5:190 .2:210; thigh_girth/right 1.5:192 .2:211; hip_height/left 1.5:150 .2:155',
      ).device('hip-abduction-orthosis', 'both', 1.5),
    action: 'adjust',
    why: 'straps are let out at every visit',
  },
  {
    name: 'boots and bar, boots nearly filled',
    child: () =>
      read(
        kid(1.5, 'male', { conditions: ['clubfoot'] }),
        'foot_length/left 4:115 2:119 .3:122; foot_length/right 4:116 2:119 .3:123',
      ).device('boots-and-bar', 'both', 4),
    action: 'renew-part',
    why: 'a millimetre left: the next boots; the bar stays',
  },
  {
    name: 'shoe raise, shoes with room, seen two months ago',
    child: () =>
      read(
        kid(9, 'female', { conditions: ['leg-length-difference'] }),
        'foot_length/left 5:205 2:207; foot_length/right 5:206 2:208',
      ).device('shoe-raise', 'left', 5),
    action: 'none',
    why: 'three of ten used',
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
    name: 'spinal orthosis, boy of fourteen, seventeen of twenty used, seen three weeks ago',
    child: () =>
      read(
        kid(14, 'male', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 12:790 8:802 .7:819; stature 12:1560 8:1590 .7:1632',
      ).device('spinal-orthosis', 'none', 8),
    action: 'cast',
    why: 'three left at fifty a year: out by Christmas',
  },
  {
    name: 'helmet, 16 of 20 used, foam not yet touched',
    child: () =>
      read(
        kid(0.55, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 2.5:415 1.5:424 .3:431',
      ).device('cranial-orthosis', 'none', 2.5),
    action: 'adjust',
    why: 'grind foam before it presses',
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
    name: 'KAFO, knee axis eight millimetres off, bars untouched, seen last week',
    child: () =>
      read(
        kid(8, 'male', { conditions: ['muscular-dystrophy'] }),
        'knee_height/left 7:340 .2:349; hip_height/left 7:600 .2:614; foot_length/left 7:196 .2:200',
      ).device('kafo', 'left', 7, { extensionRangeMm: { knee_height: 24, hip_height: 24 } }),
    action: 'adjust',
    why: 'three millimetres left at sixteen a year: set by January or at this visit',
  },
  {
    name: 'KAFO, knee axis twelve off, bars untouched',
    child: () =>
      read(
        kid(8, 'female', { conditions: ['spinal-muscular-atrophy'] }),
        'knee_height/left 9:320 .2:332; hip_height/left 9:570 .2:588; foot_length/left 9:186 .2:191',
      ).device('kafo', 'left', 9, { extensionRangeMm: { knee_height: 24, hip_height: 24 } }),
    action: 'adjust',
    why: 'two holes',
  },
  {
    name: 'KAFO, bars run out and knee off, foot fine',
    child: () =>
      read(
        kid(10, 'male', { conditions: ['muscular-dystrophy'] }),
        'knee_height/right 24:370 12:388 .2:405; hip_height/right 24:660 12:690 .2:718; foot_length/right 24:200 12:203 .2:206',
      )
        .device('kafo', 'right', 24, { extensionRangeMm: { knee_height: 18, hip_height: 36 } })
        .event('adjusted', 12, {
          measure: 'knee_height',
          side: 'right',
          changeMm: 18,
          adjustment: 'side-bar',
        }),
    action: 'cast',
    why: '35 grown, 11 and 18 had: no travel left',
  },
  {
    name: 'HKAFO, toes at the edge, rest in order',
    child: () =>
      read(
        kid(6, 'female', { conditions: ['myelomeningocele-high'], insensateSkin: true }),
        'foot_length/left 8:160 .3:168; foot_length/right 8:160 .3:167; knee_height/left 8:250 .3:257; knee_height/right 8:250 .3:257; hip_height/left 8:450 .3:458; hip_height/right 8:450 .3:458',
      ).device('hkafo', 'both', 8, { extensionRangeMm: { knee_height: 24, hip_height: 24 } }),
    action: 'renew-part',
    why: 'new foot sections, the bars go on',
  },
  {
    name: 'SMO, girl of two and a half, five of six used',
    child: () =>
      read(
        kid(2.5, 'female', { conditions: ['hypotonia'] }),
        'foot_length/left 5:134 2:137 .2:139; foot_length/right 5:134 2:137 .2:139',
      )
        .device('supramalleolar-orthosis', 'left', 5)
        .device('supramalleolar-orthosis', 'right', 5),
    action: 'cast',
    why: 'a millimetre left at fourteen a year and three weeks to make: both',
    devices: [0, 1],
  },
  {
    name: 'SMO, boy of four, two of six used, ankle bone near the edge',
    child: () =>
      read(
        kid(4, 'male', { conditions: ['hypotonia'] }),
        'foot_length/left 3:150 .5:152; malleolar_width/left 3:50 .5:54',
      ).device('supramalleolar-orthosis', 'left', 3),
    action: 'adjust',
    why: 'flare over the ankle bone; the length is fine',
  },
  {
    name: 'foot orthosis, boy of thirteen in his spurt, six of eight used',
    child: () =>
      read(
        kid(13, 'male', { conditions: ['flexible-flat-foot'] }),
        'foot_length/left 8:240 4:243 .5:246; foot_length/right 8:240 4:243 .5:246',
      )
        .device('foot-orthosis', 'left', 8)
        .device('foot-orthosis', 'right', 8),
    action: 'cast',
    why: 'two left at nine a year and a fortnight to make',
  },
  {
    name: 'foot orthosis, girl of fifteen, foot unchanged for two years, seen in June',
    child: () =>
      read(
        kid(15, 'female', { conditions: ['flexible-flat-foot'] }),
        'foot_length/left 26:241 14:241 5.5:241',
      ).device('foot-orthosis', 'left', 14),
    action: 'none',
    why: 'no growth; a look at wear each year',
  },
  {
    name: 'knee orthosis after a ligament repair, calf wasted ten millimetres',
    child: () =>
      read(
        kid(15, 'male'),
        'knee_height/left 3:480 .2:482; thigh_girth/left 3:480 .2:470; calf_girth/left 3:350 .2:340',
      ).device('knee-orthosis', 'left', 3),
    action: 'none',
    why: 'straps take up what the thigh lost; nothing outgrown',
  },
  {
    name: 'wrist-hand orthosis, fingers at the edge',
    child: () =>
      read(
        kid(6, 'female', { conditions: ['hemiplegia'] }),
        'hand_length/right 14:118 .3:124; forearm_length/right 14:160 .3:169',
      ).device('wrist-hand-orthosis', 'right', 14),
    action: 'cast',
    why: 'all six used',
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
    name: 'tenfold slip in the newest reading',
    child: () => read(kid(5, 'male'), 'foot_length/left 7:165 4:168 .2:17').device('solid-afo', 'left', 7),
    action: 'measure',
    why: 'seventeen is not a foot in millimetres',
  },
  {
    name: 'sides swapped at the last visit, AFO on one side only',
    child: () =>
      read(
        kid(8, 'female', { conditions: ['hemiplegia'], affectedSide: 'left' }),
        'foot_length/left 12:185 6:188 .2:201; foot_length/right 12:196 6:200 .2:191',
      ).device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'left and right changed places',
  },
  {
    name: 'in shoes: foot and height both jumped',
    child: () =>
      read(
        kid(7, 'male'),
        'foot_length/left 12:178 6:182 .2:203; foot_length/right 12:178 6:183 .2:204; stature 12:1190 6:1220 .2:1272',
      ).device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'measured with shoes on',
  },
  {
    name: 'nothing for fourteen months',
    child: () =>
      read(kid(9, 'female', { conditions: ['cerebral-palsy'] }), 'foot_length/left 20:195 14:199').device(
        'solid-afo',
        'left',
        15,
      ),
    action: 'measure',
    why: 'unknown since last autumn',
  },
  {
    name: 'judged good today with ten used on paper',
    child: () =>
      read(kid(10, 'male'), 'foot_length/left 11:210 .1:220')
        .device('solid-afo', 'left', 11)
        .event('verdict', 0, { verdict: 'good' }),
    action: 'none',
    why: 'it was looked at today and is good: made with more room than usual',
  },
  {
    name: 'judged outgrown yesterday by foot length',
    child: () =>
      read(kid(4, 'female'), 'foot_length/left 9:150 .1:159')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.03, { verdict: 'outgrown', measure: 'foot_length', side: 'left' }),
    action: 'cast',
    why: 'said and measured',
  },
  {
    name: 'next AFO cast a fortnight ago, the old one at its end',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 10:180 .5:188')
        .device('solid-afo', 'left', 10)
        .device('solid-afo', 'left', 0.5, { status: 'ordered', fittedDate: null }),
    action: 'none',
    why: 'on its way',
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
    name: 'rivet gone at the joint',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 6:175 1:179')
        .device('articulated-afo', 'left', 6)
        .event('broken', 0.1, { note: 'ankle joint rivet gone' }),
    action: 'repair',
    why: 'not safe to walk on',
  },
  {
    name: 'note: redness 30 min over the navicular',
    child: () =>
      read(kid(5, 'female'), 'foot_length/left 5:160 .3:163')
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.1, {
          verdict: 'good',
          note: 'toe room ok. redness over navicular still there after 30 min',
        }),
    action: 'see-now',
    why: 'more than twenty minutes',
  },
  {
    name: 'note: no redness, no pain',
    child: () =>
      read(kid(5, 'female'), 'foot_length/left 5:160 .3:163')
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.3, { verdict: 'good', note: 'no redness, no pain, mum happy' }),
    action: 'none',
    why: 'nothing found',
  },
  {
    name: 'maker says the boot takes 130, foot 128 today, boy of two',
    child: () =>
      read(
        kid(2, 'male', { conditions: ['clubfoot'] }),
        'foot_length/left 3:123 .1:128; foot_length/right 3:123 .1:127',
      ).device('boots-and-bar', 'both', 3, { limitsMm: { foot_length: 130 } }),
    action: 'renew-part',
    why: 'two left at eighteen a year',
  },
  {
    name: 'catch-up: foot nine millimetres in four months after a year of none (feeding tube)',
    child: () =>
      read(
        kid(5, 'male', { conditions: ['cerebral-palsy'] }),
        'foot_length/left 18:150 10:150.5 4:151 .2:160; stature 18:1000 10:1002 4:1005 .2:1035',
      ).device('solid-afo', 'left', 4),
    action: 'cast',
    why: 'sprang with the height: read again, and it is filled',
  },
  {
    name: 'only stature taken of a child in AFOs',
    child: () => read(kid(6, 'female'), 'stature 6:1120 .5:1150').device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'nobody knows the foot',
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
    name: 'straps worn out, noted at review, fit good',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 6:205 .3:209')
        .device('solid-afo', 'left', 6)
        .event('verdict', 0.3, { verdict: 'good', note: 'velcro no longer holds, straps frayed' }),
    action: 'repair',
    why: 'new straps',
  },
];
