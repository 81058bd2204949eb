import { capital } from '../../forecast/words.js';
import { fieldLimits } from '../../records/field-limits.js';
import { measures } from '../../records/measure.js';
import { type LimitFigure, limitChange } from '../../rules/clinic-limits.js';
import type { DimensionView, FamilyView, FigureView } from '../../service/fit-rules-view.js';
import type { LimitChangeRow, Page } from '../../store/contract.js';
import { CellInput, Form, InputField, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { noted, Pager, Table } from '../parts/table.js';
import { LimitsCaution } from './fit-rules-page.js';

interface FitRulesFamilyProps {
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
          {dimensions}
          <section class="no-print">
            <InputField
              label="Reason or source"
              hint="kept and shown beside every figure you change"
              name="reason"
              wide
              {...fieldLimits(limitChange.shape.reason)}
              value={typed.reason}
              error={errors.reason}
            />
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
  const { dimension, maySet, typed, errors, figures } = props;
  const { format } = usePage();
  const nameOf = (f: FigureView) => `${dimension.measure}.${f.figure}`;
  const counts = (mm: number) => <strong>{format.stated(mm)} mm</strong>;
  const own = (f: FigureView) =>
    f.clinic ? (
      <>
        {counts(f.clinic.mm)}{' '}
        <small>
          {f.clinic.reason} (set by {f.clinic.by}, {format.day(f.clinic.at)})
        </small>
        {maySet && (
          <label class="back">
            <input
              type="checkbox"
              name={`back.${nameOf(f)}`}
              value="yes"
              checked={typed[`back.${nameOf(f)}`] === 'yes'}
            />{' '}
            back to the shipped {format.stated(f.shippedMm)} mm
          </label>
        )}
      </>
    ) : (
      'none'
    );
  const setTo = (f: FigureView) => {
    const name = nameOf(f);
    return (
      <CellInput
        name={name}
        label={`${dimension.label}: ${figureWords[f.figure].label}, mm`}
        hint={`${format.stated(f.lowestMm)} to ${format.stated(f.highestMm)}`}
        error={errors[name] && capital(errors[name])}
        size={5}
        value={typed[name] ?? format.stated(f.mm)}
      />
    );
  };
  return (
    <Table
      class="stack limits"
      rows={figures}
      columns={[
        ['Figure', ({ figure }) => noted(figureWords[figure].label, figureWords[figure].hint)],
        [
          'Shipped',
          (f) => noted(f.clinic ? `${format.stated(f.shippedMm)} mm` : counts(f.shippedMm), f.shippedSource),
        ],
        ["This clinic's own", own],
        ['Devices in use', (f) => format.number(f.devicesInUse)],
        maySet && ['Set to, mm', setTo],
      ]}
    />
  );
}

/** Who changed which limit of a family when and why, newest first. */
function FitRulesHistory({ history, here }: { history: Page<LimitChangeRow>; here: string }) {
  const { format } = usePage();
  return (
    <section>
      <h2>What was changed</h2>
      <Table
        class="stack"
        empty="Nothing yet: every figure is as shipped."
        rows={history.items}
        columns={[
          ['When', (row) => format.day(row.at)],
          [
            'Limit',
            (row) => `${measures[row.measure].label}, ${figureWords[row.figure].label.toLowerCase()}`,
          ],
          [
            'From, to',
            (row) =>
              `${format.stated(row.beforeMm)} to ${row.mm === null ? 'the shipped figure' : `${format.stated(row.mm)} mm`}`,
          ],
          ['Reason', (row) => row.reason],
          ['Who', (row) => row.by],
        ]}
      />
      {history.nextCursor && (
        <Pager>
          <a rel="next" href={`${here}?${new URLSearchParams({ cursor: history.nextCursor })}`}>
            Older changes
          </a>
        </Pager>
      )}
    </section>
  );
}

/** What each figure of a fit rule means to the people who judge a fit by it. */
export const figureWords: Readonly<Record<LimitFigure, { readonly label: string; readonly hint: string }>> = {
  allowanceMm: {
    label: 'Outgrown after',
    hint: 'growth since the cast',
  },
  allowanceBehindToesMm: {
    label: 'Outgrown after, plate ending behind the toes',
    hint: 'growth since the cast',
  },
  tightWithinMm: {
    label: 'Tight within',
    hint: 'a reviewer calls it tight with less room than this',
  },
  toleranceMm: {
    label: 'Spread between devices',
    hint: 'one standard deviation of a device’s real limit about the figure',
  },
};
