import type { ComponentChildren, JSX } from 'preact';
import { usePage } from './page-context.js';

/**
 * A form. One that writes for who is signed in carries the proof that it is ours and what tells a second press
 * from a second write.
 */
export function Form(
  props: Omit<JSX.IntrinsicElements['form'], 'hidden'> & {
    hidden?: Readonly<Record<string, string | number | undefined>>;
    /** The words of the button at its end that sends it. */
    send?: ComponentChildren;
    main?: boolean;
  },
) {
  const { hidden = {}, send, main, children, method = 'post', ...form } = props;
  const { csrf, once } = usePage();
  const unseen = method === 'post' && csrf ? { _csrf: csrf, once, ...hidden } : hidden;
  return (
    <form method={method} {...form}>
      {Object.entries(unseen).map(
        ([name, value]) =>
          value !== undefined && <input key={name} type="hidden" name={name} value={value} />,
      )}
      {children}
      {send && (
        <p>
          <Submit main={main}>{send}</Submit>
        </p>
      )}
    </form>
  );
}

export const Submit = ({ main, ...button }: { main?: boolean } & JSX.IntrinsicElements['button']) => (
  <button type="submit" class={main ? 'main-action' : undefined} {...button} />
);

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
export const refused = { 'aria-invalid': 'true', autofocus: true } as const;

/** What a control says of itself where what was typed in it cannot be, and where the reason stands. */
const tied = (id: string, error: string | undefined) =>
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

/** An input of a table or a grid: heard by its own name, and below it what helps to fill it, or why it cannot be. */
export const CellInput = (
  props: Omit<JSX.IntrinsicElements['input'], 'label'> & {
    name: string;
    label: string;
    hint?: string;
    error?: string;
  },
) => {
  const { name, label, hint = '', error, ...input } = props;
  const below = `${name}-hint`;
  return (
    <>
      <input
        id={name}
        name={name}
        inputMode="decimal"
        autocomplete="off"
        aria-label={label}
        {...(error && refused)}
        {...input}
        aria-describedby={below}
      />
      <span class={error ? 'hint warn' : 'hint'} id={below} aria-live="polite">
        {error ?? hint}
      </span>
    </>
  );
};

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

/** A message of no field of its own is read out and is where the keyboard goes on. */
export const announced = { class: 'error', role: 'alert', tabIndex: -1, autofocus: true } as const;

/** Why nothing was saved; empty where nothing stands in the way. */
export const Problem = ({ error }: { error?: string }) => (error ? <p {...announced}>{error}</p> : null);

/** How many entries of a long form cannot be; why stands beside each. */
export function NotAccepted({ entries }: { entries: Readonly<Record<string, string>> }) {
  const wrong = Object.keys(entries).length;
  return wrong === 0 ? null : (
    <p class="error" role="alert">
      {wrong === 1 ? 'One entry' : `${wrong} entries`} cannot be accepted. Nothing was saved yet; what you
      typed is still here.
    </p>
  );
}

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
