import type { DimensionView, FamilyView } from '../../service/fit-rules-view.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { Table } from '../parts/table.js';

/** Said wherever limits are shown: what they are worth and whose they are. */
export const LimitsCaution = () => (
  <p>
    Shipped limits are common practice, not standards. A limit of your own is the clinic's own responsibility:
    set it only when a licensed practitioner has agreed to it. No limit outranks pain, a blister, or redness
    that does not fade.
  </p>
);

/** Every device family with the growth at which it counts as outgrown, the clinic's own figures marked. */
export function FitRulesPage({ families }: { families: readonly FamilyView[] }) {
  const { format } = usePage();
  return (
    <Layout titled title="Fit rules">
      <p>
        A device counts as outgrown when the child has grown, since its cast, by the limit in any one of its
        dimensions. Every forecast is made with these limits, unless a device has one of its own.
      </p>
      <LimitsCaution />
      <Table
        class="stack card"
        caption="Outgrown after growth of, in mm"
        rows={families}
        columns={[
          ['Family', (f) => <a href={`/fit-rules/${encodeURIComponent(f.family)}`}>{f.name}</a>],
          [
            'Limits',
            (f) =>
              f.dimensions.map((d, i) => (
                <>
                  {i > 0 && ' · '}
                  <LimitText key={d.measure} dimension={d} />
                </>
              )),
          ],
          ['Devices in use', (f) => format.number(f.devicesInUse)],
        ]}
      />
      <p>
        <a href="/api/fit-rules/file" download="fit-rules.json">
          The clinic's own limits as a file
        </a>{' '}
        <small>
          for the command line: <code>npx doorpost forecast my-clinic/ --rules fit-rules.json</code>
        </small>
      </p>
    </Layout>
  );
}

function LimitText({ dimension }: { dimension: DimensionView }) {
  const { format } = usePage();
  const allowance = dimension.figures.find((f) => f.figure === 'allowanceMm');
  const own = dimension.figures.filter((f) => f.clinic);
  return (
    <span>
      {dimension.label} {allowance && <strong class="day">{format.stated(allowance.mm)}</strong>}
      {own.length > 0 && (
        <>
          {' '}
          <span class="tag plan">clinic's own</span>
        </>
      )}
      {allowance?.clinic && <small> shipped {format.stated(allowance.shippedMm)}</small>}
    </span>
  );
}
