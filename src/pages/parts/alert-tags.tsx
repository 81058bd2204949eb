import type { Alert } from '../../recall/contract.js';
import { alertNames } from '../../words/action-names.js';

/** What whoever meets the child must know first, beside its name. */
export function AlertTags({ alerts }: { alerts: readonly Alert[] }) {
  return (
    <>
      {alerts.map((alert) => (
        <span key={alert} class={`tag ${alert}`}>
          {alertNames[alert]}
        </span>
      ))}
    </>
  );
}
