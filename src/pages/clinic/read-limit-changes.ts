import { type LimitChange, limitChange } from '../../rules/clinic-limits.js';
import type { FamilyView } from '../../service/fit-rules-view.js';
import { typedSize } from '../child/typed-size.js';
import type { Fields } from '../parts/route-types.js';

export interface TypedLimits {
  readonly changes: readonly LimitChange[];
  readonly reason: string;
  /** By field name; '' for the form as a whole. */
  readonly errors: Readonly<Record<string, string>>;
}

/** What a submitted form changes of a family's figures; a field left as it was, or left out, changes nothing. */
export function readLimitChanges(form: Fields, family: FamilyView): TypedLimits {
  const errors: Record<string, string> = {};
  const changes: LimitChange[] = [];
  const reason = (form.reason ?? '').trim();
  for (const { measure, figures } of family.dimensions)
    for (const { figure, mm, clinic } of figures) {
      const name = `${measure}.${figure}`;
      const place = { family: family.family, measure, figure };
      if (form[`back.${name}`] === 'yes' && clinic) changes.push({ ...place, mm: null, reason });
      else if (form[name] !== undefined) {
        const typed = typedSize(form[name], measure, 'mm');
        if (typed === null) errors[name] = 'No size. Accepted: a number of mm such as 7.5';
        else if (typed !== mm) changes.push({ ...place, mm: typed, reason });
      }
    }
  if (changes.length === 0 && Object.keys(errors).length === 0) errors[''] = 'No figure was changed.';
  else if (!limitChange.shape.reason.safeParse(reason).success)
    errors.reason = 'Say why, in 4 to 400 characters: an audit, a paper, a judgement.';
  return { changes, reason, errors };
}
