import { cautions } from '../cautions.js';
import type { Flag } from '../contract.js';
import { plainDate } from '../words.js';
import { type Finding, type FindingKind, severityOf } from './finding.js';
import { type FlagInput, flag } from './flag-input.js';

const cautionOf: Readonly<Record<FindingKind, Pick<Flag, 'title' | 'caution' | 'askWhom'>>> = {
  'skin-open': cautions.skinNow,
  'skin-lasting': cautions.skinNow,
  'skin-infected': cautions.skinNow,
  'skin-mark': cautions.skinLook,
  'skin-callus': cautions.skinLook,
  swelling: cautions.skinNow,
  rash: cautions.skinNow,
  pain: cautions.skinNow,
  numbness: cautions.feelingNow,
  breathing: cautions.breathingNow,
  'head-warning': cautions.headNow,
  'hip-out': cautions.hipNow,
  'function-lost': cautions.functionNow,
  falls: cautions.falls,
  'fit-changed': cautions.fitChanged,
  'treatment-planned': cautions.fitChanged,
  unclear: cautions.unclear,
  broken: cautions.broken,
  lost: cautions.broken,
};

const whatWasSeen: Readonly<Record<FindingKind, string>> = {
  'skin-open': 'open skin or a blister',
  'skin-lasting': 'redness that lasts',
  'skin-infected': 'infected skin',
  'skin-mark': 'a mark or rubbing',
  'skin-callus': 'hard skin',
  swelling: 'swelling',
  rash: 'a rash',
  pain: 'pain',
  numbness: 'numbness or tingling',
  breathing: 'harder breathing or eating',
  'head-warning': 'vomiting, drowsiness, a bulging soft spot, a ridge or a leap in size',
  'hip-out': 'a hip that may be out of joint',
  'function-lost': 'a skill or strength lost',
  falls: 'falls',
  'treatment-planned': 'surgery or another treatment to come',
  'fit-changed': 'a fit that is no longer right, or surgery, toxin, tone, contracture or a changed shape',
  unclear: 'a part of the body in words that are not known here',
  broken: 'a breakage',
  lost: 'a loss',
};

/** What is seen at once where the skin cannot warn. */
const MAY_BE_SKIN: readonly FindingKind[] = ['skin-mark', 'skin-callus', 'unclear'];

/** One flag a device and kind, from the latest finding; the words of a note stay in the record. */
export function findingFlags(input: FlagInput): Flag[] {
  const latest = new Map<string, Finding>();
  for (const f of input.findings) {
    const key = `${f.kind}-${f.deviceId ?? 'child'}`;
    if (!latest.has(key)) latest.set(key, f);
  }
  return [...latest].map(([key, f]) => {
    const text = cautionFor(f);
    const severity = f.severity === 'see-now' ? 'act-now' : 'check';
    const about = { deviceId: f.deviceId ?? undefined };
    return {
      ...flag(input, `finding-${key}`, severity, text, seen(f), about),
      finding: { kind: f.kind, date: f.date },
    };
  });
}

/** A mark where the skin cannot warn is seen like one that lasts; what was urgent long ago is asked about. */
function cautionFor({ kind, severity }: Finding): (typeof cautionOf)[FindingKind] {
  if (severity === 'see-now' && MAY_BE_SKIN.includes(kind)) return cautions.skinNow;
  return severity === 'look' && severityOf[kind] === 'see-now' ? cautions.longAgo : cautionOf[kind];
}

function seen(f: Finding): string {
  const source = f.source === 'skin-check' ? 'The skin check' : 'A note';
  const place =
    f.source === 'skin-check' && f.where ? ` (${f.side ?? ''} ${f.where})`.replace('( ', '(') : '';
  const minutes = f.minutes !== null && f.kind.startsWith('skin') ? `, ${f.minutes} minutes` : '';
  return `${source} of ${plainDate(f.date)} speaks of ${whatWasSeen[f.kind]}${place}${minutes}.`;
}
