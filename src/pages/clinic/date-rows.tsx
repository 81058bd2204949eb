import type { ComponentChildren } from 'preact';
import { LAST_DAY } from '../parts/fields.js';
import type { Fields } from '../parts/route-types.js';
import { rowsOf } from './capacity-form.js';

/** Spans of days, a row each with date fields, and empty rows for more. */
export function DateRows(props: {
  form: Fields;
  kind: string;
  title: string;
  spare: number;
  named?: boolean;
  children?: ComponentChildren;
}) {
  const { form, kind, title, spare, named = false, children } = props;
  return (
    <fieldset class="days">
      <legend>{title}</legend>
      {children && <p class="hint">{children}</p>}
      {Array.from({ length: rowsOf(form, kind) + spare }, (_, k) => {
        const field = (name: 'from' | 'to' | 'name', label: string) => (
          <label>
            {label}{' '}
            <input
              name={`${kind}-${k}-${name}`}
              type={name === 'name' ? 'text' : 'date'}
              max={name === 'name' ? undefined : LAST_DAY}
              maxLength={name === 'name' ? 80 : undefined}
              value={form[`${kind}-${k}-${name}`] ?? ''}
              aria-label={`${title}, row ${k + 1}, ${label}`}
            />
          </label>
        );
        return (
          <p class="row" key={k}>
            {field('from', 'first day')}
            {field('to', 'last day')}
            {named && field('name', 'name')}
          </p>
        );
      })}
    </fieldset>
  );
}
