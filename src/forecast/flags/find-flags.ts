import { GROSS } from '../../growth/contract.js';
import { measures } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { standingCautions } from '../cautions.js';
import type { DataSuggestion, Flag } from '../contract.js';
import { isSlip } from '../device/reading-needed.js';
import { deviceFlags } from './device-flags.js';
import { findingFlags } from './finding-flags.js';
import type { FlagInput } from './flag-input.js';
import { girthGainFlags } from './girth-gain.js';
import { headGrowthFlags } from './head-growth.js';
import { legDifferenceFlags } from './leg-difference.js';
import { plateauFlags } from './plateau.js';
import { recordFlags } from './record-flags.js';
import { sideDriftFlags } from './side-drift.js';
import { trunkGrowthFlags } from './trunk-growth.js';
import { uncurvedFlags } from './uncurved.js';
import { zShiftFlags } from './z-shift.js';

/** A head that grows alarmingly looks like a gross error to the model: it is never set aside. */
const ALWAYS_KEPT = 'head_circumference';

const severities = ['act-now', 'check', 'note'] as const;

/** Without the readings that are taken for slips, and lengths taken for gross errors: weight and girths do jump. */
export function withoutSlips<T extends Trusting>(input: T): T {
  const { record, posterior, suggestions } = input;
  const slipped = new Set(
    suggestions.filter((s) => isSlip(s) && s.corrections.length > 0).flatMap((s) => s.measurementIds),
  );
  const gross = new Set(
    posterior?.suspicions.filter((s) => s.probability > GROSS).map((s) => s.measurementId),
  );
  const setAside = (m: Measurement) =>
    slipped.has(m.id) || (gross.has(m.id) && measures[m.measure].skeletal && m.measure !== ALWAYS_KEPT);
  return { ...input, record: { ...record, measurements: record.measurements.filter((m) => !setAside(m)) } };
}
type Trusting = Pick<FlagInput, 'record' | 'posterior'> & { readonly suggestions: readonly DataSuggestion[] };

/** What was seen in a record that growth does not explain, most urgent first. Never a diagnosis. */
export function findFlags(input: FlagInput & Trusting): Flag[] {
  const trusted = withoutSlips(input);
  const found = [
    ...headGrowthFlags(trusted),
    ...findingFlags(trusted),
    ...deviceFlags(trusted),
    ...uncurvedFlags(trusted),
    ...legDifferenceFlags(trusted),
    ...zShiftFlags(trusted),
    ...sideDriftFlags(trusted),
    ...plateauFlags(trusted),
    ...trunkGrowthFlags(trusted),
    ...girthGainFlags(trusted),
    ...recordFlags(trusted),
    ...standingCautions(input.record, input.today),
  ];
  return found.sort(mostUrgentFirst);
}

export const mostUrgentFirst = (a: Flag, b: Flag): number =>
  severities.indexOf(a.severity) - severities.indexOf(b.severity);
