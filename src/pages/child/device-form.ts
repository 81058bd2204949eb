import { readNumber } from '../../exchange/csv/read-number.js';
import { deviceFaults, MOST_ROOM_MM, sidesOf } from '../../records/check/device-faults.js';
import { type IsoDate, isIsoDate } from '../../records/dates.js';
import { type Device, deviceRecord, stateByFitting } from '../../records/device.js';
import { fieldLimits } from '../../records/field-limits.js';
import { type MeasureId, measures } from '../../records/measure.js';
import { familyFacts } from '../../rules/family-facts.js';
import { type FamilyRule, sideBarOf } from '../../rules/fit-rule.js';
import type { Fields } from '../parts/pages-of.js';
import { typedAngle, typedSize } from './typed-size.js';

/** 'pair': one of each side, cast together. */
export type TypedSide = Device['side'] | 'pair';

export const sideNames: Readonly<Record<TypedSide, string>> = {
  left: 'left',
  right: 'right',
  pair: 'left and right, one each',
  both: 'one for both sides',
  none: 'trunk or head',
};

/** Sides a device of the family can be for; a pair only where new ones are made. */
export const typedSidesOf = ({ sides }: FamilyRule, pairs: boolean): readonly TypedSide[] =>
  pairs && sides === 'one' ? [...sidesOf.one.sides, 'pair'] : sidesOf[sides].sides;

export const plates: Readonly<Record<Device['footplate'], string>> = {
  full: 'full, to the toes or beyond',
  'behind-toes': 'ends behind the toes',
  none: 'none',
};

/** Does a plate under the toes change what is judged? */
export const asksPlate = ({ dimensions }: FamilyRule): boolean =>
  dimensions.some((d) => d.footplates.length < 3 || d.allowanceBehindToesMm !== null);

const rooms = ['allowancesMm', 'extensionRangeMm', 'limitsMm'] as const;
type Room = (typeof rooms)[number];
/** The field of a room of one dimension, as a fault of the record names it. */
export const sizeField = (room: Room, m: MeasureId) => `${room}.${m}`;

export type DeviceChoice = Omit<Device, 'id' | 'childId' | 'status' | 'side'> & { readonly side: TypedSide };

export interface ReadDevice {
  readonly typed: Fields;
  readonly choice: DeviceChoice;
  readonly errors: Readonly<Record<string, string>>;
}

interface DeviceQuestion {
  readonly rule: FamilyRule;
  readonly birthDate: IsoDate;
  readonly others: readonly Device[];
  readonly today: IsoDate;
  readonly pairs: boolean;
  /** What an older record carries besides. */
  readonly extra: Device['extra'];
}

/** A typed device, with every field that cannot be and what would be accepted, all at once. */
export function readDevice(typed: Fields, question: DeviceQuestion): ReadDevice {
  const { rule, birthDate, others, today, pairs, extra } = question;
  const errors: Record<string, string> = {};
  const text = (name: string) => typed[name]?.trim() ?? '';
  const day = (name: string): IsoDate => {
    const given = text(name);
    if (!isIsoDate(given)) errors[name] = 'a day as year-month-day';
    return given;
  };
  const angle = (name: 'hipAngleFrom' | 'hipAngleTo'): number | null => {
    const { min = 0, max = 0 } = fieldLimits(deviceRecord.shape[name]);
    const degrees = typedAngle(text(name));
    if (degrees !== null && !(degrees >= min && degrees <= max)) errors[name] = `${min} to ${max} degrees`;
    return degrees;
  };
  const side = typedSidesOf(rule, pairs).find((s) => s === text('side'));
  if (!side)
    errors.side = typedSidesOf(rule, pairs)
      .map((s) => sideNames[s])
      .join('; ');
  const castDate = day('castDate');
  const fittedDate = text('fittedDate') === '' ? null : day('fittedDate');
  const replaces = text('replaces') || null;
  if (replaces !== null && !others.some((d) => d.id === replaces))
    errors.replaces = 'a device of this child, or nothing';
  const funder = text('funder').slice(0, 80);
  const { funder: _before, ...rest } = extra;
  const choice: DeviceChoice = {
    family: rule.id,
    side: side ?? 'none',
    footplate: (Object.keys(plates) as Device['footplate'][]).find((p) => p === text('footplate')) ?? 'full',
    castDate,
    fittedDate,
    replaces,
    hipAngleFrom: angle('hipAngleFrom'),
    hipAngleTo: angle('hipAngleTo'),
    ...readRooms(text, rule, errors),
    extra: funder === '' ? rest : { ...rest, funder },
  };
  const families = familyFacts(new Map([[rule.id, rule]]));
  for (const one of recordsOf(choice))
    for (const { field, accepted } of deviceFaults(one, { birthDate, today, families }))
      errors[field] ??= accepted;
  return { typed, choice, errors };
}

/** Allowances, bars and maker's limits of the family's dimensions; a bar is always stated, with 0 where there is none. */
function readRooms(
  text: (name: string) => string,
  rule: FamilyRule,
  errors: Record<string, string>,
): Pick<Device, 'allowancesMm' | 'limitsMm' | 'extensionRangeMm'> {
  const allowancesMm: Device['allowancesMm'] = {};
  const limitsMm: Device['limitsMm'] = {};
  const extensionRangeMm: Device['extensionRangeMm'] = {};
  const room = (name: string): number | undefined => {
    const given = text(name);
    if (given === '') return undefined;
    const mm = readNumber(given.replace(/\s*mm$/i, ''));
    if (mm !== null) return mm;
    errors[name] = `0 to ${MOST_ROOM_MM} mm`;
    return undefined;
  };
  for (const dimension of rule.dimensions) {
    const { measure } = dimension;
    const allowance = room(sizeField('allowancesMm', measure));
    if (allowance !== undefined) allowancesMm[measure] = allowance;
    if (sideBarOf(dimension)) {
      const bar = sizeField('extensionRangeMm', measure);
      const travel = room(bar);
      if (travel !== undefined) extensionRangeMm[measure] = travel;
      else errors[bar] ??= `0 to ${MOST_ROOM_MM} mm; 0 where there is no bar to move`;
    }
    const limit = sizeField('limitsMm', measure);
    if (text(limit) === '') continue;
    const mm = typedSize(text(limit), measure, 'mm');
    if (mm !== null) limitsMm[measure] = mm;
    else errors[limit] = `${measures[measure].plausible.join(' to ')} mm`;
  }
  return { allowancesMm, limitsMm, extensionRangeMm };
}

export function typedDevice(device: Device): Fields {
  const sizes = rooms.flatMap((room) =>
    Object.entries(device[room]).map(([m, mm]) => [sizeField(room, m as MeasureId), String(mm)]),
  );
  return {
    side: device.side,
    footplate: device.footplate,
    castDate: device.castDate,
    fittedDate: device.fittedDate ?? '',
    replaces: device.replaces ?? '',
    funder: device.extra.funder ?? '',
    hipAngleFrom: String(device.hipAngleFrom ?? ''),
    hipAngleTo: String(device.hipAngleTo ?? ''),
    ...Object.fromEntries(sizes),
  };
}

/** One record, or one a side. */
export const recordsOf = ({ side, ...choice }: DeviceChoice): Omit<Device, 'id' | 'childId'>[] =>
  (side === 'pair' ? (['left', 'right'] as const) : [side]).map((s) => ({
    ...choice,
    side: s,
    status: stateByFitting(choice.fittedDate),
  }));
