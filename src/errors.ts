/**
 * Every error a person can meet: its code, its HTTP status and its text.
 * A text says what was wrong, what was given and what would be accepted; never a child's name.
 * Add a code here before throwing it; `tests/errors.test.ts` fails on a code used nowhere.
 */
export const errorCatalogue = {
  'invalid-value': { status: 422, title: 'A value cannot be accepted' },
  'invalid-file': { status: 422, title: 'A file cannot be read' },
  'not-found': { status: 404, title: 'Not found' },
  'reference-missing': { status: 500, title: 'No growth reference for this measure' },
  'reference-without-source': { status: 500, title: 'A reference table has no source beside it' },
  'model-missing': { status: 500, title: 'No growth model of this name' },
  'invalid-rule': { status: 422, title: 'A fit rule cannot be accepted' },
  'invalid-configuration': { status: 500, title: 'The configuration cannot be used' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'not-allowed': { status: 403, title: 'Your role may not do this' },
  'link-not-valid': { status: 403, title: 'This link does not open a record' },
  'changed-meanwhile': { status: 412, title: 'Somebody else changed this meanwhile' },
  'already-there': { status: 409, title: 'There already' },
  'nothing-to-undo': { status: 409, title: 'Nothing to undo' },
  'version-missing': { status: 428, title: 'Say which version you are changing' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  'bad-request': { status: 400, title: 'The request cannot be read' },
  'too-large': { status: 413, title: 'Too much was sent' },
  'unsupported-body': { status: 415, title: 'A body of a kind that is not taken here' },
  unexpected: { status: 500, title: 'Something went wrong on our side' },
  'database-unavailable': { status: 503, title: 'The database cannot be reached' },
  stopping: { status: 503, title: 'The service is being stopped' },
  'disk-full': { status: 503, title: 'The disk is full' },
  'data-folder-in-use': { status: 503, title: 'The data folder has an owner already' },
  'cannot-restore': { status: 422, title: 'The backup cannot be restored' },
  'chart-blank': { status: 500, title: 'A chart specification has a blank nothing fills' },
  'chart-warning': { status: 500, title: 'A chart specification does not compile cleanly' },
  'plan-not-solved': { status: 500, title: 'The recall plan could not be solved' },
} as const satisfies Record<string, { status: number; title: string }>;

export type ErrorCode = keyof typeof errorCatalogue;

/** What a person needs to put a wrong input right. `row` counts from 1 and includes the header line. */
export interface ErrorPlace {
  readonly file?: string;
  readonly row?: number;
  readonly field?: string;
  readonly given?: string;
  readonly accepted?: string;
}

export class DoorpostError extends Error {
  override readonly name = 'DoorpostError';
  constructor(
    readonly code: ErrorCode,
    message: string,
    readonly place: ErrorPlace = {},
  ) {
    super(message);
  }
  get status(): number {
    return errorCatalogue[this.code].status;
  }
}
