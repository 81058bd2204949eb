import type { IsoDate } from '../dates.js';
import type { Device } from '../device.js';
import { type MeasureId, measures } from '../measure.js';
import { checkDate, refuse } from './refuse.js';

/** What a record is checked against of a family's rule. */
export interface FamilyFacts {
  /** 'one': a device a side; 'both': one frame for both sides; 'none': trunk or head. */
  readonly sides: 'one' | 'both' | 'none';
  /** Dimensions that limit it. */
  readonly measures: readonly MeasureId[];
}
export type Families = ReadonlyMap<string, FamilyFacts>;

/** Most room, in mm, that an adjustment, an allowance or a side bar can give: beyond it a digit was doubled. */
export const MOST_ROOM_MM = 200;

export interface DeviceContext {
  readonly birthDate: IsoDate;
  readonly today: IsoDate;
  readonly families: Families;
  readonly row?: number;
}

export function checkDevice(
  device: Pick<
    Device,
    'family' | 'side' | 'castDate' | 'fittedDate' | 'allowancesMm' | 'limitsMm' | 'extensionRangeMm'
  >,
  { birthDate, today, families, row }: DeviceContext,
): void {
  const what = 'Device';
  const family = families.get(device.family);
  if (!family)
    refuse(what, {
      field: 'family',
      given: device.family,
      accepted: [...families.keys()].join(', '),
      row,
    });
  if ((family.sides === 'none') !== (device.side === 'none'))
    refuse(what, {
      field: 'side',
      given: device.side,
      accepted: family.sides === 'none' ? 'none' : 'left, right or both',
      row,
    });
  checkDate(what, 'castDate', device.castDate, { from: birthDate, since: 'birth', today, row });
  if (device.fittedDate !== null)
    checkDate(what, 'fittedDate', device.fittedDate, {
      from: device.castDate,
      since: 'the cast',
      today,
      row,
    });
  for (const field of ['allowancesMm', 'extensionRangeMm'] as const)
    for (const [measure, mm] of Object.entries(device[field]))
      if (mm !== undefined && mm > MOST_ROOM_MM)
        refuse(what, {
          field: `${field}.${measure}`,
          given: String(mm),
          accepted: `0 to ${MOST_ROOM_MM} mm`,
          row,
        });
  for (const [measure, mm] of Object.entries(device.limitsMm)) {
    const [min, max] = measures[measure as MeasureId].plausible;
    if (mm !== undefined && !(mm >= min && mm <= max))
      refuse(what, { field: `limitsMm.${measure}`, given: String(mm), accepted: `${min} to ${max} mm`, row });
  }
}
