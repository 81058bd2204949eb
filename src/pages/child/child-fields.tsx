import type { ComponentChildren } from 'preact';
import { growthHormoneColumns } from '../../forecast/record-until.js';
import { type ChildField, childFields, childSchema } from '../../records/child-fields.js';
import { fieldKind, fieldLimits } from '../../records/field-limits.js';
import type { Child } from '../../records/records.js';
import { familyLanguages } from '../../words/family/family-languages.js';
import { languageName } from '../../words/language-name.js';
import { LAST_DAY, Options, refused } from '../parts/form.js';
import { optionsOf, type Read, storedText } from './child-form.js';

/** What stands around the fields: the form as read, and what somebody else stored since. */
interface Around {
  readonly read: Read;
  readonly meanwhile: Child | null;
  readonly latestBirth: string;
}

/** Everything that has to be looked at, each a click away. */
export function ChildErrors({ errors }: Pick<Read, 'errors'>) {
  const wrong = Object.entries(errors) as [ChildField, string][];
  return wrong.length === 0 ? null : (
    <div class="error" role="alert">
      <p>Nothing was saved yet. Please look at:</p>
      <ul>
        {wrong.map(([field, accepted]) => (
          <li key={field}>
            <a href={`#${field}`}>{childFields[field].label}</a>: accepted is {accepted}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Fields of a child, each drawn as its kind is entered: lines beside each other, then boxes to tick. */
export function ChildFields({ of, ...around }: Around & { of: readonly ChildField[] }) {
  const kindOf = (field: ChildField) => fieldKind(childSchema(field));
  const [ticks, groups] = [
    of.filter((f) => kindOf(f) === 'tick'),
    of.filter((f) => kindOf(f) === 'several' || kindOf(f) === 'columns'),
  ];
  const lines = of.filter((f) => !ticks.includes(f) && !groups.includes(f));
  return (
    <>
      {lines.length > 0 && (
        <div class="row">
          {lines.map((f) => (
            <Line key={f} name={f} {...around} />
          ))}
        </div>
      )}
      {ticks.length > 0 && (
        <p class="choices">
          {ticks.map((f) => (
            <Tick key={f} name={f} {...around} />
          ))}
        </p>
      )}
      {groups.map((f) => (
        <Group key={f} name={f} {...around} />
      ))}
    </>
  );
}

type One = Around & { readonly name: ChildField };

/** What somebody must see beside a field: why it cannot be, or what another person stored. */
function remarkOf({ name, read, meanwhile }: One): string {
  if (read.errors[name]) return `Accepted is ${read.errors[name]}`;
  if (!meanwhile || JSON.stringify(meanwhile[name]) === JSON.stringify(read.typed[name])) return '';
  return `Stored meanwhile: ${storedText(name, meanwhile)}`;
}

const Remark = (one: One) =>
  remarkOf(one) ? (
    <span class="hint warn" id={`${one.name}-remark`}>
      {remarkOf(one)}
    </span>
  ) : null;

const tied = (one: One) => ({
  id: one.name,
  'aria-describedby': remarkOf(one) ? `${one.name}-remark` : undefined,
});

const control = (one: One) => ({
  ...tied(one),
  name: one.name,
  ...(one.read.errors[one.name] && refused),
});

function Line(one: One) {
  const { name, read, latestBirth } = one;
  const { label, hint, wide } = childFields[name];
  const kind = fieldKind(childSchema(name));
  const value = String(read.raw[name] ?? read.typed[name] ?? '');
  const asks = {
    date: { type: 'date', required: true, max: latestBirth },
    number: { inputMode: 'numeric', size: 4 },
    text: { ...fieldLimits(childSchema(name)), autocomplete: 'off' },
  }[kind as string] as object;
  return (
    <p class={wide ? 'field wide' : 'field'}>
      <label for={name}>
        {label} {hint && <small>{hint}</small>}
      </label>
      {kind === 'choice' ? (
        <select {...control(one)}>
          <Options
            of={optionsOf(name).map(([v, word]) => [String(v), word] as const)}
            chosen={String(read.typed[name])}
          />
        </select>
      ) : (
        <input
          {...control(one)}
          {...asks}
          value={value}
          list={name === 'language' ? 'languages' : undefined}
        />
      )}
      {name === 'language' && (
        <datalist id="languages">
          <Options of={familyLanguages.map(({ language }) => [language, languageName(language)] as const)} />
        </datalist>
      )}
      <Remark {...one} />
    </p>
  );
}

function Tick(one: One) {
  return (
    <span>
      <label>
        <input type="checkbox" {...control(one)} value="yes" checked={one.read.typed[one.name] === true} />
        {childFields[one.name].label}
      </label>{' '}
      <Remark {...one} />
    </span>
  );
}

/** Boxes of which several can be ticked, or the dates of growth hormone. */
function Group(one: One) {
  const { name, read } = one;
  const { label, hint } = childFields[name];
  const ticked = [read.typed[name]].flat();
  const boxes: ComponentChildren =
    name === 'extra'
      ? Object.entries(growthHormoneColumns).map(([what, column]) => (
          <label key={column}>
            {what === 'start' ? 'from' : 'until'}{' '}
            <input type="date" name={column} max={LAST_DAY} value={read.typed.extra[column] ?? ''} />
          </label>
        ))
      : optionsOf(name).map(([value, word]) => (
          <label key={value}>
            <input type="checkbox" name={name} value={value} checked={ticked.some((v) => v === value)} />
            {word}
          </label>
        ));
  return (
    <fieldset
      class={name === 'conditions' ? 'choices columns' : 'choices'}
      {...tied(one)}
      {...(read.errors[name] && { tabIndex: -1, autofocus: true })}
    >
      <legend>
        {label} {hint && <small>{hint}</small>}
      </legend>
      {boxes}
      <Remark {...one} />
    </fieldset>
  );
}
