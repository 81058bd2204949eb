import type { Caseload } from './caseload.js';

/** Who signs in. */
export const roles = ['clinician', 'scheduler', 'administrator', 'auditor'] as const;
export type Role = (typeof roles)[number];

/** Who may use a route or see a page: the groups of roles, said once for both. */
export const clinicians: readonly Role[] = ['clinician'];
export const administrators: readonly Role[] = ['administrator'];
export const planners: readonly Role[] = ['clinician', 'scheduler'];
/** Whoever takes records in or out. */
export const recordKeepers: readonly Role[] = ['clinician', 'administrator'];
export const staff: readonly Role[] = ['clinician', 'scheduler', 'administrator'];
/** Who watches over the access log. */
export const overseers: readonly Role[] = ['administrator', 'auditor'];
export const everyone: readonly Role[] = [...roles];

/** Who enters and corrects each kind of record, on a page, through the interface or by a file. */
export const writersOf: Readonly<Record<keyof Caseload | 'newChildren' | 'files', readonly Role[]>> = {
  newChildren: recordKeepers,
  /** A scheduler only how the family is reached: `schedulerFields`. */
  children: planners,
  measurements: clinicians,
  markers: clinicians,
  skinChecks: clinicians,
  devices: clinicians,
  events: clinicians,
  jobs: planners,
  /** CSV, workbooks and FHIR, with records of every kind in them. */
  files: administrators,
};
