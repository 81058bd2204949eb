import { deviceLabel } from '../../charts/device-label.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { type MeasureId, measures } from '../../records/measure.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink, childPath } from '../parts/paths.js';
import { asked, WhatIfAnswer } from './what-if-answer.js';
import { WhatIfForm, type WhatIfFormProps } from './what-if-form.js';
import { WhatIfTabs } from './what-if-tabs.js';

export interface WhatIfSeveralProps extends WhatIfFormProps {
  /** The answer; null until something is asked that can be answered. */
  readonly then: DeviceForecast | null;
  /** Imagined readings the model does not believe, in words. */
  readonly doubts: readonly string[];
  readonly chart: { readonly drawn: Drawn; readonly measure: MeasureId } | null;
}

/** New room in several dimensions, a new cast, the next readings: what would the dates be? Nothing is saved. */
export function WhatIfSeveralPage(props: WhatIfSeveralProps) {
  const { child, device, read, now, then, chart } = props;
  const { format } = usePage();
  const base = childPath(child.id);
  const wrong = Object.entries(read.errors);
  return (
    <Layout title="What if, several at once">
      <p>
        <ChildLink {...child} />
      </p>
      <h1>What if several things change at once? {deviceLabel(device)}</h1>
      <WhatIfTabs base={base} deviceId={device.id} current="several" />
      <p class="notice">
        <strong>Nothing on this page is saved.</strong> It only answers; record a visit, an adjustment or a
        cast on their own pages.
      </p>
      {wrong.length > 0 && (
        <div class="error" role="alert">
          <p>Nothing was worked out. Please mend:</p>
          <ul>
            {wrong.map(([name, accepted]) => (
              <li key={name}>
                <a href={`#${name}`}>{fieldText(name)}</a>: accepted is {accepted}
              </li>
            ))}
          </ul>
        </div>
      )}
      {then && now && (
        <section aria-labelledby="answer">
          <h2 id="answer">{asked(read, format)}</h2>
          <WhatIfAnswer format={format} now={now} then={then} />
          {props.doubts.length > 0 && (
            <div class="flag check">
              {props.doubts.map((d) => (
                <p key={d}>{d}</p>
              ))}
            </div>
          )}
          {chart && (
            <Chart
              drawn={chart.drawn}
              label={`Growth chart of ${measures[chart.measure].label.toLowerCase()}, which limits it first, as it would stand; the dates are in the table above`}
            />
          )}
          <p class="hint">
            More room is not better fit, and an adjustment mends only the dimension it is made in. Readings
            count with their usual measuring error. Check skin and fit at every visit whatever the dates say.
          </p>
          <p class="no-print">
            <a href="#ask">Change the question</a>
          </p>
        </section>
      )}
      {!now && <Empty>This device is not in use, so there is no date to compare with.</Empty>}
      <WhatIfForm {...props} />
    </Layout>
  );
}

/** 'gain.foot_length' to 'Foot length'. */
const fieldText = (name: string): string => {
  if (name === 'on') return 'Day';
  const [kind, measure, side] = name.split('.');
  const label = measures[measure as MeasureId].label;
  if (kind === 'reading') return side === 'none' ? `${label}, reading` : `${label}, ${side}, reading`;
  return kind === 'gain' ? `${label}, room gained` : `${label}, room of a new cast`;
};
