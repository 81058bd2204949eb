import type { DeviceForecast } from '../../forecast/contract.js';
import type { ChildView, DeviceView } from '../../service/child-view/load-child.js';
import { type Format, formatFor } from '../parts/format.js';
import { Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';
import { type FamilyWords, familyLanguages } from './family-words.js';

/** One sheet for a family: how long the brace fits, the child's own marks, the skin, when to call, the next visit. */
export function FamilyPage(props: {
  context: PageContext;
  view: ChildView;
  words: FamilyWords;
  /** Empty where nothing was measured yet. */
  charts: { readonly wide: string; readonly narrow: string };
  contact: string;
  /** Where a link to the same sheet in another language leads. */
  languageHref: (language: string) => string;
}) {
  const { context, view, words, charts, contact } = props;
  const { child } = view.record;
  const format = formatFor(words.language);
  const worn = view.inUse.filter((v) => v.device.fittedDate !== null);
  const devices = worn.length > 0 ? worn : view.inUse;
  return (
    <Layout
      title={words.title('')}
      context={context}
      kind="sheet"
      language={words.language}
      direction={words.direction}
    >
      <nav class="row no-print" aria-label={words.otherLanguage}>
        {familyLanguages.map((w) =>
          w.language === words.language ? (
            <strong key={w.language}>{w.name}</strong>
          ) : (
            <a key={w.language} href={props.languageHref(w.language)} lang={w.language} hreflang={w.language}>
              {w.name}
            </a>
          ),
        )}
      </nav>
      <h1>{words.title(child.name)}</h1>
      {devices.length === 0 && <p class="answer">{words.noDevice}</p>}
      {answers(devices, words, format).map((a) => (
        <div key={a.say}>
          <p class="answer">{a.say}</p>
          {a.meaning && <p>{a.meaning}</p>}
        </div>
      ))}
      {devices.length > 0 && <p>{words.guess}</p>}
      {charts.wide && (
        <section aria-labelledby="chart">
          <h2 id="chart">{words.chartTitle}</h2>
          {(['wide', 'narrow'] as const).map((size) => (
            <figure
              key={size}
              class={`chart ${size}`}
              role="img"
              aria-label={words.chartTitle}
              dangerouslySetInnerHTML={{ __html: charts[size].replace('<svg ', '<svg aria-hidden="true" ') }}
            />
          ))}
        </section>
      )}
      <div class="two">
        <section>
          <h2>{words.skinTitle}</h2>
          <p>{words.skinEveryDay}</p>
          {child.insensateSkin && (
            <p>
              <strong>{words.skinInsensate}</strong>
            </p>
          )}
          <h2>{words.visitTitle}</h2>
          <p>{nextVisit(view, words, format, context.today)}</p>
          <p>{words.bring}</p>
        </section>
        <section>
          <h2>{words.signsTitle}</h2>
          <ul>
            {words.signs.map((s) => (
              <li key={s}>{s}</li>
            ))}
          </ul>
          <p>
            <strong>{words.doNotWait}</strong>
          </p>
          <p>
            {words.callUs} <strong>{contact || words.numberOnCard}</strong>
          </p>
        </section>
      </div>
      <p>
        <small>
          {context.clinicName} {words.madeOn(format.date(context.today))}
        </small>
      </p>
    </Layout>
  );
}

interface Answer {
  readonly say: string;
  readonly meaning: string;
}

/** One answer per device; left and right that get the same answer keep their own sentence, with its meaning said once. */
function answers(devices: readonly DeviceView[], words: FamilyWords, format: Format): Answer[] {
  const seen = new Set<string>();
  return devices.map(({ device, forecast }) => {
    const answer = answerOf(forecast, words.device(device.family, device.side), words, format);
    const meaning = seen.has(answer.meaning) ? '' : answer.meaning;
    seen.add(answer.meaning);
    return { ...answer, meaning };
  });
}

function answerOf(forecast: DeviceForecast, device: string, words: FamilyWords, format: Format): Answer {
  const only = (say: string): Answer => ({ say, meaning: '' });
  const month = (iso: string) =>
    new Intl.DateTimeFormat(format.locale === 'en' ? 'en-GB' : format.locale, {
      month: 'long',
      year: 'numeric',
      timeZone: 'UTC',
    }).format(new Date(`${iso}T00:00:00Z`));
  switch (forecast.outcome) {
    case 'already-outgrown':
      return only(words.mayBeSmall(device));
    case 'full-grown':
    case 'adult':
    case 'palliative':
      return only(words.byWear(device));
    case 'too-few-measurements':
    case 'not-in-use':
    case 'no-rule':
    case 'not-computed':
      return only(words.measureFirst(device));
    case 'blocked':
      return only(words.seeFirst(device));
    case 'beyond-horizon':
      return only(words.longTime(device));
    default: {
      if (!forecast.p10) return only(words.longTime(device));
      if (forecast.p10 <= forecast.today) return only(words.mayBeSmall(device));
      return {
        say: words.fitsUntil(device, month(forecast.p10)),
        meaning: words.meaning(month(forecast.p10), forecast.p90 && month(forecast.p90)),
      };
    }
  }
}

function nextVisit(view: ChildView, words: FamilyWords, format: Format, today: string): string {
  const dates = view.inUse.flatMap((v) => v.decision?.dueBy ?? []).toSorted();
  const urgent =
    dates.some((d) => d <= today) ||
    view.inUse.some((v) =>
      ['already-outgrown', 'blocked', 'too-few-measurements'].includes(v.forecast.outcome),
    ) ||
    view.assessment.flags.some((f) => f.severity === 'act-now');
  if (urgent) return words.visitNow;
  return dates[0] ? words.visitBefore(format.longDate(dates[0])) : words.visitUsual;
}
