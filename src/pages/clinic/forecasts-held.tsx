import { AHEAD_DAYS, type HeldAgainstVerdicts } from '../../forecast/device/held-against-verdicts.js';
import { median } from '../../statistics/median.js';
import { Empty, Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';

/** With fewer judged devices shares would say more than is known. */
export const FEWEST_JUDGED = 10;

/** Did the dates hold? The clinic's own forecasts against its own verdicts, in numbers. */
export function ForecastsHeld({ held }: { held: HeldAgainstVerdicts }) {
  const { format } = usePage();
  if (held.judged < FEWEST_JUDGED)
    return (
      <Section id="held" title="Forecast against what happened">
        <Empty>
          {held.judged === 0 ? 'No device' : `Only ${held.judged} of ${held.devices} devices`} with a forecast
          made at least {AHEAD_DAYS} days ahead {held.judged === 1 || held.judged === 0 ? 'has' : 'have'} been
          judged outgrown so far. From {FEWEST_JUDGED} on this shows whether the dates held. Record a verdict
          at every review, and it fills itself.
        </Empty>
      </Section>
    );
  const middle = Math.round(median(held.distanceDays) ?? 0);
  const days = (n: number) => `${format.number(Math.abs(n))} ${Math.abs(n) === 1 ? 'day' : 'days'}`;
  return (
    <Section id="held" title="Forecast against what happened">
      <p>
        Every forecast gives three dates: by the first, 1 device in 10 should be outgrown; by the second,
        half; by the third, 9 in 10. This counts what clinicians found for the {held.devices} devices with a
        forecast made at least {AHEAD_DAYS} days before its first date; {held.judged} of them were judged
        outgrown.
        {held.lookedBack > 0 &&
          ` For ${held.lookedBack} the forecast was made afterwards, for a day before doorpost was in use, from the record as it stood on that day.`}
      </p>
      <Table
        class="stack"
        scroll="Devices outgrown by each date of their forecast"
        caption="Devices outgrown by each date of their forecast, once the date has passed"
        rows={held.dates.map((d) => ({ ...d, n: d.outgrown + d.between + d.fitted }))}
        columns={[
          ['Date', (d) => `${format.percent(d.chance)} date`],
          ['Should be', (d) => format.percent(d.chance), 'number'],
          [
            'Judged outgrown by then',
            (d) => (d.share === null ? 'none yet' : `${d.outgrown} of ${d.n} (${format.percent(d.share)})`),
            'number',
          ],
          [
            'With those judged later',
            (d) =>
              d.mostShare === null
                ? '–'
                : `${d.outgrown + d.between} of ${d.n} (${format.percent(d.mostShare)})`,
            'number',
          ],
          [
            '95 % interval',
            (d) => (d.share === null ? '–' : `${format.percent(d.low)} to ${format.percent(d.high)}`),
            'number',
          ],
          ['Not known', (d) => d.unknown, 'number'],
        ]}
      />
      <ul class="notes">
        <li>
          <strong>Outgrown is found late.</strong> A device is judged at a visit, so the day it was outgrown
          lies somewhere between the visit before and that visit
          {held.visitGapDays !== null && `: here ${days(held.visitGapDays)} apart for the middle device`}. A
          device that still fitted before the date and was judged outgrown after it may or may not have been
          outgrown by then: it counts under ‘with those judged later’, not under ‘judged outgrown by then’.
          The truth lies between the two.
        </li>
        <li>
          <strong>Is it off?</strong> Only where the 95 % interval (Wilson) misses what should be. With few
          devices the interval is wide, and little can be said.
        </li>
        <li>
          <strong>Who is missing?</strong> Not known are devices replaced, reshaped or not judged since the
          date. A clinic that replaces in time has many of them, and the shares of the others then look too
          high. A device reshaped by hand counts anew with the next forecast. Devices of one child are counted
          each, though they grow together.
        </li>
        <li>
          <strong>Middle date.</strong>{' '}
          {middle === 0
            ? 'The middle device was found outgrown on the middle date.'
            : `The middle device was found outgrown ${days(middle)} ${middle > 0 ? 'after' : 'before'} it.`}{' '}
          Only devices judged outgrown count here; those that still fit would come later.
        </li>
      </ul>
    </Section>
  );
}
