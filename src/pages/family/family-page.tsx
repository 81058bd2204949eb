import type { ComponentChildren } from 'preact';
import { isUnknown } from '../../forecast/contract.js';
import { shoeOverDevice } from '../../forecast/shoe-over-device.js';
import { type Action, actionIds, isBeingMade, isRungToday } from '../../recall/contract.js';
import { weeksCorrectedFor } from '../../records/age.js';
import type { FitRules, Region } from '../../rules/fit-rule.js';
import type { ChildView, DeviceView } from '../../service/child-view/load-child.js';
import { deviceAnswer } from '../../words/family/device-answer.js';
import { familyLanguages } from '../../words/family/family-languages.js';
import type { FamilyWords, UrgentReason, WornDevice } from '../../words/family/family-words.js';
import { thirdOf } from '../../words/family/month-thirds.js';
import { urgentReason, wornDevice } from '../../words/family/worn-device.js';
import { Chart, type Drawn } from '../parts/chart.js';
import { Contact } from '../parts/contact.js';
import { type Format, formatFor } from '../parts/format.js';
import { Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';
import { hasToes } from './questions-form.js';
import { Signs } from './signs.js';
import { drawnOnce, SkinDrawing } from './skin-drawing.js';

/** One sheet for a family: how long the brace fits, when to stop and ring, the skin, the next visit, the child's own marks. */
export function FamilyPage(props: {
  view: ChildView;
  words: FamilyWords;
  /** Have a native reader's eyes been over these words? */
  checked: boolean;
  chart: Drawn;
  contact: string;
  /** Last day of the link it was opened by; null for the clinic's own print. */
  linkUntil: string | null;
  languageHref: (language: string) => string;
  /** The clinic's two questions, where it has asked. */
  children?: ComponentChildren;
}) {
  const { view, words, chart } = props;
  const { rules } = view;
  const { child } = view.record;
  const { clinicName, today } = usePage();
  const format = formatFor(localeOf(words));
  const devices = devicesTold(view);
  const regions = regionsOf(devices, rules);
  const shoe = shoeOverDevice(
    devices.map(({ device, forecast }) => ({ ...wornDevice(device, rules), forecast })),
    view.record.measurements,
    today,
  );
  const early = weeksCorrectedFor(child, today);
  return (
    <Layout
      title={words.title('')}
      kind="sheet"
      styles={['family.css']}
      language={words.language}
      direction={words.direction}
    >
      <Languages words={words} href={props.languageHref} />
      {!props.checked && <p class="unchecked">{words.unchecked}</p>}
      <h1>{words.title(child.name)}</h1>
      {devices.length === 0 && <p class="answer">{words.noDevice}</p>}
      {answers(devices, rules, words, format).map((a) => (
        <div key={a.sentence} class="answer">
          <p>{a.sentence}</p>
          {a.next && <p>{a.next}</p>}
          {a.meaning && <p class="meaning">{a.meaning}</p>}
        </div>
      ))}
      {props.children}
      <div class="two">
        <section class="card stop">
          <Signs words={words} regions={regions} insensate={child.insensateSkin} />
          <p>
            <strong>{words.doNotWait(child.insensateSkin)}</strong>
          </p>
          <p class="call">
            {words.callUs}{' '}
            <strong>{props.contact ? <Contact text={props.contact} /> : words.numberOnCard}</strong>
          </p>
        </section>
        <section class="card">
          <h2>{words.skinTitle}</h2>
          {drawnOnce(regions).map((region) => (
            <SkinDrawing key={region} region={region} />
          ))}
          {unique(regions.map(words.skinEveryDay)).map((text) => (
            <p key={text}>{text}</p>
          ))}
          <p>{words.marks}</p>
          {child.insensateSkin && (
            <p>
              <strong>{words.skinInsensate}</strong>
            </p>
          )}
        </section>
      </div>
      <section class="card">
        <h2>{words.visitTitle}</h2>
        <p>
          {nextVisit(view, words, format, today)} {words.bring(regions.some(hasToes))}
        </p>
        {shoe && (
          <p>
            {words.shoes(shoe.sizes)} {shoe.nextOn && words.shoesNext(words.month(thirdOf(shoe.nextOn)))}
          </p>
        )}
      </section>
      {devices.length > 0 && <p>{words.guess}</p>}
      {early !== null && <p>{words.correctedAge(early)}</p>}
      {chart.svg && <GrowthFigure words={words} chart={chart} />}
      <p class="small">
        {clinicName && `${clinicName}. `}
        {words.madeOn(format.date(today))} {props.linkUntil && words.linkUntil(format.date(props.linkUntil))}
      </p>
    </Layout>
  );
}

const unique = <T,>(items: readonly T[]): T[] => [...new Set(items)];

/** Dates with the figures of the clinic's card and telephone, whatever the language's own are. */
export const localeOf = ({ language }: FamilyWords): string =>
  language === 'ar' ? 'ar-u-nu-latn' : language;

/** What a family is told of: the devices worn; those in the workshop only where none is. */
export function devicesTold(view: ChildView): readonly DeviceView[] {
  const worn = view.inUse.filter((v) => v.device.fittedDate !== null);
  return worn.length > 0 ? worn : view.inUse;
}

const regionsOf = (devices: readonly DeviceView[], rules: FitRules): readonly Region[] =>
  devices.length > 0 ? unique(devices.map((v) => wornDevice(v.device, rules).region)) : ['ankle-foot'];

const Languages = ({ words, href }: { words: FamilyWords; href: (language: string) => string }) => (
  <nav class="languages no-print" aria-label={words.otherLanguage}>
    {familyLanguages.map((w) =>
      w.language === words.language ? (
        <strong key={w.language}>{w.name}</strong>
      ) : (
        <a key={w.language} href={href(w.language)} lang={w.language} dir={w.direction} hreflang={w.language}>
          {w.name}
        </a>
      ),
    )}
  </nav>
);

const GrowthFigure = (props: { words: FamilyWords; chart: Drawn }) => (
  <section class="card" aria-labelledby="chart">
    <h2 id="chart">{props.words.chartTitle}</h2>
    <Chart drawn={props.chart} label={props.words.chartTitle} dir="ltr" />
  </section>
);

const byUrgency = (a: { action: Action }, b: { action: Action }): number =>
  actionIds.indexOf(a.action) - actionIds.indexOf(b.action);

/** One answer per device, what cannot wait first; left and right that get the same answer keep their own sentence, with its meaning said once. */
function answers(devices: readonly DeviceView[], rules: FitRules, words: FamilyWords, format: Format) {
  const seen = new Set<string>();
  const told = devices.map((v) => {
    const worn = wornDevice(v.device, rules);
    return { v, worn, ...wantedOf(v, worn) };
  });
  return told.toSorted(byUrgency).map(({ v, worn, action, why }) => {
    const answer = deviceAnswer(words, worn, action, v.forecast, why);
    const meaning = seen.has(answer.meaning) ? '' : answer.meaning;
    seen.add(answer.meaning);
    return { ...answer, meaning, next: beingMade(v, words.device(worn), words, format) };
  });
}

/** How far the next one is, where it is in the workshop. */
function beingMade(v: DeviceView, it: string, words: FamilyWords, format: Format): string {
  const reason = v.decision?.reason;
  if (!reason || !isBeingMade(reason.code)) return '';
  const { expected } = reason.numbers;
  return words.beingMade(it, typeof expected === 'string' ? format.dayAndMonth(expected) : null);
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
    view.inUse.some(({ forecast }) => forecast.outcome === 'already-outgrown' || isUnknown(forecast));
  const rung = view.inUse.some(({ decision }) => decision && isRungToday(decision.action));
  if (rung || view.assessment.flags.some((f) => f.severity === 'act-now')) return words.visitToday;
  if (urgent) return words.visitNow;
  return dates[0] ? words.visitBefore(format.plainDate(dates[0])) : words.visitUsual;
}
