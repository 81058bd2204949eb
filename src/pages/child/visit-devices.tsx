import { deviceLabel } from '../../charts/device-label.js';
import type { Alert } from '../../recall/contract.js';
import { alertsOf } from '../../recall/decide/alerts-of.js';
import type { Device, Verdict } from '../../records/device.js';
import { skinFields } from '../../records/record-fields.js';
import type { Child } from '../../records/records.js';
import { FADES_WITHIN_MINUTES, type SkinState } from '../../records/skin-check.js';
import { type FitRules, holdsHips } from '../../rules/fit-rule.js';
import { alertNames } from '../../words/action-names.js';
import { fitNames } from '../../words/event-names.js';
import { usePage } from '../parts/page-context.js';
import { judgedField } from './read-visit.js';
import { EventInput, SkinInput } from './record-input.js';

const alertWords: Readonly<Record<Alert, string>> = {
  'skin-cannot-warn': 'Look at all of it. Pain is no sign here.',
  latex: 'Use nothing that contains it.',
  palliative: 'Growth decides nothing here.',
};

/** What must be known before anybody touches the child. */
export function ChildAlerts({ child }: { child: Child }) {
  const alerts = alertsOf({ child });
  if (alerts.length === 0) return null;
  return (
    <ul class="alerts" aria-label="Alerts">
      {alerts.map((alert) => (
        <li key={alert}>
          <span class={`tag ${alert}`}>{alertNames[alert]}</span> {alertWords[alert]}
        </li>
      ))}
    </ul>
  );
}

const skinWords: readonly (readonly [SkinState, string])[] = [
  ['none', 'no mark'],
  ['fades', `fades within ${FADES_WITHIN_MINUTES} minutes`],
  ['lasts', 'lasts longer'],
  ['open', 'open or blistered'],
];
const verdictWords = Object.entries(fitNames) as [Verdict, string][];

/** Skin and fit of each device in use: looked at, and said, at the same visit. */
export function VisitDevices(props: {
  devices: readonly Device[];
  rules: FitRules;
  child: Child;
  typed: Readonly<Record<string, string>>;
  errors: Readonly<Record<string, string>>;
}) {
  const { format } = usePage();
  const { devices, rules, child, typed, errors } = props;
  return (
    <>
      {devices.map((device) => {
        const field = (what: Parameters<typeof judgedField>[1]) => judgedField(device.id, what);
        const choice = (
          what: 'skin' | 'verdict',
          legend: string,
          words: readonly (readonly [string, string])[],
        ) => (
          <fieldset
            class="choice"
            aria-describedby={errors[field(what)] ? `${field(what)}-error` : undefined}
          >
            <legend>{legend}</legend>
            {[['', 'not looked at'] as const, ...words].map(([value, label]) => (
              <label key={value}>
                <input
                  type="radio"
                  name={field(what)}
                  value={value}
                  checked={(typed[field(what)] ?? '') === value}
                />{' '}
                {label}
              </label>
            ))}
            {errors[field(what)] && (
              <span class="hint warn" id={`${field(what)}-error`}>
                {errors[field(what)]}
              </span>
            )}
          </fieldset>
        );
        const text = (what: 'minutes' | 'where' | 'note', size: number) => (
          <SkinInput
            field={what}
            name={field(what)}
            value={typed[field(what)]}
            size={size}
            inputMode={what === 'minutes' ? 'numeric' : undefined}
            error={errors[field(what)]}
          />
        );
        return (
          <fieldset key={device.id} class="device-visit">
            <legend>
              {deviceLabel(device)} <small>cast {format.date(device.castDate)}</small>
            </legend>
            {choice(
              'skin',
              `${skinFields.state.label}${child.insensateSkin ? ' (cannot warn: look)' : ''}`,
              skinWords,
            )}
            <div class="row">
              {text('where', 18)}
              {text('minutes', 4)}
            </div>
            {choice('verdict', 'How it fits', verdictWords)}
            {holdsHips(rules.get(device.family)) && (
              <div class="row">
                {(['hipAngleLeft', 'hipAngleRight'] as const).map((angle) => (
                  <EventInput
                    key={angle}
                    field={angle}
                    id={field(angle)}
                    name={field(angle)}
                    value={typed[field(angle)]}
                    size={4}
                    error={errors[field(angle)]}
                  />
                ))}
              </div>
            )}
            {text('note', 40)}
          </fieldset>
        );
      })}
    </>
  );
}
