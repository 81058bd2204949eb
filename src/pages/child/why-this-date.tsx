import { deviceLabel } from '../../charts/device-label.js';
import { counted } from '../../records/counted.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import { seriesText } from '../parts/format.js';
import { ScrollBox, Section } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

/** Less is not told: of a child too young for a tempo of its own it would read 0.0. */
const TOLD_YEARS = 0.05;

/** Inputs, model, and what would change the date: so that a clinician can disagree with it. */
export function WhyThisDate(props: {
  view: ChildView;
  tempo: { readonly mean: number; readonly sd: number } | null;
}) {
  const { view, tempo } = props;
  const { record, assessment, inUse } = view;
  const { format } = usePage();
  const dates = new Set(record.measurements.map((m) => m.date));
  const last = [...dates].toSorted().at(-1);
  return (
    <Section id="why" title="Why this date">
      <p>
        <strong>Inputs:</strong> {counted(record.measurements.length, 'reading')} on{' '}
        {counted(dates.size, 'date')}
        {last && ` (the last on ${format.date(last)})`}, {counted(record.markers.length, 'maturity marker')},{' '}
        {counted(record.events.filter((e) => e.kind === 'verdict').length, 'fit check')},{' '}
        {counted(record.events.filter((e) => e.kind === 'adjusted').length, 'adjustment')}.
      </p>
      <p>
        <strong>Method:</strong> the child's growth in all dimensions together, left and right apart, is
        estimated from these readings and a growth reference, with how sure that is. A device counts as
        outgrown on the first day one of its dimensions has used up its allowance; the dates above say how
        likely that is by when.
      </p>
      {tempo && Math.max(Math.abs(tempo.mean), tempo.sd) >= TOLD_YEARS && (
        <p>
          <strong>Tempo:</strong> this child matures about {format.number(Math.abs(tempo.mean), 1)} years{' '}
          {tempo.mean < 0 ? 'earlier' : 'later'} than the average of their sex, give or take{' '}
          {format.number(tempo.sd, 1)} years.
        </p>
      )}
      <ScrollBox label="What sets each date">
        <table>
          <caption>What sets each date</caption>
          <thead>
            <tr>
              <th scope="col">Dimension</th>
              <th scope="col" class="number">
                Allowance, mm
              </th>
              <th scope="col" class="number">
                Grown since cast, mm
              </th>
              <th scope="col" class="number">
                Limits it first
              </th>
            </tr>
          </thead>
          <tbody>
            {inUse.flatMap(({ device, forecast }) => [
              <tr key={device.id} class="group">
                <th scope="rowgroup" colspan={4}>
                  {deviceLabel(device)}, <small>cast {format.date(device.castDate)}</small>
                </th>
              </tr>,
              ...forecast.room.map((r) => (
                <tr key={`${device.id}${r.series.measure}${r.series.side}`}>
                  <td>{seriesText(r.series)}</td>
                  <td class="number">{format.stated(r.allowanceMm)}</td>
                  <td class="number">
                    {format.number(r.grownMm)} ± {format.number(r.grownSdMm)}
                  </td>
                  <td class="number">
                    {format.percent(
                      forecast.drivers.find(
                        (d) => d.series.measure === r.series.measure && d.series.side === r.series.side,
                      )?.share ?? 0,
                    )}
                  </td>
                </tr>
              )),
            ])}
          </tbody>
        </table>
      </ScrollBox>
      <p>
        <strong>What would change it:</strong> a new measurement of the dimension that limits it; a judgement
        of the fit (fits well, tight, outgrown, loose) at a review, which tells where this device's real limit
        is; an adjustment; a maturity marker such as a bone age in a child near the growth spurt; another
        allowance.
      </p>
      <p class="hint">
        Model {assessment.modelName} {assessment.modelVersion}, as of {format.date(assessment.today)}.
        Allowances and their sources are in the <a href="/fit-rules">fit rules</a>; a clinician can set them
        for the clinic or per device. For dimensions nobody has followed over years in children (foot, ankle,
        knee and hip heights) the bands are widened.
      </p>
    </Section>
  );
}
