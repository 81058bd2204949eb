import { useId } from 'preact/hooks';
import type { DeviceForecast, DimensionRoom } from '../../forecast/contract.js';
import { plainSeries } from '../../forecast/words.js';
import { sides } from '../../records/measure.js';
import { fullAtMm } from '../../rules/room-left.js';
import { usePage } from '../parts/page-context.js';

/** So many bars are read; the others are folded. */
const SHOWN = 4;

/** Room left of each dimension, what limits first on top, its two sides together and left before right. */
export function RoomBars({ forecast }: { forecast: DeviceForecast }) {
  if (forecast.room.length === 0) return null;
  const rooms = byDriver(forecast);
  // A pair of sides is never torn apart.
  const cut = rooms[SHOWN]?.series.measure === rooms[SHOWN - 1]?.series.measure ? SHOWN + 1 : SHOWN;
  const list = (shown: readonly DimensionRoom[]) => (
    <ul class="room">
      {shown.map((r) => (
        <RoomBar key={`${r.series.measure}${r.series.side}`} room={r} />
      ))}
    </ul>
  );
  const rest = rooms.slice(cut);
  return (
    <div class="rooms">
      <p class="hint">
        <strong>Room</strong>, what limits it first on top with its other side. A whole bar is the room there
        was at the cast; dark is used, striped is possibly used (8 in 10), white is left.
      </p>
      {list(rooms.slice(0, cut))}
      {rest.length > 0 && (
        <details>
          <summary>
            {rest.length === 1 ? 'One more dimension' : `${rest.length} more dimensions`}, with more room
          </summary>
          {list(rest)}
        </details>
      )}
    </div>
  );
}

/** Dimensions by how often they limit first, then by room; left before right. */
export function byDriver({ room, drivers }: Pick<DeviceForecast, 'room' | 'drivers'>): DimensionRoom[] {
  const share = ({ measure, side }: DimensionRoom['series']) =>
    drivers.find((d) => d.series.measure === measure && d.series.side === side)?.share ?? 0;
  const of = (r: DimensionRoom) => room.filter((o) => o.series.measure === r.series.measure);
  const most = (r: DimensionRoom) => Math.max(...of(r).map((o) => share(o.series)));
  const least = (r: DimensionRoom) => Math.min(...of(r).map((o) => o.roomMm / Math.max(1, o.allowanceMm)));
  return room.toSorted(
    (a, b) =>
      most(b) - most(a) ||
      least(a) - least(b) ||
      a.series.measure.localeCompare(b.series.measure) ||
      sides.indexOf(a.series.side) - sides.indexOf(b.series.side),
  );
}

/** '3 mm of 8 mm left', '12 mm over': whole millimetres, because no limb is measured finer. */
export function roomText({ roomMm, allowanceMm }: DimensionRoom): string {
  const left = Math.round(roomMm);
  if (left < 0) return `${-left} mm over`;
  return left === 0
    ? `none left of ${Math.round(allowanceMm)} mm`
    : `${left} of ${Math.round(allowanceMm)} mm left`;
}

function RoomBar({ room }: { room: DimensionRoom }) {
  const { format } = usePage();
  const x = (mm: number) => 200 * Math.min(1, Math.max(0, mm / Math.max(0.1, room.allowanceMm)));
  const low = x(room.allowanceMm - room.roomHighMm);
  const high = x(room.allowanceMm - room.roomLowMm);
  const over = room.roomMm < -0.5;
  // Two devices may have this dimension, and a pattern that is folded away paints nothing.
  const stripes = useId();
  // The size it is reckoned with, which a single reading may differ from.
  const full = fullAtMm(room.limitMm);
  const adjustable = Math.round(room.extensionLeftMm ?? 0);
  return (
    <li>
      <span>
        {plainSeries(room.series)}: <strong class={over ? 'over' : undefined}>{roomText(room)}</strong>{' '}
        <small>
          (8 in 10: {spanText(room)}; about {format.number(full - Math.round(room.roomMm))} now, full at{' '}
          {format.number(full)} mm
          {adjustable > 0 && `, ${adjustable} mm of it by adjusting`})
        </small>
      </span>
      <svg class="gauge" viewBox="0 0 200 12" preserveAspectRatio="none" aria-hidden="true">
        <defs>
          <pattern id={stripes} width="3" height="3" patternUnits="userSpaceOnUse">
            <rect width="3" height="3" fill="#dbe9f2" />
            <rect width="1.2" height="3" fill="#0b4f7d" />
          </pattern>
        </defs>
        <rect x="0.5" y="1" width="199" height="10" fill="#ffffff" stroke="#43505b" />
        <rect x="0" y="1" width={low} height="10" fill="#0b4f7d" />
        <rect x={low} y="1" width={Math.max(0, high - low)} height="10" fill={`url(#${stripes})`} />
        <rect x={x(room.allowanceMm - room.roomMm)} y="0" width="1.6" height="12" fill="#16202a" />
      </svg>
    </li>
  );
}

/** '3 to 7 mm left', '2 mm over to 4 mm left'. */
function spanText({ roomLowMm, roomHighMm }: DimensionRoom): string {
  const [low, high] = [Math.round(roomLowMm), Math.round(roomHighMm)];
  if (high < 0) return high === low ? `${-low} mm over` : `${-high} to ${-low} mm over`;
  if (low < 0) return `${-low} mm over to ${high} mm left`;
  return low === high ? `${low} mm left` : `${low} to ${high} mm left`;
}
