/** What a row of the access log can say was done, as its reader is told. */
export const auditActionNames = {
  read: 'looked at',
  list: 'looked at a list',
  export: 'took out as a file',
  import: 'imported',
  create: 'entered',
  change: 'changed',
  correct: 'corrected',
  withdraw: 'took back',
  undo: 'undid',
  erase: 'erased',
  start: 'started',
  plan: 'planned',
  ask: 'asked',
  answer: 'answered',
  accept: 'accepted',
  'set-aside': 'set aside',
  sign: 'signed',
  'sign-in': 'signed in',
  'sign-in-failed': 'could not sign in',
  'sign-out': 'signed out',
  'role-withdrawn': 'lost the role at the identity provider',
  refused: 'was refused',
} as const satisfies Readonly<Record<string, string>>;
export type AuditAction = keyof typeof auditActionNames;
export const auditActions = Object.keys(auditActionNames) as AuditAction[];

/** A row of an earlier version may hold a code of its own. */
export const auditActionName = (action: string): string =>
  Object.hasOwn(auditActionNames, action) ? auditActionNames[action as AuditAction] : action;

/** What it was done to: the codes are words with hyphens; a refused request keeps its method and address. */
export const auditResourceName = (resource: string): string =>
  /^[a-z/-]+$/.test(resource) ? resource.replaceAll(/[-/]/g, ' ') : resource;
