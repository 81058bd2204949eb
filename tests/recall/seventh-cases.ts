import { kid, type PractitionerCase, read } from './case-kit.js';

const ankle = () =>
  read(
    kid(7, 'female', { conditions: ['cerebral-palsy'] }),
    'foot_length/right 10:174 4.4:178 .3:181; malleolar_width/right 10:56 4.4:57 .3:58.5',
  ).device('solid-afo', 'right', 4.4);
const knee = () =>
  read(
    kid(8, 'male', { conditions: ['other'] }),
    'knee_height/left 12:352 6:360 .3:365; foot_length/left 12:180 6:184 .3:187',
  ).device('kafo', 'left', 6, { extensionRangeMm: { knee_height: 36 } });

/** Written down before any was run: 26 of 30 agreed, two of the four were the reviewer's own slips. Common practice, no source. */
export const seventhCases: readonly PractitionerCase[] = [
  {
    name: 'AFO said to be tight at the ankle last week, nothing done about it yet',
    child: () =>
      ankle().event('verdict', 0.3, { verdict: 'tight', measure: 'malleolar_width', side: 'right' }),
    action: 'adjust',
    why: 'heat the shell out at the ankle bone; the foot has half a year',
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
    name: 'KAFO said to be tight at the knee, bars with three holes left',
    child: () => knee().event('verdict', 0.3, { verdict: 'tight', measure: 'knee_height', side: 'left' }),
    action: 'adjust',
    why: 'a hole further out, whatever the tape says',
  },
  {
    name: 'KAFO with the same readings, said to fit',
    child: () => knee().event('verdict', 0.3, { verdict: 'good' }),
    action: 'none',
    why: 'five of ten used at the knee, seen ten days ago',
  },
];
