import type { ChildRecord } from '../../records/caseload.js';
import type { Alert } from '../contract.js';

const SPINA_BIFIDA = ['myelomeningocele-high', 'myelomeningocele-low'];

/** What everybody who meets the child must know first. */
export function alertsOf({ child }: ChildRecord): Alert[] {
  const latex = child.latexAlert || child.conditions.some((c) => SPINA_BIFIDA.includes(c));
  return [
    ...(child.insensateSkin ? (['skin-cannot-warn'] as const) : []),
    ...(latex ? (['latex'] as const) : []),
    ...(child.palliative ? (['palliative'] as const) : []),
  ];
}
