import { deviceLabel } from '../../charts/device-label.js';
import { plainSeries } from '../../forecast/words.js';
import type { Child } from '../../records/records.js';
import type { FamilyRule } from '../../rules/fit-rule.js';
import { fullAtMm } from '../../rules/room-left.js';
import { ageText, type Format } from '../parts/format.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink } from '../parts/paths.js';
import { Facts, noted, Table } from '../parts/table.js';
import { asksPlate, plates } from './device-form.js';
import { hipSetText } from './hip-angle-text.js';
import { ChildAlerts } from './visit-devices.js';
import type { SlipRow, WorkshopSlip } from './workshop-slip.js';

/** What goes to the bench with the cast: one sheet, alerts in large, to be printed or saved as PDF. */
export function WorkshopSlipPage(props: { child: Child; rule: FamilyRule | null; slip: WorkshopSlip }) {
  const { child, rule, slip } = props;
  const { device, rows } = slip;
  const { format, today } = usePage();
  const bars = rows.some((r) => r.barMm !== null);
  const maker = rows.some((r) => r.makerLimitMm !== null);
  return (
    <Layout title="Workshop slip" kind="sheet" scripts={['print.js']}>
      <p class="row no-print">
        <ChildLink {...child} />
        <button type="button" class="main-action" data-prints hidden>
          Print, or save as PDF
        </button>
      </p>
      <article class="slip">
        <h1>Workshop slip: {deviceLabel(device)}</h1>
        <div class="slip-alerts">
          <ChildAlerts child={child} />
        </div>
        <Facts
          of={[
            [
              'Child',
              <>
                <strong>{child.name || child.id}</strong>, {child.id}, born {format.date(child.birthDate)} (
                {ageText(child.birthDate, today)})
              </>,
            ],
            ['Side', <strong>{device.side === 'both' ? 'both sides' : device.side}</strong>],
            ['Cast', format.longDate(device.castDate)],
            [
              device.fittedDate === null ? 'Ready to fit by' : 'Fitted',
              <strong>{dueText(slip, today, format)}</strong>,
            ],
            rule !== null && asksPlate(rule) && ['Footplate', plates[device.footplate]],
            hipSetText(device) !== '' && ['Hip abduction set', <strong>{hipSetText(device)}</strong>],
            !!device.extra.funder && ['Paid by', device.extra.funder],
          ]}
        />
        {rows.length === 0 ? (
          <p class="empty">No fit rule for this family: write sizes and room by hand.</p>
        ) : (
          <Table
            class="stack"
            scroll="Sizes and room"
            caption="Sizes in mm. Only what has a figure under Make to is made larger than the body; joint axes, edges and all else are made to the cast. It serves until the body has the size under Serves up to, before anything is adjusted."
            rows={rows}
            columns={[
              ['Dimension', plainSeries],
              ['Size', (r) => sizeText(r, device.castDate, format), 'number'],
              [
                'Make to',
                (r) => (r.builtIn ? <strong>{madeLarger(r, format)}</strong> : 'the cast'),
                'number',
              ],
              [
                'Growth allowed',
                (r) => noted(format.stated(Math.round(r.allowanceMm)), r.chosen && 'chosen'),
                'number',
              ],
              [
                'Serves up to',
                (r) => (r.servesToMm === null ? '' : format.number(fullAtMm(r.servesToMm))),
                'number',
              ],
              maker && ["Maker's limit", (r) => r.makerLimitMm ?? '', 'number'],
              bars && ['Bar travel', (r) => (r.barMm === null ? '' : barText(r, format)), 'number'],
              ['Trim and landmark', (r) => r.landmark],
            ]}
          />
        )}
        <div class="slip-hand">
          <p>Colour, straps, padding:</p>
          <p>Remarks:</p>
          <p>Cast taken by (name):</p>
          <p>Made by (name), on:</p>
        </div>
        <p class="hint">
          Sizes expected and not read are estimates. A licensed practitioner answers for what is made and
          checks fit and skin at the fitting.
        </p>
      </article>
    </Layout>
  );
}

function sizeText({ read, expectedMm }: SlipRow, castDate: string, format: Format): string {
  if (read && read.date === castDate) return format.stated(read.value);
  const expected = expectedMm === null ? '' : `about ${format.number(expectedMm)}`;
  if (!read) return expected || 'not measured';
  return `${expected ? `${expected}; ` : ''}read ${format.stated(read.value)} on ${format.date(read.date)}`;
}

/** What is made larger never reads as made to the cast, also where the size or the room is not known. */
export function madeLarger({ madeToMm, allowanceMm }: SlipRow, format: Format): string {
  return madeToMm === null
    ? `the cast and ${format.stated(Math.round(allowanceMm))}`
    : format.number(fullAtMm(madeToMm));
}

const barText = ({ barMm, holeMm }: SlipRow, format: Format): string =>
  barMm === 0 ? 'none' : `${format.stated(barMm!)}${holeMm ? `, holes of ${format.stated(holeMm)}` : ''}`;

/** The earlier of the two days; without a day left, as soon as possible. */
function dueText(slip: WorkshopSlip, today: string, format: Format): string {
  const { device, fittedBy, neededBy } = slip;
  if (device.fittedDate !== null) return format.longDate(device.fittedDate);
  if (neededBy !== null && neededBy <= today) return 'as soon as possible: the present one may be beyond use';
  if (neededBy !== null && (fittedBy === null || neededBy < fittedBy))
    return `${format.longDate(neededBy)}: the present one is expected to serve until then`;
  return fittedBy === null ? 'to be agreed' : format.longDate(fittedBy);
}
