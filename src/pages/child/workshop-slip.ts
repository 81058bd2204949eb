import type { DimensionRoom } from '../../forecast/contract.js';
import type { ClinicDays } from '../../recall/level/clinic-week.js';
import { decimalAgeYears } from '../../records/age.js';
import { addDaysIso, type IsoDate } from '../../records/dates.js';
import type { Device } from '../../records/device.js';
import { type Series, seriesOf } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { usualAllowance } from '../../rules/dimension-limits.js';
import { type FamilyRule, isBuiltIn, sideBarOf } from '../../rules/fit-rule.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { TurnaroundEstimate } from '../../turnaround/contract.js';
import { type ExpectedSize, lastReading } from './expected-sizes.js';

export type WorkshopSlip = ReturnType<typeof workshopSlip>;
/** One dimension of one side as the bench needs it; all lengths in mm. */
export type SlipRow = WorkshopSlip['rows'][number];

/** What the workshop makes: sizes, room, bars and the day, from the record and the device's own forecast. */
export function workshopSlip(
  view: ChildView,
  device: Device,
  rule: FamilyRule | null,
  sizesAtCast: readonly ExpectedSize[],
  turnaround: TurnaroundEstimate | null,
  clinic: Pick<ClinicDays, 'lastOpen'>,
) {
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
  const rows = places.map(({ dimension, series }) => {
    const { measure, side } = series;
    const bar = sideBarOf(dimension);
    const { read, expectedMm, sizeMm } = atCast(measurements, sizesAtCast, series, device.castDate);
    // Growth it takes after the cast. As it is cast: what was adjusted or renewed later is no room to build in when the slip is printed again.
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
      // By a clinician, for this device.
      chosen: device.allowancesMm[measure] !== undefined,
      // Size of the body it serves up to: as the page has it, but for what was adjusted since and can be.
      servesToMm: makerLimitMm === null && room ? castSizeOf(room) + allowanceMm : madeToMm,
      madeToMm,
      // All else, every joint axis above all, is made to the cast.
      builtIn: isBuiltIn(dimension, device.footplate),
      makerLimitMm,
      barMm: bar ? (device.extensionRangeMm[measure] ?? 0) : null,
      holeMm: bar?.stepMm?.value ?? null,
      // What on the device is held against what on the body.
      landmark: dimension.landmark,
    };
  });
  return {
    device,
    rows,
    // Day by which eight of ten such devices are fitted; null for one that is no longer in use.
    fittedBy: turnaround && clinic.lastOpen(addDaysIso(device.castDate, turnaround.p80Days)),
    // Day from which the present one carries more risk than accepted; null where nothing is being replaced or known.
    neededBy: castBy && turnaround && clinic.lastOpen(addDaysIso(castBy, turnaround.p80Days)),
  };
}

const castSizeOf = ({ limitMm, allowanceMm }: DimensionRoom): number => limitMm - allowanceMm;

/** The last reading at or before the cast, and the size expected on its day where nothing was read on it. */
function atCast(
  readings: readonly Measurement[],
  sizes: readonly ExpectedSize[],
  series: Series,
  castDate: IsoDate,
) {
  const read = lastReading(readings, series, castDate);
  if (read?.date === castDate) return { read, expectedMm: null, sizeMm: read.value };
  const size = sizes.find((s) => s.measure === series.measure && s.side === series.side);
  const expectedMm = size?.expected ?? null;
  return { read, expectedMm, sizeMm: expectedMm };
}
