import { csvTables } from '../../../src/exchange/csv/write-caseload.js';
import { toFhirBundle, toFhirResources } from '../../../src/exchange/fhir/to-fhir.js';
import type { NamedFile, ParseOptions } from '../../../src/exchange/parse-caseload.js';
import { loadRules } from '../../../src/rules/load-rules.js';
import { inlineText, makeWorkbook } from '../../exchange/xlsx/make-workbook.js';
import { exampleCaseload } from '../../store/example-children.js';
import type { Dice } from './dice.js';
import { dented, text, twist } from './nasty.js';

const caseload = exampleCaseload(2);
const tables = Object.entries(csvTables(caseload)).map(([name, csv]) => ({
  name,
  rows: csv
    .replace('\ufeff', '')
    .trim()
    .split('\r\n')
    .map((line) => line.split(',')),
}));
const bundle = JSON.stringify(toFhirBundle(toFhirResources(exampleCaseload(1))));
const utf8 = new TextEncoder();

const rules = loadRules();
export const options = (dice: Dice): ParseOptions => ({
  rules,
  today: '2026-02-01',
  dateOrder: dice.of(['refuse', 'dmy', 'mdy'] as const),
  lengthUnit: dice.of([null, 'mm', 'cm', 'inch'] as const),
});

function grid(dice: Dice): { name: string; rows: string[][] } {
  const { name, rows } = dice.of(tables);
  const copy = rows.map((row) => [...row]);
  for (let i = 1 + dice.below(5); i > 0; i--) {
    const row = dice.of(copy);
    if (dice.chance(0.8)) row[dice.below(row.length + 1)] = text(dice);
    else if (dice.chance(0.5)) row.splice(dice.below(row.length), 1);
    else
      copy.splice(
        dice.below(copy.length),
        dice.chance(0.5) ? 1 : 0,
        dice.some(6, () => text(dice)),
      );
    if (copy.length === 0) copy.push([text(dice)]);
  }
  return { name: dice.chance(0.8) ? name : `${text(dice).slice(0, 30)}.csv`, rows: copy };
}

export function csvFiles(dice: Dice): NamedFile[] {
  return Array.from({ length: dice.chance(0.2) ? 2 : 1 }, () => {
    const { name, rows } = grid(dice);
    const mark = dice.of([',', ',', ',', ';', '\t', '|']);
    const quoted = dice.chance(0.7);
    const cell = (c: string) => (quoted ? `"${c.replaceAll('"', '""')}"` : c);
    const whole = rows.map((row) => row.map(cell).join(mark)).join(dice.of(['\n', '\r\n', '\r']));
    const bytes = dice.chance(0.1)
      ? new Uint8Array(Buffer.from(`\ufeff${whole}`, 'utf16le'))
      : utf8.encode(whole);
    return { name, bytes: dice.chance(0.2) ? dented(bytes, dice) : bytes };
  });
}

const attribute = (words: string) => words.replace(/[<&"\p{Cc}\p{Cs}]/gu, '_').slice(0, 40);

export function workbookFiles(dice: Dice): NamedFile[] {
  const { name, rows } = grid(dice);
  const cellXml = (content: string, row: number, column: number): string => {
    const place = `${String.fromCharCode(65 + (column % 26))}${row}`;
    const at = dice.chance(0.95) ? `r="${place}"` : `r="${attribute(text(dice))}"`;
    const plain = attribute(content);
    return dice.of([
      () => inlineText(place, plain),
      () => `<c ${at} t="${dice.of(['s', 'b', 'e', 'str', 'd', 'n', 'x'])}"><v>${plain}</v></c>`,
      () =>
        `<c ${at} s="${dice.below(4)}"><v>${dice.of(['45368', '17.8', '-1', '1e300', '', 'x', '0.5'])}</v></c>`,
      () => `<c ${at} s="1"/>`,
    ])();
  };
  const sheet = rows
    .map(
      (row, r) =>
        `<row ${dice.chance(0.9) ? `r="${r + 1}"` : ''}>${row.map((c, i) => cellXml(c, r + 1, i)).join('')}</row>`,
    )
    .join('');
  const far = dice.chance(0.05)
    ? `<row r="${1 + dice.below(2_000_000)}">${inlineText(`XF${dice.of(['D', 'E'])}7`, 'x')}</row>`
    : '';
  const bytes = makeWorkbook({
    sheets: { [attribute(name.replace('.csv', '')) || 'S']: sheet + far },
    sharedStrings: dice.chance(0.3) ? '<si><t>female</t></si><si><r><t>left</t></r></si>' : undefined,
    styles:
      '<numFmts><numFmt numFmtId="164" formatCode="dd.mm.yyyy"/></numFmts><cellXfs><xf/><xf numFmtId="164"/><xf numFmtId="9"/></cellXfs>',
    workbookPr: dice.chance(0.1) ? 'date1904="1"' : '',
  });
  return [{ name: 'clinic.xlsx', bytes: dice.chance(0.3) ? dented(bytes, dice) : bytes }];
}

export function fhirFiles(dice: Dice): NamedFile[] {
  // Once through JSON, as it would come: a list with a 'constructor' of its own cannot be sent.
  const twisted = JSON.parse(JSON.stringify(twist(JSON.parse(bundle), dice)) ?? 'null') as {
    entry?: unknown;
  } | null;
  const form = dice.below(4);
  const list = Array.isArray(twisted?.entry)
    ? twisted.entry.map((e) => (e as { resource?: unknown } | null)?.resource)
    : [twisted];
  const json =
    form === 0
      ? list.map((r) => JSON.stringify(r) ?? 'null').join('\n')
      : (JSON.stringify(form === 1 ? list : twisted) ?? 'null');
  const bytes = utf8.encode(json);
  return [
    { name: form === 0 ? 'b.ndjson' : 'b.json', bytes: dice.chance(0.1) ? dented(bytes, dice) : bytes },
  ];
}
