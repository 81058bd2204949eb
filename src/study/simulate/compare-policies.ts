import { bootstrap, type Interval, type PolicySummary } from './summarise-policies.js';

const SEED = 1;

const isForecast = ({ policy }: PolicySummary): boolean => policy.startsWith('forecast');

/** The policy of least cost: weighted days beyond use and wear thrown away together. */
const leastCost = (summaries: readonly PolicySummary[]): PolicySummary =>
  summaries.toSorted((a, b) => a.cost.mean - b.cost.mean)[0];

/** By how much one costs more than another, child by child: both live in the same children. */
const dearerBy = (one: PolicySummary, other: PolicySummary): Interval =>
  bootstrap(
    one.ofChildren.cost.map((cost, k) => cost - other.ofChildren.cost[k]),
    SEED,
  );

/** Of the policies whose cost cannot be told from the least (the interval of the difference holds 0) the one with the fewest weighted days. */
export function bestPolicy(summaries: readonly PolicySummary[]): PolicySummary {
  const least = leastCost(summaries);
  return summaries
    .filter((s) => dearerBy(s, least).low <= 0)
    .sort((a, b) => a.weightedDays.mean - b.weightedDays.mean)[0];
}

/** What the table shows, in a sentence. */
export function bestInWords(summaries: readonly PolicySummary[]): string {
  const [least, best] = [leastCost(summaries), bestPolicy(summaries)];
  const said = (s: PolicySummary) =>
    `${s.policy} (cost ${s.cost.mean.toFixed(1)}, ${s.weightedDays.mean.toFixed(1)} weighted days beyond use)`;
  if (least === best) return `Best: ${said(best)}, of least cost.`;
  return `Best: ${said(best)}, the fewest weighted days beyond use among costs that cannot be told from the least; least cost: ${said(least)}.`;
}

/** Every forecast policy beside the best fixed review that sees children about as often. */
export function atEqualVisits(summaries: readonly PolicySummary[]) {
  const fixed = summaries.filter((s) => !isForecast(s));
  if (fixed.length === 0) return [];
  return summaries.filter(isForecast).map((s) => {
    const off = (f: PolicySummary) => Math.abs(f.visits.mean - s.visits.mean);
    const nearest = Math.min(...fixed.map(off));
    const [best] = fixed.filter((f) => off(f) <= nearest + 0.1).sort((a, b) => a.cost.mean - b.cost.mean);
    return {
      policy: s.policy,
      visits: s.visits.mean,
      weightedDays: s.weightedDays.mean,
      fixed: best.policy,
      fixedVisits: best.visits.mean,
      fixedWeightedDays: best.weightedDays.mean,
      ratio: s.weightedDays.mean / best.weightedDays.mean,
      // Child by child.
      fewer: bootstrap(
        best.ofChildren.weightedDays.map((days, k) => days - s.ofChildren.weightedDays[k]),
        SEED,
      ),
    };
  });
}
