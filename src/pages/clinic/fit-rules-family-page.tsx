import { capital } from '../../forecast/words.js';
import { fieldLimits } from '../../records/field-limits.js';
import { limitChange } from '../../rules/clinic-limits.js';
import type { DimensionView, FamilyView, FigureView } from '../../service/fit-rules-view.js';
import type { LimitChangeRow, Page } from '../../store/contract.js';
import { refused } from '../parts/fields.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { FitRulesHistory } from './fit-rules-history.js';
import { LimitsCaution } from './fit-rules-page.js';
import { figureWords } from './fit-rules-words.js';

export interface FitRulesFamilyProps {
  readonly family: FamilyView;
  readonly version: number;
  readonly history: Page<LimitChangeRow>;
  readonly maySet: boolean;
  readonly typed: Readonly<Record<string, string>>;
  /** Fields that cannot be accepted, with the reason; '' for the form as a whole. */
  readonly errors: Readonly<Record<string, string>>;
}

/** One family: shipped and own figure side by side, a field to set each, and who changed what and why. */
export function FitRulesFamilyPage(props: FitRulesFamilyProps) {
  const { format } = usePage();
  const { family, version, history, maySet, typed, errors } = props;
  const here = `/fit-rules/${encodeURIComponent(family.family)}`;
  const dimensions = family.dimensions.map((d) => <Dimension key={d.measure} {...props} dimension={d} />);
  return (
    <Layout title={`Fit rules: ${family.name}`}>
      <p>
        <a href="/fit-rules">Fit rules</a>
      </p>
      <h1>{family.name}</h1>
      <p>
        <strong>
          {format.number(family.devicesInUse)} {family.devicesInUse === 1 ? 'device' : 'devices'} in use.
        </strong>{' '}
        A changed limit changes every forecast of this family. Devices with an allowance or limit of their own
        keep it.
      </p>
      <LimitsCaution />
      {Object.keys(errors).length > 0 && (
        <p class="error" role="alert">
          {errors[''] ?? 'Not everything can be accepted.'} Nothing was saved yet.
        </p>
      )}
      {maySet ? (
        <Form action={here} class="print" novalidate hidden={{ version }}>
          {' '}
          {dimensions}
          <section class="no-print">
            <p class="field">
              <label for="reason">
                Reason or source <small>kept and shown beside every figure you change</small>
              </label>
              <textarea
                id="reason"
                name="reason"
                rows={2}
                {...fieldLimits(limitChange.shape.reason)}
                class={errors.reason ? 'bad' : undefined}
                aria-describedby={errors.reason ? 'reason-error' : undefined}
              >
                {typed.reason}
              </textarea>
              {errors.reason && (
                <span class="hint warn" id="reason-error">
                  {errors.reason}
                </span>
              )}
            </p>
            <Submit main>Check the changes</Submit>
          </section>
        </Form>
      ) : (
        <>
          <p class="hint">Only a clinician can change limits.</p>
          {dimensions}
        </>
      )}
      <FitRulesHistory history={history} here={here} />
    </Layout>
  );
}

function Dimension(props: FitRulesFamilyProps & { dimension: DimensionView }) {
  const { dimension, errors } = props;
  const allowances = dimension.figures.filter((f) => f.figure.startsWith('allowance'));
  const others = dimension.figures.filter((f) => !f.figure.startsWith('allowance'));
  const open = others.some((f) => f.clinic || errors[`${dimension.measure}.${f.figure}`]);
  return (
    <section aria-labelledby={dimension.measure}>
      <h2 id={dimension.measure}>{dimension.label}</h2>
      <p>
        {capital(dimension.landmark)}. <em>{dimension.outgrownWhen}</em>{' '}
        {dimension.builtIn ? 'Made larger by the room it is to have.' : 'Made to the cast.'}
      </p>
      <Figures {...props} figures={allowances} />
      <details open={open}>
        <summary>Tight and spread</summary>
        <Figures {...props} figures={others} />
      </details>
    </section>
  );
}

function Figures(props: FitRulesFamilyProps & { dimension: DimensionView; figures: readonly FigureView[] }) {
  const { maySet, figures } = props;
  return (
    <table class="stack limits">
      <thead>
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">Shipped</th>
          <th scope="col">This clinic's own</th>
          <th scope="col">Devices in use</th>
          {maySet && <th scope="col">Set to, mm</th>}
        </tr>
      </thead>
      <tbody>
        {figures.map((f) => (
          <FigureRow key={f.figure} {...props} figure={f} />
        ))}
      </tbody>
    </table>
  );
}

function FigureRow(props: FitRulesFamilyProps & { dimension: DimensionView; figure: FigureView }) {
  const { dimension, figure, maySet, typed, errors } = props;
  const { format } = usePage();
  const { clinic } = figure;
  const name = `${dimension.measure}.${figure.figure}`;
  const words = figureWords[figure.figure];
  const error = errors[name];
  const counts = (mm: number) => <strong>{format.stated(mm)} mm</strong>;
  return (
    <tr>
      <th scope="row">
        {words.label} <small>{words.hint}</small>
      </th>
      <td data-label="Shipped">
        {clinic ? `${format.stated(figure.shippedMm)} mm` : counts(figure.shippedMm)}{' '}
        <small>{figure.shippedSource}</small>
      </td>
      <td data-label="This clinic's own">
        {clinic ? (
          <>
            {counts(clinic.mm)}{' '}
            <small>
              {clinic.reason} (set by {clinic.by}, {format.day(clinic.at)})
            </small>
            {maySet && (
              <label class="back">
                <input
                  type="checkbox"
                  name={`back.${name}`}
                  value="yes"
                  checked={typed[`back.${name}`] === 'yes'}
                />{' '}
                back to the shipped {format.stated(figure.shippedMm)} mm
              </label>
            )}
          </>
        ) : (
          'none'
        )}
      </td>
      <td data-label="Devices in use">{format.number(figure.devicesInUse)}</td>
      {maySet && (
        <td data-label="Set to, mm">
          <input
            name={name}
            size={5}
            inputMode="decimal"
            autocomplete="off"
            value={typed[name] ?? format.stated(figure.mm)}
            aria-label={`${dimension.label}: ${words.label}, mm`}
            aria-describedby={`${name}-hint`}
            {...(error && refused)}
          />
          <small id={`${name}-hint`} class={error ? 'hint warn' : undefined}>
            {(error && capital(error)) ??
              `${format.stated(figure.lowestMm)} to ${format.stated(figure.highestMm)}`}
          </small>
        </td>
      )}
    </tr>
  );
}
