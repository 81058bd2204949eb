import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { showsDate } from '../../../src/exchange/xlsx/number-formats.js';
import { readSheets } from '../../../src/exchange/xlsx/read-sheets.js';
import { readWorkbook } from '../../../src/exchange/xlsx/read-workbook.js';
import { serialDate } from '../../../src/exchange/xlsx/serial-date.js';
import { workbookLimits } from '../../../src/exchange/xlsx/workbook-limits.js';
import { inlineText, makeWorkbook } from './make-workbook.js';

const FILE = 'clinic.xlsx';
const refusal = async (bytes: Uint8Array, limits: Partial<typeof workbookLimits> = {}) =>
  readSheets(FILE, bytes, { ...workbookLimits, ...limits }).then(
    () => 'read',
    (error) => {
      expect(error.code).toBe('invalid-file');
      return error.message as string;
    },
  );

describe('what a spreadsheet says', () => {
  it('comes with its row, column, kind and format, wherever it stands', async () => {
    const bytes = makeWorkbook({
      sheets: {
        Feet:
          `<row r="2">${inlineText('B2', ' Left &amp; right ')}<c r="C2" t="s"><v>0</v></c><c t="b"><v>1</v></c></row>` +
          '<row><c r="B3" s="1"><v>43173</v></c><c r="C3" s="2"><v>22.100000000000001</v></c>' +
          '<c r="D3" t="e"><v>#REF!</v></c><c r="E3" t="str"><f>A1</f><v>x</v></c></row>',
      },
      after: '<mergeCells><mergeCell ref="B2:C2"/></mergeCells>',
      sharedStrings: '<si><r><t>two </t></r><r><t>runs_x000A_</t></r><rPh><t>aid</t></rPh></si>',
      styles:
        '<numFmts><numFmt numFmtId="164" formatCode="0.0&quot; cm day&quot;"/></numFmts>' +
        '<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs><xf/><xf numFmtId="14"/><xf numFmtId="164"/></cellXfs>',
    });
    expect(await readSheets(FILE, bytes)).toEqual([
      {
        name: 'Feet',
        hidden: false,
        merged: ['B2:C2'],
        rows: [
          {
            row: 2,
            cells: [
              { column: 2, text: 'Left & right', kind: 'text', format: '' },
              { column: 3, text: 'two runs', kind: 'text', format: '' },
              { column: 4, text: 'true', kind: 'boolean', format: '' },
            ],
          },
          {
            row: 3,
            cells: [
              { column: 2, text: '2018-03-14', kind: 'date', format: '' },
              { column: 3, text: '22.1', kind: 'number', format: '0.0" cm day"' },
              { column: 4, text: '#REF!', kind: 'error', format: '' },
              { column: 5, text: 'x', kind: 'text', format: '' },
            ],
          },
        ],
      },
    ]);
  });

  // Day numbers of the two calendars: ECMA-376 part 1, 18.17.4.1, from memory.
  it.each([
    [1, false, '1900-01-01'],
    [59, false, '1900-02-28'],
    [61, false, '1900-03-01'],
    [43173.75, false, '2018-03-14'],
    [0, true, '1904-01-01'],
    [41711, true, '2018-03-14'],
    [0.5, false, '12:00'],
    [-1, false, null],
    [1e300, false, null],
  ])('day number %d (from 1904: %s) is %s', (serial, from1904, date) => {
    expect(serialDate(serial, from1904)).toBe(date);
  });

  it.each([
    ['dd.mm.yyyy', true],
    ['[$-409]d-mmm-yy', true],
    ['[h]:mm', true],
    ['0.00', false],
    ['0" mm per day"', false],
    ['General', false],
    ['[Red]0.0', false],
  ])('the format %s shows a date: %s', (code, date) => {
    expect(showsDate(code)).toBe(date);
  });
});

describe('a workbook made to fill memory, or grown by accident', () => {
  const started = () => process.memoryUsage().rss;

  it('with a format in its last cell is read as if the cell were not there', async () => {
    const bytes = makeWorkbook({
      sheets: {
        Children: `<row r="1">${inlineText('A1', 'id')}</row><row r="1048576"><c r="XFD1048576" s="3"/></row>`,
      },
      before: '<dimension ref="A1:XFD1048576"/>',
    });
    const before = started();
    expect(await readWorkbook(FILE, bytes)).toMatchObject([
      { file: 'clinic.xlsx Children', headings: ['id'], rows: [] },
    ]);
    expect(started() - before).toBeLessThan(100 * 1024 * 1024);
  });

  it('with values in A1 and XFD1048576 is refused, naming sheet, row and column', async () => {
    const bytes = makeWorkbook({
      sheets: {
        Feet: `<row r="1">${inlineText('A1', 'x')}</row><row r="1048576">${inlineText('XFD1048576', 'x')}</row>`,
      },
    });
    expect(bytes.length).toBeLessThan(3000);
    expect(await refusal(bytes)).toBe(
      'clinic.xlsx: sheet Feet, row 1048576: there is a value in column XFD. Accepted: values up to column SR (512 columns)',
    );
  });

  const rows = (count: number, cells: (row: number) => string) =>
    makeWorkbook({
      sheets: {
        S: Array.from({ length: count }, (_, i) => `<row r="${i + 1}">${cells(i + 1)}</row>`).join(''),
      },
    });

  it('says which limit on rows, cells and text it is over', async () => {
    const small = rows(30, (row) => inlineText(`C${row}`, 'word'));
    expect(await refusal(small)).toBe('read');
    expect(await refusal(small, { rows: 29 })).toMatch(/row 30: there are too many rows. Accepted: 29 rows/);
    expect(await refusal(small, { rows: 30, cells: 89 })).toMatch(
      /row 30: there are too many cells. Accepted: 89/,
    );
    expect(await refusal(small, { cells: 90, characters: 119 })).toMatch(/row 30: there is too much text/);
  });

  it('cannot hide cells behind one address', async () => {
    const stacked = rows(1, () => inlineText('A1', 'x').repeat(100));
    expect(await refusal(stacked, { cells: 99 })).toMatch(/too many cells/);
    expect(await refusal(stacked, { cells: 100 })).toBe('read');
  });

  it('is refused by its number of sheets, its size and its unpacked size', async () => {
    const two = makeWorkbook({ sheets: { A: '', B: '' } });
    expect(await refusal(two, { sheets: 1 })).toMatch(/has 2 sheets. Accepted: at most 1 sheets/);
    expect(await refusal(two, { fileBytes: 100 })).toMatch(/Accepted: at most 1 MiB/);
    expect(await refusal(two, { unpackedBytes: 500 })).toMatch(/unpacks to more than/);
  });

  it('is refused by its ratio: a bomb of 60 MB in 60 kB', async () => {
    const bomb = makeWorkbook({ sheets: { S: ' '.repeat(60_000_000) } });
    expect(bomb.length).toBeLessThan(100_000);
    expect(await refusal(bomb)).toMatch(/unpacks to [\d,]+ times its size. Accepted: at most 250 times/);
  });

  it('cannot lie about its unpacked size', async () => {
    const bomb = makeWorkbook({ sheets: { S: ' '.repeat(20_000_000) } });
    expect(await refusal(understated(bomb))).toMatch(/cannot be read as a spreadsheet/);
  });

  it('does not expand entities', async () => {
    const doctype = '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>';
    const bytes = makeWorkbook({
      sheets: { S: `<row r="1">${inlineText('A1', '&b;')}</row>` },
      before: doctype,
    });
    expect(await refusal(bytes)).toMatch(/cannot be read as a spreadsheet/);
  });
});

describe('what is no workbook', () => {
  it.each([
    ['text', new TextEncoder().encode('not a workbook')],
    ['nothing', new Uint8Array()],
    ['a zip of something else', zipSync({ 'a.txt': new Uint8Array(3) })],
    ['an old .xls', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 1, 2])],
    ['half a workbook', makeWorkbook({ sheets: { S: '' } }).subarray(0, 400)],
    ['broken XML', makeWorkbook({ sheets: { S: '<row><c></row>' } })],
    [
      'an address that is none',
      makeWorkbook({ sheets: { S: '<row r="1"><c r="ZZZZ1"><v>1</v></c></row>' } }),
    ],
    ['a row that is none', makeWorkbook({ sheets: { S: '<row r="9999999"><c><v>1</v></c></row>' } })],
  ])('%s is refused with what is accepted', async (_, bytes) => {
    await expect(readSheets(FILE, bytes)).rejects.toMatchObject({
      code: 'invalid-file',
      place: { file: FILE, accepted: expect.stringContaining('.xlsx') },
    });
  });
});

/** The same zip whose directory and headers say that the sheet unpacks to 100 bytes. */
function understated(bytes: Uint8Array): Uint8Array {
  const copy = Uint8Array.from(bytes);
  const view = new DataView(copy.buffer);
  for (let at = 0; at + 46 < copy.length; at++) {
    const signature = view.getUint32(at, true);
    const sizeAt = signature === 0x02014b50 ? at + 24 : signature === 0x04034b50 ? at + 22 : -1;
    if (sizeAt > 0 && view.getUint32(sizeAt, true) > 1_000_000) view.setUint32(sizeAt, 100, true);
  }
  return copy;
}
