import type { IsoDate } from '../../records/dates.js';
import type { Side } from '../../records/measure.js';

/** What somebody saw or was told that growth does not explain. */
export type FindingKind =
  | 'skin-open' // broken skin, blister, wound, pressure injury
  | 'skin-lasting' // redness that does not fade within 20 minutes
  | 'skin-infected'
  | 'skin-mark' // redness or rubbing, nobody said for how long
  | 'skin-callus'
  | 'swelling'
  | 'rash'
  | 'pain'
  | 'numbness'
  | 'breathing' // and meals that do not stay down in a brace about the belly
  | 'head-warning' // vomiting, drowsiness, a bulging soft spot, a ridge along a suture
  | 'hip-out' // a hip that may be out of joint in the orthosis that is to hold it
  | 'function-lost'
  | 'falls'
  | 'treatment-planned' // surgery or toxin to come: a cast before it may be for nothing
  | 'fit-changed' // too small, out of place, or what it must fit is another: surgery, toxin, tone, contracture
  | 'unclear' // a word not known here said of a part of the body
  | 'broken'
  | 'lost';

/** How soon each kind asks for somebody. */
export const severityOf: Readonly<Record<FindingKind, Finding['severity']>> = {
  'skin-open': 'see-now',
  'skin-lasting': 'see-now',
  'skin-infected': 'see-now',
  'skin-mark': 'look',
  'skin-callus': 'look',
  swelling: 'see-now',
  rash: 'see-now',
  pain: 'see-now',
  numbness: 'see-now',
  breathing: 'see-now',
  'head-warning': 'see-now',
  'hip-out': 'see-now',
  'function-lost': 'see-now',
  falls: 'look',
  'fit-changed': 'look',
  'treatment-planned': 'look',
  unclear: 'look',
  broken: 'repair',
  lost: 'repair',
};

/** Of the device, and not of the child: it is mended, found or made anew. */
export const isOfDevice = (kind: FindingKind): boolean => severityOf[kind] === 'repair';

export interface Finding {
  readonly kind: FindingKind;
  /** 'see-now': today or the next working day, before anything else; 'repair': ring today; 'look': at the next contact. */
  readonly severity: 'see-now' | 'repair' | 'look';
  /** Place on the body as written; null when nobody said. */
  readonly where: string | null;
  readonly side: Side | null;
  /** How long redness lasted, minutes; null when nobody said. */
  readonly minutes: number | null;
  readonly date: IsoDate;
  readonly source: 'skin-check' | 'verdict' | 'note';
  /** Null for the child as a whole. */
  readonly deviceId: string | null;
  /** The words it was read from; empty for a skin check. For clinicians only. */
  readonly words: string;
}

/** What one note says; who, when and of which device is added by the caller. */
export type NoteFinding = Pick<Finding, 'kind' | 'where' | 'side' | 'minutes' | 'words'> & {
  /** Done so many days before the note was written, where it says so. */
  readonly daysBefore?: number;
};
