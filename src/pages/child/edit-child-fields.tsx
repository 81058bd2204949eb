import type { ComponentChildren } from 'preact';
import type { Child } from '../../records/records.js';
import { type ChildField, choices, labelOf, type ReadChild, storedText, ticks } from './child-form.js';

/** What stands around a field: the form as read, and what somebody else stored since. */
export interface Around {
  readonly read: Pick<ReadChild, 'typed' | 'raw' | 'errors'>;
  readonly meanwhile: Child | null;
}

const differs = (name: ChildField, { typed }: Around['read'], meanwhile: Child | null): boolean =>
  meanwhile !== null && JSON.stringify(meanwhile[name]) !== JSON.stringify(typed[name]);

const remarked = (name: ChildField, read: Around['read'], meanwhile: Child | null) =>
  read.errors[name] || differs(name, read, meanwhile) ? `${name}-remark` : undefined;

/** What ties an input to its label and to what is said under it. */
export const control = (name: ChildField, read: Around['read'], meanwhile: Child | null) => ({
  id: name,
  name,
  class: read.errors[name] ? 'bad' : undefined,
  'aria-invalid': read.errors[name] ? ('true' as const) : undefined,
  'aria-describedby': remarked(name, read, meanwhile),
});

export const group = (name: ChildField, read: Around['read'], meanwhile: Child | null) => ({
  id: name,
  tabIndex: read.errors[name] ? -1 : undefined,
  'aria-describedby': remarked(name, read, meanwhile),
});

export function Remark({ name, read, meanwhile }: Around & { name: ChildField }) {
  const accepted = read.errors[name];
  if (accepted)
    return (
      <span class="hint warn" id={`${name}-remark`}>
        Accepted is {accepted}
      </span>
    );
  if (!meanwhile || !differs(name, read, meanwhile)) return null;
  return (
    <span class="hint warn" id={`${name}-remark`}>
      Stored meanwhile: {storedText(name, meanwhile)}
    </span>
  );
}

export function Field(
  props: Around & {
    name: ChildField;
    label: string;
    hint?: string;
    wide?: boolean;
    children: ComponentChildren;
  },
) {
  const { name, label, hint, wide, children, ...around } = props;
  return (
    <p class={wide ? 'field wide' : 'field'}>
      <label for={name}>
        {label} {hint && <small>{hint}</small>}
      </label>
      {children}
      <Remark name={name} {...around} />
    </p>
  );
}

export function Choice({ name, ...around }: Around & { name: keyof typeof choices }) {
  const { read, meanwhile } = around;
  return (
    <Field name={name} label={labelOf(name)} {...around}>
      <select {...control(name, read, meanwhile)}>
        {Object.entries(choices[name]).map(([value, word]) => (
          <option key={value} value={value} selected={value === read.typed[name]}>
            {word}
          </option>
        ))}
      </select>
    </Field>
  );
}

export function Tick({ name, ...around }: Around & { name: keyof typeof ticks }) {
  const { read, meanwhile } = around;
  return (
    <span>
      <label>
        <input type="checkbox" {...control(name, read, meanwhile)} value="yes" checked={read.typed[name]} />
        {ticks[name]}
      </label>{' '}
      <Remark name={name} {...around} />
    </span>
  );
}
