import { type ClinicLimit, type LimitFigure, limitAt, limitFigures } from './clinic-limits.js';
import { figureOf } from './figure-of.js';
import type { FamilyRule, FitRules } from './fit-rule.js';
import { loadRules } from './load-rules.js';

/** A clinic's own rules as loadRules and `--rules FILE` take them. */
export type ClinicRulesJson = readonly {
  readonly id: string;
  readonly dimensions: readonly ({ readonly measure: string } & Partial<
    Record<LimitFigure, FamilyRule['horizonDays']> & { allowanceByAge: readonly [] }
  >)[];
}[];

/**
 * A clinic's limits in the format of a file of rules, families and dimensions in the order of the shipped ones. A limit
 * whose place a later version no longer ships is left out: it stays in the history and must not stop every forecast.
 */
export function clinicRulesJson(
  limits: readonly ClinicLimit[],
  shipped: FitRules = loadRules(),
): ClinicRulesJson {
  return [...shipped.values()].flatMap((rule) => {
    const dimensions = rule.dimensions.flatMap(({ measure, allowanceByAge }) => {
      const own = limitFigures.flatMap((figure) => {
        const place = { family: rule.id, measure, figure };
        const set = limitAt(limits, place);
        return set && figureOf(shipped, place) ? [[figure, { value: set.mm, source: sourceOf(set) }]] : [];
      });
      // A clinic's own allowance is for every age.
      const everyAge =
        allowanceByAge.length > 0 && own.some(([figure]) => figure === 'allowanceMm')
          ? { allowanceByAge: [] }
          : {};
      return own.length > 0 ? [{ measure, ...Object.fromEntries(own), ...everyAge }] : [];
    });
    return dimensions.length > 0 ? [{ id: rule.id, dimensions }] : [];
  });
}

/** The shipped rules with the clinic's limits over them. */
export const clinicRules = (limits: readonly ClinicLimit[]): FitRules => loadRules(clinicRulesJson(limits));

const sourceOf = ({ by, at, reason }: ClinicLimit): string =>
  `this clinic, set by ${by} on ${at.slice(0, 10)}: ${reason}`;
