import { readingFaults } from '../../records/check/reading-faults.js';
import { dateFaults } from '../../records/check/refuse.js';
import type { IsoDate } from '../../records/dates.js';
import { type MeasureId, measures, type Side } from '../../records/measure.js';
import type { Measurement } from '../../records/records.js';
import { nearestWord } from '../nearest-word.js';
import { ownValue } from '../own-value.js';
import { plainWord } from './columns.js';
import { measureHeading, measureNamed } from './measure-names.js';
import { readFields } from './read-fields.js';
import { readRows, type TableResult } from './read-rows.js';
import { readSize } from './read-size.js';
import type { TextTable } from './read-table.js';
import { plainCell, type ReadSettings, type RowReader, type TableLayout } from './row-reader.js';

/** One cell that holds a reading, with what its heading says of it. */
interface ReadingCell {
  readonly index: number;
  readonly heading: string;
  readonly measure: MeasureId | null;
  readonly side: Side | null;
  readonly unit: string | null;
}

/**
 * measurements.csv, long (one row a reading: measure, side, value) or wide (one row a visit, one column a
 * measure and side). In a wide row each cell stands for itself: a refused one leaves the others.
 */
export function readMeasurements(text: TextTable, settings: ReadSettings): TableResult<Measurement> {
  let cells: ReadingCell[] | null = null;
  let indices: Set<number> | null = null;
  return readRows('measurements', text, settings, (row, layout) => {
    const valued = (cells ??= readingCells(layout));
    const ofValues = (indices ??= new Set(valued.map(({ index }) => index)));
    const [childId, birthDate] = row.child();
    const visit: Visit = {
      id: row.upTo('id', 80),
      childId,
      ...readFields(row, 'measurements', ['date', 'method', 'observer', 'technicalError']),
      extra: row.extra(ofValues),
    };
    if (valued.length === 0) {
      row.refuseCell(
        'value',
        '',
        'there is no column of readings',
        'measure and value, or columns such as foot_length_left_cm',
      );
    }
    if (row.ok && birthDate) {
      const span = { from: birthDate, since: 'birth', today: settings.today };
      row.refuseFaults(dateFaults('Reading', 'date', visit.date, span));
    }
    if (!row.ok || birthDate === undefined) return [];
    const long = layout.at.has('measure');
    return valued
      .filter((cell) => long || (row.cells[cell.index] ?? '') !== '')
      .flatMap((cell) => readReading(row, cell, { visit, birthDate, alone: valued.length === 1 }, settings));
  });
}

type Visit = Omit<Measurement, 'measure' | 'side' | 'value' | 'entered'>;

function readingCells(layout: TableLayout): ReadingCell[] {
  if (!layout.at.has('measure')) {
    return layout.others.flatMap(({ index, heading }) => {
      const named = measureHeading(heading);
      return named ? [{ index, heading, ...named }] : [];
    });
  }
  const value = layout.at.get('value');
  if (value) return [{ ...value, measure: null, side: null, unit: null }];
  return layout.others.flatMap(({ index, heading }) => {
    const unit = /^(?:value|reading|size)_([a-z]+)$/.exec(plainWord(heading))?.[1];
    return unit ? [{ index, heading, measure: null, side: null, unit }] : [];
  });
}

function readReading(
  row: RowReader,
  cell: ReadingCell,
  { visit, birthDate, alone }: { visit: Visit; birthDate: IsoDate; alone: boolean },
  settings: ReadSettings,
): Measurement[] {
  const before = row.refused.length;
  const measure = cell.measure ?? readMeasure(row);
  if (measure === null) return [];
  const side = readSide(row, measure, cell);
  const written = plainCell(row.cells[cell.index] ?? '');
  const size = readSize(written, measure, [row.text('unit'), cell.unit ?? '', settings.lengthUnit ?? '']);
  if ('why' in size) row.refuseCell(cell.heading, written, size.why, size.accepted);
  if (row.refused.length > before || side === null || 'why' in size) return [];
  const { id, childId, date, observer, method } = visit;
  const ownId = alone || id === '' ? id : `${id}-${measure}-${side}`;
  const reading = {
    ...visit,
    id: ownId || row.madeId('m', childId, measure, side, date, size.value, observer, method),
    measure,
    side,
    value: size.value,
    entered: row.text('entered') || size.entered,
  };
  row.refuseFaults(readingFaults(reading, birthDate, settings.today), { value: cell.heading });
  return row.refused.length > before ? [] : [reading];
}

function readMeasure(row: RowReader): MeasureId | null {
  const text = row.text('measure');
  const measure = measureNamed(text);
  if (measure !== null) return measure;
  if (text === '') return row.refuse('measure', 'is missing');
  const near = nearestWord(plainWord(text), Object.keys(measures));
  return row.refuse('measure', `is not a measure doorpost knows${near ? `; was ${near} meant` : ''}`);
}

function readSide(row: RowReader, measure: MeasureId, cell: ReadingCell): Side | null {
  const { sided, label } = measures[measure];
  const written = row.text('side') === '' ? '' : plainWord(row.text('side'));
  const side =
    cell.side ?? ownValue({ l: 'left', r: 'right', left: 'left', right: 'right' } as const, written) ?? null;
  if (sided && side === null) {
    return cell.measure && written === ''
      ? row.refuseCell(
          cell.heading,
          row.cells[cell.index],
          'does not say which side',
          `a heading such as ${measure}_left_cm, or a side column`,
        )
      : row.refuse('side', `does not say which side the ${label.toLowerCase()} is of`, 'left or right');
  }
  // A wide row's side column speaks for its sided measures only.
  if (!sided && side !== null && cell.measure === null) {
    return row.refuse('side', `${label.toLowerCase()} has no side`, 'empty or none');
  }
  return sided ? side : 'none';
}
