import { readFileSync } from 'node:fs';
import writeXlsxFile from 'write-excel-file/node';
import type { NamedFile, ParsedCaseload } from '../../../src/exchange/parse-caseload.js';
import type { Answers } from '../../../src/exchange/sheets/questions.js';

/**
 * One list as a clinic keeps it, in lists/*.txt: a line that says what is special about it, then the file, or the
 * sheets of a workbook with | between the cells, then what must be taken, a line each.
 */
export interface TypedList {
  readonly title: string;
  readonly file: NamedFile;
  /** What the clinic answers when it is asked. */
  readonly answers: Answers;
  /** 'child ...', 'reading ...', 'device ...', 'ended ...', 'state ...', 'ask ID', 'refused ROW COLUMN', 'kept TEXT', 'told TEXT', 'asks nothing'. */
  readonly taken: readonly string[];
}

export async function readList(
  path: string,
  /** Writes something else into the file or a sheet of it. */
  edit: (body: string, head: string) => string = (body) => body,
): Promise<TypedList> {
  const [title, ...parts] = readFileSync(path, 'utf8').split(/^=== /m);
  const sections = parts.map((part) => {
    const end = part.indexOf('\n');
    const head = part.slice(0, end).trim();
    const body = part.slice(end + 1);
    return { head, body: /^(?:file|sheet) /.test(head) ? edit(body, head) : body };
  });
  const taken = sections.find(({ head }) => head === 'taken')?.body ?? '';
  const sheets = sections.filter(({ head }) => head.startsWith('sheet '));
  const text = sections.find(({ head }) => head.startsWith('file '));
  const file = text
    ? textFile(text.head.slice('file '.length), text.body)
    : { name: 'list.xlsx', bytes: await workbook(sheets) };
  const answers = sections.find(({ head }) => head === 'answers')?.body ?? '';
  return {
    title: title.trim(),
    file,
    answers: Object.fromEntries(linesOf(answers).map((line) => line.split(' = ') as [string, string])),
    taken: linesOf(taken),
  };
}

const linesOf = (text: string): string[] => text.split('\n').filter((line) => line !== '');

/** 'list.csv latin1': the name, and how it is written where that is not UTF-8; 'bom' is UTF-8 with its mark. */
function textFile(head: string, body: string): NamedFile {
  const [name, encoding = 'utf8'] = head.split(' ');
  const marked = encoding === 'bom' || encoding === 'utf16le' ? `\ufeff${body}` : body;
  return {
    name,
    bytes: new Uint8Array(Buffer.from(marked, encoding === 'bom' ? 'utf8' : (encoding as BufferEncoding))),
  };
}

/** A workbook by another library than the one doorpost reads with: numbers and dates are numbers and dates in it. */
async function workbook(sheets: readonly { head: string; body: string }[]): Promise<Uint8Array> {
  const made = sheets.map(({ head, body }) => {
    const lines = body.split('\n').filter((line) => line !== '');
    const merges = lines.flatMap((line) => {
      const m = /^merge ([A-Z])(\d+):([A-Z])(\d+)$/.exec(line);
      return m
        ? [
            {
              row: +m[2],
              column: m[1].charCodeAt(0) - 64,
              rowSpan: +m[4] - +m[2] + 1,
              columnSpan: m[3].charCodeAt(0) - m[1].charCodeAt(0) + 1,
            },
          ]
        : [];
    });
    const data = lines
      .filter((line) => !line.startsWith('merge '))
      .map((line, at) =>
        line.split('|').map((cell, column) => {
          const merge = merges.find((m) => m.row === at + 1 && m.column === column + 1);
          const span = merge ? { rowSpan: merge.rowSpan, columnSpan: merge.columnSpan } : {};
          const value = typedValue(cell);
          return value === null ? null : { ...value, ...span };
        }),
      );
    return { data, sheet: head.slice('sheet '.length) };
  });
  return new Uint8Array(await writeXlsxFile(made as never).toBuffer());
}

function typedValue(cell: string) {
  if (cell === '') return null;
  if (/^\d+(,\d+)?$/.test(cell)) return { type: Number, value: Number(cell.replace(',', '.')) };
  if (/^\d{4}-\d\d-\d\d$/.test(cell))
    return { type: Date, value: new Date(`${cell}T12:00:00Z`), format: 'dd/mm/yyyy' };
  return { type: String, value: cell };
}

/** What was taken, in the words of the lists. */
export function takenText(parsed: ParsedCaseload): string[] {
  const { children, measurements, devices } = parsed.caseload;
  const nameOf = new Map(children.map((c) => [c.id, c.name || c.id]));
  const deviceName = (id: string) => {
    const d = devices.find((device) => device.id === id);
    return `${nameOf.get(d?.childId ?? '')} ${d?.family} ${d?.side}`;
  };
  return [
    ...children.map((c) => `child ${nameOf.get(c.id)} ${c.birthDate} ${c.sex}`),
    ...measurements.map((m) =>
      ['reading', nameOf.get(m.childId), m.date, m.measure, m.side === 'none' ? '' : m.side[0], m.value]
        .filter((w) => w !== '')
        .join(' '),
    ),
    ...devices.map((d) => `device ${deviceName(d.id)} ${d.castDate}`),
    ...devices.map((d) => `state ${deviceName(d.id)} ${d.fittedDate ?? '-'} ${d.status}`),
    ...parsed.caseload.events
      .filter((e) => e.kind === 'retired')
      .map((e) => `ended ${deviceName(e.deviceId)} ${e.date} ${e.endReason ?? e.note}`),
    ...parsed.questions.map((q) => `ask ${q.id}`),
    ...parsed.refused.map((r) => `refused ${r.row} ${r.column}`),
  ];
}
