import { Fragment } from 'preact';
import type { Alert } from '../../recall/contract.js';
import { alertNames } from '../../words/action-names.js';

/** What whoever meets the child must know first, beside its name. */
export function AlertTags({ alerts }: { alerts: readonly Alert[] }) {
  return (
    <>
      {alerts.map((alert) => (
        <Fragment key={alert}>
          <span class={`tag ${alert}`}>{alertNames[alert]}</span>{' '}
        </Fragment>
      ))}
    </>
  );
}
