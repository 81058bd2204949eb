import { kid, type PractitionerCase, read } from './case-kit.js';

/** Written down before any was run. Common practice, no source. */
export const sixthCases: readonly PractitionerCase[] = [
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
    name: 'SMO, three of six used in four months, seen today',
    child: () =>
      read(kid(3.5, 'female'), 'foot_length/left 4:146 .02:149').device('supramalleolar-orthosis', 'left', 4),
    action: 'check',
    why: 'three left at one a month, less than a review and a workshop',
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
    name: 'helmet, twelve of twenty used in two months',
    child: () =>
      read(kid(0.5, 'male'), 'head_circumference 2:425 1:432 .3:437').device('cranial-orthosis', 'none', 2),
    action: 'review',
    why: 'two months of room, seen every few weeks anyway',
    differs: { action: 'adjust', why: 'foam is taken out while the head still grows six a month' },
  },
  {
    name: 'foot thirteen longer in eleven weeks, stature not measured',
    child: () => read(kid(5, 'female'), 'foot_length/left 8:158 3:162 .4:175').device('solid-afo', 'left', 8),
    action: 'measure',
    why: 'four times what a foot of five grows: shoe on, or heel off the gauge',
  },
  {
    name: 'foot thirty longer in three months',
    child: () =>
      read(kid(7, 'male'), 'foot_length/left 9:178 6:181 3:185 .2:215').device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'no foot does that: shoe on, or another instrument',
  },
  {
    name: 'foot typed tenfold',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 6:186 3:190 .2:1920').device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'a zero too many',
  },
  {
    name: 'no reading for fourteen months',
    child: () => read(kid(9, 'male'), 'foot_length/left 20:188 14:192').device('solid-afo', 'left', 14),
    action: 'measure',
    why: 'nothing known of this foot',
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
    name: 'the next one cast a fortnight ago',
    child: () =>
      read(kid(6, 'male'), 'foot_length/left 9:170 .5:178')
        .device('solid-afo', 'left', 9)
        .device('solid-afo', 'left', 0.5, { status: 'ordered' }),
    action: 'none',
    why: 'on its way',
  },
  {
    name: 'broken three days ago',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 3:180 .5:182')
        .device('articulated-afo', 'left', 3)
        .event('broken', 0.1),
    action: 'repair',
    why: 'nothing to walk in',
  },
  {
    name: 'lost at the pool',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 3:180 .5:182')
        .device('solid-afo', 'left', 3)
        .event('verdict', 0.2, { note: 'L splint lost at the pool' }),
    action: 'repair',
    why: 'nothing to walk in',
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
    name: 'one reading only, long after the cast',
    child: () => read(kid(4, 'male'), 'foot_length/left .1:160').device('solid-afo', 'left', 5),
    action: 'measure',
    why: 'nobody knows what it was cast to',
    differs: { action: 'none', why: 'asked for once something hangs on it; the next date is in February' },
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
    name: 'foot halted, AFO of two years, not looked at for eight months',
    child: () =>
      read(kid(16, 'male'), 'foot_length/left 30:265 20:265 8:265.5').device('solid-afo', 'left', 26),
    action: 'check',
    why: 'straps and shell are old; no growth',
  },
  {
    name: 'calf over the strap, foot with room',
    child: () =>
      read(kid(9, 'female'), 'foot_length/left 5:195 .3:197; calf_girth/left 5:250 .3:273').device(
        'solid-afo',
        'left',
        5,
      ),
    action: 'adjust',
    why: 'a longer strap',
  },
  {
    name: 'knee joint thirteen off with travel in the bars',
    child: () =>
      read(kid(8, 'male'), 'knee_height/left 10:360 .3:373; foot_length/left 10:190 .3:193').device(
        'kafo',
        'left',
        10,
        { extensionRangeMm: { knee_height: 25, hip_height: 25 } },
      ),
    action: 'adjust',
    why: 'let the bars out',
  },
  {
    name: 'KAFO, toes at the edge, knee in place',
    child: () =>
      read(kid(8, 'male'), 'knee_height/left 9:360 .3:363; foot_length/left 9:188 .3:195.5').device(
        'kafo',
        'left',
        9,
        { extensionRangeMm: { knee_height: 25, hip_height: 25 } },
      ),
    action: 'renew-part',
    why: 'a foot section, not a KAFO',
  },
  {
    name: 'helmet with a mark of forty-five minutes',
    child: () =>
      read(kid(0.6, 'female'), 'head_circumference 1:430 .2:434')
        .device('cranial-orthosis', 'none', 1)
        .event('verdict', 0.1, { note: 'red patch R forehead 45/60 after helmet off' }),
    action: 'see-now',
    why: 'off, and seen',
  },
  {
    name: 'hip brace of an infant, thigh twenty thicker',
    child: () =>
      read(kid(0.45, 'female'), 'thigh_girth/left 1.5:200 .1:220').device(
        'hip-abduction-orthosis',
        'both',
        1.5,
      ),
    action: 'adjust',
    why: 'let the straps out',
  },
  {
    name: 'boots and bar, seven of eight used in three months',
    child: () =>
      read(kid(2.5, 'male', { conditions: ['clubfoot'] }), 'foot_length/left 6:121 3:125 .2:132').device(
        'boots-and-bar',
        'both',
        3,
      ),
    action: 'renew-part',
    why: 'the next size of boots on the same bar',
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
    name: 'knee orthosis, only girths measured, found to fit three weeks ago',
    child: () =>
      read(kid(10.4, 'female'), 'thigh_girth/right 6.4:380 .8:385; calf_girth/right 6.4:270 .8:273')
        .device('knee-orthosis', 'right', 6.4)
        .event('verdict', 0.8, { verdict: 'good' }),
    action: 'none',
    why: 'the knee height is taken at the next review; nobody is rung for it',
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
];
