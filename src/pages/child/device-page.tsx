import { deviceLabel } from '../../charts/device-label.js';
import { adjusting, capital } from '../../forecast/words.js';
import { isBeingMade } from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import { type AdjustmentKind, adjustmentKinds, type Device, endReasons } from '../../records/device.js';
import { type MeasureId, measures } from '../../records/measure.js';
import { eventFields } from '../../records/record-fields.js';
import type { Child } from '../../records/records.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { holdsHips } from '../../rules/fit-rule.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import type { DeviceVersion, EventRevision } from '../../store/contract.js';
import { endReasonNames, eventNames, fitNames } from '../../words/event-names.js';
import { Form, SelectField, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath, devicePath, Go } from '../parts/paths.js';
import { DeviceCard } from './device-card.js';
import { DeviceHistory } from './device-history.js';
import { EventInput } from './record-input.js';
import { ChildAlerts } from './visit-devices.js';

interface DevicePageProps {
  readonly child: Child;
  readonly device: Device;
  /** The device it takes the place of, while that one is still worn. */
  readonly replaced: Device | null;
  readonly view: DeviceView | null;
  readonly rule: FamilyRule | null;
  readonly events: readonly EventRevision[];
  readonly versions: readonly DeviceVersion[];
}

/** One device: its fit judged, adjusted, delivered, ended; everything recorded of it, to be put right. */
export function DevicePage(props: DevicePageProps) {
  const { child, device, view } = props;
  const base = childPath(child.id);
  const own = devicePath(child.id, device.id);
  return (
    <Layout title={deviceLabel(device)}>
      <p>
        <a href={base}>{child.name || child.id}</a>
      </p>
      <div class="row between">
        <h1>{deviceLabel(device)}</h1>
        <p class="row no-print">
          {device.status !== 'ordered' && !isBeingMade(view?.decision?.reason.code) && (
            <Go main to={`${own}/next`}>
              Cast the next one
            </Go>
          )}
          <Go to={`${own}/slip`}>Workshop slip</Go>
          <Go to={`${own}/edit`}>Correct the device</Go>
        </p>
      </div>
      <ChildAlerts child={child} />
      <div class="cards">
        {view ? (
          <DeviceCard childId={child.id} view={view} named={false} />
        ) : (
          <p class="empty">Not in use: {device.status === 'retired' ? 'no longer worn' : 'no forecast'}.</p>
        )}
        <div class="no-print">
          {device.status === 'ordered' ? (
            <Delivered {...props} own={own} />
          ) : (
            <>
              <Judge {...props} own={own} />
              <Adjust {...props} own={own} />
            </>
          )}
          <End {...props} own={own} />
        </div>
      </div>
      <DeviceHistory {...props} own={own} />
    </Layout>
  );
}

type Own = DevicePageProps & { readonly own: string };

function Day({ id, device }: { id: string } & Pick<DevicePageProps, 'device'>) {
  const { today } = usePage();
  return (
    <EventInput field="date" id={id} type="date" required value={today} min={device.castDate} max={today} />
  );
}

/** The dimensions of the family, and the side where one frame is for both. */
function Where(props: { id: string; whole: string; chosen?: MeasureId } & Pick<Own, 'rule' | 'device'>) {
  const { id, whole, chosen, rule, device } = props;
  return (
    <>
      <SelectField
        label={eventFields.measure.label}
        id={`${id}-measure`}
        name="measure"
        required={!whole}
        of={[
          ...(chosen ? [] : [['', whole || 'choose'] as const]),
          ...(rule?.dimensions ?? []).map((d) => [d.measure, measures[d.measure].label] as const),
        ]}
        chosen={chosen}
      />
      {device.side === 'both' && (
        <SelectField
          label={eventFields.side.label}
          id={`${id}-side`}
          name="side"
          of={[
            ['', 'both'],
            ['left', 'left'],
            ['right', 'right'],
          ]}
        />
      )}
    </>
  );
}

function Judge(props: Own) {
  const { own } = props;
  return (
    <section id="judge">
      <h2>Judge the fit</h2>
      <Form action={`${own}/events`} hidden={{ kind: 'verdict' }}>
        <fieldset class="row">
          <legend>Fit on the day</legend>
          {Object.entries(fitNames).map(([v, words]) => (
            <label key={v}>
              <input type="radio" name="verdict" value={v} required /> {words}
            </label>
          ))}
        </fieldset>
        <div class="row">
          <Where id="judge" whole="the whole device" {...props} />
          <Day id="judge-date" {...props} />
          {holdsHips(props.rule) && (
            <div class="row">
              <EventInput field="hipAngleLeft" id="judge-left" size={4} />
              <EventInput field="hipAngleRight" id="judge-right" size={4} />
            </div>
          )}
          <EventInput field="note" id="judge-note" wide />
          <p>
            <Submit main>Save the judgement</Submit>
          </p>
        </div>
        <p class="hint">
          What you see says where this device's real limit is; the dates move with it. Redness that lasts over
          20 minutes outranks every date.
        </p>
      </Form>
    </section>
  );
}

function Adjust(props: Own) {
  const { format } = usePage();
  const { own, view, rule } = props;
  const step = view?.decision?.adjust;
  const ruled = rule?.dimensions.flatMap((d) => d.adjustments.map((a) => a.kind)) ?? [];
  // What this family can have done to it first.
  const others = [...adjustmentKinds, 'other' as const];
  const ways = [...new Set([...(step ? [step.what as AdjustmentKind] : []), ...ruled, ...others])];
  return (
    <section id="adjust">
      <h2>Adjusted</h2>
      {step && (
        <p>
          Wanted by {format.date(step.by)}: {adjusting[step.what as AdjustmentKind] ?? 'an adjustment'},{' '}
          {measures[step.measure].label.toLowerCase()}, {Math.round(step.mm)} mm
          {step.steps ? `, ${counted(step.steps, 'hole')}` : ''}.
        </p>
      )}
      <Form action={`${own}/events`} class="row" hidden={{ kind: 'adjusted' }} send="Save the adjustment">
        <Where id="adjusted" whole="" chosen={step?.measure} {...props} />
        <EventInput field="changeMm" id="change" />
        <SelectField
          label={eventFields.adjustment.label}
          name="adjustment"
          of={ways.map((a) => [a, a.replace('-', ' ')] as const)}
        />
        <Day id="adjusted-date" {...props} />
      </Form>
      <p class="hint">An adjustment resets its own dimension and no other.</p>
    </section>
  );
}

/** Being made: the day it is fitted, and what becomes of the one before. */
function Delivered(props: Own) {
  const { format } = usePage();
  const { own, replaced } = props;
  return (
    <section id="delivered">
      <h2>Fitted</h2>
      <Form action={`${own}/delivery`} class="row" send="Save: fitted and worn" main>
        <Day id="delivered-date" {...props} />
        {replaced && (
          <SelectField
            label={`The one before, ${deviceLabel(replaced)}, cast ${format.date(replaced.castDate)}`}
            name="retireReplaced"
            of={reasonsOr('stays in use')}
            chosen="outgrown"
          />
        )}
      </Form>
    </section>
  );
}

function End(props: Own) {
  const { own, device } = props;
  if (device.status === 'retired') return null;
  return (
    <section id="retire">
      <h2>Broken, lost, no longer worn</h2>
      <Form action={`${own}/events`} class="row" send="Save">
        <SelectField
          label={eventFields.kind.label}
          name="kind"
          of={(['retired', 'broken', 'lost'] as const).map((k) => [k, eventNames[k]] as const)}
        />
        <SelectField
          label={eventFields.endReason.label}
          name="endReason"
          of={reasonsOr('not said')}
          chosen=""
        />
        <Day id="end-date" {...props} />
        <EventInput field="note" id="end-note" wide />
      </Form>
    </section>
  );
}

const reasonsOr = (stays: string) =>
  [['', stays], ...endReasons.map((r) => [r, capital(endReasonNames[r])] as const)] as const;
