import { kid, type PractitionerCase, read } from '../case-kit.js';

/** Seen at once, or mended. Each was written down before it was run, or where the list had been at fault. Common practice, no source. */
export const urgentCases: readonly PractitionerCase[] = [
  {
    name: 'cranial orthosis, head crossing centiles',
    child: () =>
      read(
        kid(0.46, 'male', { conditions: ['positional-head-asymmetry'] }),
        'head_circumference 1.7:420 .7:426 0:450',
      ).device('cranial-orthosis', 'none', 0.7),
    action: 'see-now',
    why: '24 mm in three weeks is a doctor today, not a larger helmet',
  },
  {
    name: 'red mark for 40 minutes',
    child: () =>
      read(kid(10, 'male'), 'foot_length/left 10:205 4:209 0:211')
        .device('solid-afo', 'left', 4)
        .event('verdict', 0, { note: 'red mark over the heel for 40 min' }),
    action: 'see-now',
    why: 'skin outranks every date',
  },
  {
    name: 'strap torn',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 8:168 2:172 .3:173')
        .device('solid-afo', 'left', 2)
        .event('broken', 0.1, { note: 'strap torn off' }),
    action: 'repair',
    why: 'ring today; a strap is sewn on while they wait',
  },
  {
    name: 'shell cracked',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 14:164 8:168 1:173')
        .device('solid-afo', 'left', 8)
        .event('broken', 0.1, { note: 'shell cracked at the ankle' }),
    action: 'repair',
    why: 'not to be worn; mend or make new, not a matter of growth',
  },
  {
    name: 'lost at school',
    child: () =>
      read(kid(6, 'female'), 'foot_length/left 8:168 2:172')
        .device('solid-afo', 'left', 2)
        .event('broken', 0.2, { note: 'lost at school' }),
    action: 'repair',
    why: 'walks without it: replace now',
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
    name: 'toe plate cracked last week',
    child: () =>
      read(kid(5, 'male'), 'foot_length/left 10:165 4:170 1:172')
        .device('ground-reaction-afo', 'left', 4)
        .event('verdict', 0.2, { note: 'crack across toe plate L, edge sharp' }),
    action: 'repair',
    why: 'a sharp edge is not worn',
  },
  {
    name: 'blister on the heel',
    child: () =>
      read(kid(5, 'male'), 'foot_length/left 10:165 4:170 1:172')
        .device('solid-afo', 'left', 4)
        .event('verdict', 0.1, { verdict: 'good', note: 'small blister lateral heel' }),
    action: 'see-now',
    why: 'open skin outranks everything',
  },
  {
    name: 'night splint of the wrist, room left, straps torn last week',
    child: () =>
      read(kid(10, 'female'), 'hand_length/left 12:148 6:151 .5:153')
        .device('wrist-hand-orthosis', 'left', 6)
        .event('broken', 0.3, { note: 'both straps torn' }),
    action: 'repair',
    why: 'new straps this week',
  },
  {
    name: 'hip abduction orthosis, skin sore in the groin',
    child: () =>
      read(
        kid(0.4, 'female', { conditions: ['hip-dysplasia'] }),
        'hip_height/left 1:228 .2:231; hip_height/right 1:228 .2:231; thigh_girth/left 1:186 .2:190; thigh_girth/right 1:186 .2:190',
      )
        .device('hip-abduction-orthosis', 'both', 1)
        .event('verdict', 0.1, { note: 'raw skin in both groins under straps' }),
    action: 'see-now',
    why: 'seen today; it is never taken off unasked',
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
    name: 'straps worn out, noted at review, fit good',
    child: () =>
      read(kid(9, 'male'), 'foot_length/left 6:205 .3:209')
        .device('solid-afo', 'left', 6)
        .event('verdict', 0.3, { verdict: 'good', note: 'velcro no longer holds, straps frayed' }),
    action: 'repair',
    why: 'new straps',
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
    name: 'AFO lost, spare in use',
    child: () =>
      read(kid(5, 'female'), 'foot_length/left 6:160 .5:164')
        .device('solid-afo', 'left', 6)
        .event('lost', 0.1),
    action: 'repair',
    why: 'nothing to wear',
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
    name: 'helmet with a mark of forty-five minutes',
    child: () =>
      read(kid(0.6, 'female'), 'head_circumference 1:430 .2:434')
        .device('cranial-orthosis', 'none', 1)
        .event('verdict', 0.1, { note: 'red patch R forehead 45/60 after helmet off' }),
    action: 'see-now',
    why: 'off, and seen',
  },
];
