import type { ChildRecord } from '../../records/caseload.js';
import { avoidsLatex } from '../../records/records.js';
import type { Alert } from '../contract.js';

/** What everybody who meets the child must know first. */
export function alertsOf({ child }: Pick<ChildRecord, 'child'>): Alert[] {
  return [
    ...(child.insensateSkin ? (['skin-cannot-warn'] as const) : []),
    ...(avoidsLatex(child) ? (['latex'] as const) : []),
    ...(child.palliative ? (['palliative'] as const) : []),
  ];
}
