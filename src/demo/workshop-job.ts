import { type DayNumber, isoDate } from '../records/dates.js';
import { type Device, type StageId, stageIds, type WorkshopJob } from '../records/device.js';

/** How many days of each hundred from cast to fitting have gone when a stage is done. */
const STAGE_SHARE: Readonly<Record<StageId, number>> = {
  cast: 0,
  fill: 0.12,
  rectify: 0.3,
  mould: 0.45,
  assemble: 0.7,
  finish: 0.85,
  fit: 1,
};

/** The workshop's job for a device cast on a day and so many days in the making, as far as it has come today. */
export function workshopJob(
  id: string,
  device: Device,
  day: DayNumber,
  days: number,
  today: DayNumber,
): WorkshopJob {
  const stages = stageIds.map((stage) => [stage, day + Math.round(STAGE_SHARE[stage] * days)] as const);
  return {
    id,
    deviceId: device.id,
    family: device.family,
    stages: Object.fromEntries(stages.filter(([, on]) => on <= today).map(([s, on]) => [s, isoDate(on)])),
    status: device.fittedDate ? 'fitted' : 'in-progress',
  };
}
