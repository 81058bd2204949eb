import { type MeasureId, measures } from '../../records/measure.js';
import { massUnits, type Unit, unitNamed } from '../../records/units.js';
import { measuresOf } from './by-part.js';
import { type ColumnSide, type DeviceDay, deviceDays, type Meaning } from './meaning.js';
import type { Concept } from './phrase-table.js';

/** What a heading of these concepts means: at most a few meanings, weighed where more is guessed. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one chain of meanings, the first that fits; its order is the rule
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one chain of meanings, the first that fits; its order is the rule
export function interpret(concepts: readonly Concept[]): { meaning: Meaning; weight: number }[] {
  const has = (is: Concept['is']) => concepts.some((c) => c.is === is);
  const only = <T extends Concept['is']>(is: T) =>
    concepts.filter((c): c is Extract<Concept, { is: T }> => c.is === is);
  const fields = [...new Set(only('field').map((c) => c.field))];
  const bodily = has('measure') || has('part') || has('dimension');
  const side = columnSide(concepts);
  const oneSide = side === 'both' ? side : oneOf(side);
  const family = only('device')[0]?.family ?? null;
  const field = (id: (typeof fields)[number], weight = 1) => [
    { meaning: { kind: 'field', field: id, side: oneSide, family } as Meaning, weight },
  ];
  if (has('skin') || has('remarks')) {
    const of = has('skin') ? 'skin' : 'visit';
    return fields.length === 0 && !bodily ? [{ meaning: { kind: 'remark', of }, weight: 1 }] : [];
  }
  // 'Next cast', 'Planned review', 'Brace due': a plan, which is no record.
  if (
    has('yet-to-come') &&
    !bodily &&
    (has('device') || has('date') || fields.some((id) => /^device\.|\.date$/.test(id)))
  )
    return [{ meaning: { kind: 'keep' }, weight: 1 }];
  // 'Age (months)' is an age; 'Wear (months)' is nothing that is read.
  if (
    has('age-unit') &&
    !has('age') &&
    !/^(?:visit\.age|marker\.bone_age|child\.gestation_weeks)$/.test(fields[0] ?? '')
  )
    return [];
  // 'BMI', 'Height centile': known, and nothing reads it.
  if (has('kept') && bodily && has('unit')) return [];
  if (has('kept'))
    return fields.length === 0 ? [{ meaning: { kind: 'keep' }, weight: bodily ? 0.9 : 1 }] : [];
  const names = fields.filter((id) => id === 'child.first_name' || id === 'child.last_name');
  // 'Surname, first name', 'Name, Vorname', 'Patient (surname, first)': both in one cell.
  if (
    names.length === fields.length &&
    (names.length === 2 || (names.length === 1 && has('name') && !has('person')))
  )
    return names.length === 2 ? field('child.name') : [...field('child.name', 0.97), ...field(names[0], 0.9)];
  if (fields.length === 1 && !bodily) {
    const [id] = fields;
    // 'Brace no', 'Splint number'.
    if (has('number') && id === 'device.family') return field('device.id', 0.9);
    // 'Brace date': of the fitting or of the cast, as somebody says.
    if (has('date') && id === 'device.family')
      return [...field('device.fitted_date', 0.8), ...field('device.cast_date', 0.79)];
    // 'Scan id', 'Visit no' number what they name.
    if (has('number') && /(?:_date|\.date)$/.test(id)) return [{ meaning: { kind: 'keep' }, weight: 0.9 }];
    if (id.startsWith('device.') || id === 'side' || id === 'shoe.size' || id === 'long.value') {
      return field(id);
    }
    if (oneSide || has('device')) return id === 'child.affected_side' ? field(id, 0.9) : [];
    if (has('unit') && !id.startsWith('child.g')) return [];
    return field(id);
  }
  if (fields.length === 2 && !bodily && !has('device')) {
    const [a, b] = [...fields].sort();
    // 'Date cast', 'Cast fitted date': a stage beside the visit's own word is the stage.
    if (a.startsWith('device.') && b.startsWith('visit.')) return field(a, 0.85);
    // 'Brace given', 'Orthosis status', 'Brace side': what is said of the device.
    if (fields.includes('device.family') && (b.startsWith('device.') || b === 'side'))
      return field(a === 'device.family' ? b : a, 0.95);
    return [];
  }
  if (bodily && fields.length <= 1) {
    // 'Foot length before': of a day that nobody can tell.
    if (has('other-time') || has('yet-to-come')) return [{ meaning: { kind: 'keep' }, weight: 0.8 }];
    const at = deviceDayOf(fields[0]);
    const weigh = has('first-visit') ? 0.79 : 1;
    if (at !== undefined)
      return readings(concepts, side, at).map((r) => ({ ...r, weight: r.weight * weigh }));
  }
  if (fields.length > 0) return [];
  if (has('device')) {
    if (has('unit') || has('name')) return [];
    return [
      {
        meaning: { kind: 'device', family: family ?? '', side: oneSide } as Meaning,
        weight: has('date') ? 1 : 0.95,
      },
    ];
  }
  if (has('person')) {
    if (has('today')) return [{ meaning: { kind: 'keep' }, weight: 0.9 }];
    if (has('age')) return field('visit.age', 0.9);
    if (has('name')) return field('child.name');
    if (has('number')) return field('child.id');
    return [...field('child.name', 0.92), ...field('child.id', 0.9)];
  }
  if (has('name')) return field('child.name', 0.98);
  if (has('age')) return has('today') ? [{ meaning: { kind: 'keep' }, weight: 1 }] : field('visit.age', 0.8);
  if (has('date')) return oneSide ? [] : field('visit.date', 0.9);
  // 'mm' alone over a column, beside one that says what was measured.
  if (has('unit') && concepts.every((c) => c.is === 'unit' || c.is === 'noise'))
    return field('long.value', 0.6);
  if (has('today')) return [];
  if (has('side') && !has('unit') && !has('number') && !has('digits'))
    return oneSide && oneSide !== 'both' ? [] : field('side', 0.9);
  // 'L/R 2' is a size of something; '2' alone a running number.
  if ((has('number') || has('digits')) && !has('side'))
    return [{ meaning: { kind: 'keep' }, weight: 0.7 }, ...field('child.id', 0.7)];
  return [];
}

/** Which day a field beside a measure says it was taken on; undefined where it says something else. */
const deviceDayOf = (field: string | undefined): DeviceDay | null | undefined =>
  field === undefined || field === 'visit.date'
    ? null
    : (Object.keys(deviceDays) as DeviceDay[]).find((day) => deviceDays[day] === field);

function readings(
  concepts: readonly Concept[],
  side: ColumnSide | null,
  at: DeviceDay | null,
): { meaning: Meaning; weight: number }[] {
  if (concepts.some((c) => c.is === 'device' || c.is === 'person' || c.is === 'name')) return [];
  const pick = <T extends Concept['is']>(is: T) =>
    concepts.filter((c): c is Extract<Concept, { is: T }> => c.is === is);
  const ids = new Set(pick('measure').map((c) => c.measure));
  const parts = new Set(pick('part').map((c) => c.part));
  // 'Knee (fibular head to floor)': the landmark says which height of the knee.
  if (parts.has('fibula')) parts.delete('knee');
  const dimensions = new Set(pick('dimension').map((c) => c.dimension));
  const units = [...new Set(pick('unit').map((c) => c.unit))];
  if (units.length > 1 || ids.size > 1 || parts.size > 1 || dimensions.size > 1) return [];
  const unit = units.length === 1 ? unitNamed(units[0]) : null;
  // 'Pied G' is the left foot and no grams.
  const isMass = (of: Unit) => (massUnits as readonly Unit[]).includes(of);
  const fitting = (measure: MeasureId) => unit === null || isMass(unit) === (measures[measure].unit === 'kg');
  const made = (measure: MeasureId, weight: number) => ({
    meaning: {
      kind: 'reading',
      measure,
      // 'Diag L-R' is one size and not two: which it is the clinic says.
      side: measures[measure].sided ? ((measure === 'head_diagonal' ? oneOf(side) : side) ?? 'row') : 'none',
      unit,
      at,
    } as Meaning,
    // A word that also says nothing ('from') says nothing here.
    weight: (side !== null && !measures[measure].sided ? 0.6 : 1) * (at === null ? 1 : 0.93) * weight,
  });
  if (ids.size === 1) {
    const [id] = ids;
    return parts.size === 0 && dimensions.size === 0 && fitting(id) ? [made(id, 1)] : [];
  }
  // 'Length (cm)' with no part of the body is the child's, if its values can be.
  if (parts.size === 0)
    return dimensions.has('length') && side === null && unit !== 'mm' ? [made('stature', 0.75)] : [];
  const [part] = parts;
  const [dimension] = dimensions;
  const by = measuresOf(part, dimension ?? 'alone');
  return by.filter(fitting).map((measure, at) => made(measure, dimension ? 1 : 0.96 - at * 0.02));
}

const oneOf = (side: ColumnSide | null) => (side === 'left' || side === 'right' ? side : null);

function columnSide(concepts: readonly Concept[]): ColumnSide | null {
  const sides = concepts.flatMap((c) => (c.is === 'side' ? [c.side] : []));
  const [a, b] = sides;
  if (a === undefined) return null;
  if (b === undefined || a === b) return a;
  if (a === 'left' && b === 'right') return 'left-right';
  if (a === 'right' && b === 'left') return 'right-left';
  return null;
}
