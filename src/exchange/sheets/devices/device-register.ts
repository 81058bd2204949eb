import { dayNumber, type IsoDate } from '../../../records/dates.js';
import type { GridRow } from '../grid.js';
import type { Person } from '../people.js';

/** A row that may name devices: whose it is, when, and the side its child's diagnosis says. */
export interface Mention {
  readonly row: GridRow;
  readonly person: Person;
  readonly visit: IsoDate | null;
  readonly conditionSide: string;
  /** A club foot and no hip: an abduction splint is the feet's. */
  readonly isClubfoot: boolean;
}

/** A device as a row of the table of devices, in the making. */
export interface MadeDevice {
  readonly id: string;
  readonly cells: Record<string, string>;
  readonly places: Record<string, { column: string; given: string }>;
  readonly row: number;
  /** The words it was named with, apart from its side. */
  readonly word: string;
  /** The day it ended, where the sheet says so. */
  ended?: string;
}

/** A fitting this long after a cast is not of that cast (common practice, no source). */
const LONGEST_WAIT_DAYS = 183;

/** Devices of all tables of an import, each once however many rows and tabs name it. */
export class DeviceRegister {
  private readonly ids = new Set<string>();
  private readonly byPlace = new Map<string, MadeDevice[]>();
  private readonly byChild = new Map<string, MadeDevice[]>();
  private readonly byKey = new Map<string, MadeDevice>();

  get(key: string): MadeDevice | undefined {
    return this.byKey.get(key);
  }

  put(key: string, device: MadeDevice): void {
    this.byKey.set(key, device);
    this.ids.add(device.id);
    const place = placeOf(device.cells.child_id, device.cells.family, device.cells.side);
    const child = this.byChild.get(device.cells.child_id);
    if (child) child.push(device);
    else this.byChild.set(device.cells.child_id, [device]);
    this.byPlace.set(place, [...(this.byPlace.get(place) ?? []), device]);
  }

  /** Devices a child wore on a day: of each family and side the last one cast by then, unless it had ended. */
  wornBy(child: string, day: IsoDate): MadeDevice[] {
    const last = new Map<string, MadeDevice>();
    for (const device of this.byChild.get(child) ?? []) {
      const { family, side, cast_date: cast } = device.cells;
      const place = placeOf(child, family, side);
      if (cast <= day && cast >= (last.get(place)?.cells.cast_date ?? '')) last.set(place, device);
    }
    return [...last.values()].filter((d) =>
      d.ended === undefined ? d.cells.status !== 'retired' : day <= d.ended,
    );
  }

  /** The sheet's own number of a device; where one stands for a pair, the second carries its side; '' where both are taken. */
  idOf(own: string, side: string): string {
    return [own, `${own}-${side}`].find((id) => own !== '' && !this.ids.has(id)) ?? '';
  }

  /** The device a row without a cast means: the last one cast by then that its fitting can be of. */
  lastBy(
    child: string,
    family: string,
    side: string,
    visit: IsoDate | null,
    fitted: IsoDate | null,
  ): MadeDevice | null {
    const by = fitted ?? visit;
    const known = (this.byPlace.get(placeOf(child, family, side)) ?? [])
      .filter((m) => by === null || m.cells.cast_date <= by)
      .sort((a, b) => (a.cells.cast_date < b.cells.cast_date ? 1 : -1));
    const [last] = known;
    if (last === undefined || fitted === null) return last ?? null;
    if (last.cells.fitted_date) return last.cells.fitted_date === fitted ? last : null;
    return dayNumber(fitted) - dayNumber(last.cells.cast_date as IsoDate) <= LONGEST_WAIT_DAYS ? last : null;
  }
}

const placeOf = (child: string, family: string, side: string): string => `${child}/${family}/${side}`;
