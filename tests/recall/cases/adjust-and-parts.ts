import { ankle, bars, kid, knee, type PractitionerCase, read } from '../case-kit.js';

/** Eased, let out, or a part of it renewed. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const adjustCases: readonly PractitionerCase[] = [
  {
    name: 'KAFO, knee axis off, travel left in the bar',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 9:180 0:185; knee_height/left 9:300 0:313').device(
        'kafo',
        'left',
        9,
        {
          extensionRangeMm: { knee_height: 24 },
        },
      ),
    action: 'adjust',
    why: '13 mm off with 24 mm of travel: move the bar, the brace goes on',
  },
  {
    name: 'KAFO, toes at the edge of the foot section',
    child: () =>
      read(
        kid(7, 'female'),
        'foot_length/left 15:176 9:180 0:188; knee_height/left 15:294 9:300 0:306',
      ).device('kafo', 'left', 9, {
        extensionRangeMm: { knee_height: 24 },
      }),
    action: 'renew-part',
    why: 'a new foot section; uprights and thigh section still serve',
  },
  {
    name: 'HKAFO, toes at the edge of the foot section',
    child: () => {
      const b = kid(6, 'male');
      for (const side of ['left', 'right'] as const) {
        read(b, `foot_length/${side} 14:166 8:170 0:178`);
        read(b, `knee_height/${side} 14:272 8:280 0:286`);
        read(b, `hip_height/${side} 14:520 8:532 0:541`);
      }
      return b.device('hkafo', 'both', 8, { extensionRangeMm: { knee_height: 24, hip_height: 24 } });
    },
    action: 'renew-part',
    why: 'the foot sections end first and are renewed alone',
  },
  {
    name: 'hip abduction orthosis, thriving infant',
    child: () => {
      const b = kid(0.6, 'female', { conditions: ['hip-dysplasia'] });
      for (const side of ['left', 'right'] as const) {
        read(b, `hip_height/${side} 2:250 0:258`);
        read(b, `thigh_girth/${side} 2:200 0:219`);
      }
      return b.device('hip-abduction-orthosis', 'both', 2);
    },
    action: 'adjust',
    why: 'let the straps out; 19 mm of thigh is what a thriving infant does',
  },
  {
    name: 'cranial orthosis, voids used up',
    child: () =>
      read(
        kid(0.58, 'female', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 3.5:405 2.3:414 1.2:424 0:433',
      ).device('cranial-orthosis', 'none', 2.3),
    action: 'adjust',
    why: '19 of 20 mm used: take foam out, the shell goes on',
  },
  {
    name: 'knee judged outgrown with travel left',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 7:180 0:183; knee_height/left 7:300 0:309')
        .device('kafo', 'left', 7, { extensionRangeMm: { knee_height: 36 } })
        .event('verdict', 0, { verdict: 'outgrown', measure: 'knee_height' }),
    action: 'adjust',
    why: 'the joint is off and the bar has 36 mm: move it',
  },
  {
    name: 'calf fills the shell, strap left',
    child: () =>
      read(
        kid(9, 'female'),
        'foot_length/left 12:200 6:204 0:207; calf_girth/left 12:262 6:268 0:290',
      ).device('solid-afo', 'left', 6),
    action: 'adjust',
    why: '22 mm of calf is a longer strap, not a new AFO',
  },
  {
    name: 'both KAFOs, spina bifida, right joint further off',
    child: () => {
      const b = kid(6, 'female', {
        conditions: ['myelomeningocele-high'],
        insensateSkin: true,
        latexAlert: true,
      });
      read(b, 'foot_length/left 8:165 0:168; foot_length/right 8:165 0:168');
      read(b, 'knee_height/left 8:270 0:279; knee_height/right 8:270 0:282');
      return b
        .device('kafo', 'left', 8, { extensionRangeMm: { knee_height: 20 } })
        .device('kafo', 'right', 8, { extensionRangeMm: { knee_height: 20 } });
    },
    devices: [0, 1],
    action: 'adjust',
    why: 'move the right bar now and the left one in the same visit',
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
    name: 'AFO said to be tight at the ankle last week, nothing done about it yet',
    child: () =>
      ankle().event('verdict', 0.3, { verdict: 'tight', measure: 'malleolar_width', side: 'right' }),
    action: 'adjust',
    why: 'heat the shell out at the ankle bone; the foot has half a year',
  },
  {
    name: 'KAFO said to be tight at the knee, bars with three holes left',
    child: () => knee().event('verdict', 0.3, { verdict: 'tight', measure: 'knee_height', side: 'left' }),
    action: 'adjust',
    why: 'a hole further out, whatever the tape says',
  },
  {
    name: 'KAFO, knee in line since its bars were let out, eight of eight used at the toes',
    child: () =>
      read(
        kid(7.2, 'female', { conditions: ['arthrogryposis'] }),
        'foot_length/left 20.7:153 14.8:157 9.8:160 5.8:163 1.9:165; knee_height/left 20.7:277 14.8:283 9.8:288 5.8:293 1.9:297',
      )
        .device('kafo', 'left', 14.8, { extensionRangeMm: { knee_height: 30 } })
        .event('adjusted', 5.8, {
          measure: 'knee_height',
          side: 'left',
          changeMm: 12,
          adjustment: 'side-bar',
        })
        .event('verdict', 1.9, { verdict: 'good' }),
    action: 'renew-part',
    why: 'a new foot section; the rest goes on',
  },
  {
    name: 'calf named tight on Tuesday, the strap at its last hole in the same note, toes with room',
    child: () =>
      read(
        kid(8.2, 'male', { conditions: ['hemiplegia'], affectedSide: 'right' }),
        'foot_length/right 14:186 8:190 2:192 .1:193; foot_length/left 14:189 8:193 2:196 .1:197; calf_girth/right 8:225 2:236 .1:240',
      )
        .device('articulated-afo', 'right', 8)
        .event('verdict', 0.1, {
          verdict: 'tight',
          measure: 'calf_girth',
          side: 'right',
          note: 'strap at its last hole, shell edges mark a little and fade, toes have room. Back for strap',
        }),
    action: 'adjust',
    why: 'it has been looked at: a longer strap and a flare, the device goes on',
  },
  {
    name: 'boots and bar, the longer foot past its boot, called tight, toes curling in the same note',
    child: () =>
      read(
        kid(1.65, 'female', { conditions: ['clubfoot'] }),
        'foot_length/left 12:100 7.5:108 5.4:112 3.1:117 .8:122; foot_length/right 12:96 7.5:104 5.4:107 3.1:110 .8:114',
      )
        .device('boots-and-bar', 'both', 5.4, { limitsMm: { foot_length: 121 } })
        .event('verdict', 0.8, {
          verdict: 'tight',
          measure: 'foot_length',
          side: 'left',
          note: 'left toes curl at the end of the boot',
        }),
    action: 'renew-part',
    why: 'it has been looked at: the next size of boots is ordered',
  },
];
