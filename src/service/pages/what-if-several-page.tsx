import { deviceLabel } from '../../charts/device-label.js';
import type { Device } from '../../devices/contract.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { daysBetween, type IsoDate } from '../../measurements/dates.js';
import { type MeasureId, measures, type Series, seriesKey } from '../../measurements/measure.js';
import type { Child } from '../../measurements/records.js';
import type { ExpectedSize } from './expected-sizes.js';
import { type Format, seriesText } from './format.js';
import { Empty, Layout, ScrollBox } from './layout.js';
import { outgrownText } from './outgrown-text.js';
import type { PageContext } from './page-context.js';
import { expectedText } from './visit-page.js';
import {
  type Dimension,
  furthest,
  gainField,
  type ReadWhatIf,
  readingField,
  readSeries,
  roomField,
} from './what-if-several.js';
import { WhatIfTabs } from './what-if-tabs.js';

export interface WhatIfSeveralProps {
  readonly context: PageContext;
  readonly child: Child;
  readonly device: Device;
  readonly dimensions: readonly Dimension[];
  readonly read: ReadWhatIf;
  readonly expected: readonly ExpectedSize[];
  readonly now: DeviceForecast | null;
  /** The answer; null until something is asked that can be answered. */
  readonly then: DeviceForecast | null;
  /** Imagined readings the model does not believe, in words. */
  readonly doubts: readonly string[];
  readonly chart: { readonly svg: string; readonly measure: MeasureId } | null;
}

/** New room in several dimensions, a new cast, the next readings: what would the dates be? Nothing is saved. */
export function WhatIfSeveralPage(props: WhatIfSeveralProps) {
  const { context, child, device, dimensions, read, now, then, chart } = props;
  const { format } = context;
  const base = `/children/${encodeURIComponent(child.id)}`;
  const wrong = Object.entries(read.errors);
  return (
    <Layout title="What if, several at once" context={context}>
      <p>
        <a href={base}>{child.name || child.id}</a>
      </p>
      <h1>What if several things change at once? {deviceLabel(device)}</h1>
      <WhatIfTabs
        base={base}
        deviceId={device.id}
        limiting={dimensions.map((d) => d.measure)}
        current="several"
      />
      <p class="notice">
        <strong>Nothing on this page is saved.</strong> It only answers; record a visit, an adjustment or a
        cast on their own pages.
      </p>
      {wrong.length > 0 && (
        <div class="error" role="alert">
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
          <Answer format={format} now={now} then={then} />
          {props.doubts.length > 0 && (
            <div class="flag check">
              {props.doubts.map((d) => (
                <p key={d}>{d}</p>
              ))}
            </div>
          )}
          {chart && (
            <figure
              class="chart"
              // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide chart scrolls sideways and must be reachable by keyboard.
              tabIndex={0}
              role="img"
              aria-label={`Growth chart of ${measures[chart.measure].label.toLowerCase()}, which gives first, as it would stand; the dates are in the table above`}
              dangerouslySetInnerHTML={{ __html: chart.svg.replace('<svg ', '<svg aria-hidden="true" ') }}
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
      <AskForm {...props} />
    </Layout>
  );
}

/** 'Knee joint height' of 'Knee joint height (tibiale)'. */
const shortLabel = (m: MeasureId) => measures[m].label.replace(/ \(.*\)$/, '');

/** 'gain.foot_length' to 'Foot length'. */
const fieldText = (name: string): string => {
  if (name === 'on') return 'Day';
  const [kind, measure, side] = name.split('.');
  const label = measures[measure as MeasureId].label;
  if (kind === 'reading') return side === 'none' ? `${label}, reading` : `${label}, ${side}, reading`;
  return kind === 'gain' ? `${label}, room gained` : `${label}, room of a new cast`;
};

function asked({ imagined }: ReadWhatIf, format: Format): string {
  const { on, how, roomMm, readings } = imagined;
  const rooms = Object.entries(roomMm).map(([m, mm]) => {
    const gained = how === 'keep' && mm > 0 ? '+' : '';
    return `${shortLabel(m as MeasureId).toLowerCase()} ${gained}${format.number(mm, mm % 1 ? 1 : 0)} mm`;
  });
  const sizes = readings.map(
    ({ series, value }) =>
      `${seriesText(series)} ${format.number(value, value % 1 ? 1 : 0)} ${measures[series.measure].unit}`,
  );
  const parts = [
    how === 'new-cast'
      ? `a new one cast${rooms.length > 0 ? ` with room ${rooms.join(', ')}` : ' with the usual room'}`
      : rooms.length > 0 && `room gained: ${rooms.join(', ')}`,
    sizes.length > 0 && `read: ${sizes.join(', ')}`,
  ].filter(Boolean);
  return `If on ${format.date(on)} ${parts.join('; ')}`;
}

/** Chance that a forecast gives of being outgrown by a day, in words. */
function chanceBy(f: DeviceForecast, date: IsoDate, format: Format): string {
  const chance = f.probabilityOutgrown[f.dates.findLastIndex((d) => d <= date)];
  return chance === undefined ? '–' : `${format.percent(chance)} chance`;
}

function Answer({ format, now, then }: { format: Format; now: DeviceForecast; then: DeviceForecast }) {
  const day = (d: string | null) => (d ? format.date(d) : '–');
  const drivers = (f: DeviceForecast) =>
    f.drivers
      .filter((d) => d.share >= 0.03)
      .slice(0, 3)
      .map((d) => `${seriesText(d.series)} ${format.percent(d.share)}`)
      .join(', ') || '–';
  const dated = now.outcome === 'forecast' && then.outcome === 'forecast';
  const moved = dated && now.p50 && then.p50 ? daysBetween(now.p50, then.p50) : null;
  const rows: readonly (readonly [string, (f: DeviceForecast) => string])[] = [
    ['Outgrown', (f) => outgrownText(f, f.today, format)],
    ['1 in 10 by', (f) => day(f.p10)],
    ['As likely as not by', (f) => day(f.p50)],
    ['9 in 10 by', (f) => day(f.p90)],
    ['What gives first', drivers],
    [`Outgrown by ${format.date(then.today)}`, (f) => chanceBy(f, then.today, format)],
  ];
  const mm = (n: number) => format.number(n).replace('-', '\u2212');
  const room = (f: DeviceForecast, key: string) => {
    const r = f.room.find((x) => seriesKey(x.series) === key);
    return r ? `${mm(r.roomMm)} mm (${mm(r.roomLowMm)} to ${mm(r.roomHighMm)})` : '–';
  };
  const series = [...now.room, ...then.room].map((r) => r.series);
  const keys = [...new Map(series.map((s) => [seriesKey(s), s]))];
  return (
    <>
      {moved !== null && (
        <p class="band">
          {moved === 0
            ? 'The even-chance date stays.'
            : `The even-chance date moves ${Math.abs(moved)} days ${moved > 0 ? 'later' : 'earlier'}.`}
        </p>
      )}
      <p>{then.explanation}</p>
      <ScrollBox label="As it stands against what if">
        <table>
          <thead>
            <tr>
              <td />
              <th scope="col">As it stands, {format.date(now.today)}</th>
              <th scope="col">What if, {format.date(then.today)}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([label, text]) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                <td>{text(now)}</td>
                <td>{text(then)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <details>
        <summary>Room left in every dimension</summary>
        <table>
          <caption>Expected room; 8 in 10 futures lie in the brackets. Below 0 it is too small.</caption>
          <thead>
            <tr>
              <td />
              <th scope="col">As it stands, {format.date(now.today)}</th>
              <th scope="col">What if, {format.date(then.today)}</th>
            </tr>
          </thead>
          <tbody>
            {keys.map(([key, s]) => (
              <tr key={key}>
                <th scope="row">{seriesText(s)}</th>
                <td>{room(now, key)}</td>
                <td>{room(then, key)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}

function AskForm({ context, child, device, dimensions, read, expected, now }: WhatIfSeveralProps) {
  const { format, today } = context;
  const { typed, errors, imagined } = read;
  const base = `/children/${encodeURIComponent(child.id)}`;
  const field = (name: string, label: string, hint: string, kind: string) => (
    <span class={kind}>
      <input
        id={name}
        name={name}
        inputMode="decimal"
        autocomplete="off"
        value={typed[name]}
        aria-label={label}
        aria-describedby={`${name}-hint`}
        aria-invalid={errors[name] ? 'true' : undefined}
      />
      <span class={errors[name] ? 'hint warn' : 'hint'} id={`${name}-hint`}>
        {errors[name] ? `Accepted is ${errors[name]}` : hint}
      </span>
    </span>
  );
  const left = (d: Dimension) =>
    d.series
      .flatMap((s) => {
        const r = now?.room.find((x) => seriesKey(x.series) === seriesKey(s));
        if (!r) return [];
        const mm = Math.round(r.roomMm);
        const side = d.series.length === 1 ? '' : `${s.side} `;
        return [mm < 0 ? `${side}too small by ${-mm}` : `${side}${mm}`];
      })
      .join(', ');
  const travel = (d: Dimension) => {
    const most = Math.max(
      0,
      ...d.series.map(
        (s) => now?.room.find((x) => seriesKey(x.series) === seriesKey(s))?.extensionLeftMm ?? 0,
      ),
    );
    return most > 0 ? `; side bar ${format.number(most)} counted` : '';
  };
  const reading = (s: Series) => {
    const known = expected.find((e) => e.measure === s.measure && e.side === s.side);
    return field(
      readingField(s),
      `${seriesText(s)}, reading`,
      known ? expectedText(known, format) : '',
      s.side === 'none' ? 'wide' : '',
    );
  };
  const readings = readSeries(dimensions);
  const alone = readings.filter((s) => dimensions.every((d) => d.measure !== s.measure));
  return (
    <form method="get" action={`${base}/what-if/several`} class="card imagine">
      <h2 id="ask">Ask</h2>
      <input type="hidden" name="device" value={device.id} />
      <div class="row">
        <fieldset>
          <legend>The device</legend>
          <div class="choices">
            <label>
              <input type="radio" name="how" value="keep" checked={imagined.how === 'keep'} />
              this one, adjusted or only read
            </label>
            <label>
              <input type="radio" name="how" value="new-cast" checked={imagined.how === 'new-cast'} />
              another one, cast on the day
            </label>
          </div>
        </fieldset>
        <p class="field">
          <label for="on">On the day</label>
          <input
            id="on"
            name="on"
            type="date"
            min={today}
            max={furthest(today)}
            value={typed.on || today}
            aria-invalid={errors.on ? 'true' : undefined}
          />
        </p>
      </div>
      <p class="hint">
        Leave empty what does not change. mm, or with a unit: 17,5 cm.{' '}
        <span class="if-keep">Side-bar travel already counts: type only room gained beyond it.</span>
        <span class="if-new">Room counts from the cast; empty takes the usual.</span>
      </p>
      <div class="asked">
        <span class="head-name" />
        <strong class="if-keep">Room gained, mm</strong>
        <strong class="if-new">Room when cast, mm</strong>
        <strong>Read left</strong>
        <strong>Read right</strong>
        {dimensions.map((d) => (
          <>
            <span class="name">{shortLabel(d.measure)}</span>
            {field(
              gainField(d.measure),
              `${shortLabel(d.measure)}, room gained, mm`,
              left(d) ? `now ${left(d)} mm${travel(d)}` : 'room not known',
              'if-keep',
            )}
            {field(
              roomField(d.measure),
              `${shortLabel(d.measure)}, room when cast, mm`,
              `usual ${format.number(d.usualMm)} mm`,
              'if-new',
            )}
            {readings.filter((r) => r.measure === d.measure).map(reading)}
          </>
        ))}
        {alone.map((s) => (
          <>
            <span class="name">{shortLabel(s.measure)}</span>
            <span />
            {reading(s)}
          </>
        ))}
      </div>
      <p class="hint">
        Below each reading: where 9 in 10 readings are expected on {format.date(imagined.on)}.
      </p>
      <p class="row">
        <button type="submit" class="main-action">
          Show what if
        </button>
        <a href={`${base}/what-if/several?device=${encodeURIComponent(device.id)}`}>Start again</a>
      </p>
    </form>
  );
}
