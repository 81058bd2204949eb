import { deviceLabel } from '../../charts/device-label.js';
import type { DataSuggestion } from '../../forecast/contract.js';
import type { ChildRecord } from '../../records/caseload.js';
import { type MeasureId, measures } from '../../records/measure.js';
import { recordKeepers } from '../../records/roles.js';
import type { ScoredReading } from '../../service/child-view/child-charts.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { FamilyLink, FamilyQuestion, MeasurementRevision } from '../../store/contract.js';
import { conditionNames } from '../../words/condition-names.js';
import { QuestionsSection } from '../family/family-answers.js';
import { FamilyLinks } from '../family/family-link-page.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Contact } from '../parts/contact.js';
import { Form, Submit } from '../parts/form.js';
import { ageText } from '../parts/format.js';
import { Empty, Layout, Section, Tabs } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { childPath, Go } from '../parts/paths.js';
import { ChildCautions } from './child-cautions.js';
import { Corrections } from './corrections.js';
import { DeviceCard } from './device-card.js';
import { ReadingsTable } from './readings-table.js';
import { ChildAlerts } from './visit-devices.js';

interface Tempo {
  readonly tempo: { readonly mean: number; readonly sd: number } | null;
}

/** What clinicians alone are shown of a child. */
export interface ForClinicians extends Tempo {
  /** Measures that can be charted, the one shown first. */
  readonly chartable: readonly MeasureId[];
  readonly measure: MeasureId | null;
  readonly growth: Drawn;
  readonly timeline: Drawn;
  readonly readings: readonly ScoredReading[];
  readonly links: readonly FamilyLink[];
  readonly questions: readonly FamilyQuestion[];
  readonly revisions: readonly MeasurementRevision[];
}

const sexWords = { male: 'male', female: 'female', unknown: 'sex not recorded, both references shown' };

const conditionsText = ({ conditions, affectedSide }: ChildRecord['child']): string =>
  `${conditions.map((c) => conditionNames[c]).join('; ')}${affectedSide === 'none' ? '' : ` (${affectedSide})`}`;

function WaysOn({ base, clinical }: { base: string; clinical: boolean }) {
  const { user } = usePage();
  return (
    <p class="row no-print">
      {clinical && (
        <Go main to={`${base}/visit`} accesskey="v">
          Enter a visit
        </Go>
      )}
      {clinical && <Go to={`${base}/devices/new`}>New device</Go>}
      <Go to={`${base}/family`}>Family sheet</Go>
      {user?.role !== 'administrator' && <Go to={`${base}/edit`}>Edit details</Go>}
      {user && recordKeepers.includes(user.role) && <Go to={`${base}/record`}>Copy of the record</Go>}
    </p>
  );
}

export function ChildPage({ view, clinical }: { view: ChildView; clinical: ForClinicians | null }) {
  const { record, assessment, inUse } = view;
  const { child } = record;
  const { format, today } = usePage();
  const base = childPath(child.id);
  return (
    <Layout title={child.name || child.id}>
      <div class="row between">
        <div>
          <h1>{child.name || child.id}</h1>
          <p>
            {child.id} · {ageText(child.birthDate, today)} (born {format.date(child.birthDate)}) ·{' '}
            {sexWords[child.sex]}
            {child.status !== 'active' && (
              <>
                {' '}
                <span class="tag due">{child.status.replace('-', ' ')}</span>
              </>
            )}
          </p>
          <ChildAlerts child={child} />
          {clinical && child.conditions.length > 0 && <p>{conditionsText(child)}</p>}
          {child.contact && (
            <p>
              <span class="hint">To reach the family:</span> <Contact text={child.contact} />
            </p>
          )}
        </div>
        <WaysOn base={base} clinical={clinical !== null} />
      </div>

      <ChildCautions flags={assessment.flags} />

      {clinical && <LikelySlips base={base} suggestions={assessment.suggestions} />}

      {clinical && inUse.length > 0 && <MeasuredOnce {...record} />}
      <DevicesInUse view={view} clinical={clinical !== null} base={base} />

      {clinical && (
        <>
          <Growth {...clinical} base={base} />
          {record.devices.length > 0 && (
            <Section id="timeline" title="Devices over time">
              <Chart
                drawn={clinical.timeline}
                label={`Timeline of ${record.devices.map((d) => deviceLabel(d)).join('; ')}`}
              />
            </Section>
          )}
          {inUse.length > 0 && <WhereFrom {...assessment} tempo={clinical.tempo} />}
          <Corrections base={base} readings={record.measurements} revisions={clinical.revisions} />
          <QuestionsSection view={view} questions={clinical.questions} />
          <FamilyLinks base={base} links={clinical.links} />
        </>
      )}
    </Layout>
  );
}

function DevicesInUse({ view, clinical, base }: { view: ChildView; clinical: boolean; base: string }) {
  const { record, inUse } = view;
  return (
    <>
      <h2>Devices in use</h2>
      {inUse.length === 0 && (
        <Empty>
          No device in use.{' '}
          {clinical && (
            <>
              <a href={`${base}/devices/new`}>Record one</a> to have a date for it.
            </>
          )}
        </Empty>
      )}
      <div class="cards">
        {inUse.map((v) => (
          <DeviceCard key={v.device.id} childId={record.child.id} view={v} named ways={clinical} />
        ))}
      </div>
    </>
  );
}

/** Less is not told: of a child too young for a tempo of its own it would read 0.0. */
const TOLD_YEARS = 0.05;

/** What the dates above were made of, so that a clinician can disagree. */
function WhereFrom(props: Pick<ChildView['assessment'], 'modelName' | 'modelVersion' | 'today'> & Tempo) {
  const { modelName, modelVersion, today, tempo } = props;
  const { format } = usePage();
  return (
    <p class="hint">
      {tempo &&
        Math.max(Math.abs(tempo.mean), tempo.sd) >= TOLD_YEARS &&
        `This child matures about ${format.number(Math.abs(tempo.mean), 1)} years ${tempo.mean < 0 ? 'earlier' : 'later'} than the average of their sex, give or take ${format.number(tempo.sd, 1)} years. `}
      Model {modelName} {modelVersion}, as of {format.date(today)}. Allowances and their sources are in the{' '}
      <a href="/fit-rules">fit rules</a>; a clinician can set them for the clinic or per device. For
      dimensions nobody has followed over years in children (foot, ankle, knee and hip heights) the bands are
      widened.
    </p>
  );
}

function MeasuredOnce({ measurements }: Pick<ChildRecord, 'measurements'>) {
  const { format } = usePage();
  const [day, ...more] = new Set(measurements.map((m) => m.date));
  if (!day || more.length > 0) return null;
  return (
    <p class="notice">
      <strong>Measured once so far</strong>, on {format.date(day)}. How fast this child grows is not known
      yet: the dates rest on how other children of this age and sex grow, and are wide for that. A second
      visit three months after the first says most.
    </p>
  );
}

function Growth(props: ForClinicians & { base: string }) {
  const { base, measure, chartable, growth, readings } = props;
  if (measure === null)
    return (
      <Section id="growth" title="Growth">
        <Empty>
          Never measured. <a href={`${base}/visit`}>Enter a first visit</a>: one reading of the foot and the
          height already gives a first estimate.
        </Empty>
      </Section>
    );
  const { label } = measures[measure];
  return (
    <Section id="growth" title="Growth">
      <Tabs
        of={chartable.map((m) => [`${base}?measure=${m}#growth`, measures[m].label, m === measure] as const)}
      />
      <Chart drawn={growth} label={`Growth chart: ${label}. The readings are in the table below it.`} />
      <ReadingsTable readings={readings} />
    </Section>
  );
}

function LikelySlips({ base, suggestions }: { base: string; suggestions: readonly DataSuggestion[] }) {
  if (suggestions.length === 0) return null;
  return (
    <Section id="slips" title="Likely slips in the data">
      <p>Nothing is changed until you accept it, and the original is always kept.</p>
      {suggestions.map((s) => (
        <Form
          action={`${base}/suggestions`}
          class="print flag check"
          key={s.id}
          hidden={{ suggestion: s.id }}
        >
          <p>{s.seen}</p>
          <p class="row">
            {s.corrections.some((c) => c.value !== undefined || c.side || c.exclude) ? (
              <Submit main>{s.action}</Submit>
            ) : (
              <strong>{s.action}</strong>
            )}
          </p>
        </Form>
      ))}
    </Section>
  );
}
