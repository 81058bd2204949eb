import type { Role } from '../../store/contract.js';

/** Fields of a form or a query as they come: text, or absent. */
export type Form = Readonly<Record<string, string | undefined>>;

export const everyone: readonly Role[] = ['clinician', 'scheduler', 'administrator', 'auditor'];
export const clinicians: readonly Role[] = ['clinician'];
export const planners: readonly Role[] = ['clinician', 'scheduler'];
export const staff: readonly Role[] = ['clinician', 'scheduler', 'administrator'];
export const administrators: readonly Role[] = ['administrator'];
