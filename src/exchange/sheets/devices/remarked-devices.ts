import { foldText } from '../../headings/fold-words.js';
import { cellDevices } from '../cell-device.js';
import { type Column, cellOf } from '../column.js';
import { hasNameWord } from '../device-names.js';
import type { GridRow } from '../grid.js';
import { type SpokenDevice, takesBack } from '../spoken-device.js';
import type { TakenTable } from '../taken-table.js';

/** Devices that remarks name, 'SMOs both, fitted 06/04/26', once the clinic agrees: they are words of a visit first. */
export function remarkedDevices(taken: TakenTable, row: GridRow, column: Column): readonly SpokenDevice[] {
  const text = cellOf(row, column);
  const kind = column.meaning?.kind;
  if ((kind !== 'remark' && kind !== 'keep') || !hasNameWord(text)) return [];
  const named = text
    .split(/[.;]\s+(?=\p{Lu})/u)
    .flatMap((sentence) => cellDevices(sentence).filter(saysWhich));
  if (named.length === 0) return [];
  const answer = taken.ask({
    id: `remarks:${foldText(column.heading)}`,
    asks: `"${column.heading}" names devices, such as "${text.slice(0, 60)}". Shall they be taken?`,
    examples: [text],
    suggested: kind === 'remark' && named.every(saysWhen) ? 'yes' : null,
    at: [row, column],
  });
  return answer === 'yes' ? named : [];
}

const saysWhen = ({ cast, fitted, stage }: SpokenDevice): boolean => (cast ?? fitted ?? stage) !== null;

/** A known device with its side or its day: not one that is only spoken of. */
const saysWhich = ({ family, word, side, cast, fitted, state, stage, said }: SpokenDevice): boolean =>
  family !== null &&
  // A raise under a shoe is a remark of the visit: it is told.
  family !== 'shoe-raise' &&
  // 'op 30/3/26' is an operation.
  word.length > 2 &&
  state === null &&
  !takesBack(said) &&
  (side ?? cast ?? fitted ?? stage) !== null;
