import type { GrowthParameters } from '../../growth/population/parameters.js';
import type { DateRow } from '../backtest/outgrown-dates.js';
import { datesTable, errorTable, infantTable } from './card-tables.js';
import type { InfantResidual } from './infant-residual.js';
import type { MeasuredError } from './measured-error.js';

/** models/<name>/card-facts.json: all that a card says and parameters.json does not. */
export interface CardFacts {
  readonly curves: string;
  readonly data: readonly string[];
  readonly infants: InfantResidual;
  readonly errors: readonly MeasuredError[];
  /** Outgrown dates of children left out, and of children drawn from the model: no forecast can come nearer. */
  readonly dates: readonly DateRow[];
  readonly dateFloors: readonly DateRow[];
}

/** models/<name>/model-card.md: data, assumptions, measured error, valid ages; nothing about any one child. */
export function modelCard(p: GrowthParameters, facts: CardFacts): string {
  const { curves, data, infants, errors, dates, dateFloors } = facts;
  const follow = p.measures.filter((m) => !p.longitudinal.measures.includes(m));
  const sds = (['male', 'female'] as const).map(
    (s) => `${s} ${p.longitudinal.tempoSd[s].toFixed(3)} and ${p.longitudinal.intensitySd[s].toFixed(3)}`,
  );
  return `# Growth model '${p.name}', version ${p.version}

Written by \`doorpost fit growth\`; seed ${p.seed}. Figures of this page were measured by that run.

## Data
${data.map((d) => `- ${d}`).join('\n')}

## What it says of a child
Age is read on a logarithmic axis, x = ln(age + 0.75 years). A child has a tempo (early or late) and an intensity
(slow or quick through puberty), shared by all measures, and is at maturity position
u = exp(intensity) (x - centre - tempo). On u each measure follows a mean curve plus the child's own deviation,
cubic splines with ${p.longitudinal.knots.length} knots, one joint Gaussian over measures; on top a short residual process along the
calendar (Matern 3/2, ${p.longitudinal.residualYears} year) and the error of each reading. Tempo and intensity are integrated
numerically (a coarse grid, then a fine one around the child), all else exactly.
${curves}

- SD of tempo and of intensity, on the log-age axis: ${sds.join('; ')}. Mean ages at peak height velocity
  ${p.peakVelocityAgeYears.male} (boys) and ${p.peakVelocityAgeYears.female} years (girls) are where the curves are
  laid together.
- Measures with serial records behind them: ${p.longitudinal.measures.join(', ')}.
- **Measures without serial records**: ${follow.join(', ')}. Same tempo and intensity; mean curve the reference's
  median with the smear of mixed tempos taken out, so that each keeps its own timing (boys' feet peak a year before
  stature), moved by as many SD as the serial measures stand off theirs on the average of childhood. Deviation a
  regression on the serial measures' deviations plus an own part, from correlations in children measured once. The own
  part's and the residual's SD are widened by ${Math.round(100 * (p.crossSectional.widen - 1))} %. **Nobody has checked these forecasts on children followed for
  years**, but for sitting height, which is stature less leg length in the model (from 8 years its mean too) and in
  the followed children.
- **Heads** (circumference, breadth, length) have no serial records here: curve and spread are print, their residual process in
  infancy is that of body length with an SD ${Math.round(100 * (p.zScore.headWiden - 1))} % wider. Two-month gains at 4 to 6 months then differ between children
  by more than printed velocity standards say (SD about 4-5 mm with two readings' error, from memory).
- Growth that stood still may have stopped, be held up or be caught up; growth hormone may hasten it from its date to its
  end. How often and how much is our own or from memory (src/growth/child/unusual-paces.ts); nobody checked it on records.
- The calendar residual's SD is 25 % and the variance of children's own shapes 15 % wider than estimated, so that 80 %
  bands cover 80 % of children left out.
- Girths and weight are modelled as logarithms, bones in mm.
- Left and right share the child; each side has a small deviation of its own (SD 0.12 population SD in health, more
  by condition) and a pace of its own (SD 5 % of the median child's growth in health, 15 % where one side is affected; own).
- Conditions move the mean and widen the spread before the child's own data speak; sources in
  src/growth/population/condition-effects.ts, most from memory. Spina bifida without a marker is not called late.
- Maturity markers act on tempo; figures from memory unless a reading brings its own SD
  (src/growth/child/marker-evidence.ts).
- Any reading may be a gross error (3 in 1000, spread 8 population SD); what is doubted is shown, never dropped.
- Sex 'unknown' is a mixture of both sexes.

## Valid ages
Birth to 20 years. Below ${p.zScoreShare.male[0].ageYears} years a child is held near its own centile (z-score level plus Matern 3/2
residual process, the one under which what ${infants.children} infants' length was one to four months later is likeliest: ${Math.round(100 * infants.sizeShare)} % of the variance lasting, length scale ${infants.lengthScale} on log-age, SD of the residual process ${infants.sd} z); from ${p.zScoreShare.male[p.zScoreShare.male.length - 1].ageYears} years the
tempo population alone; a mixture between. Premature children: age from the due date until 2 years, fading out until 4. Not checked on any
record, so treat with reserve: children given growth hormone, with early or absent puberty under treatment, with bone
disease, or after limb surgery.

## Measured error
${infantTable(infants)}

${errorTable(errors)}

${datesTable(dates, dateFloors)}

An estimate from measurements. Not a diagnosis; no reason to skip a review.
`;
}
