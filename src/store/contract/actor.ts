/** Who acts, and what every list and change has in common. */

import type { Role } from '../../records/roles.js';

export { type Role, roles } from '../../records/roles.js';

/** Who acts. 'family' acts through a signed link; 'system' is a job or a command line. */
export interface Actor {
  readonly userId: string;
  /** The sign-in name; for a family 'family-link', for a job 'system'. Never a child's name. */
  readonly name: string;
  readonly role: Role | 'family' | 'system';
  readonly requestId?: string;
}

export const systemActor: Actor = { userId: 'system', name: 'system', role: 'system' };

/** Others are not shown what a child has, but only alerts that protect it. */
export const seesDiagnoses = ({ role }: Actor): boolean =>
  role === 'clinician' || role === 'system' || role === 'family';

export interface PageRequest {
  /** 1..500, default 50. */
  readonly limit?: number;
  /** `nextCursor` of the page before; null or absent for the first page. */
  readonly cursor?: string | null;
}

export interface Page<T> {
  readonly items: readonly T[];
  readonly nextCursor: string | null;
}

export interface Versioned<T> {
  readonly value: T;
  readonly version: number;
}

/** A write on a versioned row: pass the version read; a mismatch throws 'changed-meanwhile'; null writes regardless. */
export type Expected = number | null;
