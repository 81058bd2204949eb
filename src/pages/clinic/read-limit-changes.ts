import type { MeasureId } from '../../records/measure.js';
import { type LimitChange, limitChange } from '../../rules/clinic-limits.js';
import type { FamilyView } from '../../service/fit-rules-view.js';
import { typedSize } from '../child/typed-size.js';
import type { Fields } from '../parts/route-types.js';

export interface TypedLimits {
  readonly changes: readonly LimitChange[];
  readonly reason: string;
  readonly errors: Readonly<Record<string, string>>;
}

/** What a submitted form changes of a family's figures; a field left as it was, or left out, changes nothing. */
export function readLimitChanges(form: Fields, family: FamilyView): TypedLimits {
  const errors: Record<string, string> = {};
  const changes: LimitChange[] = [];
  const reason = (form.reason ?? '').trim();
  const shown = family.dimensions.flatMap(({ measure, figures }) => figures.map((f) => ({ measure, ...f })));
  for (const { measure, figure, mm: stands, clinic } of shown) {
    const name = `${measure}.${figure}`;
    const mm = form[`back.${name}`] === 'yes' && clinic ? null : typedMm(form[name], measure);
    if (Number.isNaN(mm)) errors[name] = 'No size. Accepted: a number of mm such as 7.5';
    else if (mm !== undefined && mm !== stands)
      changes.push({ family: family.family, measure, figure, mm, reason });
  }
  if (changes.length === 0 && Object.keys(errors).length === 0)
    return { changes, reason, errors: { '': 'No figure was changed.' } };
  if (!limitChange.shape.reason.safeParse(reason).success)
    errors.reason = 'Say why, in 4 to 400 characters: an audit, a paper, a judgement.';
  return { changes, reason, errors };
}

/** Undefined where nothing was sent, not a number where it is no size. */
const typedMm = (text: string | undefined, measure: MeasureId): number | undefined =>
  text === undefined ? undefined : (typedSize(text, measure, 'mm') ?? Number.NaN);
