import { type MeasureId, measures } from '../../records/measure.js';
import { type Unit, unitNamed } from '../../records/units.js';
import { deviceSizeHeading } from '../csv/device-size-heading.js';
import { type FieldId, fieldIds } from './vocabulary.js';

/** Which sides a column of sizes holds: one, both in one cell in this order, the same for both, or said elsewhere. */
export type ColumnSide = 'left' | 'right' | 'none' | 'left-right' | 'right-left' | 'both' | 'row';

/** Days of a device on which a size can have been taken instead of at the row's visit: 'Foot at cast'. */
export const deviceDays = { cast: 'device.cast_date', fitting: 'device.fitted_date' } as const;
export type DeviceDay = keyof typeof deviceDays;

/** What one column of a sheet holds. */
export type Meaning =
  | {
      readonly kind: 'field';
      readonly field: FieldId;
      readonly side: 'left' | 'right' | 'both' | null;
      /** 'AFO cast date': the device the heading itself names. */
      readonly family: string | null;
    }
  | {
      readonly kind: 'reading';
      readonly measure: MeasureId;
      readonly side: ColumnSide;
      readonly unit: Unit | null;
      /** The day it was taken on where that is not the visit's. */
      readonly at: DeviceDay | null;
    }
  /** A maker's figure of a device: allowance_foot_length_mm. */
  | { readonly kind: 'device-size'; readonly heading: string }
  /** A device of this family: the cell says the side, the date or only yes. */
  | { readonly kind: 'device'; readonly family: string; readonly side: 'left' | 'right' | 'both' | null }
  /** What was said of the visit or seen of the skin: noted on the devices worn that day. */
  | { readonly kind: 'remark'; readonly of: 'visit' | 'skin' }
  | { readonly kind: 'keep' };

export const fieldMeaning = (field: FieldId): Meaning => ({ kind: 'field', field, side: null, family: null });

/** Is this what a column is taken for? */
export const isField = (meaning: Meaning | null | undefined, field: FieldId): boolean =>
  meaning?.kind === 'field' && meaning.field === field;

/** One word that a reading file and a page can carry: 'child.birth_date', 'foot_length left cm', 'keep'. */
export function meaningText(meaning: Meaning): string {
  switch (meaning.kind) {
    case 'field':
      return [meaning.field, meaning.side ?? '', meaning.family ? `of:${meaning.family}` : '']
        .filter((word) => word !== '')
        .join(' ');
    case 'reading':
      return [
        meaning.measure,
        meaning.side === 'none' ? '' : meaning.side,
        meaning.unit ?? '',
        meaning.at ? `at:${meaning.at}` : '',
      ]
        .filter((word) => word !== '')
        .join(' ');
    case 'device':
      return ['device', meaning.family, meaning.side ?? ''].join(' ').trim();
    case 'device-size':
      return meaning.heading;
    case 'remark':
      return meaning.of === 'skin' ? 'remark skin' : 'remark';
    case 'keep':
      return 'keep';
  }
}

const COLUMN_SIDES: readonly string[] = ['left', 'right', 'left-right', 'right-left', 'both', 'row'];

/** The meaning an answer names, or null where it names none. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: the closed list of the kinds an answer can name
export function meaningNamed(text: string): Meaning | null {
  const [first, ...rest] = text.trim().split(/\s+/);
  if (first === 'keep') return { kind: 'keep' };
  if (first === 'remark') return { kind: 'remark', of: rest[0] === 'skin' ? 'skin' : 'visit' };
  if (deviceSizeHeading(text)) return { kind: 'device-size', heading: text.trim() };
  const side = rest.find((word) => COLUMN_SIDES.includes(word)) as ColumnSide | undefined;
  const oneSide = side === 'left' || side === 'right' || side === 'both' ? side : null;
  if (first === 'device' && rest[0]) return { kind: 'device', family: rest[0], side: oneSide };
  const field = fieldIds.find((id) => id === first);
  const family = rest.find((word) => word.startsWith('of:'))?.slice(3) ?? null;
  if (field) return { kind: 'field', field, side: oneSide, family };
  if (!Object.hasOwn(measures, first)) return null;
  const unit = rest.map(unitNamed).find((u) => u !== null) ?? null;
  const measure = first as MeasureId;
  const at = rest.find((word) => word.startsWith('at:'))?.slice(3) ?? '';
  return {
    kind: 'reading',
    measure,
    side: measures[measure].sided ? (side ?? 'row') : 'none',
    unit,
    at: Object.hasOwn(deviceDays, at) ? (at as DeviceDay) : null,
  };
}
