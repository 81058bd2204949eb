import type { Device } from '../../records/device.js';
import { fieldLimits } from '../../records/field-limits.js';
import { type MeasureId, measureIds, measures } from '../../records/measure.js';
import { measurementFields } from '../../records/record-fields.js';
import { type Child, measurementRecord } from '../../records/records.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { CellInput, Form, InputField, NotAccepted, SelectField, Submit } from '../parts/form.js';
import { ageText } from '../parts/format.js';
import { ChildLayout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath } from '../parts/paths.js';
import { type ExpectedSize, fieldHint, fieldName } from './expected-sizes.js';
import type { TypedVisit } from './read-visit.js';
import { sizeUnits } from './typed-size.js';
import { ChildAlerts, VisitDevices } from './visit-devices.js';

export interface VisitPageProps extends Omit<TypedVisit, 'readings' | 'judged'> {
  readonly child: Child;
  readonly devices: readonly Device[];
  readonly rules: FitRules;
  readonly sizes: readonly ExpectedSize[];
  readonly usual: readonly MeasureId[];
}

export function VisitPage(props: VisitPageProps) {
  const { today } = usePage();
  const { child, sizes, usual, typed, unit, date, observer, errors, doubts, remarks } = props;
  const base = childPath(child.id);
  const others = measureIds.filter((m) => !usual.includes(m));
  const openOthers = others.some((m) => sizes.some((s) => s.measure === m && typed[fieldName(m, s.side)]));
  const rows = (list: readonly MeasureId[]) => (
    <div class="readings">
      <span class="head-name" />
      <strong aria-hidden="true">Left</strong>
      <strong aria-hidden="true">Right</strong>
      {list.map((m) => (
        <MeasureRow
          {...{ typed, errors, doubts, remarks }}
          key={m}
          sizes={sizes.filter((s) => s.measure === m)}
        />
      ))}
    </div>
  );
  return (
    <ChildLayout
      child={child}
      title="Enter a visit"
      beside={`· ${ageText(child.birthDate, today)}`}
      scripts={['visit.js']}
    >
      <ChildAlerts child={child} />
      <p class="no-print">
        <span class="keys">
          <kbd>Enter</kbd> next field · <kbd>Ctrl</kbd>+<kbd>Enter</kbd> save.
        </span>{' '}
        Leave empty what was not measured. Type another unit behind a number if needed: <em>17.5 cm</em>,{' '}
        <em>6.9 in</em>.
      </p>
      <NotAccepted entries={errors} />
      <Form action={`${base}/visit`} id="visit" class="card" novalidate data-check={`${base}/visit/check`}>
        <div class="row">
          <InputField
            label="Date measured"
            name="date"
            type="date"
            required
            value={date}
            min={child.birthDate}
            max={today}
            error={errors.date}
          />
          <InputField
            label={measurementFields.observer.label}
            name="observer"
            value={observer}
            {...fieldLimits(measurementRecord.shape.observer)}
            size={16}
          />
          <SelectField
            label="Unit of lengths"
            name="unit"
            of={sizeUnits.map((u) => [u, u] as const)}
            chosen={unit}
          />
        </div>
        <fieldset>
          <legend>
            Readings <small>(under each field: the last one, and where nine in ten would lie today)</small>
          </legend>
          {rows(usual)}
        </fieldset>
        <details open={openOthers}>
          <summary>More dimensions</summary>
          {rows(others)}
        </details>
        <div class="device-visits">
          <VisitDevices {...props} />
        </div>
        {Object.keys(doubts).length > 0 && (
          <p class="error">
            <input type="checkbox" id="confirmed" name="confirmed" value="yes" />{' '}
            <label for="confirmed">
              I have measured again or checked: the readings marked above are right as typed.
            </label>
          </p>
        )}
        <p class="row">
          <Submit main id="save">
            Save visit
          </Submit>
          <a href={base}>Cancel</a>
          <span id="summary" role="status" class="hint" />
        </p>
      </Form>
    </ChildLayout>
  );
}

type Row = Pick<VisitPageProps, 'sizes' | 'typed' | 'errors' | 'doubts' | 'remarks'>;

function MeasureRow({ sizes, typed, errors, doubts, remarks }: Row) {
  const { format } = usePage();
  const { label, unit, landmark, sided } = measures[sizes[0].measure];
  return (
    <>
      <span class="name">
        <strong>{label}</strong>
        {unit === 'kg' && <small> kg</small>}
        <br />
        <small>{landmark}</small>
      </span>
      {sizes.map((size) => {
        const name = fieldName(size.measure, size.side);
        return (
          <span key={name} class={sided ? undefined : 'wide'}>
            <CellInput
              name={name}
              label={sided ? `${label}, ${size.side}` : label}
              hint={remarks[name] ?? fieldHint(size, format)}
              error={errors[name] ?? doubts[name]}
              value={typed[name]}
              data-hint={fieldHint(size, format)}
            />
          </span>
        );
      })}
    </>
  );
}
