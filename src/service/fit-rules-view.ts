import { z } from 'zod';
import { measureId, measures } from '../records/measure.js';
import { type ClinicLimit, limitAt, limitFigures, limitPlace } from '../rules/clinic-limits.js';
import type { FitDimension, FitRules } from '../rules/fit-rule.js';
import { limitBounds } from '../rules/limit-bounds.js';
import { type DeviceGroup, limitReach } from '../rules/limit-reach.js';
import { loadRules } from '../rules/load-rules.js';
import type { Store, Versioned } from '../store/contract.js';

/** One figure of a rule: as shipped, as the clinic has set it, and which of the two counts. */
const figureView = z.object({
  figure: limitPlace.figure,
  mm: z.number().describe('what counts'),
  shippedMm: z.number(),
  shippedSource: z.string(),
  clinic: z.object({ mm: z.number(), reason: z.string(), by: z.string(), at: z.iso.datetime() }).nullable(),
  lowestMm: z.number().describe('what a clinic may set'),
  highestMm: z.number(),
  devicesInUse: z.number().int().describe('whose forecast this figure decides about'),
});
export type FigureView = Readonly<z.infer<typeof figureView>>;
const dimensionView = z.object({
  measure: measureId,
  label: z.string(),
  landmark: z.string(),
  outgrownWhen: z.string(),
  builtIn: z.boolean().describe('the device is made larger by its allowance; else it is made to the cast'),
  figures: z.array(figureView).readonly(),
});
export type DimensionView = Readonly<z.infer<typeof dimensionView>>;
export const familyView = z.object({
  family: z.string(),
  name: z.string(),
  devicesInUse: z.number().int(),
  dimensions: z.array(dimensionView).readonly(),
});
export type FamilyView = Readonly<z.infer<typeof familyView>>;

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
