import type { LimitChange } from '../../rules/clinic-limits.js';
import type { FamilyView } from '../../service/fit-rules-view.js';
import { Form, Submit } from '../parts/form.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Go } from '../parts/paths.js';
import { noted, Table } from '../parts/table.js';
import { figureWords } from './fit-rules-family-page.js';

/** What will change and for how many devices, before it is saved. */
export function FitRulesCheckPage(props: {
  family: FamilyView;
  version: number;
  changes: readonly LimitChange[];
  /** Devices in use that any of the changes touches, each counted once. */
  devices: number;
  reason: string;
}) {
  const { family, version, changes, devices, reason } = props;
  const { format } = usePage();
  const here = `/fit-rules/${encodeURIComponent(family.family)}`;
  const rows = changes.map((change) => {
    const dimension = family.dimensions.find((d) => d.measure === change.measure)!;
    return { change, dimension, figure: dimension.figures.find((f) => f.figure === change.figure)! };
  });
  return (
    <Layout title={`Check: ${family.name}`}>
      <p>
        <a href="/fit-rules">Fit rules</a> · <a href={here}>{family.name}</a>
      </p>
      <h1>Check before saving</h1>
      <section>
        <p>
          <strong>
            {devices === 0
              ? 'No device in use is touched now.'
              : `${format.number(devices)} ${devices === 1 ? 'device' : 'devices'} in use will be forecast anew.`}
          </strong>{' '}
          So will every {family.name.toLowerCase()} made from now on. More growth allowed moves the dates
          later, less moves them earlier.
        </p>
        <Table
          class="stack check"
          rows={rows}
          columns={[
            [
              'Limit',
              ({ change, dimension }) =>
                `${dimension.label}, ${figureWords[change.figure].label.toLowerCase()}`,
            ],
            ['Now, mm', ({ figure }) => format.stated(figure.mm)],
            [
              'From now on, mm',
              ({ change: { mm }, figure }) =>
                noted(<strong>{format.stated(mm ?? figure.shippedMm)}</strong>, mm === null && 'as shipped'),
            ],
            ['Devices in use', ({ figure }) => format.number(figure.devicesInUse)],
          ]}
        />
        <p>
          <strong>Reason:</strong> {reason}
        </p>
        <p>
          What you save becomes the clinic's own responsibility, under your name. The recall list keeps the
          dates it was made with until it is made anew.
        </p>
        <Form action={here} class="row" hidden={{ version, reason, confirmed: 'yes' }}>
          {changes.map((c) =>
            c.mm === null ? (
              <input key={c.figure} type="hidden" name={`back.${c.measure}.${c.figure}`} value="yes" />
            ) : (
              <input key={c.figure} type="hidden" name={`${c.measure}.${c.figure}`} value={c.mm} />
            ),
          )}
          <Submit main>Save and compute the forecasts again</Submit>
          <Go to={here}>Do not save</Go>
        </Form>
      </section>
    </Layout>
  );
}
