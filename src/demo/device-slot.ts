import { type DayNumber, dayNumber, type IsoDate, isoDate } from '../records/dates.js';
import {
  type Device,
  type DeviceEvent,
  deviceEventRecord,
  deviceRecord,
  type WorkshopJob,
} from '../records/device.js';
import { type MeasureId, measures, seriesKey } from '../records/measure.js';
import type { Child } from '../records/records.js';
import {
  adjustmentsLeftOn,
  type DimensionLimit,
  dimensionLimits,
  limitOn,
  type Wearer,
} from '../rules/dimension-limits.js';
import type { FamilyRule } from '../rules/fit-rule.js';
import { defaultTurnaround } from '../turnaround/default-turnaround.js';
import type { Chance } from './chance.js';
import type { TrueGrowth } from './true-growth.js';
import { workshopJob } from './workshop-job.js';

/** The invented workshop is slower than the default and has a bad week now and then. */
const WORKSHOP_PACE = 1.15;
const WORKSHOP_LOG_SD = 0.25;
/** What is planned for: eight of ten jobs are done by then (0.84 SD of a normal distribution). */
const PLANNED_PACE = WORKSHOP_PACE * Math.exp(0.84 * WORKSHOP_LOG_SD);
/** Side bars are delivered with this much travel, set in steps, mm. */
const BAR_TRAVEL_MM = 36;
const BAR_STEP_MM = 12;
const BAR_MEASURES: Readonly<Record<string, readonly MeasureId[]>> = {
  kafo: ['knee_height'],
  hkafo: ['knee_height', 'hip_height'],
};

/** Under so much room an adjustment is tried, a second device is cast along with the first, mm. */
const EASE_BELOW_MM = 3.5;
/** Under so much a new cast was taken while the clinic did not yet look ahead. */
const CAST_BELOW_MM = 2;
const JOIN_BELOW_MM = 6;
/** Since so many days the clinic looks ahead; what it forecast before is held against what happened. */
export const STEADY_DAYS = 450;
/** It casts so many days before the last moment, as well as it can know that, and what falls due so soon after along with it. */
const EARLY_DAYS = { mean: 46, sd: 14 } as const;
const NEAR_DAYS = 14;
const JOIN_DAYS = 56;
const LONGEST_DAYS = 730;
/** A part that would not last so long beyond the next visit is ordered. */
const PART_EARLY_DAYS = 91;
/** How often the growth a plate takes is stated with the device, which is then more than the family's default. */
const STATED_ALLOWANCE = 0.6;

/** A new device is looked at so many days after its fitting, nearly always. */
const FIRST_LOOK_DAYS = [10, 26] as const;
const FIRST_LOOK = 0.98;

/** `spare`: room beyond the rule that this device happens to have, which nobody counts on. */
type TightLimit = DimensionLimit & { readonly room: number; readonly spare: number };

const isTight = ({ room, dimension }: TightLimit): boolean => room < dimension.tightWithinMm.value;

/**
 * One place on a body where a device is worn, through the years: cast, made, worn, judged, adjusted, replaced. What
 * outgrows it is the child's true growth against the family's own rule, with a limit of its own a little off it.
 */
export class DeviceSlot {
  readonly devices: Device[] = [];
  readonly events: DeviceEvent[] = [];
  readonly jobs: WorkshopJob[] = [];
  /** The newest device of the slot, delivered or not. */
  private newest: Device | null = null;
  /** Of the newest device, by dimension: its slack about the rule, and the true size at its cast. */
  private ownMm = new Map<string, { readonly slack: number; readonly atCast: number }>();
  /** Its limits, until something happens in the slot. */
  private limits: { readonly events: number; readonly of: readonly DimensionLimit[] } | null = null;
  private earlyDays = 0;
  private readonly wearer: Wearer;

  constructor(
    readonly rule: FamilyRule,
    readonly side: Device['side'],
    private readonly child: Pick<Child, 'id' | 'birthDate' | 'insensateSkin'>,
    private readonly growth: TrueGrowth,
    private readonly today: DayNumber,
    private readonly nextId: (kind: 'D' | 'E' | 'J') => string,
    private readonly c: Chance,
  ) {
    // What the clinic measures ends it; what stands in for that counts beside it no more than in a forecast.
    const measured = rule.dimensions.filter((d) => d.standsInFor === null).map((d) => d.measure);
    this.wearer = { birthDate: child.birthDate, measured: new Set(measured) };
  }

  /** What a clinician does about this slot at a visit, the usual next one being on `next`; true when a cast was taken. */
  visit(day: DayNumber, next: DayNumber): boolean {
    if (this.newest === null) return this.cast(day);
    if (!this.isWorn(day)) return false;
    // What can be extended, flared or re-strapped is, so that it lasts to the next visit, before a new cast is thought of.
    for (let tries = 0; tries < 4 && this.easeFor(day, this.isAhead(day) ? next : day); tries++);
    if (this.isAhead(day)) this.renewParts(day, next);
    this.judge(day);
    if (this.c.happens(0.015)) {
      this.event(day, { kind: 'broken', note: 'strap torn' });
      if (day + 6 <= this.today) this.event(day + 6, { kind: 'delivered', note: 'repaired' });
    }
    return this.c.happens(this.castChance(day)) && this.cast(day);
  }

  /** Most judgements of the fit are written down, and every one that it is outgrown. */
  private judge(day: DayNumber): void {
    const tightest = this.tightest(day);
    const { room, dimension } = tightest;
    const fits = isTight(tightest) ? 'tight' : 'good';
    const verdict = room < 0 ? 'outgrown' : fits;
    if (!this.c.happens(0.75) && verdict !== 'outgrown') return;
    const measure = verdict === 'good' ? null : dimension.measure;
    this.event(day, { kind: 'verdict', measure, verdict });
  }

  /** Cast when the day for it is near or it is tight; before the steady days it was just worn on. */
  private castChance(day: DayNumber): number {
    const ending = this.ending(this.limitsOn(day, day));
    const room = Math.min(...ending.map((limit) => limit.room));
    if (room < 0) return 0.98;
    if (!this.isAhead(day)) return room < CAST_BELOW_MM ? 0.7 : 0;
    const tight = ending.some((limit) => this.isSpent(limit, day) && isTight(limit));
    return tight || this.castDue(day) <= day + NEAR_DAYS ? 0.95 : 0;
  }

  /** Nothing can be adjusted any more. */
  private isSpent(limit: DimensionLimit, day: DayNumber): boolean {
    return adjustmentsLeftOn(limit, isoDate(day)).length === 0;
  }

  private isAhead(day: DayNumber): boolean {
    return day >= this.today - STEADY_DAYS;
  }

  private isWorn(day: DayNumber): boolean {
    const fitted = this.newest?.fittedDate ?? null;
    return fitted !== null && dayNumber(fitted) <= day;
  }

  /** The day on which the next one should be cast, as a clinic that looks ahead knows it on `day`: a little off the truth. */
  castDue(day: DayNumber): DayNumber {
    let [lasts, ends] = [day, day + LONGEST_DAYS];
    if (!this.isWorn(day)) return ends;
    const on = isoDate(day);
    const final = this.ending(this.limitsOn(day, day)).filter((l) => this.isSpent(l, day));
    const lastsUntil = (later: DayNumber) =>
      final.every((limit) => this.withRoom(limit, on, later).room >= limit.spare);
    if (lastsUntil(ends)) return ends;
    while (ends - lasts > 7) {
      const middle = Math.round((lasts + ends) / 2);
      if (lastsUntil(middle)) lasts = middle;
      else ends = middle;
    }
    const making = defaultTurnaround(this.rule.id).medianDays * PLANNED_PACE;
    return Math.round(lasts - making - this.earlyDays);
  }

  /** Casts again along with the other side when that falls due soon. */
  joinCast(day: DayNumber): void {
    if (!this.isWorn(day)) return;
    const soon = this.isAhead(day)
      ? this.castDue(day) <= day + JOIN_DAYS
      : this.tightest(day).room < JOIN_BELOW_MM;
    if (soon) this.cast(day);
  }

  private cast(day: DayNumber): boolean {
    const { medianDays } = defaultTurnaround(this.rule.id);
    const days = Math.max(
      5,
      Math.round(medianDays * WORKSHOP_PACE * Math.exp(WORKSHOP_LOG_SD * this.c.normal())),
    );
    const fitDay = day + days;
    const fitted = fitDay <= this.today;
    const before = this.newest;
    const bars = BAR_MEASURES[this.rule.id] ?? [];
    const device = deviceRecord.parse({
      id: this.nextId('D'),
      childId: this.child.id,
      family: this.rule.id,
      side: this.side,
      castDate: isoDate(day),
      fittedDate: fitted ? isoDate(fitDay) : null,
      status: fitted ? 'worn' : 'ordered',
      replaces: before?.id ?? null,
      footplate: this.rule.id === 'foot-orthosis' && this.c.happens(0.4) ? 'behind-toes' : 'full',
      allowancesMm:
        this.rule.sides === 'one' && this.c.happens(STATED_ALLOWANCE)
          ? { foot_length: this.c.whole(10, 14) }
          : {},
      extensionRangeMm: Object.fromEntries(bars.map((measure) => [measure, BAR_TRAVEL_MM])),
    });
    this.devices.push(device);
    this.event(day, { kind: 'cast' }, device);
    if (fitted) this.deliver(device, before, fitDay);
    this.jobs.push(workshopJob(this.nextId('J'), device, day, days, this.today));
    // Until a new one comes the old is worn on; nothing more is cast meanwhile.
    this.newest = device;
    this.ownMm = new Map();
    this.limits = null;
    // Skin that does not feel is not left to the last weeks.
    const urgent = this.child.insensateSkin || this.rule.harmADay.value > 1;
    this.earlyDays = EARLY_DAYS.mean * (urgent ? 2 : 1) + EARLY_DAYS.sd * this.c.normal();
    return true;
  }

  private deliver(device: Device, before: Device | null, day: DayNumber): void {
    this.event(day, { kind: 'delivered' }, device);
    if (before) this.retire(before, day);
    const looked = day + this.c.whole(...FIRST_LOOK_DAYS);
    if (looked <= this.today && this.c.happens(FIRST_LOOK))
      this.event(looked, { kind: 'verdict', verdict: 'good' }, device);
  }

  private retire(device: Device, day: DayNumber): void {
    const at = this.devices.indexOf(device);
    this.devices[at] = { ...device, status: 'retired' };
    this.event(day, { kind: 'retired' }, device);
  }

  /** Eases the scarcest of what would be tight by a later day and can be eased; true when done. */
  private easeFor(day: DayNumber, later: DayNumber): boolean {
    const scarce = this.limitsOn(day, later)
      .filter((limit) => limit.room < EASE_BELOW_MM)
      .sort((a, b) => a.room - b.room);
    return scarce.some((limit) => this.ease(day, limit));
  }

  /** A foot section or the boots of a bar are made anew, and the rest is worn on. */
  private renewParts(day: DayNumber, next: DayNumber): void {
    for (const part of this.rule.parts) {
      const ready = day + part.turnaroundDays.value;
      const spent = this.limitsOn(day, next + PART_EARLY_DAYS).filter(
        ({ series, room, spare }) =>
          part.renews.includes(series.measure) && measures[series.measure].skeletal && room < spare,
      );
      if (ready > this.today) continue;
      for (const { series, baseMm, room } of spent)
        this.event(ready, {
          kind: 'adjusted',
          measure: series.measure,
          side: series.side === 'none' ? null : series.side,
          changeMm: Math.round(baseMm - Math.max(room, 0)),
          adjustment: 'other',
          note: `new ${part.names.en.clinical.toLowerCase()}`,
        });
    }
  }

  /** Of limits those that end the device: no part renews them. */
  private ending(limits: readonly TightLimit[]): TightLimit[] {
    const renewed = new Set(this.rule.parts.flatMap((p) => p.renews));
    return limits.filter((limit) => !renewed.has(limit.series.measure));
  }

  /** The dimension with the least true room. */
  private tightest(day: DayNumber): TightLimit {
    return this.limitsOn(day, day).reduce((least, limit) => (limit.room < least.room ? limit : least));
  }

  /** Every limit as adjusted by a day with its true room on another, each with this device's own slack about the rule. */
  private limitsOn(day: DayNumber, sizedOn: DayNumber): TightLimit[] {
    const on = isoDate(day);
    return this.limitsNow().map((limit) => this.withRoom(limit, on, sizedOn));
  }

  private withRoom(limit: DimensionLimit, on: IsoDate, sizedOn: DayNumber): TightLimit {
    const { slack, atCast } = this.ownOf(limit);
    const { measure, side } = limit.series;
    const grown = this.growth.size(measure, side, sizedOn) - atCast;
    return { ...limit, room: limitOn(limit, on) + slack - grown, spare: Math.max(0, slack) };
  }

  private limitsNow(): readonly DimensionLimit[] {
    if (this.limits?.events !== this.events.length)
      this.limits = {
        events: this.events.length,
        of: dimensionLimits(this.rule, this.newest as Device, this.events, this.wearer),
      };
    return this.limits.of;
  }

  private ownOf({ series, toleranceMm }: DimensionLimit) {
    const key = seriesKey(series);
    let own = this.ownMm.get(key);
    if (own === undefined) {
      const castDay = dayNumber((this.newest as Device).castDate);
      own = {
        slack: toleranceMm * this.c.normal(),
        atCast: this.growth.size(series.measure, series.side, castDay),
      };
      this.ownMm.set(key, own);
    }
    return own;
  }

  /** Makes room in one dimension if the rule allows it and there is any left to make; true when done. */
  private ease(day: DayNumber, limit: TightLimit): boolean {
    const { measure } = limit.dimension;
    const on = isoDate(day);
    const next = adjustmentsLeftOn(limit, on)[0];
    if (!next || measure === 'foot_length') return false;
    const { kind, leftMm: left } = next;
    const changeMm = kind === 'side-bar' ? BAR_STEP_MM : Math.min(4, left);
    if (left < Math.max(1, changeMm)) return false;
    const side = limit.series.side;
    this.event(day, {
      kind: 'adjusted',
      measure,
      side: side === 'none' ? null : side,
      changeMm,
      adjustment: kind,
    });
    return true;
  }

  private event(
    day: DayNumber,
    what: Partial<DeviceEvent> & Pick<DeviceEvent, 'kind'>,
    device = this.newest,
  ): void {
    const { id: deviceId } = device as Device;
    const id = this.nextId('E');
    this.events.push(deviceEventRecord.parse({ id, deviceId, date: isoDate(day), ...what }));
  }
}
