import type { ChildRecord } from '../../records/caseload.js';
import { hasSpinaBifida } from '../../records/records.js';
import type { Alert } from '../contract.js';

/** What everybody who meets the child must know first. */
export function alertsOf({ child }: ChildRecord): Alert[] {
  const latex = child.latexAlert || hasSpinaBifida(child);
  return [
    ...(child.insensateSkin ? (['skin-cannot-warn'] as const) : []),
    ...(latex ? (['latex'] as const) : []),
    ...(child.palliative ? (['palliative'] as const) : []),
  ];
}
