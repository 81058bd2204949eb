import { measures } from '../../records/measure.js';
import { type Meaning, meaningNamed } from './meaning.js';
import type { FieldId } from './vocabulary.js';

const FIELDS: Readonly<Record<FieldId, string>> = {
  'child.id': "the child's number",
  'child.name': "the child's name",
  'child.first_name': 'the first name',
  'child.last_name': 'the surname',
  'child.birth_date': 'the date of birth',
  'child.sex': 'the sex',
  'child.gestation_weeks': 'weeks of gestation at birth',
  'child.conditions': 'the diagnosis',
  'child.affected_side': 'the affected side',
  'child.insensate_skin': 'skin that cannot warn',
  'child.latex_alert': 'latex alert',
  'child.palliative': 'palliative care',
  'child.walks': 'whether the child walks',
  'child.sibling_group': 'siblings to call together',
  'child.transport_days': 'days with transport',
  'child.prefers_holidays': 'prefers school holidays',
  'child.clinician': 'who sees the child',
  'child.contact': 'the contact',
  'child.language': 'the language of the family',
  'child.status': 'whether the child is in care',
  'visit.date': 'the date of the visit',
  'visit.age': 'the age at the visit',
  'visit.method': 'how it was measured',
  'visit.observer': 'who measured',
  'long.measure': 'what was measured',
  'long.value': 'the size',
  'long.unit': 'the unit of the size',
  'long.id': "the reading's number",
  'long.technical_error': 'the technical error of the reading',
  'long.entered': 'what was first typed',
  side: 'the side',
  'device.id': "the device's number",
  'device.family': 'the device',
  'device.cast_date': 'the date of the cast',
  'device.fitted_date': 'the date of fitting',
  'device.end_date': 'the day the device ended',
  'device.end_reason': 'why the device ended',
  'device.status': 'the state of the device',
  'device.footplate': 'the footplate',
  'device.replaces': 'the device it takes the place of',
  'device.verdict': 'how the device fits',
  'shoe.size': 'the shoe size',
  'marker.menarche': 'the menarche',
  'marker.pelvis_stage': 'the pelvis stage (Risser)',
  'marker.hand_stage': 'the hand stage (Sanders)',
  'marker.bone_age': 'the bone age',
};

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
        FIELDS[meaning.field],
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
