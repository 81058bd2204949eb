import type { NoteCase } from './note-sentences.js';

/** Classes that two fresh writers taught, each with its family and with what must stay quiet. Common practice, no source. */
export const thirteenthRound: readonly NoteCase[] = [
  // Figures that have changed, however their times are told.
  ['Cobb 24 in Feb, 33 on todays film in brace', ['fit-changed'], 'trunk'],
  ['scoliometer 6 in Jan, 11 today', ['fit-changed'], 'trunk'],
  ['Film today reads 38 degrees out of brace against 29 in the autumn', ['fit-changed'], 'trunk'],
  ['Cobb 31 in spring, 32 today', [], 'trunk'],
  ['Scoliometer 11 in Jan, 6 today', [], 'trunk'],
  ['Film today reads 29 against 38 in the spring', [], 'trunk'],
  ['Curve 17 in brace, 26 out of brace today as last year', [], 'trunk'],
  // What a measure says of an end.
  ['the great toe now reaches 4 mm past the end of the footplate', ['fit-changed']],
  ['Two happy years. Skin immaculate, no complaints. Great toe 4 mm past the footplate', ['fit-changed']],
  ['Footplates short. R 6 mm, L 3 mm', ['fit-changed']],
  ['calf strap on last 10 mm of velcro', ['fit-changed']],
  ['mechanical knee jt sits 25 mm below anatomical', ['fit-changed'], 'long-leg'],
  ['calf section 3 cm lower than it should be', ['fit-changed']],
  ['insoles end well behind the ball of the foot', ['fit-changed'], 'foot'],
  ['I can get my hand between the brace and his ribs', ['fit-changed'], 'trunk'],
  ['brace is down round her ankle by lunch', ['fit-changed'], 'knee'],
  ['insole curls up and will not lie flat', ['fit-changed'], 'foot'],
  ['insoles lie flat in the new shoes', [], 'foot'],
  ['knee joint level with anatomical', [], 'long-leg'],
  ['cuffs admit two fingers', []],
  // What a lock or a repair does not do.
  ['lock no longer drops home and the knee gave way', ['broken', 'function-lost'], 'long-leg'],
  ['strap loop torn off again, glued x2 already', ['broken']],
  ['strap loop was torn, glued in clinic', []],
  ['lock drops home every time, knee steady', [], 'long-leg'],
  // Skin and feeling behind other words.
  ['her heel has gone a sort of deep purple where the splint ends', ['skin-lasting']],
  ['skin behind the knee under the strap cracked', ['skin-open'], 'hip'],
  ['skin fine, strap cracked', ['broken']],
  ['small dry corn on the 2nd toe since the insole, skin intact', ['skin-callus'], 'foot'],
  ['red patch above ear since the helmet came off last night and no paler this am', ['skin-lasting'], 'head'],
  ['the heat rash from the helmet hasnt cleared, it has gone down to his neck', ['rash'], 'head'],
  ['the heat rash from the helmet has gone down', [], 'head'],
  ['she stood on a drawing pin and never noticed', ['numbness']],
  ['drawing pin in his sock, he did not feel it', ['numbness']],
  ['stood on a lego brick and yelled the house down', []],
];
