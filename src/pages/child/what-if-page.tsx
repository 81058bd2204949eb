import { deviceLabel } from '../../charts/device-label.js';
import type { Device } from '../../records/device.js';
import { type MeasureId, measures } from '../../records/measure.js';
import type { Child } from '../../records/records.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { ChildLink, childPath } from '../parts/paths.js';
import { type Column, Table } from '../parts/table.js';
import { odds, type WhatIf } from './what-if.js';
import { WhatIfTabs } from './what-if-tabs.js';

/** Before a cast: how long would each amount of room last? A slider moves the chart; the table is the same without script. */
export function WhatIfPage(props: {
  child: Child;
  device: Device;
  limiting: readonly MeasureId[];
  answer: WhatIf | null;
  /** The dimension asked for, where no growth reference tells how it grows. */
  unknown: MeasureId | null;
  drawn: Drawn;
}) {
  const { child, device, limiting, answer, unknown, drawn } = props;
  const { format, today } = usePage();
  const base = childPath(child.id);
  const shown = answer?.lives.filter(
    (_, i, all) => i % Math.ceil(all.length / 12) === 0 || i === all.length - 1,
  );
  const until = (date: string | null) => (date ? format.date(date) : 'over 5 years');
  return (
    <Layout title="What if" scripts={answer ? ['what-if.js'] : []}>
      <p>
        <ChildLink {...child} />
      </p>
      <h1>What if the next {deviceLabel(device)} were cast today?</h1>
      <WhatIfTabs base={base} deviceId={device.id} limiting={limiting} current={answer?.measure ?? unknown} />
      {!answer ? (
        <Empty>
          {unknown
            ? `No growth reference tells how ${measures[unknown].label.toLowerCase()} grows in this child, so the room it needs is judged at the fitting. Choose another dimension above.`
            : 'Too few readings to answer. Measure this child first.'}
        </Empty>
      ) : (
        <>
          <section
            id="what-if"
            data-json={`${base}/charts/what-if.json?device=${encodeURIComponent(device.id)}&measure=${answer.measure}`}
            data-usual={answer.usualMm}
            data-locale={format.locale}
          >
            <p>
              One dimension at a time: {measures[answer.measure].label.toLowerCase()}, judged from a cast on{' '}
              {format.date(today)}. Another dimension may limit it first: ask for{' '}
              <a href={`${base}/what-if/several?device=${encodeURIComponent(device.id)}&how=new-cast`}>
                several at once
              </a>
              . Nothing is saved here.
            </p>
            <p class="field">
              <label for="room">
                Room from the cast, mm{' '}
                <small>
                  usual allowance {format.number(answer.usualMm)} mm
                  {answer.sideBarMm > 0 && `, side bars add up to ${format.number(answer.sideBarMm)} mm`}
                </small>
              </label>
              <input
                id="room"
                type="range"
                min={answer.lives[0].allowanceMm}
                max={answer.lives[answer.lives.length - 1].allowanceMm}
                step={answer.lives[1].allowanceMm - answer.lives[0].allowanceMm}
                value={answer.usualMm}
                class="needs-script"
              />
            </p>
            <p class="band" id="room-answer" role="status" />
            <Chart
              drawn={drawn}
              id="room"
              label="Growth chart with the limit and the outgrown band for the room chosen; the same figures are in the table"
            />
          </section>
          <div class="cards">
            <section>
              <h2>How long each amount of room lasts</h2>
              <Table
                rows={shown ?? []}
                columns={[
                  ['Room, mm', (l) => l.allowanceMm, 'number'],
                  ['9 in 10 still fit', (l) => until(l.p10)],
                  ['as likely as not', (l) => until(l.p50)],
                  ['9 in 10 outgrown', (l) => until(l.p90)],
                ]}
              />
            </section>
            <section>
              <h2>Room needed to last</h2>
              <Table
                rows={answer.needed}
                columns={[
                  ['Months', (n) => n.months],
                  ...odds.map(
                    (p, i): Column<{ readonly mm: readonly number[] }> => [
                      `at ${format.percent(p)}, mm`,
                      (n) => Math.ceil(n.mm[i]),
                      'number',
                    ],
                  ),
                ]}
              />
              <p class="hint">
                More room is not better fit: too long a plate spoils rollover and shoe fit. The clinician
                decides what the device may take.
              </p>
            </section>
          </div>
        </>
      )}
    </Layout>
  );
}
