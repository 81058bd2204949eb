import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { readList } from './read-list.js';

const TODAY = '2026-11-25';
const LISTS = fileURLToPath(new URL('./lists/', import.meta.url));

/** What becomes a size, a device or a day of one: 'foot_length left', 'device solid-afo', 'device.cast_date'. */
const RECORDED =
  /^(?:device [a-z]|device\.(?:family|cast_date|fitted_date)|long\.value|[a-z_]+(?= (?:left|right|both|row|mm|cm|m|inch|kg|at:)|$))/;
const KEPT = /^(?:keep|remark|side)/;

// A clinic's cell never vanishes without a word: every column of every typed list is taken away once, as a sheet's reading
// that is wrong would, and the import has to say what was not taken from it, or ask.
describe('a column that is not read is told', () => {
  it.each(readdirSync(LISTS).sort())('%s', async (name) => {
    const list = await readList(LISTS + name);
    const options = { today: TODAY, takeProbable: !list.taken.includes('asks nothing') };
    const whole = await parseCaseload([list.file], { ...options, answers: list.answers });
    const recorded = whole.columns.filter(({ meaning }) => RECORDED.test(meaning) && !KEPT.test(meaning));
    const unsaid: string[] = [];
    for (const { sheet, question, heading } of recorded) {
      const answers = { ...list.answers, [`${sheet} ${question}`]: 'keep' };
      const { notices, questions } = await parseCaseload([list.file], { ...options, answers });
      const told = notices.some((line) => line.includes(`not taken from "${heading}"`));
      if (!told && questions.length <= whole.questions.length) unsaid.push(heading);
    }
    expect(unsaid).toEqual([]);
  });
});

describe('of a list that is read to the last cell nothing is left over', () => {
  const read = async (lines: readonly string[], answers: Readonly<Record<string, string>> = {}) => {
    const bytes = new TextEncoder().encode(lines.join('\n'));
    const { notices, refused } = await parseCaseload([{ name: 'list.csv', bytes }], {
      today: TODAY,
      takeProbable: true,
      answers,
    });
    return { left: notices.filter((line) => line.includes('not taken from')), refused };
  };
  const HEAD = 'Name;DOB;Sex;Seen;Foot L mm;Foot R mm;Device;Side;Cast;Fitted;GMFCS;Remarks';

  it('says nothing of levels, dashes and plain words', async () => {
    const { left } = await read([
      HEAD,
      'Lina Amari;2019-02-02;f;2026-06-09;176;178;hinged AFO;L;2026-06-09;2026-07-01;2;likes the stars',
      'Omar Bell;2018-02-02;m;2026-06-09;DNA;-;none;;;;3;',
    ]);
    expect(left).toEqual([]);
  });

  it('tells a cast without a device, and devices and numbers in remarks', async () => {
    const { left } = await read([
      HEAD,
      'Lina Amari;2019-02-02;f;2026-06-09;176;178;;;2026-06-09;;2;calf 231 L',
      'Omar Bell;2018-02-02;m;2026-06-09;180;181;;;;;3;night splint both',
    ]);
    expect(left).toEqual([
      'list.csv: not taken from "Cast": a cell that no record was made of ("2026-06-09").',
      'list.csv: not taken from "Remarks": a cell that names a device or its cast ("night splint both").',
      'list.csv: not taken from "Remarks": a remark with a number in it ("calf 231 L").',
    ]);
  });

  it('tells the sizes and devices of a row that was refused', async () => {
    const { left, refused } = await read([
      HEAD,
      'Lina Amari;2019-02-02;f;2026-06-09;176;178;;;;;2;',
      'Omar Bell;;m;2026-06-09;180;DNA;hinged AFO;L;2026-06-09;;3;',
    ]);
    expect(refused.map(({ row, why }) => [row, why])).toEqual([[3, 'has no birth date that can be read']]);
    expect(left.map((line) => line.slice('list.csv: not taken from '.length)).sort()).toEqual([
      '"Cast": a cell of a row that was refused ("2026-06-09").',
      '"Device": a cell of a row that was refused ("hinged AFO").',
      '"Foot L mm": a cell of a row that was refused ("180").',
    ]);
  });

  it('tells what is lost beside a device that the clinic leaves out', async () => {
    const { left } = await read(
      [
        'Name;DOB;Sex;Device;Side;Cast;Device 2;Side 2;Cast 2',
        'Lina Amari;2019-02-02;f;hinged AFO;L;2026-06-09;solid AFO;R;2026-06-10',
        'Omar Bell;2018-02-02;m;blue shell;L;2026-06-09;;;2026-06-10',
      ],
      { 'device:blu shell': 'leave', 'device:blu shel': 'leave' },
    );
    expect(left).toEqual([
      'list.csv: not taken from "Cast 2": a cell that no record was made of ("2026-06-10").',
    ]);
  });
});
