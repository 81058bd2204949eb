import type { Action } from '../../recall/contract.js';
import { weeksCorrectedFor } from '../../records/age.js';
import type { Region } from '../../rules/fit-rule.js';
import { loadRules } from '../../rules/load-rules.js';
import type { ChildView, DeviceView } from '../../service/child-view/load-child.js';
import { deviceAnswer } from '../../words/family/device-answer.js';
import {
  type FamilyWords,
  familyLanguages,
  type UrgentReason,
  type WornDevice,
} from '../../words/family/family-words.js';
import { urgentReason, wornDevice } from '../../words/family/worn-device.js';
import { type Format, formatFor } from '../parts/format.js';
import { Layout } from '../parts/layout.js';
import type { PageContext } from '../parts/page-context.js';

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
  const kinds = devices.map((v) => wornDevice(v.device, rules).region);
  const regions: readonly Region[] = kinds.length > 0 ? unique(kinds) : ['ankle-foot'];
  const early = weeksCorrectedFor(child, context.today);
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
      {answers(devices, words).map((a) => (
        <div key={a.say}>
          <p class="answer">{a.say}</p>
          {a.meaning && <p>{a.meaning}</p>}
        </div>
      ))}
      {devices.length > 0 && <p>{words.guess}</p>}
      {early !== null && <p>{words.correctedAge(early)}</p>}
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
          {unique(regions.map(words.skinEveryDay)).map((text) => (
            <p key={text}>{text}</p>
          ))}
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
          <Signs words={words} regions={regions} insensate={child.insensateSkin} />
          <p>
            <strong>{words.doNotWait(child.insensateSkin)}</strong>
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

const rules = loadRules();
const unique = <T,>(items: readonly T[]): T[] => [...new Set(items)];

/** What to look for, a list for each kind of device worn. */
export function Signs(props: { words: FamilyWords; regions: readonly Region[]; insensate: boolean }) {
  const { words, regions, insensate } = props;
  const lists = new Map(regions.map((region) => [words.signs(region, insensate).signs.join(), region]));
  return (
    <>
      {[...lists.values()].map((region) => {
        const { title, signs } = words.signs(region, insensate);
        const emergency = words.emergency(region);
        return (
          <div key={region}>
            <h2>{title}</h2>
            <ul>
              {signs.map((sign) => (
                <li key={sign}>{sign}</li>
              ))}
            </ul>
            {emergency && (
              <p>
                <strong>{emergency}</strong>
              </p>
            )}
          </div>
        );
      })}
    </>
  );
}

/** One answer per device; left and right that get the same answer keep their own sentence, with its meaning said once. */
function answers(devices: readonly DeviceView[], words: FamilyWords) {
  const seen = new Set<string>();
  return devices.map((v) => {
    const worn = wornDevice(v.device, rules);
    const { action, why } = wantedOf(v, worn);
    const answer = deviceAnswer(words, worn, action, v.forecast, why);
    const meaning = seen.has(answer.meaning) ? '' : answer.meaning;
    seen.add(answer.meaning);
    return { ...answer, meaning };
  });
}

/** The clinic's one decision for the device, and for a red flag what kind it is. */
function wantedOf(
  { decision, forecast }: DeviceView,
  { region }: WornDevice,
): { action: Action; why: UrgentReason } {
  if (decision?.action === 'see-now')
    return { action: 'see-now', why: urgentReason(String(decision.reason.numbers.flag ?? '')) };
  // A helmet without a date because the head crossed centiles is a red flag, whoever decided what.
  if (region === 'head' && forecast.outcome === 'blocked') return { action: 'see-now', why: 'head' };
  return { action: decision?.action ?? 'measure', why: 'other' };
}

function nextVisit(view: ChildView, words: FamilyWords, format: Format, today: string): string {
  const dates = view.inUse.flatMap((v) => v.decision?.dueBy ?? []).toSorted();
  const urgent =
    dates.some((d) => d <= today) ||
    view.inUse.some((v) =>
      ['already-outgrown', 'blocked', 'too-few-measurements'].includes(v.forecast.outcome),
    );
  if (view.assessment.flags.some((f) => f.severity === 'act-now')) return words.visitToday;
  if (urgent) return words.visitNow;
  return dates[0] ? words.visitBefore(format.longDate(dates[0])) : words.visitUsual;
}
