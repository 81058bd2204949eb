import type { IsoDate } from '../records/dates.js';
import type { Device, DeviceEvent } from '../records/device.js';
import { deviceHistory } from '../records/device-history.js';
import { type MeasureId, measures, type Series, type Side } from '../records/measure.js';
import type { FamilyRule, FitDimension } from './fit-rule.js';

/** Where one dimension of one device fails, before and after the adjustments it has had. */
export interface DimensionLimit {
  readonly series: Series;
  readonly dimension: FitDimension;
  /** 'growth': `baseMm` is growth since the cast; 'size': `baseMm` is the largest size the device takes. */
  readonly kind: 'growth' | 'size';
  readonly baseMm: number;
  /** One SD of this device's real limit about the stated one, mm; smaller where a person stated it. */
  readonly toleranceMm: number;
  /** Room gained from a date on, mm. */
  readonly gains: readonly { readonly date: IsoDate; readonly mm: number; readonly sideBar: boolean }[];
  /** Side-bar extension the device was delivered with, mm; gains by side bar use it up. */
  readonly rangeMm: number;
}

/** A person's stated figure is nearer the truth than a family's default (common practice, no source). */
const STATED_ALLOWANCE = 0.5;
const STATED_LIMIT = 0.25;

function sidesOf(measure: MeasureId, device: Device): readonly Side[] {
  if (!measures[measure].sided) return ['none'];
  return device.side === 'left' || device.side === 'right' ? [device.side] : ['left', 'right'];
}

/** Measures whose side bar also lifts `measure`. */
function liftedBy(rule: FamilyRule, measure: MeasureId): readonly MeasureId[] {
  return rule.dimensions.filter((d) => d.adjustable?.raises.includes(measure)).map((d) => d.measure);
}

/** The limits of every dimension that counts for this device, both sides of a bilateral frame. */
export function dimensionLimits(
  rule: FamilyRule,
  device: Device,
  events: readonly DeviceEvent[],
): DimensionLimit[] {
  const adjustments = deviceHistory(device, events).since.filter((e) => e.kind === 'adjusted');
  return rule.dimensions
    .filter((d) => d.footplates.includes(device.footplate))
    .flatMap((dimension) => {
      const { measure } = dimension;
      const bars = liftedBy(rule, measure);
      const stated = device.limitsMm[measure];
      const override = device.allowancesMm[measure];
      const behindToes = device.footplate === 'behind-toes' ? dimension.allowanceBehindToesMm : null;
      const rangeMm = [measure, ...bars].reduce((sum, m) => sum + (device.extensionRangeMm[m] ?? 0), 0);
      return sidesOf(measure, device).map((side): DimensionLimit => {
        const gains = adjustments
          .filter((e) => e.changeMm !== null && (e.side === null || e.side === 'none' || e.side === side))
          .filter((e) => e.measure === measure || (isSideBar(e) && bars.includes(e.measure!)))
          .map((e) => ({ date: e.date, mm: e.changeMm!, sideBar: isSideBar(e) }));
        return {
          series: { measure, side },
          dimension,
          kind: stated === undefined ? 'growth' : 'size',
          baseMm: stated ?? override ?? (behindToes ?? dimension.allowanceMm).value,
          toleranceMm:
            dimension.toleranceMm.value *
            (stated !== undefined ? STATED_LIMIT : override !== undefined ? STATED_ALLOWANCE : 1),
          gains,
          rangeMm,
        };
      });
    });
}

const isSideBar = (e: DeviceEvent) => e.adjustment === 'side-bar' || e.adjustment === 'relocated-joint';

/** Limit as adjusted by `date`, mm (growth since cast, or size). */
export function limitOn(limit: DimensionLimit, date: IsoDate): number {
  return limit.gains.reduce((sum, g) => (g.date <= date ? sum + g.mm : sum), limit.baseMm);
}

/** Side-bar travel not yet used by `date`, mm. */
export function extensionLeftOn(limit: DimensionLimit, date: IsoDate): number {
  const used = limit.gains.reduce((sum, g) => (g.sideBar && g.date <= date ? sum + g.mm : sum), 0);
  return Math.max(0, limit.rangeMm - used);
}
