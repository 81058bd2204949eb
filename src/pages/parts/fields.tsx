import type { ComponentChildren, JSX } from 'preact';

interface About {
  readonly label: ComponentChildren;
  readonly hint?: ComponentChildren;
  readonly name: string;
  /** The name, where a page has it once. */
  readonly id?: string;
  readonly wide?: boolean;
  readonly error?: string;
  readonly children?: ComponentChildren;
}

/** A control in which what was typed cannot be: the first of them on a page has the focus when it opens, without script. */
export const refused = { class: 'bad', 'aria-invalid': 'true', autofocus: true } as const;

/** What a control says of itself where what was typed in it cannot be, and where the reason stands. */
export const tied = (id: string, error: string | undefined) =>
  error ? { ...refused, 'aria-describedby': `${id}-error` } : {};

function Field({ label, hint, id, wide, error, children }: Omit<About, 'name'>) {
  return (
    <p class={wide ? 'field wide' : 'field'}>
      <label for={id}>
        {label}
        {hint && (
          <>
            {' '}
            <small>{hint}</small>
          </>
        )}
      </label>
      {children}
      {error && (
        <span class="hint warn" id={`${id}-error`}>
          {error}
        </span>
      )}
    </p>
  );
}

/** A field of a date without a last day lets five digits into the year. */
export const LAST_DAY = '9999-12-31';

/** An input under its label, as every form has it. */
export function InputField(props: About & Omit<JSX.IntrinsicElements['input'], keyof About>) {
  const { children, name, id = name, label, hint, wide, error, ...input } = props;
  return (
    <Field {...{ label, hint, id, wide, error }}>
      <input
        id={id}
        name={name}
        max={input.type === 'date' ? LAST_DAY : undefined}
        {...input}
        {...tied(id, error)}
      />
      {children}
    </Field>
  );
}

/** What can be chosen: a word is its own value, a pair is value and word. */
type Choices = readonly (string | readonly [value: string, word: ComponentChildren])[];

export function SelectField(
  props: About & { of: Choices; chosen?: string | null } & Omit<JSX.IntrinsicElements['select'], keyof About>,
) {
  const { children, name, id = name, label, hint, wide, error, of, chosen, ...select } = props;
  return (
    <Field {...{ label, hint, id, wide, error }}>
      <select id={id} name={name} {...select} {...tied(id, error)}>
        <Options of={of} chosen={chosen} />
      </select>
      {children}
    </Field>
  );
}

export function Options({ of, chosen }: { of: Choices; chosen?: string | null }) {
  return (
    <>
      {of.map((choice) => {
        const [value, word] = typeof choice === 'string' ? [undefined, choice] : choice;
        return (
          <option key={value ?? word} value={value} selected={(value ?? word) === chosen}>
            {word}
          </option>
        );
      })}
    </>
  );
}

/** The head of a table: a word a column. */
export const Columns = ({ of }: { of: readonly ComponentChildren[] }) => (
  <thead>
    <tr>
      {of.map((column, i) => (
        <th scope="col" key={i}>
          {column}
        </th>
      ))}
    </tr>
  </thead>
);

/** A message of no field of its own is read out and is where the keyboard goes on. */
export const announced = { class: 'error', role: 'alert', tabIndex: -1, autofocus: true } as const;

/** Why nothing was saved; empty where nothing stands in the way. */
export const Problem = ({ error }: { error?: string }) => (error ? <p {...announced}>{error}</p> : null);

/** Before what cannot be taken back or must not be taken away, of who signs in by a password of doorpost's own. */
export const PasswordAgain = ({ asked }: { asked: boolean }) =>
  asked ? (
    <InputField
      label="Your password again"
      id="again"
      name="password"
      type="password"
      required
      autocomplete="current-password"
    />
  ) : null;
