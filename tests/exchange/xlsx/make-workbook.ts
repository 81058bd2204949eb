import { strToU8, zipSync } from 'fflate';

const XML = '<?xml version="1.0" encoding="UTF-8"?>';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

export interface WorkbookPartsText {
  /** The inside of <sheetData> of each sheet, by the sheet's name. */
  readonly sheets: Readonly<Record<string, string>>;
  /** What stands before <sheetData>, and after it. */
  readonly before?: string;
  readonly after?: string;
  readonly sharedStrings?: string;
  readonly styles?: string;
  readonly workbookPr?: string;
}

/** The smallest workbook around sheets written by hand, so that a test can say what no spreadsheet program would. */
export function makeWorkbook(text: WorkbookPartsText): Uint8Array {
  const names = Object.keys(text.sheets);
  const relation = (id: string, kind: string, target: string) =>
    `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`;
  const relations = (inside: string) => `${XML}<Relationships xmlns="${RELATIONS}">${inside}</Relationships>`;
  const parts: Record<string, string> = {
    '_rels/.rels': relations(relation('r1', 'officeDocument', 'xl/workbook.xml')),
    'xl/workbook.xml':
      `${XML}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><workbookPr ${text.workbookPr ?? ''}/><sheets>` +
      names.map((name, i) => `<sheet name="${name}" sheetId="${i + 1}" r:id="s${i + 1}"/>`).join('') +
      '</sheets></workbook>',
    'xl/_rels/workbook.xml.rels': relations(
      names.map((_, i) => relation(`s${i + 1}`, 'worksheet', `worksheets/sheet${i + 1}.xml`)).join('') +
        (text.sharedStrings ? relation('t', 'sharedStrings', '/xl/sharedStrings.xml') : '') +
        (text.styles ? relation('y', 'styles', 'styles.xml') : ''),
    ),
  };
  names.forEach((name, i) => {
    parts[`xl/worksheets/sheet${i + 1}.xml`] =
      `${XML}<worksheet xmlns="${MAIN}">${text.before ?? ''}<sheetData>${text.sheets[name]}</sheetData>${text.after ?? ''}</worksheet>`;
  });
  if (text.sharedStrings)
    parts['xl/sharedStrings.xml'] = `${XML}<sst xmlns="${MAIN}">${text.sharedStrings}</sst>`;
  if (text.styles) parts['xl/styles.xml'] = `${XML}<styleSheet xmlns="${MAIN}">${text.styles}</styleSheet>`;
  return zipSync(Object.fromEntries(Object.entries(parts).map(([part, xml]) => [part, strToU8(xml)])));
}

export const inlineText = (address: string, text: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${text}</t></is></c>`;
