import type { Flag } from '../../forecast/contract.js';
import { Section } from '../parts/layout.js';

const severities: Readonly<Record<Flag['severity'], { rank: number; name: string; mark: string }>> = {
  'act-now': { rank: 0, name: 'Act now', mark: 'alert' },
  check: { rank: 1, name: 'Check', mark: 'due' },
  note: { rank: 2, name: 'Note', mark: '' },
};
/** So many are read at once; more are folded, except that nothing to act on now ever is. */
const SHOWN = 2;

/** What stands in the record that growth does not explain, the gravest first. */
export function ChildCautions({ flags }: { flags: readonly Flag[] }) {
  if (flags.length === 0) return null;
  const ordered = flags.toSorted((a, b) => severities[a.severity].rank - severities[b.severity].rank);
  const urgent = ordered.filter((f) => f.severity === 'act-now').length;
  const open = ordered.slice(0, Math.max(SHOWN, urgent));
  const folded = ordered.slice(open.length);
  return (
    <Section id="flags" title="Seen in the record">
      <div class="flags">
        {open.map((f) => (
          <Caution key={f.id} flag={f} />
        ))}
      </div>
      {folded.length > 0 && (
        <details class="in-print">
          <summary>
            {folded.length} more: {titlesOf(folded)}
          </summary>
          {folded.map((f) => (
            <Caution key={f.id} flag={f} />
          ))}
        </details>
      )}
    </Section>
  );
}

/** Each title once: two legs that fall behind are one thing to know. */
const titlesOf = (flags: readonly Flag[]): string =>
  [...new Set(flags.map(({ title }) => title.charAt(0).toLowerCase() + title.slice(1)))].join('; ');

function Caution({ flag: { severity, title, seen, caution, askWhom } }: { flag: Flag }) {
  const { name, mark } = severities[severity];
  return (
    <div class={`flag ${severity}`}>
      <h3>
        <span class={`tag ${mark}`}>{name}</span> {title}
      </h3>
      <p>{seen}</p>
      <p>
        {caution} <strong>Ask:</strong> {askWhom}
      </p>
    </div>
  );
}
