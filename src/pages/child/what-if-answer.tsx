import type { DeviceForecast } from '../../forecast/contract.js';
import { beyondUseChance } from '../../recall/decide/beyond-use-chance.js';
import { dayNumber, daysBetween, type IsoDate } from '../../records/dates.js';
import { type MeasureId, measures, seriesKey } from '../../records/measure.js';
import { type Format, seriesText } from '../parts/format.js';
import { Table } from '../parts/table.js';
import { outgrownText } from './outgrown-text.js';
import { type ReadWhatIf, shortLabel } from './what-if-several.js';

/** The question in one line: 'If on 15 Sep 2026 room gained: foot length +4 mm; read: stature 1200 mm'. */
export function asked({ imagined }: ReadWhatIf, format: Format): string {
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

export function WhatIfAnswer({
  format,
  now,
  then,
}: {
  format: Format;
  now: DeviceForecast;
  then: DeviceForecast;
}) {
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
    ['Limited first by', drivers],
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
            ['', ([, s]) => seriesText(s)],
            [stands, ([key]) => room(now, key)],
            [wouldStand, ([key]) => room(then, key)],
          ]}
        />
      </details>
    </>
  );
}
