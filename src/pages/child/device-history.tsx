import { deviceLabel } from '../../charts/device-label.js';
import { plainSeries } from '../../forecast/words.js';
import type { Device } from '../../records/device.js';
import { deviceFields, eventFields } from '../../records/record-fields.js';
import { LONGEST_REASON } from '../../records/records.js';
import { groupBy } from '../../statistics/group-by.js';
import type { DeviceVersion, EventRevision } from '../../store/contract.js';
import { endReasonNames, eventNames, fitNames } from '../../words/event-names.js';
import { Form, InputField, SelectField, Submit } from '../parts/form.js';
import type { Format } from '../parts/format.js';
import { Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { hipAngleText } from './hip-angle-text.js';
import { EventInput } from './record-input.js';

interface Own {
  readonly own: string;
  readonly device: Device;
  readonly events: readonly EventRevision[];
  readonly versions: readonly DeviceVersion[];
}

/** Everything that was recorded of a device, newest first, each entry with the way to put it right or take that back. */
export function DeviceHistory(props: Own) {
  const { events } = props;
  const own = [...groupBy(events, (r) => r.event.id).values()].toSorted((a, b) =>
    b.at(-1)!.event.date.localeCompare(a.at(-1)!.event.date),
  );
  return (
    <Section id="history" title="What was recorded">
      {own.length === 0 ? (
        <p>Nothing since the cast.</p>
      ) : (
        <ul class="history">
          {own.map((revisions) => (
            <Entry key={revisions[0].event.id} {...props} revisions={revisions} />
          ))}
        </ul>
      )}
      <Changes {...props} />
    </Section>
  );
}

function Entry(props: Own & { revisions: readonly EventRevision[] }) {
  const { own, device, revisions } = props;
  const { format, today } = usePage();
  const last = revisions.at(-1)!;
  const { event } = last;
  const id = event.id;
  const action = `${own}/events/${encodeURIComponent(id)}`;
  const text = `${format.date(event.date)}: ${eventText(event, format)}`;
  return (
    <li>
      {last.withdrawn ? <s>{text}</s> : text} <small>entered by {revisions[0].by}</small>
      {revisions.length > 1 && (
        <Form action={`${action}/undo`} class="row no-print">
          <small>
            {last.withdrawn ? 'Left out' : 'Corrected'} by {last.by}, {format.day(last.at)}: {last.reason}. It
            was entered as {format.date(revisions[0].event.date)}, {eventText(revisions[0].event, format)}.
          </small>
          <Submit class="quiet">Take that back</Submit>
        </Form>
      )}
      {!last.withdrawn && (
        <details class="no-print">
          <summary>Correct</summary>
          <Form action={action} class="row">
            <EventInput
              field="date"
              id={`date-${id}`}
              type="date"
              required
              value={event.date}
              min={device.castDate}
              max={today}
            />
            {event.kind === 'adjusted' && (
              <EventInput field="changeMm" id={`change-${id}`} value={event.changeMm ?? ''} />
            )}
            {event.kind === 'verdict' && (
              <SelectField
                label={eventFields.verdict.label}
                id={`verdict-${id}`}
                name="verdict"
                of={[
                  ...(event.verdict === null ? [['', 'not judged'] as const] : []),
                  ...Object.entries(fitNames),
                ]}
                chosen={event.verdict ?? ''}
              />
            )}
            {(['hipAngleLeft', 'hipAngleRight'] as const).map(
              (field) =>
                event[field] != null && (
                  <EventInput key={field} field={field} id={`${field}-${id}`} value={event[field]} />
                ),
            )}
            <EventInput field="note" id={`note-${id}`} value={event.note} />
            <InputField
              label="Why it is corrected"
              id={`reason-${id}`}
              name="reason"
              required
              maxLength={LONGEST_REASON}
            />
            <p class="row">
              <Submit>Correct</Submit>
              <Submit name="leaveOut" value="yes">
                Leave it out
              </Submit>
            </p>
          </Form>
        </details>
      )}
    </li>
  );
}

function eventText(e: EventRevision['event'], format: Format): string {
  return [
    eventNames[e.kind],
    e.endReason && endReasonNames[e.endReason],
    e.verdict && fitNames[e.verdict],
    e.measure && plainSeries({ measure: e.measure, side: e.side ?? 'none' }),
    e.changeMm !== null && `${e.changeMm > 0 ? '+' : ''}${format.stated(e.changeMm)} mm`,
    e.adjustment?.replace('-', ' '),
    hipAngleText(e.hipAngleLeft, e.hipAngleRight),
    e.note,
  ]
    .filter(Boolean)
    .join(', ');
}

/** What was changed of the device itself, and the one way back. */
function Changes({ own, versions }: Own) {
  const { format } = usePage();
  if (versions.length < 2) return null;
  return (
    <>
      <h3>Changes of the device's record</h3>
      <ul class="history">
        {versions.slice(0, -1).map((v, i) => (
          <li key={v.version}>
            {v.at && `${format.day(v.at)}: `}
            {changed(versions[i + 1].device, v.device, format).join('; ') || 'saved without a change'}{' '}
            <small>{v.by ? `by ${v.by}` : 'with an entry above'}</small>
          </li>
        ))}
      </ul>
      <Form action={`${own}/undo`} class="no-print">
        <Submit>Take the last change back</Submit>
      </Form>
    </>
  );
}

/** As the form calls them; what the form has under one heading is told apart here. */
const fieldNames: Partial<Record<keyof Device, string>> = {
  ...Object.fromEntries(Object.entries(deviceFields).map(([field, { label }]) => [field, label])),
  family: 'Family',
  allowancesMm: 'Growth allowed',
  limitsMm: 'Maker’s limit',
  extensionRangeMm: 'Side-bar travel',
  extra: 'Paid by',
};

/** 'Cast or scanned on: 3 May 2026, was 2 May 2026'. */
function changed(before: Device, after: Device, format: Format): string[] {
  const text = (field: keyof Device, device: Device): string => {
    const value = device[field];
    if (field === 'family') return deviceLabel(device);
    if (field === 'extra') return device.extra.funder ?? 'nobody said';
    if (value === null || value === undefined) return 'nothing';
    if (field === 'castDate' || field === 'fittedDate') return format.date(String(value));
    if (typeof value !== 'object') return String(value).replaceAll('-', ' ');
    const rooms = Object.entries(value).map(([m, mm]) => `${m.replaceAll('_', ' ')} ${mm} mm`);
    return rooms.join(', ') || 'none';
  };
  return (Object.keys(fieldNames) as (keyof Device)[])
    .map((field) => ({ field, now: text(field, after), was: text(field, before) }))
    .filter(({ now, was }) => now !== was)
    .map(({ field, now, was }) => `${fieldNames[field]}: ${now}, was ${was}`);
}
