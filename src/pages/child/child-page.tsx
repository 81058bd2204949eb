import { deviceLabel } from '../../charts/device-label.js';
import type { Flag } from '../../forecast/contract.js';
import { type MeasureId, measures } from '../../records/measure.js';
import type { ScoredReading } from '../../service/child-view/child-charts.js';
import type { ChildView } from '../../service/child-view/load-child.js';
import type { FamilyLink, MeasurementRevision } from '../../store/contract.js';
import { alertNames } from '../../words/action-names.js';
import { ageText, seriesText } from '../parts/format.js';
import { Csrf, Empty, Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { Corrections } from './corrections.js';
import { DeviceCard } from './device-card.js';
import { ReadingsTable } from './readings-table.js';
import { WhyThisDate } from './why-this-date.js';

export interface ChildPageProps {
  readonly context: PageContext;
  readonly view: ChildView;
  /** Measures that can be charted, the one shown first. */
  readonly chartable: readonly MeasureId[];
  readonly measure: MeasureId | null;
  readonly growthSvg: string;
  readonly timelineSvg: string;
  readonly readings: readonly ScoredReading[];
  readonly tempo: { readonly mean: number; readonly sd: number } | null;
  readonly links: readonly FamilyLink[];
  readonly revisions: readonly MeasurementRevision[];
  /** Diagnoses, charts and corrections: for clinicians. */
  readonly clinical: boolean;
}

const severities: Readonly<Record<Flag['severity'], string>> = {
  'act-now': 'Act now',
  check: 'Check',
  note: 'Note',
};

export function ChildPage(props: ChildPageProps) {
  const { context, view, clinical } = props;
  const { record, assessment, inUse } = view;
  const { child } = record;
  const { format, today } = context;
  const base = `/children/${encodeURIComponent(child.id)}`;
  const rank = { 'act-now': 0, check: 1, note: 2 };
  const flags = assessment.flags.toSorted((a, b) => rank[a.severity] - rank[b.severity]);
  return (
    <Layout title={child.name || child.id} context={context} scripts={clinical ? ['charts.js'] : []}>
      <div class="row between">
        <div>
          <h1>{child.name || child.id}</h1>
          <p>
            {child.id} · {ageText(child.birthDate, today)} (born {format.date(child.birthDate)}) ·{' '}
            {child.sex === 'unknown' ? 'sex not recorded, both references shown' : child.sex}
            {child.status !== 'active' && (
              <>
                {' '}
                <span class="tag due">{child.status.replace('-', ' ')}</span>
              </>
            )}
            {child.insensateSkin && (
              <>
                {' '}
                <span class="tag skin-cannot-warn">skin cannot warn: look twice daily, pain is no sign</span>
              </>
            )}
            {child.latexAlert && (
              <>
                {' '}
                <span class="tag latex">{alertNames.latex}</span>
              </>
            )}
          </p>
          {clinical && child.conditions.length > 0 && (
            <p>
              {child.conditions.map((c) => c.replaceAll('-', ' ')).join(', ')}
              {child.affectedSide !== 'none' && ` (${child.affectedSide})`}
            </p>
          )}
          {child.contact && (
            <p>
              <span class="hint">To reach the family:</span> {child.contact}
            </p>
          )}
        </div>
        <p class="row no-print">
          {clinical && (
            <a class="button main-action" href={`${base}/visit`} accesskey="v">
              Enter a visit
            </a>
          )}
          {clinical && (
            <a class="button" href={`${base}/devices/new`}>
              New device
            </a>
          )}
          <a class="button" href={`${base}/family`}>
            Family sheet
          </a>
          {context.user?.role !== 'administrator' && (
            <a class="button" href={`${base}/edit`}>
              Edit details
            </a>
          )}
        </p>
      </div>

      {flags.length > 0 && (
        <section aria-labelledby="flags">
          <h2 id="flags">Seen in the record</h2>
          {flags.map((f) => (
            <div class={`flag ${f.severity}`} key={f.id}>
              <h3>
                <span
                  class={`tag ${f.severity === 'act-now' ? 'alert' : f.severity === 'check' ? 'due' : ''}`}
                >
                  {severities[f.severity]}
                </span>{' '}
                {f.title}
              </h3>
              <p>{f.seen}</p>
              <p>
                {f.caution} <strong>Ask:</strong> {f.askWhom}
              </p>
            </div>
          ))}
        </section>
      )}

      {clinical && assessment.suggestions.length > 0 && (
        <section aria-labelledby="slips">
          <h2 id="slips">Likely slips in the data</h2>
          <p>Nothing is changed until you accept it, and the original is always kept.</p>
          {assessment.suggestions.map((s) => (
            <form method="post" action={`${base}/suggestions`} class="flag check" key={s.id}>
              <Csrf context={context} />
              <input type="hidden" name="suggestion" value={s.id} />
              <p>{s.seen}</p>
              <p class="row">
                {s.corrections.some((c) => c.value !== undefined || c.side || c.exclude) ? (
                  <button type="submit" class="main-action">
                    {s.action}
                  </button>
                ) : (
                  <strong>{s.action}</strong>
                )}
              </p>
            </form>
          ))}
        </section>
      )}

      <h2>Devices in use</h2>
      {inUse.length === 0 ? (
        <Empty>
          No device in use. <a href={`${base}/devices/new`}>Record one</a> to have a date for it.
        </Empty>
      ) : (
        <div class="cards">
          {inUse.map((v) => (
            <DeviceCard key={v.device.id} context={context} childId={child.id} view={v} detail={clinical} />
          ))}
        </div>
      )}

      {clinical && (
        <section aria-labelledby="growth">
          <h2 id="growth">Growth</h2>
          {props.measure === null ? (
            <Empty>
              Never measured. <a href={`${base}/visit`}>Enter a first visit</a>: one reading of the foot and
              the height already gives a first estimate.
            </Empty>
          ) : (
            <>
              <ul class="tabs no-print">
                {props.chartable.map((m) => (
                  <li key={m}>
                    <a
                      href={`${base}?measure=${m}#growth`}
                      aria-current={m === props.measure ? 'true' : undefined}
                    >
                      {measures[m].label}
                    </a>
                  </li>
                ))}
              </ul>
              <Chart
                svg={props.growthSvg}
                spec={`${base}/charts/growth.json?measure=${props.measure}`}
                label={`Growth chart: ${measures[props.measure].label}. The readings are in the table below it.`}
              />
              <ReadingsTable context={context} readings={props.readings} childId={child.id} />
            </>
          )}
        </section>
      )}

      {clinical && record.devices.length > 0 && (
        <section aria-labelledby="timeline">
          <h2 id="timeline">Devices over time</h2>
          <Chart
            svg={props.timelineSvg}
            spec={`${base}/charts/timeline.json`}
            label={`Timeline of ${record.devices.map((d) => deviceLabel(d)).join('; ')}`}
          />
        </section>
      )}

      {clinical && inUse.length > 0 && (
        <WhyThisDate context={context} view={view} tempo={props.tempo} seriesText={seriesText} />
      )}

      {clinical && (
        <Corrections
          context={context}
          base={base}
          readings={record.measurements}
          revisions={props.revisions}
        />
      )}

      {clinical && <FamilyLinks context={context} base={base} links={props.links} />}
    </Layout>
  );
}

/** A chart drawn on the server; touched with pointer or keyboard it becomes interactive. */
export function Chart({ svg, spec, label }: { svg: string; spec: string; label: string }) {
  return (
    <figure
      class="chart"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide chart scrolls sideways and must be reachable by keyboard.
      tabIndex={0}
      role="img"
      aria-label={label}
      data-spec={spec}
      dangerouslySetInnerHTML={{ __html: svg.replace('<svg ', '<svg aria-hidden="true" ') }}
    />
  );
}

function FamilyLinks(props: { context: PageContext; base: string; links: readonly FamilyLink[] }) {
  const { context, base, links } = props;
  const { format } = context;
  return (
    <section class="no-print" aria-labelledby="links">
      <h2 id="links">Links for the family</h2>
      <p>A link opens this child's sheet and nothing else, until its date or until you withdraw it.</p>
      {links.length > 0 && (
        <ul>
          {links.map((l) => (
            <li key={l.id}>
              <form method="post" action={`${base}/links/withdraw`} class="row">
                <Csrf context={context} />
                <input type="hidden" name="link" value={l.id} />
                <span>
                  {l.label || 'Link'}, until {format.date(l.expiresAt.slice(0, 10))},{' '}
                  {l.lastUsedAt ? `last used ${format.date(l.lastUsedAt.slice(0, 10))}` : 'not used yet'}
                </span>
                {l.withdrawnAt ? <span class="tag">withdrawn</span> : <button type="submit">Withdraw</button>}
              </form>
            </li>
          ))}
        </ul>
      )}
      <form method="post" action={`${base}/links`} class="row">
        <Csrf context={context} />
        <p class="field">
          <label for="link-label">For whom</label>
          <input id="link-label" name="label" maxLength={60} placeholder="mother, school" />
        </p>
        <p class="field">
          <label for="link-days">Days it works</label>
          <input id="link-days" name="days" type="number" min={1} max={400} value="90" />
        </p>
        <p>
          <button type="submit">Make a link</button>
        </p>
      </form>
    </section>
  );
}
