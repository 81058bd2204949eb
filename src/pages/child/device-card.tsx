import { deviceLabel } from '../../charts/device-label.js';
import { adjusting, plainSeries, plainSpan } from '../../forecast/words.js';
import { castByOf, isBeingMade } from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import type { IsoDate } from '../../records/dates.js';
import type { DeviceView } from '../../service/child-view/load-child.js';
import { benchFigure, clinicianReason } from '../../words/clinician-reason.js';
import { dueText } from '../parts/due-text.js';
import type { Format } from '../parts/format.js';
import { usePage } from '../parts/page-context.js';
import { childPath, devicePath, Go } from '../parts/paths.js';
import { type Fact, Facts } from '../parts/table.js';
import { hipAngleText, hipSetText } from './hip-angle-text.js';
import { limitedFirstBy, urgency } from './outgrown-text.js';
import { RoomBars } from './room-bars.js';

/** One device: what to do and why, by when to cast, the room left, the figures behind it, and where to do it. */
export function DeviceCard(props: {
  childId: string;
  view: DeviceView;
  /** Among other devices, by its name; on its own page that stands above. */
  named: boolean;
  ways?: boolean;
}) {
  const { childId, view, named, ways } = props;
  const { device, forecast } = view;
  const { format } = usePage();
  return (
    <article class="card device" aria-labelledby={`device-${device.id}`}>
      <div class="row between">
        {named && <h3 id={`device-${device.id}`}>{deviceLabel(device)}</h3>}
        {!named && <h2 id={`device-${device.id}`}>How it stands</h2>}
        <StateTag view={view} />
      </div>
      <p class="hint">
        cast {format.date(device.castDate)},{' '}
        {device.fittedDate ? `fitted ${format.date(device.fittedDate)}` : 'not fitted yet'}
        {device.extra.funder && `, paid by ${device.extra.funder}`}
      </p>
      <Wanted view={view} />
      <HipAngles view={view} />
      <p>{forecast.explanation}</p>
      <WorthReading view={view} />
      <RoomBars forecast={forecast} />
      <Figures view={view} />
      {ways && <Ways childId={childId} view={view} />}
    </article>
  );
}

function StateTag({ view: { device, forecast } }: { view: DeviceView }) {
  const { today } = usePage();
  const mark = urgency(forecast, today);
  if (device.status === 'ordered') return <span class="tag plan">being made</span>;
  const named = forecast.outcome.replaceAll('-', ' ');
  const fits = mark === 'plan' ? 'fits' : 'nearly outgrown';
  return <span class={`tag ${mark}`}>{forecast.outcome === 'forecast' ? fits : named}</span>;
}

/** The action first, then the reason, the figure that decides at the bench, and the day to cast by. */
function Wanted({ view: { decision } }: { view: DeviceView }) {
  const { format, today } = usePage();
  if (!decision) return null;
  const { what, when, late } = dueText(decision, today, format);
  const castBy = castByOf(decision);
  const lookWillDo = decision.action === 'check' && castBy !== null && castBy < (decision.dueBy ?? castBy);
  return (
    <div class={late ? 'wanted late' : 'wanted'}>
      <p>
        <strong class="action">
          {what}
          {late && ' now'}
        </strong>
        {late && ','} {when && <strong>{when}</strong>}. {clinicianReason(decision)}
      </p>
      {decision.checkFigure && (
        <p>
          <strong>{benchFigure(decision)}</strong>
        </p>
      )}
      {castBy && castBy !== decision.dueBy && (
        <p>
          {castBy < today ? 'Was to be cast by' : 'Cast by'} <strong>{format.date(castBy)}</strong> (
          {format.away(castBy, today)})
          {lookWillDo && ' if nobody looks before; a look at the usual review is early enough'}.
        </p>
      )}
    </div>
  );
}

/** Where the hips were found last, and where they were to be held. */
function HipAngles({ view: { device, hipAngle } }: { view: DeviceView }) {
  const { format } = usePage();
  if (!hipAngle) return null;
  const set = hipSetText(device);
  return (
    <p>
      Abduction on {format.date(hipAngle.date)}: {hipAngleText(hipAngle.left, hipAngle.right)}
      {set && ` (set ${set})`}.
    </p>
  );
}

/** What one more reading would buy, where it buys something. */
function WorthReading({ view: { forecast } }: { view: DeviceView }) {
  const best = forecast.readingWorth?.[0];
  // A tenth less is not worth undressing a child for (common practice, no source).
  if (!best || best.thenDays > 0.9 * best.nowDays || best.nowDays < 14) return null;
  const [now, then] = [best.nowDays, best.thenDays].map((days) => plainSpan(Math.round(days)));
  if (now === then) return null;
  return (
    <p class="hint">
      <strong>What would help most next:</strong> a reading of the {plainSeries(best.series)} today would
      narrow the dates from about {now} to {then}.
    </p>
  );
}

function Figures({ view }: { view: DeviceView }) {
  const { forecast, decision, turnaround } = view;
  const { format } = usePage();
  const limits = limitedFirstBy(forecast, format);
  if (forecast.dates.length === 0 && !decision) return null;
  const { p50Days, p80Days, basis, jobsUsed } = turnaround;
  const castBy = decision && castByOf(decision);
  const made = basis === 'default' ? 'usual time' : `from ${counted(jobsUsed, 'job')}`;
  const facts: readonly Fact[] = [
    forecast.dates.length > 0 && [
      'Outgrown already?',
      `${format.percent(forecast.probabilityOutgrownNow)} chance today`,
    ],
    limits !== '' && ['Limited first by', limits],
    castBy !== null && [
      'Cast by',
      `${format.date(castBy)}. Cast later, and the chance of being beyond use before the next is fitted is more than the accepted ${format.percent(decision!.acceptedChance)}.`,
    ],
    typeof decision?.chanceByEarliestFitting === 'number' && [
      'If cast today',
      `${format.percent(decision.chanceByEarliestFitting)} chance of being beyond use before the new one is fitted, about ${p50Days} days later (8 in 10 within ${p80Days}; ${made})`,
    ],
    !!decision && ['Review by', format.date(decision.reviewBy)],
    ...(forecast.adjustments ?? []).map((a): Fact => {
      const left = `${format.number(a.extensionLeftMm)} mm left`;
      return [
        'To adjust',
        `${plainSeries(a.series)}, ${adjusting[a.kind]}: ${adjustFrom(a, format)}, ${left}`,
      ];
    }),
  ];
  return (
    <details>
      <summary>Dates and chances, adjustments to come</summary>
      <Facts of={facts} />
      {decision?.reason.text && (
        <p>
          <strong>To say to the family:</strong> “{decision.reason.text}”
        </p>
      )}
    </details>
  );
}

function Ways({ childId, view: { device, decision } }: { childId: string; view: DeviceView }) {
  const base = childPath(childId);
  const own = devicePath(childId, device.id);
  const wanted = decision?.action;
  const about = <span class="unseen"> {deviceLabel(device)}</span>;
  if (device.status === 'ordered')
    return (
      <p class="row ways no-print">
        <Go main to={`${own}#delivered`}>
          Fitted today{about}
        </Go>
        <Go to={`${own}/slip`}>Workshop slip{about}</Go>
        <Go to={`${own}/edit`}>Correct{about}</Go>
      </p>
    );
  return (
    <p class="row ways no-print">
      {!isBeingMade(decision?.reason.code) && (
        <Go main={wanted === 'cast' || wanted === 'check'} to={`${own}/next`}>
          Cast the next one{about}
        </Go>
      )}
      <Go main={wanted === 'adjust'} to={`${own}#adjust`}>
        Adjust{about}
      </Go>
      <Go main={wanted === 'review' || wanted === 'measure'} to={`${base}/visit`}>
        Measure, judge the fit{about}
      </Go>
      <Go to={`${own}#retire`}>Retire{about}</Go>
      <Go to={`${base}/what-if/next?device=${encodeURIComponent(device.id)}`}>What if{about}</Go>
      <Go to={`${own}/edit`}>Correct{about}</Go>
    </p>
  );
}

function adjustFrom(
  { dueNow, p10 }: { readonly dueNow: boolean; readonly p10: IsoDate | null },
  format: Format,
): string {
  if (dueNow) return 'now';
  return p10 ? `from ${format.date(p10)}` : 'not within the forecast';
}
