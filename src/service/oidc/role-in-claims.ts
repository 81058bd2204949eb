import { type Role, roles } from '../../store/contract.js';

/** The first of our roles that a claim names, alone or in a list; null where it names none. */
export function roleInClaims(claims: Readonly<Record<string, unknown>>, claim: string): Role | null {
  const given = Object.hasOwn(claims, claim) ? claims[claim] : undefined;
  return roles.find((role) => (Array.isArray(given) ? given.includes(role) : given === role)) ?? null;
}
