import type { IsoDate } from '../dates.js';
import type { Device } from '../device.js';
import { type MeasureId, measures } from '../measure.js';
import { dateFaults, type Fault, rangeFaults } from './refuse.js';

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

/** Sides that a device can be for. */
export const sidesOf: Readonly<
  Record<FamilyFacts['sides'], { sides: readonly Device['side'][]; accepted: string }>
> = {
  one: { sides: ['left', 'right'], accepted: 'left or right; a pair is two devices, one for each side' },
  both: { sides: ['left', 'right', 'both'], accepted: 'both, left or right' },
  none: { sides: ['none'], accepted: 'none' },
};

export interface DeviceContext {
  readonly birthDate: IsoDate;
  readonly today: IsoDate;
  readonly families: Families;
}

export function* deviceFaults(
  device: Omit<Device, 'id' | 'childId' | 'footplate' | 'replaces' | 'extra'>,
  { birthDate, today, families }: DeviceContext,
): Generator<Fault> {
  const what = 'Device';
  yield* familyFaults(what, device.family, families);
  const fit = sidesOf[families.get(device.family)?.sides ?? 'both'];
  if (families.has(device.family) && !fit.sides.includes(device.side))
    yield { what, field: 'side', given: device.side, accepted: fit.accepted };
  yield* dateFaults(what, 'castDate', device.castDate, { from: birthDate, since: 'birth', today });
  if (device.fittedDate !== null)
    yield* dateFaults(what, 'fittedDate', device.fittedDate, {
      from: device.castDate,
      since: 'the cast',
      today,
    });
  // As 'being made' it would be waited for, though it is on the child.
  if (device.status === 'ordered' && device.fittedDate !== null)
    yield { what, field: 'status', given: device.status, accepted: 'worn or retired, as it was fitted' };
  const { hipAngleFrom: from, hipAngleTo: to } = device;
  if (from != null && to != null && from > to)
    yield {
      what,
      field: 'hipAngleTo',
      given: String(to),
      accepted: `${from} or more, as it is set from there`,
    };
  for (const field of ['allowancesMm', 'extensionRangeMm'] as const)
    for (const [measure, mm = 0] of Object.entries(device[field]))
      yield* rangeFaults(what, `${field}.${measure}`, mm, [0, MOST_ROOM_MM], 'mm');
  for (const [measure, mm] of Object.entries(device.limitsMm))
    if (mm !== undefined)
      yield* rangeFaults(what, `limitsMm.${measure}`, mm, measures[measure as MeasureId].plausible, 'mm');
}

export function* familyFaults(what: string, family: string, families: Families): Generator<Fault> {
  if (!families.has(family))
    yield { what, field: 'family', given: family, accepted: [...families.keys()].join(', ') };
}
