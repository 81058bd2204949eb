import { type DayNumber, dayNumber, isoDate } from '../records/dates.js';
import type { Device, DeviceEvent, StageId, WorkshopJob } from '../records/device.js';
import { stageIds } from '../records/device.js';
import { type MeasureId, seriesKey } from '../records/measure.js';
import {
  adjustmentsLeftOn,
  type DimensionLimit,
  dimensionLimits,
  limitOn,
} from '../rules/dimension-limits.js';
import type { FamilyRule } from '../rules/fit-rule.js';
import { defaultTurnaround } from '../turnaround/default-turnaround.js';
import type { Chance } from './chance.js';
import type { TrueGrowth } from './true-growth.js';

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
/** The invented workshop is slower than the default and has a bad week now and then. */
const WORKSHOP_PACE = 1.15;
/** Side bars are delivered with this much travel, set in steps, mm. */
const BAR_TRAVEL_MM = 36;
const BAR_STEP_MM = 12;
const BAR_MEASURES: Readonly<Record<string, readonly MeasureId[]>> = {
  kafo: ['knee_height'],
  hkafo: ['knee_height', 'hip_height'],
};

/** Under so much room an adjustment is tried, a fit is called tight, a second device is cast along with the first, mm. */
const EASE_BELOW_MM = 3.5;
const TIGHT_BELOW_MM = 3.5;
/** Under so much a new cast is taken at a visit: the old device must last until the next one is made. */
const CAST_BELOW_MM = 5;
const JOIN_BELOW_MM = 6;
/** How often the growth a plate takes is stated with the device, which is then more than the family's default. */
const STATED_ALLOWANCE = 0.6;

type TightLimit = DimensionLimit & { readonly room: number };

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
  private slackMm = new Map<string, number>();

  constructor(
    readonly rule: FamilyRule,
    readonly side: Device['side'],
    private readonly childId: string,
    private readonly growth: TrueGrowth,
    private readonly today: DayNumber,
    private readonly nextId: (kind: 'D' | 'E' | 'J') => string,
    private readonly c: Chance,
  ) {}

  /** What a clinician does about this slot at a visit; true when a cast was taken. */
  visit(day: DayNumber): boolean {
    if (this.newest === null) return this.cast(day);
    if (this.newest.fittedDate === null || dayNumber(this.newest.fittedDate) > day) return false;
    let limit = this.tightest(day);
    // What can be extended, flared or re-strapped is, before a new cast is thought of.
    for (let tries = 0; tries < 4 && limit.room < EASE_BELOW_MM && this.ease(day, limit); tries++) {
      limit = this.tightest(day);
    }
    const verdict = limit.room < 0 ? 'outgrown' : limit.room < TIGHT_BELOW_MM ? 'tight' : 'good';
    if (this.c.happens(0.55) || verdict === 'outgrown') {
      const measure = verdict === 'good' ? null : limit.dimension.measure;
      this.event(day, { kind: 'verdict', measure, verdict });
    }
    if (this.c.happens(0.015)) {
      this.event(day, { kind: 'broken', note: 'strap torn' });
      if (day + 6 <= this.today) this.event(day + 6, { kind: 'delivered', note: 'repaired' });
    }
    const castNow = verdict === 'outgrown' ? 0.95 : limit.room < CAST_BELOW_MM ? 0.85 : 0;
    return this.c.happens(castNow) && this.cast(day);
  }

  /** Casts again along with the other side when little room is left. */
  joinCast(day: DayNumber): void {
    const free =
      this.newest !== null && this.newest.fittedDate !== null && dayNumber(this.newest.fittedDate) <= day;
    if (free && this.tightest(day).room < JOIN_BELOW_MM) this.cast(day);
  }

  private cast(day: DayNumber): boolean {
    const { medianDays } = defaultTurnaround(this.rule.id);
    const days = Math.max(5, Math.round(medianDays * WORKSHOP_PACE * Math.exp(0.25 * this.c.normal())));
    const fitDay = day + days;
    const fitted = fitDay <= this.today;
    const before = this.newest;
    const bars = BAR_MEASURES[this.rule.id] ?? [];
    const device: Device = {
      id: this.nextId('D'),
      childId: this.childId,
      family: this.rule.id,
      side: this.side,
      castDate: isoDate(day),
      fittedDate: fitted ? isoDate(fitDay) : null,
      status: fitted ? 'worn' : 'ordered',
      replaces: before?.id ?? null,
      footplate: this.rule.id === 'foot-orthosis' ? (this.c.happens(0.4) ? 'behind-toes' : 'full') : 'full',
      allowancesMm:
        this.rule.sides === 'one' && this.c.happens(STATED_ALLOWANCE)
          ? { foot_length: this.c.whole(10, 14) }
          : {},
      limitsMm: {},
      extensionRangeMm: Object.fromEntries(bars.map((measure) => [measure, BAR_TRAVEL_MM])),
      extra: {},
    };
    this.devices.push(device);
    this.event(day, { kind: 'cast' }, device);
    if (fitted) {
      this.event(fitDay, { kind: 'delivered' }, device);
      if (before) this.retire(before, fitDay);
    }
    const stages = stageIds.map((stage) => [stage, day + Math.round(STAGE_SHARE[stage] * days)] as const);
    this.jobs.push({
      id: this.nextId('J'),
      deviceId: device.id,
      family: this.rule.id,
      stages: Object.fromEntries(
        stages.filter(([, on]) => on <= this.today).map(([s, on]) => [s, isoDate(on)]),
      ),
      status: fitted ? 'fitted' : 'in-progress',
    });
    // Until a new one comes the old is worn on; nothing more is cast meanwhile.
    this.newest = device;
    this.slackMm = new Map();
    return true;
  }

  private retire(device: Device, day: DayNumber): void {
    const at = this.devices.indexOf(device);
    this.devices[at] = { ...device, status: 'retired' };
    this.event(day, { kind: 'retired' }, device);
  }

  /** The dimension with the least true room, each with this device's own slack about the rule. */
  private tightest(day: DayNumber): TightLimit {
    const device = this.newest as Device;
    const castDay = dayNumber(device.castDate);
    const limits = dimensionLimits(this.rule, device, this.events).map((limit): TightLimit => {
      const { measure, side } = limit.series;
      const key = seriesKey(limit.series);
      const slack = this.slackMm.get(key) ?? limit.toleranceMm * this.c.normal();
      this.slackMm.set(key, slack);
      const grown = this.growth.size(measure, side, day) - this.growth.size(measure, side, castDay);
      return { ...limit, room: limitOn(limit, isoDate(day)) + slack - grown };
    });
    return limits.reduce((least, limit) => (limit.room < least.room ? limit : least));
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
    this.events.push({
      id: this.nextId('E'),
      deviceId: (device as Device).id,
      date: isoDate(day),
      measure: null,
      side: null,
      changeMm: null,
      adjustment: null,
      verdict: null,
      endReason: null,
      note: '',
      ...what,
    });
  }
}
