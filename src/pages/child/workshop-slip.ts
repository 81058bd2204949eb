import { decimalAgeYears } from '../../records/age.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import type { Series } from '../../records/measure.js';
import { type MeasureId, measures, type Side } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FamilyRule, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { TurnaroundEstimate } from '../../turnaround/contract.js';
import type { ExpectedSize } from './expected-sizes.js';

/** One dimension of one side as the bench needs it; all lengths in mm. */
export interface SlipRow {
  readonly measure: MeasureId;
  readonly side: Side;
  /** Last reading at or before the cast, and its day. */
  readonly read: { readonly value: number; readonly date: IsoDate } | null;
  /** Size expected on the day of the cast, where nothing was read on it. */
  readonly expectedMm: number | null;
  /** Growth it takes after the cast, and whether a clinician chose it for this device. */
  readonly allowanceMm: number;
  readonly chosen: boolean;
  /** Size of the body that it serves up to before anything is adjusted. */
  readonly servesToMm: number | null;
  /** The room is built in: it is made to `servesToMm`. All else, every joint axis above all, is made to the cast. */
  readonly builtIn: boolean;
  readonly makerLimitMm: number | null;
  readonly barMm: number | null;
  readonly holeMm: number | null;
  /** What on the device is held against what on the body. */
  readonly landmark: string;
}

export interface WorkshopSlip {
  readonly device: Device;
  readonly rows: readonly SlipRow[];
  /** Day by which eight of ten such devices are fitted, counted from the cast; null for one that is no longer in use. */
  readonly fittedBy: IsoDate | null;
  /** Day from which the present one carries more risk than accepted; null where nothing is being replaced or known. */
  readonly neededBy: IsoDate | null;
}

/** What the workshop makes: sizes, room, bars and the day, from the record and the device's own forecast. */
export function workshopSlip(
  view: ChildView,
  device: Device,
  rule: FamilyRule | null,
  sizesAtCast: readonly ExpectedSize[],
  turnaround: TurnaroundEstimate | null,
): WorkshopSlip {
  const { child, measurements } = view.record;
  const ageAtCast = decimalAgeYears(child.birthDate, device.castDate);
  const before = view.inUse.find((v) => v.device.id === device.replaces);
  const castBy = before?.decision?.castBy ?? null;
  const places = (rule?.dimensions ?? [])
    .filter((d) => d.footplates.includes(device.footplate))
    .flatMap((dimension) => sidesOf(dimension.measure, device).map((side) => ({ dimension, side })));
  const rows = places.map(({ dimension, side }): SlipRow => {
    const { measure, landmark } = dimension;
    const bar = sideBarOf(dimension);
    const size = sizesAtCast.find((s) => s.measure === measure && s.side === side);
    const read = lastReading(measurements, { measure, side }, device.castDate);
    const readOnCast = read?.date === device.castDate ? read.value : null;
    const expectedMm = readOnCast === null ? (size?.expected ?? null) : null;
    const sizeMm = readOnCast ?? expectedMm;
    // As it is cast: what was adjusted or renewed later is no room to build in when the slip is printed again.
    const allowanceMm = device.allowancesMm[measure] ?? usualAllowance(dimension, device, ageAtCast);
    const makerLimitMm = device.limitsMm[measure] ?? null;
    const grownMm = sizeMm === null ? null : sizeMm + allowanceMm;
    return {
      measure,
      side,
      read,
      expectedMm,
      allowanceMm,
      chosen: device.allowancesMm[measure] !== undefined,
      servesToMm: makerLimitMm ?? grownMm,
      builtIn: isBuiltIn(dimension, device.footplate),
      makerLimitMm,
      barMm: bar ? (device.extensionRangeMm[measure] ?? 0) : null,
      holeMm: bar?.stepMm?.value ?? null,
      landmark,
    };
  });
  return {
    device,
    rows,
    fittedBy: turnaround && addDaysIso(device.castDate, turnaround.p80Days),
    neededBy: castBy && turnaround && addDaysIso(castBy, turnaround.p80Days),
  };
}

function lastReading(
  readings: readonly Measurement[],
  { measure, side }: Series,
  by: IsoDate,
): { readonly value: number; readonly date: IsoDate } | null {
  const own = readings.filter((m) => m.measure === measure && m.side === side && m.date <= by);
  const last = own.toSorted((a, b) => a.date.localeCompare(b.date)).at(-1);
  return last ? { value: last.value, date: last.date } : null;
}

const sidesOf = (measure: MeasureId, { side }: Device): readonly Side[] => {
  if (!measures[measure].sided) return ['none'];
  return side === 'left' || side === 'right' ? [side] : ['left', 'right'];
};
