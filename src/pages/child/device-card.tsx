import { deviceLabel } from '../../charts/device-label.js';
import type { DimensionRoom } from '../../forecast/contract.js';
import { adjusting, capital } from '../../forecast/words.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import { actionNames } from '../../words/action-names.js';
import { type Format, seriesText } from '../parts/format.js';
import type { PageContext } from '../parts/page-context.js';
import { outgrownText, urgency } from './outgrown-text.js';

/** One device: when it is outgrown, by what, how sure, how much room is left, and when to cast at the latest. */
export function DeviceCard(props: {
  context: PageContext;
  childId: string;
  view: DeviceView;
  detail: boolean;
}) {
  const { context, childId, view, detail } = props;
  const { device, forecast, decision, turnaround } = view;
  const { format, today } = context;
  const Heading = detail ? 'h3' : 'h2';
  const mark = urgency(forecast, today);
  const when = outgrownText(forecast, today, format);
  const base = `/children/${encodeURIComponent(childId)}`;
  return (
    <article class="card" aria-labelledby={`device-${device.id}`}>
      <div class="row between">
        <Heading id={`device-${device.id}`}>
          {deviceLabel(device)} <small>cast {format.date(device.castDate)}</small>
        </Heading>
        <span class={`tag ${mark}`}>
          {device.status === 'ordered'
            ? 'being made'
            : mark === 'plan'
              ? 'fits'
              : mark === 'due' && forecast.outcome === 'forecast'
                ? 'nearly outgrown'
                : forecast.outcome.replaceAll('-', ' ')}
        </span>
      </div>
      {decision && (
        <p class="wanted">
          <strong>{capital(actionNames[decision.action])}</strong>
          {decision.dueBy && ` by ${format.date(decision.dueBy)}`}. {decision.reason.text}
        </p>
      )}
      {decision?.checkFigure && (
        <p class="wanted">
          At the bench: cast if the room at {seriesText(decision.checkFigure)} is{' '}
          <strong>{decision.checkFigure.castIfRoomAtMostMm} mm or less</strong>; else not before{' '}
          {format.date(decision.checkFigure.elseNotBefore)}.
        </p>
      )}
      <p class="band">
        {forecast.outcome === 'forecast' ? `Outgrown: ${when.replace(/^Now/, 'now')}` : when}
      </p>
      <p>{forecast.explanation}</p>
      <dl class="facts">
        {forecast.p50 && forecast.outcome === 'forecast' && (
          <>
            <dt>As likely as not by</dt>
            <dd>{format.date(forecast.p50)}</dd>
          </>
        )}
        {forecast.dates.length > 0 && (
          <>
            <dt>Outgrown already?</dt>
            <dd>{format.percent(forecast.probabilityOutgrownNow)} chance today</dd>
          </>
        )}
        {forecast.drivers.length > 0 && (
          <>
            <dt>What gives first</dt>
            <dd>
              {forecast.drivers
                .filter((d) => d.share >= 0.03)
                .slice(0, 3)
                .map((d) => `${seriesText(d.series)} ${format.percent(d.share)}`)
                .join(', ')}
            </dd>
          </>
        )}
        {decision?.castBy && (
          <>
            <dt>Cast by</dt>
            <dd>
              <strong>{format.date(decision.castBy)}</strong> ({format.away(decision.castBy, today)}). From
              then on the chance of being beyond use before the next is fitted is more than the accepted{' '}
              {format.percent(decision.acceptedChance)}.
            </dd>
          </>
        )}
        {decision && decision.chanceByEarliestFitting !== null && (
          <>
            <dt>If cast today</dt>
            <dd>
              {format.percent(decision.chanceByEarliestFitting)} chance of being beyond use before the new one
              is fitted, about {turnaround.p50Days} days later (8 in 10 within {turnaround.p80Days};{' '}
              {turnaround.basis === 'default' ? 'usual time' : `from ${turnaround.jobsUsed} jobs`})
            </dd>
          </>
        )}
        {decision && (
          <>
            <dt>Review by</dt>
            <dd>{format.date(decision.reviewBy)}</dd>
          </>
        )}
        {forecast.adjustments?.map((a) => (
          <>
            <dt>Adjust</dt>
            <dd>
              {seriesText(a.series)}, {adjusting[a.kind]}:{' '}
              {a.dueNow ? 'now' : a.p10 ? `from ${format.date(a.p10)}` : 'not within the forecast'},{' '}
              {format.number(a.extensionLeftMm)} mm left. An adjustment resets this dimension and no other.
            </dd>
          </>
        ))}
        <dt>Cast, fitted</dt>
        <dd>
          {format.date(device.castDate)},{' '}
          {device.fittedDate ? format.date(device.fittedDate) : 'not fitted yet'}
        </dd>
      </dl>
      {forecast.room.length > 0 && (
        <>
          <p class="hint">
            <strong>Room used since the cast</strong>, what gives first on top
          </p>
          <ul class="room">
            {byDriver(forecast).map((r) => (
              <RoomGauge key={`${r.series.measure}${r.series.side}`} room={r} format={format} />
            ))}
          </ul>
        </>
      )}
      {detail && (
        <p class="row no-print">
          <a href={`${base}/visit`}>Measure and judge the fit</a>
          <a href={`${base}/devices/${encodeURIComponent(device.id)}`}>Adjust, cast the next one, retire</a>
          <a href={`${base}/what-if?device=${encodeURIComponent(device.id)}`}>What if</a>
          <a href="#why">Why this date</a>
        </p>
      )}
    </article>
  );
}

/** Dimensions by how often they give first, then by room; left before right. */
const byDriver = ({ room, drivers }: DeviceView['forecast']): DimensionRoom[] => {
  const share = ({ measure, side }: DimensionRoom['series']) =>
    drivers.find((d) => d.series.measure === measure && d.series.side === side)?.share ?? 0;
  const most = (r: DimensionRoom) =>
    Math.max(...room.filter((o) => o.series.measure === r.series.measure).map((o) => share(o.series)));
  return room.toSorted(
    (a, b) =>
      most(b) - most(a) ||
      (a.series.measure === b.series.measure
        ? a.series.side.localeCompare(b.series.side)
        : a.roomMm / a.allowanceMm - b.roomMm / b.allowanceMm),
  );
};

/** A bar as long as the allowance, filled by growth since the cast; the pale part is what 8 in 10 futures allow. */
function RoomGauge({ room, format }: { room: DimensionRoom; format: Format }) {
  const x = (mm: number) => 200 * Math.min(1, Math.max(0, mm / Math.max(0.1, room.allowanceMm)));
  const low = x(room.allowanceMm - room.roomHighMm);
  const high = x(room.allowanceMm - room.roomLowMm);
  const left = Math.round(room.roomMm);
  const of = format.stated(Math.round(room.allowanceMm));
  const text = left < 0 ? `${-left} mm over the ${of} mm there were` : `${left} mm of ${of} mm left`;
  return (
    <li>
      <span>
        {seriesText(room.series)}: <strong>{text}</strong>{' '}
        <small>
          ({format.number(room.roomLowMm)} to {format.number(room.roomHighMm)}; outgrown at{' '}
          {format.number(room.limitMm)} mm
          {room.extensionLeftMm ? `; ${format.number(room.extensionLeftMm)} mm of it by adjusting` : ''})
        </small>
      </span>
      <svg class="gauge" viewBox="0 0 200 12" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0.5" y="1" width="199" height="10" fill="#ffffff" stroke="#43505b" />
        <rect x="0" y="1" width={low} height="10" fill="#0b4f7d" />
        <rect x={low} y="1" width={Math.max(0, high - low)} height="10" fill="#9cc3dc" />
        <rect x={x(room.allowanceMm - room.roomMm)} y="0" width="1.2" height="12" fill="#16202a" />
      </svg>
    </li>
  );
}
