import type { MeasureId, Side } from '../../src/records/measure.js';
import { type Built, kid as child, type PractitionerCase } from './case-kit.js';

/** Readings months before today. */
type Rows = readonly (readonly [monthsAgo: number, mm: number])[];
const foot = (b: Built, rows: Rows, side: Side = 'left') => b.series('foot_length', side, rows);
const also = (b: Built, measure: MeasureId, rows: Rows, side: Side = 'left') => b.series(measure, side, rows);

/** Typed from how the work is done, before any of them was run. Common practice, no source. */
export const practitionerCases: readonly PractitionerCase[] = [
  {
    name: 'AFO in mid-life',
    child: () =>
      foot(child(7, 'male'), [
        [9, 186],
        [3, 190],
        [0.3, 192],
      ]).device('solid-afo', 'left', 3),
    action: 'none',
    why: '2 of 8 mm used, seen last week: nothing before the usual review',
  },
  {
    name: 'AFO half used, usual review due',
    child: () =>
      foot(child(7, 'male'), [
        [12, 185],
        [6, 190],
        [4.6, 191],
      ]).device('solid-afo', 'left', 6),
    action: 'review',
    why: 'last seen four and a half months ago, toes still have room',
  },
  {
    name: 'toes at the edge, ordinary skin',
    child: () =>
      foot(child(8, 'female'), [
        [17, 196],
        [11, 200],
        [0, 207.5],
      ]).device('solid-afo', 'left', 11),
    action: 'cast',
    why: 'half a millimetre left and a new one takes four weeks',
  },
  {
    name: 'little room, skin that cannot warn',
    child: () =>
      foot(child(8, 'female', { insensateSkin: true }), [
        [14, 196],
        [8, 200],
        [0, 206],
      ]).device('solid-afo', 'left', 8),
    action: 'cast',
    why: 'two millimetres are too few where pain will not tell',
  },
  {
    name: 'little room, ordinary skin, measured a month ago',
    child: () =>
      foot(child(8, 'female'), [
        [15, 195],
        [9, 200],
        [1, 206],
      ]).device('solid-afo', 'left', 9),
    action: 'cast',
    why: 'one millimetre left by now; it will be gone before a new one is made',
  },
  {
    name: 'KAFO, knee axis off, travel left in the bar',
    child: () =>
      also(
        foot(child(7, 'female'), [
          [9, 180],
          [0, 185],
        ]),
        'knee_height',
        [
          [9, 300],
          [0, 313],
        ],
      ).device('kafo', 'left', 9, {
        extensionRangeMm: { knee_height: 24 },
      }),
    action: 'adjust',
    why: '13 mm off with 24 mm of travel: move the bar, the brace goes on',
  },
  {
    name: 'KAFO, no travel left',
    child: () =>
      also(
        foot(child(7, 'female'), [
          [12, 178],
          [9, 180],
          [0, 184],
        ]),
        'knee_height',
        [
          [12, 296],
          [9, 300],
          [0, 313],
        ],
      ).device('kafo', 'left', 9, {
        extensionRangeMm: { knee_height: 0 },
      }),
    action: 'cast',
    why: 'the axis is off by 13 mm and nothing can be moved',
  },
  {
    name: 'KAFO, toes at the edge of the foot section',
    child: () =>
      also(
        foot(child(7, 'female'), [
          [15, 176],
          [9, 180],
          [0, 188],
        ]),
        'knee_height',
        [
          [15, 294],
          [9, 300],
          [0, 306],
        ],
      ).device('kafo', 'left', 9, {
        extensionRangeMm: { knee_height: 24 },
      }),
    action: 'renew-part',
    why: 'a new foot section; uprights and thigh section still serve',
  },
  {
    name: 'HKAFO, toes at the edge of the foot section',
    child: () => {
      const b = child(6, 'male');
      for (const side of ['left', 'right'] as const) {
        foot(
          b,
          [
            [14, 166],
            [8, 170],
            [0, 178],
          ],
          side,
        );
        also(
          b,
          'knee_height',
          [
            [14, 272],
            [8, 280],
            [0, 286],
          ],
          side,
        );
        also(
          b,
          'hip_height',
          [
            [14, 520],
            [8, 532],
            [0, 541],
          ],
          side,
        );
      }
      return b.device('hkafo', 'both', 8, { extensionRangeMm: { knee_height: 24, hip_height: 24 } });
    },
    action: 'renew-part',
    why: 'the foot sections end first and are renewed alone',
  },
  {
    name: 'hip abduction orthosis, thriving infant',
    child: () => {
      const b = child(0.6, 'female', { conditions: ['hip-dysplasia'] });
      for (const side of ['left', 'right'] as const) {
        also(
          b,
          'hip_height',
          [
            [2, 250],
            [0, 258],
          ],
          side,
        );
        also(
          b,
          'thigh_girth',
          [
            [2, 200],
            [0, 219],
          ],
          side,
        );
      }
      return b.device('hip-abduction-orthosis', 'both', 2);
    },
    action: 'adjust',
    why: 'let the straps out; 19 mm of thigh is what a thriving infant does',
  },
  {
    name: 'hip abduction orthosis, ordinary course',
    child: () => {
      const b = child(0.5, 'female', { conditions: ['hip-dysplasia'] });
      for (const side of ['left', 'right'] as const) {
        also(
          b,
          'hip_height',
          [
            [1.5, 240],
            [0.4, 244],
          ],
          side,
        );
        also(
          b,
          'thigh_girth',
          [
            [1.5, 195],
            [0.4, 198],
          ],
          side,
        );
      }
      return b.device('hip-abduction-orthosis', 'both', 1.5);
    },
    action: 'review',
    why: 'every four weeks at this age',
  },
  {
    name: 'SMO, toddler',
    child: () =>
      foot(child(1.7, 'male', { conditions: ['hypotonia'] }), [
        [7, 122],
        [4, 128],
        [0, 135],
      ]).device('supramalleolar-orthosis', 'left', 4),
    action: 'cast',
    why: '7 mm in four months against 6 of room',
  },
  {
    name: 'SMO just fitted',
    child: () =>
      foot(child(2.2, 'male'), [
        [4, 130],
        [2, 133],
        [0.2, 134],
      ]).device('supramalleolar-orthosis', 'left', 2),
    action: 'none',
    why: 'fitted five weeks ago, seen last week',
    differs: {
      action: 'check',
      why: 'in four weeks: a toddler is next reviewed in three months, and by then it may be too small',
    },
  },
  {
    name: 'cranial orthosis, usual growth',
    child: () =>
      also(
        child(0.46, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference',
        [
          [1.9, 420],
          [0.92, 430],
          [0, 437],
        ],
        'none',
      ).device('cranial-orthosis', 'none', 0.92),
    action: 'review',
    why: 'every three weeks; foam comes out when it is close',
  },
  {
    name: 'cranial orthosis, head crossing centiles',
    child: () =>
      also(
        child(0.46, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference',
        [
          [1.7, 420],
          [0.7, 426],
          [0, 450],
        ],
        'none',
      ).device('cranial-orthosis', 'none', 0.7),
    action: 'see-now',
    why: '24 mm in three weeks is a doctor today, not a larger helmet',
  },
  {
    name: 'cranial orthosis, voids used up',
    child: () =>
      also(
        child(0.58, 'female', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference',
        [
          [3.5, 405],
          [2.3, 414],
          [1.2, 424],
          [0, 433],
        ],
        'none',
      ).device('cranial-orthosis', 'none', 2.3),
    action: 'adjust',
    why: '19 of 20 mm used: take foam out, the shell goes on',
  },
  {
    name: 'cranial orthosis, head falling behind',
    child: () =>
      also(
        child(0.6, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference',
        [
          [4, 415],
          [3, 425],
          [2, 426],
          [0, 426],
        ],
        'none',
      ).device('cranial-orthosis', 'none', 3),
    action: 'measure',
    why: 'a head that stops growing is measured again within days, before anything else',
  },
  {
    name: 'spinal orthosis at peak growth',
    child: () =>
      also(
        also(
          child(12.1, 'female', { conditions: ['idiopathic-scoliosis'] }),
          'sitting_height',
          [
            [12, 745],
            [6, 760],
            [0, 779],
          ],
          'none',
        ),
        'stature',
        [
          [12, 1450],
          [6, 1480],
          [0, 1514],
        ],
        'none',
      ).device('spinal-orthosis', 'none', 6),
    action: 'cast',
    why: '19 of 20 mm of trunk used and the spurt is on',
  },
  {
    name: 'spinal orthosis under ten, trunk not measured',
    child: () =>
      also(
        child(8, 'male', { conditions: ['neuromuscular-scoliosis'] }),
        'stature',
        [
          [14, 1222],
          [8, 1250],
          [0, 1285],
        ],
        'none',
      ).device('spinal-orthosis', 'none', 8),
    action: 'measure',
    why: '35 mm of stature is about 13 mm of trunk: measure sitting height before anything is made',
    differs: {
      action: 'none',
      why: 'the rule lets stature stand in with 55 mm under ten, so nothing is made either; sitting height is asked for at the review',
    },
  },
  {
    name: 'spinal orthosis under ten, half used',
    child: () =>
      also(
        child(8, 'female', { conditions: ['neuromuscular-scoliosis'] }),
        'sitting_height',
        [
          [14, 674],
          [8, 680],
          [1, 689],
        ],
        'none',
      ).device('spinal-orthosis', 'none', 8),
    action: 'none',
    why: 'half the trunk room left, seen last month',
    differs: {
      action: 'check',
      why: 'in four weeks: sitting height is read to 5 mm and a day too small counts twice',
    },
  },
  {
    name: 'foot orthosis too short',
    child: () =>
      foot(child(9, 'male'), [
        [16, 205],
        [10, 210],
        [0, 217.5],
      ]).device('foot-orthosis', 'left', 10),
    action: 'cast',
    why: 'edge 7.5 mm behind, and a new one takes two weeks',
  },
  {
    name: 'foot orthosis with room',
    child: () =>
      foot(child(9, 'male'), [
        [10, 206],
        [4, 210],
        [0.5, 212],
      ]).device('foot-orthosis', 'left', 4),
    action: 'none',
    why: '2 of 8 mm',
  },
  {
    name: 'full-grown girl, seen last month',
    child: () =>
      foot(child(16, 'female'), [
        [18, 241],
        [9, 241],
        [1, 242],
      ]).device('solid-afo', 'left', 9),
    action: 'none',
    why: 'no growth in 17 months: wear review next year',
  },
  {
    name: 'full-grown girl, not seen for a year',
    child: () =>
      foot(child(16.5, 'female'), [
        [30, 241],
        [21, 241],
        [12, 242],
      ]).device('solid-afo', 'left', 14),
    action: 'review',
    why: 'wear, straps and skin once a year',
  },
  {
    name: 'growth hormone, pace doubled',
    child: () =>
      foot(child(8, 'male', { extra: { growth_hormone_start: '2026-06-25' } }), [
        [18, 187],
        [12, 190],
        [6, 192],
        [0, 198],
      ]).device('solid-afo', 'left', 6),
    action: 'cast',
    why: '6 of 8 mm in six months and the pace is up',
  },
  {
    name: 'one reading, at the cast a month ago',
    child: () => foot(child(6, 'female'), [[1, 172]]).device('solid-afo', 'left', 1),
    action: 'review',
    why: 'fitted last week: the first look at it, in three weeks, will bring the second reading',
  },
  {
    name: 'nobody has seen her for 19 months',
    child: () =>
      foot(child(7, 'female'), [
        [25, 160],
        [19, 165],
      ]).device('solid-afo', 'left', 20),
    action: 'measure',
    why: 'the child nobody sees: ring, measure, look at the skin',
  },
  {
    name: 'worn and never measured',
    child: () => child(4, 'male').device('solid-afo', 'left', 3),
    action: 'measure',
    why: 'nothing is known',
  },
  {
    name: 'only stature is known',
    child: () =>
      also(
        child(6, 'male'),
        'stature',
        [
          [12, 1110],
          [1, 1170],
        ],
        'none',
      ).device('solid-afo', 'left', 9),
    action: 'measure',
    why: 'an AFO is judged by the foot, and nobody measured it',
  },
  {
    name: 'tenfold slip',
    child: () =>
      foot(child(5, 'male'), [
        [11, 164],
        [5, 168],
        [0, 17.2],
      ]).device('solid-afo', 'left', 5),
    action: 'measure',
    why: '17.2 mm is no foot: look it up or measure again',
  },
  {
    name: 'sides swapped',
    child: () => {
      const b = foot(
        foot(
          child(5, 'male'),
          [
            [12, 160],
            [6, 164],
            [0, 176],
          ],
          'left',
        ),
        [
          [12, 169],
          [6, 173],
          [0, 167],
        ],
        'right',
      );
      return b.device('solid-afo', 'left', 6).device('solid-afo', 'right', 6);
    },
    action: 'measure',
    why: 'left and right have changed places: measure again before casting either',
  },
  {
    name: 'measured in shoes',
    child: () =>
      also(
        foot(child(7, 'female'), [
          [10, 185],
          [4, 190],
          [0, 206],
        ]),
        'stature',
        [
          [10, 1200],
          [4, 1232],
          [0, 1272],
        ],
        'none',
      ).device('solid-afo', 'left', 4),
    action: 'measure',
    why: 'foot and height jumped together: shoes on',
  },
  {
    name: 'foot sprang, height did not',
    child: () =>
      also(
        foot(child(9, 'male'), [
          [18, 197],
          [12, 200],
          [6, 204],
          [0, 222],
        ]),
        'stature',
        [
          [18, 1290],
          [12, 1318],
          [6, 1345],
          [0, 1372],
        ],
        'none',
      ).device('solid-afo', 'left', 6),
    action: 'measure',
    why: '18 mm in half a year is not growth until it is measured twice',
  },
  {
    name: 'first halt, nothing pressing',
    child: () =>
      foot(child(7, 'female'), [
        [13, 180],
        [7, 186],
        [0, 186],
      ]).device('solid-afo', 'left', 7),
    action: 'none',
    why: 'all the room is there and she was seen today; the next review tells',
  },
  {
    name: 'red mark for 40 minutes',
    child: () =>
      foot(child(10, 'male'), [
        [10, 205],
        [4, 209],
        [0, 211],
      ])
        .device('solid-afo', 'left', 4)
        .event('verdict', 0, { note: 'red mark over the heel for 40 min' }),
    action: 'see-now',
    why: 'skin outranks every date',
  },
  {
    name: 'strap torn',
    child: () =>
      foot(child(6, 'female'), [
        [8, 168],
        [2, 172],
        [0.3, 173],
      ])
        .device('solid-afo', 'left', 2)
        .event('broken', 0.1, { note: 'strap torn off' }),
    action: 'repair',
    why: 'ring today; a strap is sewn on while they wait',
  },
  {
    name: 'shell cracked',
    child: () =>
      foot(child(6, 'female'), [
        [14, 164],
        [8, 168],
        [1, 173],
      ])
        .device('solid-afo', 'left', 8)
        .event('broken', 0.1, { note: 'shell cracked at the ankle' }),
    action: 'repair',
    why: 'not to be worn; mend or make new, not a matter of growth',
  },
  {
    name: 'lost at school',
    child: () =>
      foot(child(6, 'female'), [
        [8, 168],
        [2, 172],
      ])
        .device('solid-afo', 'left', 2)
        .event('broken', 0.2, { note: 'lost at school' }),
    action: 'repair',
    why: 'walks without it: replace now',
  },
  {
    name: 'judged good last month though nine millimetres are used',
    child: () =>
      foot(child(8, 'male'), [
        [16, 186],
        [10, 190],
        [1, 199],
      ])
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
    name: 'judged tight last week',
    child: () =>
      foot(child(8, 'male'), [
        [14, 191],
        [8, 195],
        [0.2, 200],
      ])
        .device('solid-afo', 'left', 8)
        .event('verdict', 0.2, { verdict: 'tight', measure: 'foot_length' }),
    action: 'cast',
    why: 'a person looked and there is next to nothing left',
  },
  {
    name: 'judged outgrown two weeks ago',
    child: () =>
      foot(child(8, 'male'), [
        [11, 193],
        [5, 196],
        [0.5, 200],
      ])
        .device('solid-afo', 'left', 5)
        .event('verdict', 0.5, { verdict: 'outgrown' }),
    action: 'cast',
    why: 'a person said so, whatever the figures say',
  },
  {
    name: 'knee judged outgrown with travel left',
    child: () =>
      also(
        foot(child(7, 'female'), [
          [7, 180],
          [0, 183],
        ]),
        'knee_height',
        [
          [7, 300],
          [0, 309],
        ],
      )
        .device('kafo', 'left', 7, { extensionRangeMm: { knee_height: 36 } })
        .event('verdict', 0, { verdict: 'outgrown', measure: 'knee_height' }),
    action: 'adjust',
    why: 'the joint is off and the bar has 36 mm: move it',
  },
  {
    name: 'calf fills the shell, strap left',
    child: () =>
      also(
        foot(child(9, 'female'), [
          [12, 200],
          [6, 204],
          [0, 207],
        ]),
        'calf_girth',
        [
          [12, 262],
          [6, 268],
          [0, 290],
        ],
      ).device('solid-afo', 'left', 6),
    action: 'adjust',
    why: '22 mm of calf is a longer strap, not a new AFO',
  },
  {
    name: 'funding not due yet',
    child: () =>
      foot(child(8, 'female'), [
        [15, 195],
        [9, 200],
        [0, 207],
      ]).device('solid-afo', 'left', 9),
    eligibleAfterMonths: { 'solid-afo': 12 },
    action: 'check',
    why: 'nobody pays before June: look at skin and toes, ask for an exception if it is needed',
  },
  {
    name: 'replacement on order',
    child: () =>
      foot(child(8, 'female'), [
        [17, 196],
        [11, 200],
        [0.2, 207.5],
      ])
        .device('solid-afo', 'left', 11)
        .device('solid-afo', 'left', 0.2, { status: 'ordered', fittedDate: null }),
    action: 'none',
    why: 'the next one is being made',
  },
  {
    name: 'palliative, seen two months ago',
    child: () =>
      foot(child(9, 'male', { palliative: true }), [
        [14, 200],
        [2, 209],
      ]).device('solid-afo', 'left', 14),
    action: 'none',
    why: 'comfort decides, not millimetres',
  },
  {
    name: 'palliative, not seen for over a year',
    child: () =>
      foot(child(9, 'male', { palliative: true }), [
        [20, 200],
        [13, 204],
      ]).device('solid-afo', 'left', 20),
    action: 'review',
    why: 'skin and straps once a year at least, at home if they prefer',
  },
  {
    name: 'adult, seen this summer',
    child: () => foot(child(34, 'male'), [[5, 265]]).device('solid-afo', 'left', 9),
    action: 'none',
    why: 'adults do not outgrow; wear next year',
  },
  {
    name: 'moved away',
    child: () =>
      foot(child(8, 'female', { status: 'moved-away' }), [
        [11, 200],
        [0, 208],
      ]).device('solid-afo', 'left', 11),
    action: null,
    why: 'no longer ours to call',
  },
  {
    name: 'two AFOs on one side, one of them new',
    child: () =>
      foot(child(8, 'female'), [
        [17, 196],
        [11, 200],
        [1, 206.5],
        [0, 207.5],
      ])
        .device('solid-afo', 'left', 11)
        .device('ground-reaction-afo', 'left', 1),
    devices: [0],
    action: 'cast',
    why: 'the old one is at the edge; the new one is left alone',
  },
  {
    name: 'both sides in one visit',
    child: () => {
      const b = foot(
        foot(
          child(8, 'female'),
          [
            [17, 196],
            [11, 200],
            [0, 207.5],
          ],
          'left',
        ),
        [
          [17, 195],
          [11, 199],
          [0, 205.2],
        ],
        'right',
      );
      return b.device('solid-afo', 'left', 11).device('solid-afo', 'right', 11);
    },
    devices: [0, 1],
    action: 'cast',
    why: 'left now, right within weeks: one appointment, two casts',
  },
  {
    name: 'AFO whose knee height nobody measured',
    child: () =>
      also(
        foot(child(13.5, 'male'), [
          [20, 247],
          [14, 250],
          [1, 253],
        ]),
        'stature',
        [
          [20, 1500],
          [14, 1540],
          [1, 1640],
        ],
        'none',
      ).device('solid-afo', 'left', 14),
    action: 'none',
    why: 'toes have room; a height that was never measured ends nothing',
    differs: {
      action: 'check',
      why: 'fourteen months old, at the end of its usual life: a look at wear, nothing to do with growth',
    },
  },
  {
    name: 'old AFO of a full-grown youth',
    child: () =>
      foot(child(17.5, 'male'), [
        [30, 270],
        [18, 270],
        [2, 270],
      ]).device('solid-afo', 'left', 28),
    action: 'check',
    why: 'past its usual two years: shell, joints and straps are looked at, and cast if worn',
  },
  {
    name: 'insensate, three months since the last look',
    child: () =>
      foot(child(9, 'female', { insensateSkin: true }), [
        [9, 205],
        [3.3, 208],
      ])
        .device('articulated-afo', 'left', 3.3)
        .event('verdict', 3.2, { verdict: 'good' }),
    action: 'review',
    why: 'every three months at most where the skin does not feel',
  },
  {
    name: 'both KAFOs, spina bifida, right joint further off',
    child: () => {
      const b = child(6, 'female', {
        conditions: ['myelomeningocele-high'],
        insensateSkin: true,
        latexAlert: true,
      });
      foot(
        foot(
          b,
          [
            [8, 165],
            [0, 168],
          ],
          'left',
        ),
        [
          [8, 165],
          [0, 168],
        ],
        'right',
      );
      also(
        also(
          b,
          'knee_height',
          [
            [8, 270],
            [0, 279],
          ],
          'left',
        ),
        'knee_height',
        [
          [8, 270],
          [0, 282],
        ],
        'right',
      );
      return b
        .device('kafo', 'left', 8, { extensionRangeMm: { knee_height: 20 } })
        .device('kafo', 'right', 8, { extensionRangeMm: { knee_height: 20 } });
    },
    devices: [0, 1],
    action: 'adjust',
    why: 'move the right bar now and the left one in the same visit',
  },
  {
    name: 'no reading about the cast, toes unknown',
    child: () =>
      foot(child(7, 'male'), [
        [1, 196],
        [0, 196],
      ]).device('solid-afo', 'left', 14),
    action: 'measure',
    why: 'how large the foot was at the cast is not known: judge the fit on the leg',
  },
  {
    name: 'family of the clinic’s own without a rule',
    child: () =>
      foot(child(7, 'male'), [
        [9, 186],
        [3, 190],
        [0.3, 192],
      ]).device('night-splint', 'left', 3),
    action: 'none',
    why: 'no rule to hold it against; usual reviews go on',
  },
];
