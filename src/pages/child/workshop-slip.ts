import type { DimensionRoom } from '../../forecast/contract.js';
import type { ClinicDays } from '../../recall/level/clinic-week.js';
import { decimalAgeYears } from '../../records/age.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type MeasureId, type Series, type Side, seriesOf } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FamilyRule, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { TurnaroundEstimate } from '../../turnaround/contract.js';
import { type ExpectedSize, lastReading } from './expected-sizes.js';

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
  /** Size of the body that it serves up to before anything is adjusted: the forecast's, where there is one, as on the page. */
  readonly servesToMm: number | null;
  /** The room is built in. All else, every joint axis above all, is made to the cast. */
  readonly builtIn: boolean;
  /** Size it is made to where the room is built in: by the reading of the day of the cast, where there is one. */
  readonly madeToMm: number | null;
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
  clinic: Pick<ClinicDays, 'lastOpen'>,
): WorkshopSlip {
  const { child, measurements } = view.record;
  const ageAtCast = decimalAgeYears(child.birthDate, device.castDate);
  const before = view.inUse.find((v) => v.device.id === device.replaces);
  const castBy = before?.decision?.castBy ?? null;
  const own = view.inUse.find((v) => v.device.id === device.id)?.forecast.room ?? [];
  const places = (rule?.dimensions ?? [])
    .filter((d) => d.footplates.includes(device.footplate))
    .flatMap((dimension) =>
      seriesOf(dimension.measure, device.side).map((series) => ({ dimension, series })),
    );
  const rows = places.map(({ dimension, series }): SlipRow => {
    const { measure, side } = series;
    const bar = sideBarOf(dimension);
    const { read, expectedMm, sizeMm } = atCast(measurements, sizesAtCast, series, device.castDate);
    // As it is cast: what was adjusted or renewed later is no room to build in when the slip is printed again.
    const allowanceMm = device.allowancesMm[measure] ?? usualAllowance(dimension, device, ageAtCast);
    const makerLimitMm = device.limitsMm[measure] ?? null;
    const madeToMm = makerLimitMm ?? (sizeMm === null ? null : sizeMm + allowanceMm);
    const room = own.find((r) => r.series.measure === measure && r.series.side === side);
    return {
      measure,
      side,
      read,
      expectedMm,
      allowanceMm,
      chosen: device.allowancesMm[measure] !== undefined,
      // As the page has it, but for what was adjusted since and can be.
      servesToMm: makerLimitMm === null && room ? castSizeOf(room) + allowanceMm : madeToMm,
      madeToMm,
      builtIn: isBuiltIn(dimension, device.footplate),
      makerLimitMm,
      barMm: bar ? (device.extensionRangeMm[measure] ?? 0) : null,
      holeMm: bar?.stepMm?.value ?? null,
      landmark: dimension.landmark,
    };
  });
  return {
    device,
    rows,
    fittedBy: turnaround && clinic.lastOpen(addDaysIso(device.castDate, turnaround.p80Days)),
    neededBy: castBy && turnaround && clinic.lastOpen(addDaysIso(castBy, turnaround.p80Days)),
  };
}

const castSizeOf = ({ limitMm, allowanceMm }: DimensionRoom): number => limitMm - allowanceMm;

function atCast(
  readings: readonly Measurement[],
  sizes: readonly ExpectedSize[],
  series: Series,
  castDate: IsoDate,
): Pick<SlipRow, 'read' | 'expectedMm'> & { readonly sizeMm: number | null } {
  const read = lastReading(readings, series, castDate);
  if (read?.date === castDate) return { read, expectedMm: null, sizeMm: read.value };
  const size = sizes.find((s) => s.measure === series.measure && s.side === series.side);
  const expectedMm = size?.expected ?? null;
  return { read, expectedMm, sizeMm: expectedMm };
}
