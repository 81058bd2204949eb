import { deviceLabel, familyLabel } from '../../charts/device-label.js';
import type { Device } from '../../records/device.js';
import { deviceFields } from '../../records/record-fields.js';
import type { Child } from '../../records/records.js';
import type { FamilyRule, FitRules } from '../../rules/fit-rule.js';
import { Problem, SelectField } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink, childPath, devicePath } from '../parts/paths.js';
import type { Fields } from '../parts/route-types.js';
import { DeviceFields } from './device-fields.js';
import { ChildAlerts } from './visit-devices.js';

interface Asked {
  readonly child: Child;
  readonly rule: FamilyRule;
  readonly typed: Fields;
  readonly errors: Readonly<Record<string, string>>;
  readonly refused: string;
  readonly others: readonly Device[];
}

/** A device of a family chosen first, because what limits it depends on that. */
export function NewDevicePage(props: Asked & { rules: FitRules }) {
  const { child, rule, rules } = props;
  const base = childPath(child.id);
  return (
    <Layout title="New device" scripts={['device.js']}>
      <Opening child={child} title="New device" />
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
      <Ask {...props} action={`${base}/devices`} pairs={true} save="Save device" back={base} />
    </Layout>
  );
}

/** The next one of a device: filled in as the one before, or with what the what-if table found. */
export function NextDevicePage(props: Asked & { before: Device }) {
  const { format } = usePage();
  const { child, before } = props;
  const base = childPath(child.id);
  const own = devicePath(child.id, before.id);
  return (
    <Layout title="Cast the next one">
      <Opening child={child} title={`Cast the next ${deviceLabel(before)}`} />
      <p>
        Filled in as the one cast on {format.date(before.castDate)}; change what is to be different. How much
        room should it have?{' '}
        <a href={`${base}/what-if/next?device=${encodeURIComponent(before.id)}`}>
          Room for 9 months, all dimensions
        </a>
      </p>
      <Ask
        {...props}
        next
        action={`${own}/next`}
        pairs={false}
        save="Cast, and open the workshop slip"
        back={base}
      />
    </Layout>
  );
}

/** A device put right: what was typed wrongly, or learned later. */
export function EditDevicePage(props: Asked & { device: Device; version: number }) {
  const { child, device, version } = props;
  const own = devicePath(child.id, device.id);
  return (
    <Layout title="Correct a device">
      <Opening child={child} title={`Correct: ${deviceLabel(device)}`} />
      <p>
        What it was before stays on record and can be brought back on the <a href={own}>device's page</a>.
      </p>
      <Ask {...props} action={`${own}/edit`} pairs={false} save="Save" back={own} version={version} />
    </Layout>
  );
}

function Opening({ child, title }: { child: Child; title: string }) {
  return (
    <>
      <p>
        <ChildLink {...child} />
      </p>
      <h1>{title}</h1>
      <ChildAlerts child={child} />
    </>
  );
}

function Ask(
  props: Asked & {
    action: string;
    pairs: boolean;
    save: string;
    back: string;
    version?: number;
    next?: boolean;
  },
) {
  const { rule, errors, refused, action, save, back, version } = props;
  const wrong = Object.keys(errors).length;
  return (
    <Form action={action} class="card" novalidate hidden={{ family: rule.id }}>
      {version !== undefined && <input type="hidden" name="version" value={version} />}
      {wrong > 0 && !refused && (
        <p class="error" role="alert">
          {wrong === 1 ? 'One entry' : `${wrong} entries`} cannot be accepted. Nothing was saved yet; what you
          typed is still here.
        </p>
      )}
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
