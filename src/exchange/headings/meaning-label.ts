import { measures } from '../../records/measure.js';
import { type Meaning, meaningNamed } from './meaning.js';
import { fieldLabels } from './vocabulary.js';

const SIDES: Readonly<Record<string, string>> = {
  left: 'left',
  right: 'right',
  both: 'the same on both sides',
  'left-right': 'left, then right in one cell',
  'right-left': 'right, then left in one cell',
  row: 'side said elsewhere',
};

/** What a column holds, for a person: 'foot length, left, in cm'. */
export function meaningLabel(meaning: Meaning): string {
  const joined = (...words: (string | null | undefined)[]) => words.filter(Boolean).join(', ');
  switch (meaning.kind) {
    case 'field': {
      const devices = meaning.family?.replaceAll('|', ' or ').replaceAll('-', ' ');
      return joined(
        fieldLabels[meaning.field],
        devices && `of the ${devices}`,
        meaning.side && SIDES[meaning.side],
      );
    }
    case 'reading':
      return joined(
        measures[meaning.measure].label.toLowerCase(),
        SIDES[meaning.side],
        meaning.unit && `in ${meaning.unit}`,
        meaning.at && `on the day of the ${meaning.at}`,
      );
    case 'device':
      return joined(
        `a ${meaning.family.replaceAll('|', ' or ').replaceAll('-', ' ')}`,
        meaning.side && SIDES[meaning.side],
      );
    case 'device-size':
      return meaning.heading.replaceAll('_', ' ');
    case 'keep':
      return 'kept beside the row; read only where it tells of the skin or the fit';
    case 'remark':
      return `${meaning.of === 'skin' ? 'how the skin was' : 'remarks'}: noted on the devices worn that day`;
  }
}

/** The label of an answer to 'what does this column hold'. */
export function answerLabel(answer: string): string {
  const meaning = meaningNamed(answer);
  return meaning === null ? answer : meaningLabel(meaning);
}
