import { decimalAgeYears } from '../records/age.js';
import type { ChildRecord } from '../records/caseload.js';
import type { IsoDate } from '../records/dates.js';
import type { AdjustmentKind, Device, DeviceEvent } from '../records/device.js';
import { deviceHistory } from '../records/device-history.js';
import { type MeasureId, type Series, type Side, seriesOf } from '../records/measure.js';
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
  /** Room gained from a date on, mm; a bar further down that lifted this height among them. */
  readonly gains: readonly Gain[];
  /** What can make room here, before anything was used up; a side bar with the travel the device came with. */
  readonly budgets: readonly Budget[];
  /** Bars of joints further down that lift this height as far as their own joint grows, and no further. */
  readonly liftedBy: readonly Lift[];
}
interface Gain {
  readonly date: IsoDate;
  readonly mm: number;
  /** Null for a lift from further down, which uses up nothing here. */
  readonly kind: AdjustmentKind | 'other' | null;
}
interface Budget {
  readonly kind: AdjustmentKind;
  readonly mm: number;
  readonly stepMm: number | null;
}
interface Lift {
  readonly series: Series;
  readonly rangeMm: number;
  readonly gains: readonly Gain[];
}

/** Room that one way of adjusting can still make in one dimension. */
export interface Adjustment {
  readonly kind: AdjustmentKind;
  readonly measure: MeasureId;
  readonly side: Side;
  readonly leftMm: number;
  /** Hole spacing, mm; null where it is set freely. */
  readonly stepMm: number | null;
}

/** What decides which limits count for a child. */
export interface Wearer {
  readonly birthDate: IsoDate;
  /** Measures taken of the child at any time; null where every dimension is to count. */
  readonly measured: ReadonlySet<MeasureId> | null;
}

export const wearerOf = ({ child, measurements }: Pick<ChildRecord, 'child' | 'measurements'>) => ({
  birthDate: child.birthDate,
  measured: new Set(measurements.map((m) => m.measure)) as ReadonlySet<MeasureId>,
});

/** A person's stated figure is nearer the truth than a family's default (common practice, no source). */
const STATED_ALLOWANCE = 0.5;
const STATED_LIMIT = 0.25;

/**
 * The limits of every dimension that counts for this device, both sides of a bilateral frame. With a `wearer` only what
 * was measured or stated counts: a dimension nobody measured can ask for a reading and cannot end a device.
 */
export function dimensionLimits(
  rule: FamilyRule,
  device: Device,
  events: readonly DeviceEvent[],
  wearer: Wearer | null = null,
): DimensionLimit[] {
  const { castDate, since } = deviceHistory(device, events);
  const adjusted = since.filter((e) => e.kind === 'adjusted' && e.measure !== null);
  const ageAtCast = wearer ? decimalAgeYears(wearer.birthDate, castDate) : null;
  return rule.dimensions
    .filter((d) => d.footplates.includes(device.footplate) && (wearer === null || counts(d, device, wearer)))
    .flatMap((dimension) => {
      const stated = device.limitsMm[dimension.measure];
      const own = device.allowancesMm[dimension.measure];
      return seriesOf(dimension.measure, device.side).map(({ side }): DimensionLimit => {
        const liftedBy = liftsOf(rule, dimension.measure, device, side, adjusted);
        return {
          series: { measure: dimension.measure, side },
          dimension,
          kind: stated === undefined ? 'growth' : 'size',
          baseMm: stated ?? own ?? usualAllowance(dimension, device, ageAtCast),
          toleranceMm: dimension.toleranceMm.value * statedShare(stated, own),
          gains: [
            ...gainsOf(adjusted, dimension.measure, side),
            ...liftedBy.flatMap((l) => l.gains.map((g) => ({ ...g, kind: null }))),
          ],
          budgets: budgetsOf(dimension, device),
          liftedBy,
        };
      });
    });
}

/** Limit as adjusted by `date`, mm (growth since cast, or size). */
export function limitOn(limit: DimensionLimit, date: IsoDate): number {
  return limit.gains.reduce((sum, g) => (g.date <= date ? sum + g.mm : sum), limit.baseMm);
}

/** What can still make room in this dimension after `date`, in the order in which it is tried. */
export function adjustmentsLeftOn(limit: DimensionLimit, date: IsoDate): Adjustment[] {
  const { series, budgets } = limit;
  const used = (kind: AdjustmentKind, first: boolean) =>
    limit.gains
      .filter((g) => g.date <= date && g.kind !== null)
      .filter((g) => {
        const charged = g.kind === 'relocated-joint' ? 'side-bar' : g.kind;
        return charged === kind || (first && !budgets.some((b) => b.kind === charged));
      })
      .reduce((sum, g) => sum + g.mm, 0);
  return budgets.flatMap(({ kind, mm, stepMm }, i) => {
    const leftMm = mm - used(kind, i === 0);
    // Less than one hole is no travel.
    return leftMm > 0 && leftMm >= (stepMm ?? 0) ? [{ kind, ...series, leftMm, stepMm }] : [];
  });
}

/** The same in one figure, mm. */
export const adjustableLeftOn = (limit: DimensionLimit, date: IsoDate): number =>
  adjustmentsLeftOn(limit, date).reduce((sum, a) => sum + a.leftMm, 0);

/**
 * How far bars further down will still lift this height, mm: as far as their own joint has grown beyond what they have
 * given so far, and no further than their travel. A knee bar set out for the sake of the hip would put the knee joint off.
 */
export function liftToComeMm(
  limit: DimensionLimit,
  date: IsoDate,
  grownMm: (series: Series) => number,
): number {
  return limit.liftedBy.reduce((sum, { series, rangeMm, gains }) => {
    const given = gains.reduce((mm, g) => (g.date <= date ? mm + g.mm : mm), 0);
    return sum + Math.min(Math.max(0, rangeMm - given), Math.max(0, grownMm(series) - given));
  }, 0);
}

function counts(d: FitDimension, device: Device, { measured }: Wearer): boolean {
  if (measured === null) return true;
  if (d.standsInFor !== null && measured.has(d.standsInFor)) return false;
  return measured.has(d.measure) || device.limitsMm[d.measure] !== undefined;
}

export function usualAllowance(
  d: FitDimension,
  device: Pick<Device, 'footplate'>,
  ageAtCast: number | null,
): number {
  if (device.footplate === 'behind-toes' && d.allowanceBehindToesMm) return d.allowanceBehindToesMm.value;
  const band = d.allowanceByAge.find(
    (b) => ageAtCast !== null && ageAtCast >= b.fromYears && ageAtCast < b.toYears,
  );
  return (band ?? d.allowanceMm).value;
}

function statedShare(limit: number | undefined, allowance: number | undefined): number {
  if (limit !== undefined) return STATED_LIMIT;
  return allowance === undefined ? 1 : STATED_ALLOWANCE;
}

const gainsOf = (adjusted: readonly DeviceEvent[], measure: MeasureId, side: Side): Gain[] =>
  adjusted
    .filter((e) => e.measure === measure && (e.side === null || e.side === 'none' || e.side === side))
    .map((e) => ({ date: e.date, mm: e.changeMm!, kind: e.adjustment ?? 'other' }));

/** A side bar has the travel that was recorded with the device; without a record it has none to count on. */
function budgetsOf(dimension: FitDimension, device: Device): Budget[] {
  return dimension.adjustments.map(({ kind, upToMm, stepMm }) => ({
    kind,
    mm: kind === 'side-bar' ? (device.extensionRangeMm[dimension.measure] ?? 0) : upToMm.value,
    stepMm: stepMm?.value ?? null,
  }));
}

function liftsOf(
  rule: FamilyRule,
  measure: MeasureId,
  device: Device,
  side: Side,
  adjusted: readonly DeviceEvent[],
): Lift[] {
  return rule.dimensions
    .filter((d) => d.adjustments.some((a) => a.raises.includes(measure)))
    .map((d) => ({
      series: { measure: d.measure, side },
      rangeMm: device.extensionRangeMm[d.measure] ?? 0,
      gains: gainsOf(adjusted, d.measure, side).filter(
        (g) => g.kind === 'side-bar' || g.kind === 'relocated-joint',
      ),
    }));
}
