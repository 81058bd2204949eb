import { kid, type PractitionerCase, read } from '../case-kit.js';

/** Measured first. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const measureCases: readonly PractitionerCase[] = [
  {
    name: 'cranial orthosis, head falling behind',
    child: () =>
      read(
        kid(0.6, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 4:415 3:425 2:426 0:426',
      ).device('cranial-orthosis', 'none', 3),
    action: 'measure',
    why: 'a head that stops growing is measured again within days, before anything else',
  },
  {
    name: 'spinal orthosis under ten, trunk not measured',
    child: () =>
      read(
        kid(8, 'male', { conditions: ['neuromuscular-scoliosis'] }),
        'stature 14:1222 8:1250 0:1285',
      ).device('spinal-orthosis', 'none', 8),
    action: 'measure',
    why: '35 mm of stature is about 13 mm of trunk: measure sitting height before anything is made',
    differs: {
      action: 'none',
      why: 'the rule lets stature stand in with 55 mm under ten, so nothing is made either; sitting height is asked for at the review',
    },
  },
  {
    name: 'nobody has seen her for 19 months',
    child: () => read(kid(7, 'female'), 'foot_length/left 25:160 19:165').device('solid-afo', 'left', 20),
    action: 'measure',
    why: 'the child nobody sees: ring, measure, look at the skin',
  },
  {
    name: 'worn and never measured',
    child: () => kid(4, 'male').device('solid-afo', 'left', 3),
    action: 'measure',
    why: 'nothing is known',
  },
  {
    name: 'only stature is known',
    child: () => read(kid(6, 'male'), 'stature 12:1110 1:1170').device('solid-afo', 'left', 9),
    action: 'measure',
    why: 'an AFO is judged by the foot, and nobody measured it',
  },
  {
    name: 'tenfold slip',
    child: () => read(kid(5, 'male'), 'foot_length/left 11:164 5:168 0:17.2').device('solid-afo', 'left', 5),
    action: 'measure',
    why: '17.2 mm is no foot: look it up or measure again',
  },
  {
    name: 'sides swapped',
    child: () => {
      const b = read(
        kid(5, 'male'),
        'foot_length/left 12:160 6:164 0:176; foot_length/right 12:169 6:173 0:167',
      );
      return b.device('solid-afo', 'left', 6).device('solid-afo', 'right', 6);
    },
    action: 'measure',
    why: 'left and right have changed places: measure again before casting either',
  },
  {
    name: 'measured in shoes',
    child: () =>
      read(kid(7, 'female'), 'foot_length/left 10:185 4:190 0:206; stature 10:1200 4:1232 0:1272').device(
        'solid-afo',
        'left',
        4,
      ),
    action: 'measure',
    why: 'foot and height jumped together: shoes on',
  },
  {
    name: 'foot sprang, height did not',
    child: () =>
      read(
        kid(9, 'male'),
        'foot_length/left 18:197 12:200 6:204 0:222; stature 18:1290 12:1318 6:1345 0:1372',
      ).device('solid-afo', 'left', 6),
    action: 'measure',
    why: '18 mm in half a year is not growth until it is measured twice',
  },
  {
    name: 'no reading about the cast, toes unknown',
    child: () => read(kid(7, 'male'), 'foot_length/left 1:196 0:196').device('solid-afo', 'left', 14),
    action: 'measure',
    why: 'how large the foot was at the cast is not known: judge the fit on the leg',
  },
  {
    name: 'foot that stood still at eight with little room left',
    child: () =>
      read(kid(8, 'female'), 'foot_length/left 12:190 6:196 .2:196').device('solid-afo', 'left', 12),
    action: 'measure',
    why: 'half a year without growth at eight is a slip until it is measured again, and two millimetres hang on it',
  },
  {
    name: 'foot orthosis, never measured since it was given',
    child: () => read(kid(8, 'male'), 'foot_length/left 8:195').device('foot-orthosis', 'left', 8),
    action: 'measure',
    why: 'eight months old and nobody has measured since',
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
    name: 'only stature taken of a child in AFOs',
    child: () => read(kid(6, 'female'), 'stature 6:1120 .5:1150').device('solid-afo', 'left', 6),
    action: 'measure',
    why: 'nobody knows the foot',
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
    name: 'one reading only, long after the cast',
    child: () => read(kid(4, 'male'), 'foot_length/left .1:160').device('solid-afo', 'left', 5),
    action: 'measure',
    why: 'nobody knows what it was cast to',
    differs: { action: 'none', why: 'asked for once something hangs on it; the next date is in February' },
  },
  {
    name: 'foot orthosis, both feet sixteen larger after six months',
    child: () =>
      read(
        kid(6.7, 'male', { conditions: ['clubfoot'] }),
        'foot_length/left 17.5:166 11.5:170 6.2:174 .3:190; foot_length/right 17.5:167 11.5:171 6.2:174 .3:190; stature 17.5:1134 11.5:1167 6.2:1194 .3:1226',
      ).device('foot-orthosis', 'left', 6.2),
    action: 'measure',
    why: 'no foot grows so, and the height grew as usual: measured in shoes',
  },
  {
    name: 'toddler, the left foot ten millimetres beyond what it was heading for, the right as expected',
    child: () =>
      read(
        kid(3.7, 'female', { conditions: ['cerebral-palsy'] }),
        'foot_length/left 12:143 8:148 3.6:153 .7:166; foot_length/right 12:142 8:147 3.6:152 .7:155',
      ).device('solid-afo', 'left', 3.6),
    action: 'measure',
    why: 'likely 156 typed wrong: read again before anything is cast for it',
  },
  {
    name: 'AFO at seven, foot and height at a standstill for ten months, room enough',
    child: () =>
      read(
        kid(7, 'female'),
        'foot_length/left 21:162 17:165 13:168 10:171 7:171 4:171 1:172; stature 21:1100 17:1122 13:1143 10:1152 7:1153 4:1154 1:1155',
      ).device('solid-afo', 'left', 10, {}),
    action: 'measure',
    why: 'the brace can wait, the child cannot: measured again, and the doctor told',
  },
];
