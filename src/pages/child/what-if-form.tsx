import type { DeviceForecast } from '../../forecast/contract.js';
import { plainSeries } from '../../forecast/words.js';
import type { Device } from '../../records/device.js';
import { type Series, seriesKey } from '../../records/measure.js';
import type { Child } from '../../records/records.js';
import { furthest } from '../../service/asked-dates.js';
import { Form, InputField, refused, Submit } from '../parts/form.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';
import { type ExpectedSize, expectedText } from './expected-sizes.js';
import {
  type Dimension,
  gainField,
  type ReadWhatIf,
  readingField,
  readSeries,
  roomField,
  shortLabel,
} from './what-if-several.js';

export interface WhatIfFormProps {
  readonly child: Child;
  readonly device: Device;
  readonly dimensions: readonly Dimension[];
  readonly read: ReadWhatIf;
  readonly expected: readonly ExpectedSize[];
  readonly now: DeviceForecast | null;
}

/** The form to ask with: sent by GET, so that nothing can be written by it. */
export function WhatIfForm({ child, device, dimensions, read, expected, now }: WhatIfFormProps) {
  const { format, today } = usePage();
  const { typed, errors, imagined } = read;
  const base = childPath(child.id);
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
        {...(errors[name] && refused)}
      />
      <span class={errors[name] ? 'hint warn' : 'hint'} id={`${name}-hint`}>
        {errors[name] ? `Accepted is ${errors[name]}` : hint}
      </span>
    </span>
  );
  const left = (d: Dimension) => roomLeft(d, now);
  const travel = (d: Dimension) => {
    const most = Math.max(0, ...d.series.map((s) => roomOf(now, s)?.extensionLeftMm ?? 0));
    return most > 0 ? `; ${format.number(most)} of it by adjusting` : '';
  };
  const reading = (s: Series) => {
    const known = expected.find((e) => e.measure === s.measure && e.side === s.side);
    return field(
      readingField(s),
      `${plainSeries(s)}, reading`,
      known ? expectedText(known, format) : '',
      s.side === 'none' ? 'wide' : '',
    );
  };
  const readings = readSeries(dimensions);
  const alone = readings.filter((s) => dimensions.every((d) => d.measure !== s.measure));
  return (
    <Form method="get" action={`${base}/what-if/several`} class="card imagine">
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
        <InputField
          label="On the day"
          name="on"
          type="date"
          min={today}
          max={furthest(today)}
          value={typed.on || today}
          error={errors.on && `Accepted is ${errors.on}`}
        />
      </div>
      <p class="hint">
        Leave empty what does not change. mm, or with a unit: 17,5 cm.{' '}
        <span class="if-keep">
          What can still be adjusted counts already: type only room gained beyond it.
        </span>
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
        <Submit main>Show what if</Submit>
        <a href={`${base}/what-if/several?device=${encodeURIComponent(device.id)}`}>Start again</a>
      </p>
    </Form>
  );
}

const roomOf = (now: DeviceForecast | null, series: Series) =>
  now?.room.find((r) => seriesKey(r.series) === seriesKey(series));

/** 'left 4, right too small by 2': what is left today, mm. */
const roomLeft = (d: Dimension, now: DeviceForecast | null): string =>
  d.series
    .flatMap((s) => {
      const room = roomOf(now, s);
      if (!room) return [];
      const mm = Math.round(room.roomMm);
      const side = d.series.length === 1 ? '' : `${s.side} `;
      return [mm < 0 ? `${side}too small by ${-mm}` : `${side}${mm}`];
    })
    .join(', ');
