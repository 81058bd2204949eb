import { ankle, bars, fitted, kid, knee, type PractitionerCase, read } from '../case-kit.js';

/** On no list yet. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const noneCases: readonly PractitionerCase[] = [
  {
    name: 'AFO in mid-life',
    child: () => read(kid(7, 'male'), 'foot_length/left 9:186 3:190 .3:192').device('solid-afo', 'left', 3),
    action: 'none',
    why: '2 of 8 mm used, seen last week: nothing before the usual review',
  },
  {
    name: 'SMO just fitted',
    child: () =>
      read(kid(2.2, 'male'), 'foot_length/left 4:130 2:133 .2:134').device(
        'supramalleolar-orthosis',
        'left',
        2,
      ),
    action: 'none',
    why: 'fitted five weeks ago, seen last week',
    differs: {
      action: 'check',
      why: 'in four weeks: a toddler is next reviewed in three months, and by then it may be too small',
    },
  },
  {
    name: 'spinal orthosis under ten, half used',
    child: () =>
      read(
        kid(8, 'female', { conditions: ['neuromuscular-scoliosis'] }),
        'sitting_height 14:674 8:680 1:689',
      ).device('spinal-orthosis', 'none', 8),
    action: 'none',
    why: 'half the trunk room left, seen last month',
    differs: {
      action: 'check',
      why: 'in four weeks: sitting height is read to 5 mm and a day too small counts twice',
    },
  },
  {
    name: 'foot orthosis with room',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 10:206 4:210 .5:212').device('foot-orthosis', 'left', 4),
    action: 'none',
    why: '2 of 8 mm',
  },
  {
    name: 'full-grown girl, seen last month',
    child: () =>
      read(kid(16, 'female'), 'foot_length/left 18:241 9:241 1:242').device('solid-afo', 'left', 9),
    action: 'none',
    why: 'no growth in 17 months: wear review next year',
  },
  {
    name: 'first halt, nothing pressing',
    child: () => read(kid(7, 'female'), 'foot_length/left 13:180 7:186 0:186').device('solid-afo', 'left', 7),
    action: 'none',
    why: 'all the room is there and she was seen today; the next review tells',
  },
  {
    name: 'judged good last month though nine millimetres are used',
    child: () =>
      read(kid(8, 'male'), 'foot_length/left 16:186 10:190 1:199')
        .device('solid-afo', 'left', 10)
        .event('verdict', 1, { verdict: 'good' }),
    action: 'none',
    why: 'a person saw room on the leg; this one was built with more than the usual',
    differs: {
      action: 'check',
      why: 'two practitioners who had not seen the program asked for a look, or the part, where all the room of the usual device was used and the fit was called good',
    },
  },
  {
    name: 'replacement on order',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 17:196 11:200 .2:207.5')
        .device('solid-afo', 'left', 11)
        .device('solid-afo', 'left', 0.2, { status: 'ordered', fittedDate: null }),
    action: 'none',
    why: 'the next one is being made',
  },
  {
    name: 'palliative, seen two months ago',
    child: () =>
      read(kid(9, 'male', { palliative: true }), 'foot_length/left 14:200 2:209').device(
        'solid-afo',
        'left',
        14,
      ),
    action: 'none',
    why: 'comfort decides, not millimetres',
  },
  {
    name: 'adult, seen this summer',
    child: () => read(kid(34, 'male'), 'foot_length/left 5:265').device('solid-afo', 'left', 9),
    action: 'none',
    why: 'adults do not outgrow; wear next year',
  },
  {
    name: 'moved away',
    child: () =>
      read(kid(8, 'female', { status: 'moved-away' }), 'foot_length/left 11:200 0:208').device(
        'solid-afo',
        'left',
        11,
      ),
    action: null,
    why: 'no longer ours to call',
  },
  {
    name: 'AFO whose knee height nobody measured',
    child: () =>
      read(kid(13.5, 'male'), 'foot_length/left 20:247 14:250 1:253; stature 20:1500 14:1540 1:1640').device(
        'solid-afo',
        'left',
        14,
      ),
    action: 'none',
    why: 'toes have room; a height that was never measured ends nothing',
    differs: {
      action: 'check',
      why: 'fourteen months old, at the end of its usual life: a look at wear, nothing to do with growth',
    },
  },
  {
    name: 'family of the clinic’s own without a rule',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 9:186 3:190 .3:192').device('night-splint', 'left', 3),
    action: 'none',
    why: 'no rule to hold it against; usual reviews go on',
  },
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
    name: 'foot orthosis of a girl of twelve, a quarter used',
    child: () =>
      read(kid(12, 'female'), 'foot_length/left 14:228 8:232 .5:234').device('foot-orthosis', 'left', 8),
    action: 'none',
    why: '2 of 8 used and she hardly grows',
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
    name: 'wrist-hand orthosis, half used',
    child: () =>
      read(kid(6, 'male'), 'hand_length/left 15:126 9:128 .3:131').device('wrist-hand-orthosis', 'left', 9),
    action: 'none',
    why: '3 of 6 used and the hand grows five a year',
  },
  {
    name: 'first device being made, none before it',
    child: () =>
      read(kid(4, 'male'), 'foot_length/left .5:152').device('solid-afo', 'left', 0.5, { status: 'ordered' }),
    action: 'none',
    why: 'cast two weeks ago, being made',
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
    name: 'articulated AFO, 5 of 8 used, measured today',
    child: () =>
      read(kid(9, 'female'), 'foot_length/left 13:206 7:210 0:215').device('articulated-afo', 'left', 7),
    action: 'none',
    why: 'three millimetres are four months; she comes back in the new year',
  },
  {
    name: 'SMO of a boy of four, slow growth, a third used',
    child: () =>
      read(kid(4, 'male', { conditions: ['down-syndrome'] }), 'foot_length/left 10:140 5:143 .5:145').device(
        'supramalleolar-orthosis',
        'left',
        5,
      ),
    action: 'none',
    why: '2 of 6 used in five months, seen two weeks ago',
  },
  {
    name: 'KAFO, hip edge low, knee set, bars with travel',
    child: () =>
      read(
        kid(9, 'male'),
        'foot_length/left 10:205 5:207 .3:209; knee_height/left 10:360 5:368 .3:376; hip_height/left 10:660 5:675 .3:690',
      )
        .device('kafo', 'left', 10, bars)
        .event('adjusted', 0.3, {
          measure: 'knee_height',
          side: 'left',
          changeMm: 12,
          adjustment: 'side-bar',
        }),
    action: 'none',
    why: 'set last week and everything within reach',
    differs: {
      action: 'renew-part',
      why: 'growth of 4 mm in ten months is taken for partly an error of reading; the foot section is ordered for December',
    },
  },
  {
    name: 'boots and bar at two, boots half used',
    child: () =>
      read(
        kid(2, 'female', { conditions: ['clubfoot'] }),
        'foot_length/left 8:125 3:131 .5:133.5; foot_length/right 8:125 3:131 .5:133.5',
      ).device('boots-and-bar', 'both', 3),
    action: 'none',
    why: '2.5 of 8 used and seen two weeks ago',
  },
  {
    name: 'ordered three weeks ago, the old one at its edge',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 16:180 10:184 .7:192')
        .device('solid-afo', 'left', 10)
        .device('solid-afo', 'left', 0.7, { status: 'ordered', fittedDate: null }),
    action: 'none',
    why: 'the next one comes in a week or so',
  },
  {
    name: 'two of a kind worn in turn, both with room',
    child: () =>
      read(kid(9, 'female'), 'foot_length/left 12:204 5:208 3:209 .3:210')
        .device('solid-afo', 'left', 5)
        .device('solid-afo', 'left', 3),
    action: 'none',
    why: 'both fit',
  },
  {
    name: 'insensate, seen last month, half used',
    child: () =>
      read(
        kid(7, 'female', { insensateSkin: true, conditions: ['myelomeningocele-high'] }),
        'foot_length/left 12:170 6:174 1:177',
      ).device('solid-afo', 'left', 6),
    action: 'none',
    why: '3 of 8 used, seen a month ago; next in two months at the latest',
    differs: { action: 'check', why: 'in three weeks: a day too small counts three times' },
  },
  {
    name: 'calf gained a centimetre, strap left, toes fine',
    child: () =>
      read(
        kid(8, 'male'),
        'foot_length/left 10:198 5:201 .3:203; calf_girth/left 10:250 5:255 .3:262',
      ).device('solid-afo', 'left', 5),
    action: 'none',
    why: '7 of 20 mm of calf and straps beyond it',
  },
  {
    name: 'girl of seven, AFO, five of eight used, seen last week',
    child: () =>
      read(kid(7.2, 'female'), 'foot_length/left 6:182 3:184 .3:187').device('solid-afo', 'left', 6),
    action: 'none',
    castBy: ['2026-12-25', '2027-02-28'],
    why: 'three millimetres are four months; cast early in the year',
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
    name: 'judged good today with ten used on paper',
    child: () =>
      read(kid(10, 'male'), 'foot_length/left 11:210 .1:220')
        .device('solid-afo', 'left', 11)
        .event('verdict', 0, { verdict: 'good' }),
    action: 'none',
    why: 'it was looked at today and is good: made with more room than usual',
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
    name: 'note: no redness, no pain',
    child: () =>
      read(kid(5, 'female'), 'foot_length/left 5:160 .3:163')
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.3, { verdict: 'good', note: 'no redness, no pain, mum happy' }),
    action: 'none',
    why: 'nothing found',
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
    name: 'new AFO fitted last week, strap mark fades in ten minutes',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 1.2:180')
        .device('solid-afo', 'left', 1.2)
        .event('verdict', 0.1, { verdict: 'good', note: 'pink under strap, gone in 10 min' }),
    action: 'none',
    why: 'as it should be',
  },
  {
    name: 'skin that cannot warn, four of eight used in seven months, seen a fortnight ago',
    child: () =>
      read(
        kid(10, 'male', { conditions: ['myelomeningocele-low'], insensateSkin: true }),
        'foot_length/left 13:186 7:190 .5:194',
      ).device('solid-afo', 'left', 7),
    action: 'none',
    why: 'half a year of room; skin again within three months',
    differs: {
      action: 'check',
      why: 'looked at by the first week of December: the pace of ten may run to twelve, and skin cannot say',
    },
  },
  {
    name: 'girl of fifteen, foot halted for two years, seen two months ago',
    child: () =>
      read(kid(15, 'female'), 'foot_length/left 24:240 18:240 10:240.5 2:240')
        .device('solid-afo', 'left', 8)
        .event('verdict', 2, { verdict: 'good' }),
    action: 'none',
    why: 'full grown and looked at',
  },
  {
    name: 'the next one cast a fortnight ago',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 9:170 .5:178')
        .device('solid-afo', 'left', 9)
        .device('solid-afo', 'left', 0.5, { status: 'ordered' }),
    action: 'none',
    why: 'on its way',
  },
  {
    name: 'growth hormone since May, five of eight used',
    child: () =>
      read(
        kid(9, 'female', { extra: { growth_hormone_start: '2026-05-25' } }),
        'foot_length/left 12:190 6:192 .3:197; stature 12:1200 6:1220 .3:1260',
      ).device('solid-afo', 'left', 6),
    action: 'none',
    why: 'three left at ten a year; look again in the new year',
    differs: { action: 'check', why: 'within three weeks: the pace after the start is not known yet' },
  },
  {
    name: 'knee orthosis, only girths measured, found to fit three weeks ago',
    child: () =>
      read(kid(10.4, 'female'), 'thigh_girth/right 6.4:380 .8:385; calf_girth/right 6.4:270 .8:273')
        .device('knee-orthosis', 'right', 6.4)
        .event('verdict', 0.8, { verdict: 'good' }),
    action: 'none',
    why: 'the knee height is taken at the next review; nobody is rung for it',
  },
  {
    name: 'AFO said to be tight at the ankle and flared the same day',
    child: () =>
      ankle()
        .event('verdict', 0.3, { verdict: 'tight', measure: 'malleolar_width', side: 'right' })
        .event('adjusted', 0.3, {
          measure: 'malleolar_width',
          side: 'right',
          changeMm: 3,
          adjustment: 'flare',
        }),
    action: 'none',
    why: 'it has been seen to',
  },
  {
    name: 'AFO said to be tight at the other ankle than it is worn on',
    child: () =>
      ankle().event('verdict', 0.3, { verdict: 'tight', measure: 'malleolar_width', side: 'left' }),
    action: 'none',
    why: 'a slip of the pen changes nothing here',
  },
  {
    name: 'KAFO with the same readings, said to fit',
    child: () => knee().event('verdict', 0.3, { verdict: 'good' }),
    action: 'none',
    why: 'five of ten used at the knee, seen ten days ago',
  },
  {
    name: 'AFO handed over five weeks ago and seen a fortnight later',
    child: () => fitted('2026-10-21').event('verdict', 0.7, { verdict: 'good' }),
    action: 'none',
    why: 'the first look has been; the usual one comes in the spring',
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
];
