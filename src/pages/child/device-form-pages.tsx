import { deviceLabel, familyLabel } from '../../charts/device-label.js';
import type { Device } from '../../records/device.js';
import { deviceFields } from '../../records/record-fields.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { Form, NotAccepted, Problem, SelectField, Submit } from '../parts/form.js';
import { ChildLayout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath, devicePath } from '../parts/paths.js';
import { type DeviceAsked, DeviceFields } from './device-fields.js';
import { ChildAlerts } from './visit-devices.js';

/** A device of a family chosen first, because what limits it depends on that. */
export function NewDevicePage(props: DeviceAsked & { rules: FitRules }) {
  const { child, rule, rules } = props;
  const base = childPath(child.id);
  return (
    <ChildLayout child={child} title="New device" scripts={['device.js']}>
      <ChildAlerts child={child} />
      <Form method="get" action={`${base}/devices/new`} class="card row" data-sends-itself>
        <SelectField
          label={deviceFields.family.label}
          name="family"
          of={[...rules.keys()].map((f) => [f, familyLabel(f)] as const)}
          chosen={rule.id}
        />
        <p>
          <Submit class="without-script">Show its fields</Submit>
        </p>
      </Form>
      <Ask {...props} action={`${base}/devices`} pairs save="Save device" back={base} />
    </ChildLayout>
  );
}

/** The next one of a device: filled in as the one before, or with what the what-if table found. */
export function NextDevicePage(props: DeviceAsked & { before: Device }) {
  const { format } = usePage();
  const { child, before } = props;
  const base = childPath(child.id);
  const own = devicePath(child.id, before.id);
  return (
    <ChildLayout child={child} title="Cast the next one" heading={`Cast the next ${deviceLabel(before)}`}>
      <ChildAlerts child={child} />
      <p>
        Filled in as the one cast on {format.date(before.castDate)}; change what is to be different. How much
        room should it have?{' '}
        <a href={`${base}/what-if/next?device=${encodeURIComponent(before.id)}`}>
          Room for 9 months, all dimensions
        </a>
      </p>
      <Ask {...props} next action={`${own}/next`} save="Cast, and open the workshop slip" back={base} />
    </ChildLayout>
  );
}

/** A device put right: what was typed wrongly, or learned later. */
export function EditDevicePage(props: DeviceAsked & { device: Device; version: number }) {
  const { child, device } = props;
  const own = devicePath(child.id, device.id);
  return (
    <ChildLayout child={child} title="Correct a device" heading={`Correct: ${deviceLabel(device)}`}>
      <ChildAlerts child={child} />
      <p>
        What it was before stays on record and can be brought back on the <a href={own}>device's page</a>.
      </p>
      <Ask {...props} action={`${own}/edit`} save="Save" back={own} />
    </ChildLayout>
  );
}

function Ask(
  props: Parameters<typeof DeviceFields>[0] & {
    action: string;
    save: string;
    back: string;
    version?: number;
  },
) {
  const { rule, errors, refused, action, save, back, version } = props;
  return (
    <Form action={action} class="card" novalidate hidden={{ family: rule.id, version }}>
      {!refused && <NotAccepted entries={errors} />}
      <Problem error={refused} />
      <h2>{familyLabel(rule.id)}</h2>
      <DeviceFields {...props} />
      <p class="row">
        <Submit main>{save}</Submit>
        <a href={back}>Cancel</a>
      </p>
    </Form>
  );
}
