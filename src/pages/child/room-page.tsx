import { deviceLabel } from '../../charts/device-label.js';
import { plainSeries } from '../../forecast/words.js';
import type { Device } from '../../records/device.js';
import type { Child } from '../../records/records.js';
import { Form, InputField, SelectField, Submit } from '../parts/form.js';
import { ChildLayout, Empty } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { devicePath } from '../parts/paths.js';
import { Table } from '../parts/table.js';
import { sizeField } from './device-form.js';
import { chosenRoom, monthsAsked, monthsInForce, oddsAsked, type RoomRow } from './room-table.js';

export interface RoomPageProps {
  readonly child: Child;
  readonly device: Device;
  /** The device and its twin, left first. */
  readonly devices: readonly Device[];
  readonly rows: readonly RoomRow[];
  readonly months: number;
  readonly odds: (typeof oddsAsked)[number];
}

/** How much room the next one needs to last: every dimension and side at once, carried to the cast by one button. */
export function RoomPage({ child, device, devices, rows, months, odds }: RoomPageProps) {
  const { format } = usePage();
  const m = monthsAsked.indexOf(months);
  const o = oddsAsked.indexOf(odds);
  return (
    <ChildLayout
      child={child}
      title="Room for the next cast"
      heading={`Room for the next ${deviceLabel(device)}, cast today`}
      scripts={['room.js']}
    >
      {rows.length === 0 ? (
        <Empty>Too few readings to answer. Measure this child first.</Empty>
      ) : (
        <section
          id="room-table"
          data-rows={JSON.stringify(rows.map(answers))}
          data-months={JSON.stringify(monthsAsked)}
        >
          <Form method="get" class="row" hidden={{ device: device.id }}>
            <InputField
              label={
                <>
                  It is to last <output for="months">{months}</output> months
                </>
              }
              name="months"
              type="range"
              wide
              min={monthsAsked[0]}
              max={monthsAsked.at(-1)}
              value={months}
            />
            <SelectField
              label="in so many of 100 children like this one"
              name="odds"
              of={oddsAsked.map((p) => [String(p), Math.round(p * 100)] as const)}
              chosen={String(odds)}
            />
            <p>
              <Submit class="without-script">Show</Submit>
            </p>
          </Form>
          <Table
            class="stack"
            scroll="Room by dimension and side"
            caption="What the room in force lasts shortest for is on top. All lengths in mm, rounded up. Side bars count; what straps and flares can still give does not."
            rows={rows}
            columns={[
              ['Dimension', (r) => plainSeries(r.series)],
              ['Room needed', (r) => <strong data-needed>{r.neededMm[o][m]}</strong>, 'number'],
              [
                'In force now',
                ({ inForceMm, bar }) =>
                  `${format.stated(inForceMm)}${bar?.travelMm ? ` + ${format.stated(bar.travelMm)} by the bar` : ''}`,
                'number',
              ],
              ['In force lasts', (r) => <span data-lasts>{lastsText(monthsInForce(r, o))}</span>, 'number'],
              ['For the next one', (r) => <span data-chosen>{chosenText(r, r.neededMm[o][m])}</span>],
            ]}
          />
          <div class="row">
            {devices.map((d) => (
              <Form method="get" key={d.id} action={devicePath(child.id, d.id, '/next')} data-device={d.id}>
                {roomFields(
                  rows.filter((r) => r.deviceId === d.id),
                  o,
                  m,
                ).map(([name, mm]) => (
                  <input key={name} type="hidden" name={name} value={mm} />
                ))}
                <Submit main>Cast the next {deviceLabel(d)} with this room</Submit>
              </Form>
            ))}
          </div>
          <p class="hint">
            More room is not better fit: too long a plate spoils rollover and shoe fit, and a loose girth lets
            the shell move. Where more is needed than the device can take, plan the next cast earlier. The
            clinician decides; nothing is saved on this page.
          </p>
        </section>
      )}
    </ChildLayout>
  );
}

/** Fields of the next one's form: one figure a measure, the larger side's where one frame is for both. */
export function roomFields(rows: readonly RoomRow[], odds: number, month: number): [string, number][] {
  const fields = new Map<string, number>();
  const most = (name: string, mm: number) => fields.set(name, Math.max(fields.get(name) ?? 0, mm));
  for (const row of rows) {
    const { allowanceMm, barMm } = chosenRoom(row, row.neededMm[odds][month]);
    most(sizeField('allowancesMm', row.series.measure), allowanceMm);
    if (barMm !== null) most(sizeField('extensionRangeMm', row.series.measure), barMm);
  }
  return [...fields];
}

function lastsText(months: number | null): string {
  if (months === null) return `under ${monthsAsked[0]} months`;
  return months === monthsAsked.at(-1) ? `${months} months or more` : `${months} months`;
}

function chosenText(row: RoomRow, needed: number): string {
  const { allowanceMm, barMm } = chosenRoom(row, needed);
  const allowance = `allowance ${Math.round(allowanceMm)}`;
  if (barMm !== null) return `${allowance}, bar ${barMm}`;
  if (!row.builtIn && needed > allowanceMm) return `${allowance}, made to the cast: adjust, or cast sooner`;
  const more = Math.round(allowanceMm - row.usualMm);
  return more > 0 ? `${allowance}, ${more} more than usual` : allowance;
}

/** What the slider of the page shows of a row for all odds and months, so that no rule is written twice. */
const answers = (row: RoomRow) => ({
  deviceId: row.deviceId,
  byOdds: oddsAsked.map((_, o) => ({
    lasts: lastsText(monthsInForce(row, o)),
    byMonth: row.neededMm[o].map((needed, m) => ({
      needed,
      text: chosenText(row, needed),
      fields: roomFields([row], o, m),
    })),
  })),
});
