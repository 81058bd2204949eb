import { readingOf } from '../../demo/true-growth.js';
import { LEAST_MM } from '../../recall/decide/check-figure.js';
import { decimalAgeYears } from '../../records/age.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type DayNumber, dayNumber, isoDate } from '../../records/dates.js';
import {
  type Device,
  type DeviceEvent,
  deviceEventRecord,
  deviceRecord,
  type WorkshopJob,
} from '../../records/device.js';
import { type Series, seriesKey, seriesOf, technicalErrorAt } from '../../records/measure.js';
import { type Measurement, measurementRecord } from '../../records/records.js';
import {
  adjustableLeftOn,
  type DimensionLimit,
  dimensionLimits,
  liftToComeMm,
  limitOn,
  type Wearer,
} from '../../rules/dimension-limits.js';
import { sideBarOf } from '../../rules/fit-rule.js';
import type { SimulatedChild, SimulationError } from './contract.js';

const WEEK = 7;
/** Growth that is over never fills a device: wear thrown away counts for this long at most (usual life, no source). */
const LONGEST_DAYS = 365;

/** One limit of the device worn, with its room. */
export interface Room {
  readonly limit: DimensionLimit;
  /** As the device is set. */
  readonly roomMm: number;
  /** What adjusting can still make beside it. */
  readonly moreMm: number;
  /** What answers this limit once it is passed; null where it ends the device. */
  readonly answer: 'adjust' | 'part' | null;
}

/** A device or a part on its way: made to the body of one day, given on another (null until the workshop begins it). */
interface OnItsWay {
  readonly castDay: DayNumber;
  fitDay: DayNumber | null;
}

/** A child of the world: the record its clinic keeps, and the truth of its device that nobody sees. */
export class ChildInCare {
  readonly measurements: Measurement[] = [];
  private readonly devices: Device[] = [];
  private events: DeviceEvent[] = [];
  private readonly jobs: WorkshopJob[] = [];
  readonly tally = {
    ...{ daysOutgrown: 0, daysWaiting: 0, thrownAwayDays: 0 },
    ...{ casts: 0, adjustments: 0, parts: 0, visits: 0, missed: 0 },
  };
  making: (OnItsWay & { readonly device: Device }) | null = null;
  partOnOrder: (OnItsWay & { readonly part: string }) | null = null;
  worn: Device;
  private count = 0;
  private readonly slackMm = new Map<string, number>();
  private readonly wearer: Wearer;
  private known: readonly DimensionLimit[] | null = null;

  constructor(
    readonly simulated: SimulatedChild,
    private readonly error: SimulationError,
    castDay: DayNumber,
  ) {
    const { rule, child } = simulated;
    const measured = rule.dimensions.filter((d) => d.standsInFor === null).map((d) => d.measure);
    this.wearer = { birthDate: child.birthDate, measured: new Set(measured) };
    // History a clinic has of a child already in its care.
    for (const day of [castDay - 365, castDay - 180, castDay]) this.read(day);
    this.worn = this.deviceOf(castDay);
    this.handOver({ castDay, fitDay: castDay + rule.turnaroundDays.value, device: this.worn }, null);
  }

  get id(): string {
    return this.simulated.child.id;
  }

  /** The record as it stands, for the product to read: rows are never changed, only added. */
  record(): ChildRecord {
    const { measurements, devices, events, jobs } = this;
    return {
      child: this.simulated.child,
      measurements: [...measurements],
      devices: [...devices],
      events: [...events],
      jobs: [...jobs],
      markers: [],
      skinChecks: [],
    };
  }

  /** Everything the family's rule limits is read, and the stature, each with its technical error. */
  read(day: DayNumber): void {
    const { child, rule, side, trueSize } = this.simulated;
    const series = rule.dimensions
      .filter((d) => d.standsInFor === null)
      .flatMap((d) => seriesOf(d.measure, side));
    if (!series.some((s) => s.measure === 'stature')) series.push({ measure: 'stature', side: 'none' });
    const age = decimalAgeYears(child.birthDate, isoDate(day));
    for (const s of series) {
      const off = technicalErrorAt(s.measure, age) * this.error(child.id, seriesKey(s), day);
      const value = readingOf(s.measure, trueSize(s, day) + off);
      const id = `${seriesKey(s)}@${day}`;
      this.measurements.push(
        measurementRecord.parse({ ...s, id, childId: child.id, value, date: isoDate(day) }),
      );
    }
  }

  /** The true room at every limit on a day. */
  rooms(day: DayNumber): Room[] {
    const { rule } = this.simulated;
    const on = isoDate(day);
    const grown = (series: Series) => this.grownMm(series, day);
    return this.limits().map((limit): Room => {
      const renewed = rule.parts.some((p) => p.renews.includes(limit.series.measure)) ? 'part' : null;
      const moreMm = adjustableLeftOn(limit, on) + liftToComeMm(limit, on, grown);
      return {
        limit,
        roomMm: limitOn(limit, on) + this.slackOf(limit) - grown(limit.series),
        moreMm,
        answer: moreMm >= LEAST_MM ? 'adjust' : renewed,
      };
    });
  }

  /** The same as a look shows it. */
  seen(day: DayNumber): Room[] {
    return this.rooms(day).map((room) => {
      const { series, dimension } = room.limit;
      const off = dimension.toleranceMm.value * this.error(this.id, `look ${seriesKey(series)}`, day);
      return { ...room, roomMm: room.roomMm + off };
    });
  }

  wearAWeek(day: DayNumber): void {
    const passed = this.rooms(day).filter((r) => r.roomMm < 0);
    if (passed.some((r) => r.answer === null)) this.tally.daysOutgrown += WEEK;
    else if (passed.length > 0) this.tally.daysWaiting += WEEK;
  }

  /** The fit of a day in a word, said of what is scarcest; said again on the same day it takes the place of what was said. */
  judge(day: DayNumber): 'good' | 'tight' | 'outgrown' {
    const date = isoDate(day);
    const seen = this.seen(day);
    const spare = (r: Room) => r.roomMm - r.limit.dimension.tightWithinMm.value;
    const past = seen.find((r) => r.answer === null && r.roomMm < 0);
    const least = past ?? seen.reduce((a, b) => (spare(b) < spare(a) ? b : a));
    const fits = spare(least) < 0 ? 'tight' : 'good';
    const verdict = past ? 'outgrown' : fits;
    const { measure, side } = least.limit.series;
    this.events = this.events.filter((e) => !(e.kind === 'verdict' && e.date === date));
    this.event(day, { kind: 'verdict', verdict, ...(verdict === 'good' ? {} : { measure, side }) });
    return verdict;
  }

  adjust(
    day: DayNumber,
    { measure, side }: Series,
    adjustment: DeviceEvent['adjustment'],
    changeMm: number,
  ): void {
    this.tally.adjustments++;
    this.event(day, { kind: 'adjusted', measure, side, adjustment, changeMm });
  }

  order(day: DayNumber, part: string): void {
    const rule = this.simulated.rule.parts.find((p) => p.id === part);
    if (!rule || this.partOnOrder || this.making) return;
    this.tally.parts++;
    this.partOnOrder = {
      part,
      castDay: day,
      fitDay: day + Math.ceil(rule.turnaroundDays.value / WEEK) * WEEK,
    };
  }

  cast(day: DayNumber): void {
    this.tally.casts++;
    const device = this.deviceOf(day);
    this.making = { castDay: day, fitDay: null, device };
    this.partOnOrder = null;
    this.devices.push(device);
    this.event(day, { kind: 'cast' }, device);
    const { id: deviceId, family, castDate } = device;
    this.jobs.push({
      id: `${deviceId} job`,
      deviceId,
      family,
      stages: { cast: castDate },
      status: 'in-progress',
    });
  }

  /** What is ready by a day is worn from then on. Was there a device among it? */
  fitWhatIsReady(day: DayNumber): boolean {
    if (this.partOnOrder?.fitDay && this.partOnOrder.fitDay <= day) this.renew(this.partOnOrder, day);
    const { making } = this;
    if (!making?.fitDay || making.fitDay > day) return false;
    this.tally.thrownAwayDays += this.daysLeft(day);
    this.handOver({ ...making, fitDay: day }, this.worn);
    this.making = null;
    const at = this.jobs.findIndex((j) => j.deviceId === making.device.id);
    const job = this.jobs[at];
    this.jobs[at] = { ...job, stages: { ...job.stages, fit: isoDate(day) }, status: 'fitted' };
    return true;
  }

  private deviceOf(castDay: DayNumber): Device {
    const { rule, side, child } = this.simulated;
    const bars = rule.dimensions.flatMap((d) => {
      const bar = sideBarOf(d);
      return bar ? [[d.measure, bar.upToMm.value] as const] : [];
    });
    return deviceRecord.parse({
      ...{ id: `${child.id}-D${++this.count}`, childId: child.id, family: rule.id, side },
      ...{ castDate: isoDate(castDay), status: 'ordered', replaces: this.worn?.id ?? null },
      extensionRangeMm: Object.fromEntries(bars),
    });
  }

  private handOver({ device, fitDay }: OnItsWay & { device: Device }, before: Device | null): void {
    const day = fitDay as DayNumber;
    if (before) {
      this.devices[this.devices.findIndex((d) => d.id === before.id)] = { ...before, status: 'retired' };
      this.event(day, { kind: 'retired', endReason: 'outgrown' }, before);
    }
    this.worn = { ...device, fittedDate: isoDate(day), status: 'worn' };
    const at = this.devices.findIndex((d) => d.id === device.id);
    this.devices.splice(at < 0 ? this.devices.length : at, 1, this.worn);
    this.event(day, { kind: 'delivered' });
    this.slackMm.clear();
  }

  /** A new part is made to the body of the day it was ordered: at its limits the device is as new. What it gained is measured against the old one. */
  private renew({ part, castDay }: OnItsWay & { part: string }, day: DayNumber): void {
    const renews = this.simulated.rule.parts.find((p) => p.id === part)?.renews ?? [];
    for (const { series, gains } of this.limits().filter((l) => renews.includes(l.series.measure))) {
      const changeMm = Math.round(this.grownMm(series, castDay) - gains.reduce((sum, g) => sum + g.mm, 0));
      if (changeMm > 0) this.event(day, { kind: 'adjusted', ...series, adjustment: 'other', changeMm });
    }
    this.partOnOrder = null;
  }

  /** Days the worn device would still have fitted, adjusted as far as it goes. */
  private daysLeft(day: DayNumber): number {
    let days = 0;
    if (!this.lasts(day)) return 0;
    while (days < LONGEST_DAYS && this.lasts(day + days + WEEK)) days += WEEK;
    return days;
  }

  /** Would the device as it is now still fit on a day, adjusted as far as it goes and its parts renewed? */
  lasts(day: DayNumber): boolean {
    const { parts } = this.simulated.rule;
    return this.rooms(day).every(
      ({ limit, roomMm, moreMm }) =>
        roomMm + moreMm >= 0 || parts.some((p) => p.renews.includes(limit.series.measure)),
    );
  }

  private grownMm(series: Series, day: DayNumber): number {
    const { trueSize } = this.simulated;
    return trueSize(series, day) - trueSize(series, dayNumber(this.worn.castDate));
  }

  private limits(): readonly DimensionLimit[] {
    this.known ??= dimensionLimits(this.simulated.rule, this.worn, this.events, this.wearer);
    return this.known;
  }

  /** How far this device's limit lies from the rule's. */
  private slackOf({ series, toleranceMm }: DimensionLimit): number {
    const key = seriesKey(series);
    const castDay = dayNumber(this.worn.castDate);
    const slack = this.slackMm.get(key) ?? toleranceMm * this.error(this.id, `limit ${key}`, castDay);
    this.slackMm.set(key, slack);
    return slack;
  }

  private event(day: DayNumber, what: object, device: Device = this.worn): void {
    const id = `${this.id}-E${++this.count}`;
    this.events.push(deviceEventRecord.parse({ id, deviceId: device.id, date: isoDate(day), ...what }));
    this.known = null;
  }
}
