import { isRungToday } from '../../recall/contract.js';
import { counted } from '../../records/counted.js';
import type { FitRules } from '../../rules/fit-rule.js';
import { isSigned, type ReadLanguage } from '../../service/native-readers.js';
import type { RecallRow } from '../../store/contract.js';
import { familyWords } from '../../words/family/family-languages.js';
import type { FamilyWords } from '../../words/family/family-words.js';
import { letterReason } from '../../words/family/letter-reason.js';
import { wornDevice } from '../../words/family/worn-device.js';
import { localeOf } from '../family/family-page.js';
import { Signs } from '../family/signs.js';
import { formatFor } from '../parts/format.js';
import { Empty, Layout } from '../parts/layout.js';
import { usePage } from '../parts/page-context.js';

/** One letter a page, in the family's language where we have its words; printed from the browser. */
export function LettersPage(props: {
  rows: readonly RecallRow[];
  contact: string;
  rules: FitRules;
  languages: readonly ReadLanguage[];
}) {
  const { clinicName, today } = usePage();
  const { rows, contact, rules, languages } = props;
  return (
    <Layout title="Letters" kind="sheet">
      <h1 class="no-print">Letters</h1>
      <p class="no-print">
        <a href="/recall">Back to the list</a> · {counted(rows.length, 'letter')}, one a page: print with{' '}
        <kbd>Ctrl</kbd>+<kbd>P</kbd>. Read each before it is sent.
      </p>
      {rows.length === 0 && <Empty>Nobody fits the filters of the list.</Empty>}
      {rows.map((r) => {
        const words = familyWords(r.language);
        const format = formatFor(localeOf(words));
        const numb = r.entry.alerts.includes('skin-cannot-warn');
        const why = letterReason(words, r.entry, rules);
        const by = r.entry.dueBy && r.entry.dueBy > today ? r.entry.dueBy : null;
        return (
          <section class="letter" key={r.id} lang={words.language} dir={words.direction}>
            {!isSigned(languages, words) && <p class="unsigned">{words.unchecked}</p>}
            <p>{clinicName}</p>
            <p>{format.longDate(today)}</p>
            <p>{words.letterTo(r.childName || r.childId)}</p>
            {why && <p>{why}</p>}
            <p>{callBy(words, r.entry, by && format.plainDate(by))}</p>
            <Signs
              words={words}
              regions={[...new Set(r.entry.devices.map((d) => wornDevice(d, rules).region))]}
              insensate={numb}
            />
            <p>{words.doNotWait(numb)}</p>
            <p>
              {words.callUs} <strong>{contact || words.numberOnCard}</strong>
            </p>
          </section>
        );
      })}
    </Layout>
  );
}

/** When to ring: what is to be seen now or mended is not put off to 'this week'. */
function callBy(words: FamilyWords, entry: RecallRow['entry'], by: string | null): string {
  if (isRungToday(entry.action)) return words.visitToday;
  return by ? words.letterBy(by) : words.letterSoon;
}
