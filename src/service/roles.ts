import type { Role } from '../store/contract.js';

/** Who may use a route or see a page: the groups of roles, said once for both. */
export const clinicians: readonly Role[] = ['clinician'];
export const administrators: readonly Role[] = ['administrator'];
export const planners: readonly Role[] = ['clinician', 'scheduler'];
/** Whoever takes records in or out. */
export const recordKeepers: readonly Role[] = ['clinician', 'administrator'];
export const staff: readonly Role[] = ['clinician', 'scheduler', 'administrator'];
/** Who watches over the access log. */
export const overseers: readonly Role[] = ['administrator', 'auditor'];
export const everyone: readonly Role[] = ['clinician', 'scheduler', 'administrator', 'auditor'];
