import { deviceLabel } from '../../charts/device-label.js';
import type { DeviceForecast } from '../../forecast/contract.js';
import { plainSeries } from '../../forecast/words.js';
import { beyondUseChance } from '../../recall/decide/beyond-use-chance.js';
import { dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import { type MeasureId, measures, seriesKey } from '../../records/measure.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { WrongFields } from '../parts/form.js';
import type { Format } from '../parts/format.js';
import { ChildLayout, Empty } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';
import { limitedFirstBy, outgrownText } from './outgrown-text.js';
import { WhatIfForm, type WhatIfFormProps } from './what-if-form.js';
import { type ReadWhatIf, shortLabel } from './what-if-several.js';
import { WhatIfTabs } from './what-if-tabs.js';

/** The question in one line: 'If on 15 Sep 2026 room gained: foot length +4 mm; read: stature 1200 mm'. */
function asked({ imagined }: ReadWhatIf, format: Format): string {
  const { on, how, roomMm, readings } = imagined;
  const rooms = Object.entries(roomMm).map(([m, mm]) => {
    const gained = how === 'keep' && mm > 0 ? '+' : '';
    return `${shortLabel(m as MeasureId).toLowerCase()} ${gained}${format.number(mm, mm % 1 ? 1 : 0)} mm`;
  });
  const sizes = readings.map(
    ({ series, value }) =>
      `${plainSeries(series)} ${format.number(value, value % 1 ? 1 : 0)} ${measures[series.measure].unit}`,
  );
  const parts = [
    how === 'new-cast'
      ? `a new one is cast with ${rooms.length > 0 ? `room for ${rooms.join(', ')}` : 'the usual room'}`
      : rooms.length > 0 && `room gained: ${rooms.join(', ')}`,
    sizes.length > 0 && `read: ${sizes.join(', ')}`,
  ].filter(Boolean);
  return `If on ${format.date(on)} ${parts.join('; ')}`;
}

/** Chance that a forecast gives of being outgrown by a day, in words. */
function chanceBy(f: DeviceForecast, date: IsoDate, format: Format): string {
  const chance = beyondUseChance(f)?.at(dayNumber(date));
  return chance === undefined ? '–' : `${format.percent(chance)} chance`;
}

function WhatIfAnswer({ now, then }: { now: DeviceForecast; then: DeviceForecast }) {
  const { format } = usePage();
  const day = (d: string | null) => (d ? format.date(d) : '–');
  const dated = now.outcome === 'forecast' && then.outcome === 'forecast';
  const moved = dated && now.p50 && then.p50 ? daysBetween(now.p50, then.p50) : null;
  const rows: readonly (readonly [string, (f: DeviceForecast) => string])[] = [
    ['Outgrown', (f) => outgrownText(f, f.today, format)],
    ['1 in 10 by', (f) => day(f.p10)],
    ['As likely as not by', (f) => day(f.p50)],
    ['9 in 10 by', (f) => day(f.p90)],
    ['Limited first by', (f) => limitedFirstBy(f, format) || '–'],
    [`Outgrown by ${format.date(then.today)}`, (f) => chanceBy(f, then.today, format)],
  ];
  const mm = (n: number) => format.number(n).replace('-', '\u2212');
  const room = (f: DeviceForecast, key: string) => {
    const r = f.room.find((x) => seriesKey(x.series) === key);
    return r ? `${mm(r.roomMm)} mm (${mm(r.roomLowMm)} to ${mm(r.roomHighMm)})` : '–';
  };
  const series = [...now.room, ...then.room].map((r) => r.series);
  const keys = [...new Map(series.map((s) => [seriesKey(s), s]))];
  const stands = `As it stands, ${format.date(now.today)}`;
  const wouldStand = `What if, ${format.date(then.today)}`;
  return (
    <>
      {moved !== null && (
        <p class="band">
          {moved === 0
            ? 'The middle date stays.'
            : `The middle date moves ${format.span(Math.abs(moved))} ${moved > 0 ? 'later' : 'earlier'}.`}
        </p>
      )}
      <p>{then.explanation}</p>
      <Table
        scroll="As it stands against what if"
        rows={rows}
        columns={[
          ['', ([label]) => label],
          [stands, ([, text]) => text(now)],
          [wouldStand, ([, text]) => text(then)],
        ]}
      />
      <details>
        <summary>Room left in every dimension</summary>
        <Table
          caption="Expected room; in brackets where it lies 8 times in 10. Below 0 it is too small."
          rows={keys}
          columns={[
            ['', ([, s]) => plainSeries(s)],
            [stands, ([key]) => room(now, key)],
            [wouldStand, ([key]) => room(then, key)],
          ]}
        />
      </details>
    </>
  );
}

interface WhatIfSeveralProps extends WhatIfFormProps {
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
  return (
    <ChildLayout
      child={child}
      title="What if, several at once"
      heading={`What if several things change at once? ${deviceLabel(device)}`}
    >
      <WhatIfTabs childId={child.id} deviceId={device.id} shown="several" />
      <p class="notice">
        <strong>Nothing on this page is saved.</strong> It only answers; record a visit, an adjustment or a
        cast on their own pages.
      </p>
      <WrongFields
        says="Nothing was worked out. Please mend:"
        of={Object.entries(read.errors).map(([name, accepted]) => [name, fieldText(name), accepted] as const)}
      />
      {then && now && (
        <section aria-labelledby="answer">
          <h2 id="answer">{asked(read, format)}</h2>
          <WhatIfAnswer now={now} then={then} />
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
    </ChildLayout>
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
