import { kid, type PractitionerCase, read } from '../case-kit.js';

const noBars = { extensionRangeMm: { knee_height: 0, hip_height: 0 } };

/** Cast now. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const castCases: readonly PractitionerCase[] = [
  {
    name: 'toes at the edge, ordinary skin',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 17:196 11:200 0:207.5').device('solid-afo', 'left', 11),
    action: 'cast',
    why: 'half a millimetre left and a new one takes four weeks',
  },
  {
    name: 'little room, skin that cannot warn',
    child: () =>
      read(kid(8, 'female', { insensateSkin: true }), 'foot_length/left 14:196 8:200 0:206').device(
        'solid-afo',
        'left',
        8,
      ),
    action: 'cast',
    why: 'two millimetres are too few where pain will not tell',
  },
  {
    name: 'little room, ordinary skin, measured a month ago',
    child: () => read(kid(8, 'female'), 'foot_length/left 15:195 9:200 1:206').device('solid-afo', 'left', 9),
    action: 'cast',
    why: 'one millimetre left by now; it will be gone before a new one is made',
  },
  {
    name: 'KAFO, no travel left',
    child: () =>
      read(
        kid(7, 'female'),
        'foot_length/left 12:178 9:180 0:184; knee_height/left 12:296 9:300 0:313',
      ).device('kafo', 'left', 9, {
        extensionRangeMm: { knee_height: 0 },
      }),
    action: 'cast',
    why: 'the axis is off by 13 mm and nothing can be moved',
  },
  {
    name: 'SMO, toddler',
    child: () =>
      read(kid(1.7, 'male', { conditions: ['hypotonia'] }), 'foot_length/left 7:122 4:128 0:135').device(
        'supramalleolar-orthosis',
        'left',
        4,
      ),
    action: 'cast',
    why: '7 mm in four months against 6 of room',
  },
  {
    name: 'spinal orthosis at peak growth',
    child: () =>
      read(
        kid(12.1, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 12:745 6:760 0:779; stature 12:1450 6:1480 0:1514',
      ).device('spinal-orthosis', 'none', 6),
    action: 'cast',
    why: '19 of 20 mm of trunk used and the spurt is on',
  },
  {
    name: 'foot orthosis too short',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 16:205 10:210 0:217.5').device('foot-orthosis', 'left', 10),
    action: 'cast',
    why: 'edge 7.5 mm behind, and a new one takes two weeks',
  },
  {
    name: 'growth hormone, pace doubled',
    child: () =>
      read(
        kid(8, 'male', { extra: { growth_hormone_start: '2026-06-25' } }),
        'foot_length/left 18:187 12:190 6:192 0:198',
      ).device('solid-afo', 'left', 6),
    action: 'cast',
    why: '6 of 8 mm in six months and the pace is up',
  },
  {
    name: 'judged tight last week',
    child: () =>
      read(kid(8, 'male'), 'foot_length/left 14:191 8:195 .2:200')
        .device('solid-afo', 'left', 8)
        .event('verdict', 0.2, { verdict: 'tight', measure: 'foot_length' }),
    action: 'cast',
    why: 'a person looked and there is next to nothing left',
  },
  {
    name: 'judged outgrown two weeks ago',
    child: () =>
      read(kid(8, 'male'), 'foot_length/left 11:193 5:196 .5:200')
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.5, { verdict: 'outgrown' }),
    action: 'cast',
    why: 'a person said so, whatever the figures say',
  },
  {
    name: 'two AFOs on one side, one of them new',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 17:196 11:200 1:206.5 0:207.5')
        .device('solid-afo', 'left', 11)
        .device('ground-reaction-afo', 'left', 1),
    devices: [0],
    action: 'cast',
    why: 'the old one is at the edge; the new one is left alone',
  },
  {
    name: 'both sides in one visit',
    child: () => {
      const b = read(
        kid(8, 'female'),
        'foot_length/left 17:196 11:200 0:207.5; foot_length/right 17:195 11:199 0:205.2',
      );
      return b.device('solid-afo', 'left', 11).device('solid-afo', 'right', 11);
    },
    devices: [0, 1],
    action: 'cast',
    why: 'left now, right within weeks: one appointment, two casts',
  },
  {
    name: 'AFO with a millimetre and a half left',
    child: () => read(kid(6, 'male'), 'foot_length/left 14:172 8:176 0:182.5').device('solid-afo', 'left', 8),
    action: 'cast',
    why: 'eight weeks of room and four weeks to make one',
  },
  {
    name: 'AFO two months without a look, next to nothing left then',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 16:172 10:176 2:182.5').device('solid-afo', 'left', 10),
    action: 'cast',
    why: 'a millimetre and a half two months ago is gone by now',
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
    differs: {
      action: 'check',
      why: 'beyond use with one chance in five: a look decides, and a place for the cast is kept; four other practitioners looked first',
    },
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
    name: 'foot orthosis in the spurt',
    child: () =>
      read(kid(13.5, 'male'), 'foot_length/left 10:250 5:255 0:262').device('foot-orthosis', 'left', 5),
    action: 'cast',
    why: '7 of 8 in five months',
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
    name: 'wrist-hand orthosis, fingers over the edge',
    child: () =>
      read(kid(6, 'male'), 'hand_length/left 20:118 14:120 .2:127').device('wrist-hand-orthosis', 'left', 14),
    action: 'cast',
    why: '7 of 6 used',
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
  {
    name: 'AFO, 6 of 8 used, measured six weeks ago',
    child: () =>
      read(kid(6.5, 'male'), 'foot_length/left 15:178 9:182 1.5:188').device('solid-afo', 'left', 9),
    action: 'cast',
    why: 'one left by now and four weeks to make one',
    differs: {
      action: 'check',
      why: 'at an even chance it need not be begun for a fortnight: one look with the deciding figure first',
    },
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
    name: 'judged outgrown yesterday by foot length',
    child: () =>
      read(kid(4, 'female'), 'foot_length/left 9:150 .1:159')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.03, { verdict: 'outgrown', measure: 'foot_length', side: 'left' }),
    action: 'cast',
    why: 'said and measured',
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
    name: 'solid AFO, all eight used in six months, seen last week',
    child: () =>
      read(kid(5, 'male', { conditions: ['cerebral-palsy'] }), 'foot_length/left 6:158 3:162 .2:166').device(
        'solid-afo',
        'left',
        6,
      ),
    action: 'cast',
    why: 'toes at the edge',
  },
  {
    name: 'TLSO, eighteen of twenty of the trunk used',
    child: () =>
      read(
        kid(12, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'sitting_height 8:720 .2:738; stature 8:1400 .2:1432',
      ).device('spinal-orthosis', 'none', 8),
    action: 'cast',
    why: 'two left at the peak of the spurt',
  },
  {
    name: 'boy in his spurt, six of eight used a month ago',
    child: () =>
      read(
        kid(13, 'male'),
        'foot_length/left 13:231 9:235 5:241 1:247; stature 13:1480 9:1505 5:1540 1:1575',
      ).device('solid-afo', 'left', 5),
    action: 'cast',
    why: 'one and a half a month, one left',
  },
  {
    name: 'judged tight at the toes ten days ago, six of eight',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 8:170 .33:176')
        .device('solid-afo', 'left', 8)
        .event('verdict', 0.33, { verdict: 'tight', measure: 'foot_length', side: 'left' }),
    action: 'cast',
    why: 'the reviewer says so and the readings agree',
  },
  {
    name: 'good yesterday with seven of eight used in nine months',
    child: () =>
      read(kid(8, 'male'), 'foot_length/left 9:180 .05:187')
        .device('solid-afo', 'left', 9)
        .event('verdict', 0.03, { verdict: 'good' }),
    action: 'cast',
    why: 'fits today, one left: gone before the next is made',
    differs: {
      action: 'none',
      why: 'a reviewer’s good after the reading says that this one has more room than the default',
    },
  },
  {
    name: 'insole with the maker’s largest foot, one left',
    child: () =>
      read(kid(9, 'female'), 'foot_length/left 12:201 6:205 .5:209').device('foot-orthosis', 'left', 6, {
        limitsMm: { foot_length: 210 },
      }),
    action: 'cast',
    why: 'one left at eight a year',
  },
  {
    name: 'helmet with three of twenty-four left, called tight, its foam ground already',
    child: () =>
      read(
        kid(0.46, 'female', { conditions: ['positional-head-asymmetry'], gestationWeeks: 33 }),
        'head_circumference 3:366 2.1:382 1.6:388 0.95:396 0.26:403',
      )
        .device('cranial-orthosis', 'none', 2.1, { allowancesMm: { head_circumference: 24 } })
        .event('verdict', 0.26, { verdict: 'tight' }),
    action: 'cast',
    why: 'two a week: grinding gains less than a second shell takes to make',
  },
  {
    name: 'spinal orthosis called tight last week, thirty-four of thirty-five used, straps at the last hole',
    child: () =>
      read(
        kid(12.8, 'female', { conditions: ['idiopathic-scoliosis'] }),
        'stature 14.3:1503 8.5:1534 4.8:1552 2.6:1561 .26:1568; sitting_height 14.3:786 8.5:802 4.8:812 2.6:816 .26:821',
      )
        .device('spinal-orthosis', 'none', 8.5, { allowancesMm: { stature: 35 } })
        .event('verdict', 0.26, { verdict: 'tight', note: 'closing straps at the last hole' }),
    action: 'cast',
    why: 'it has been looked at, and there is nothing left',
  },
  {
    name: 'insoles of a boy in his spurt, by the chance to be cast last month, the next review not before spring',
    child: () =>
      read(
        kid(13.4, 'male', { conditions: ['flexible-flat-foot'] }),
        'foot_length/left 16:239 10.1:244 5.1:249 1.2:252; foot_length/right 16:240 10.1:245 5.1:249 1.2:253; stature 16:1542 10.1:1584 5.1:1622 1.2:1651',
      ).device('foot-orthosis', 'left', 10.1),
    action: 'cast',
    why: 'eight of eight used',
    differs: {
      action: 'check',
      why: 'the foot is held to be nearly full-grown; what is past the accepted chance is looked at now, not at the review',
    },
  },
];
