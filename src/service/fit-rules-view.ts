import { type MeasureId, measures } from '../records/measure.js';
import { type ClinicLimit, type LimitFigure, limitAt, limitFigures } from '../rules/clinic-limits.js';
import type { FitDimension, FitRules } from '../rules/fit-rule.js';
import { limitBounds } from '../rules/limit-bounds.js';
import { type DeviceGroup, limitReach } from '../rules/limit-reach.js';
import { loadRules } from '../rules/load-rules.js';
import type { Store, Versioned } from '../store/contract.js';

/** One figure of a rule: as shipped, as the clinic has set it, and which of the two counts. */
export interface FigureView {
  readonly figure: LimitFigure;
  /** What counts, mm. */
  readonly mm: number;
  readonly shippedMm: number;
  readonly shippedSource: string;
  readonly clinic: Pick<ClinicLimit, 'mm' | 'reason' | 'by' | 'at'> | null;
  /** What a clinic may set, mm. */
  readonly lowestMm: number;
  readonly highestMm: number;
  /** Devices in use whose forecast this figure decides about. */
  readonly devicesInUse: number;
}
export interface DimensionView {
  readonly measure: MeasureId;
  readonly label: string;
  readonly landmark: string;
  readonly outgrownWhen: string;
  /** The device is made larger by its allowance; else it is made to the cast. */
  readonly builtIn: boolean;
  readonly figures: readonly FigureView[];
}
export interface FamilyView {
  readonly family: string;
  readonly name: string;
  readonly devicesInUse: number;
  readonly dimensions: readonly DimensionView[];
}

/** The fit rules with the clinic's figures beside the shipped ones, and the version a change is made to. */
export async function fitRulesView(store: Store): Promise<Versioned<readonly FamilyView[]>> {
  const { value: limits, version } = await store.fitLimits.current();
  const groups = await store.fitLimits.devicesInUse();
  const shipped = loadRules();
  const value = [...shipped.values()].map(
    (rule): FamilyView => ({
      family: rule.id,
      name: rule.names.en.clinical,
      devicesInUse: groups.filter((g) => g.family === rule.id).reduce((sum, g) => sum + g.devices, 0),
      dimensions: rule.dimensions.map((dimension) => ({
        measure: dimension.measure,
        label: measures[dimension.measure].label,
        landmark: dimension.landmark,
        outgrownWhen: dimension.outgrownWhen.text,
        builtIn: dimension.builtIn,
        figures: figuresOf(shipped, rule.id, dimension, limits, groups),
      })),
    }),
  );
  return { value, version };
}

function figuresOf(
  shipped: FitRules,
  family: string,
  dimension: FitDimension,
  limits: readonly ClinicLimit[],
  groups: readonly DeviceGroup[],
): FigureView[] {
  return limitFigures.flatMap((figure): FigureView[] => {
    const own = dimension[figure];
    if (!own) return [];
    const place = { family, measure: dimension.measure, figure };
    const set = limitAt(limits, place);
    return [
      {
        figure,
        mm: set?.mm ?? own.value,
        shippedMm: own.value,
        shippedSource: own.source,
        clinic: set ? { mm: set.mm, reason: set.reason, by: set.by, at: set.at } : null,
        ...limitBounds(own.value),
        devicesInUse: limitReach(shipped, groups, [place]),
      },
    ];
  });
}
