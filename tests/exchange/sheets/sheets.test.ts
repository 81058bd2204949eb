import { describe, expect, it } from 'vitest';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';
import { typedSheets } from './typed-sheets.js';

const TODAY = '2026-11-25';

/** Sheets typed as clinics keep them; beside each what a person at the desk would take from it (common practice, no source). */
describe('sheets as clinics type them', () => {
  it.each(typedSheets.map((sheet) => [sheet.name, sheet] as const))('%s', async (_, sheet) => {
    const bytes =
      sheet.encoding === 'latin1'
        ? new Uint8Array(Buffer.from(sheet.text, 'latin1'))
        : new TextEncoder().encode(sheet.text);
    const parsed = await parseCaseload([{ name: sheet.file ?? 'list.csv', bytes }], {
      today: TODAY,
      takeProbable: true,
    });
    const { children, measurements, devices } = parsed.caseload;
    const nameOf = new Map(children.map((c) => [c.id, c.name || c.id]));
    if (sheet.children)
      expect(children.map((c) => [c.name || c.id, c.birthDate, c.sex].join(' '))).toEqual(sheet.children);
    if (sheet.readings)
      expect(
        measurements
          .map((m) =>
            [nameOf.get(m.childId), m.date, m.measure, m.side === 'none' ? '' : m.side[0], m.value]
              .filter((w) => w !== '')
              .join(' '),
          )
          .sort(),
      ).toEqual([...sheet.readings].sort());
    if (sheet.devices)
      expect(
        devices.map((d) => [nameOf.get(d.childId), d.family, d.side, d.castDate].join(' ')).sort(),
      ).toEqual([...sheet.devices].sort());
    if (sheet.asks) expect(parsed.questions.map((q) => q.id)).toEqual(sheet.asks);
    expect(parsed.refused.map((r) => `${r.row} ${r.column}`)).toEqual(sheet.refused ?? []);
  });
});

describe('what a diagnosis brings with it', () => {
  const child = async (diagnosis: string, more: readonly [heading: string, cell: string][] = []) => {
    const headings = ['ID', 'DOB', 'Sex', 'Diagnosis', ...more.map(([h]) => h), 'Date', 'Foot L (mm)'];
    const cells = ['p1', '2019-03-01', 'f', diagnosis, ...more.map(([, c]) => c), '2026-02-02', '180'];
    const bytes = new TextEncoder().encode(`${headings.join(';')}\n${cells.join(';')}\n`);
    const parsed = await parseCaseload([{ name: 'list.csv', bytes }], { today: TODAY, takeProbable: true });
    return parsed.caseload.children[0];
  };

  // Latex precautions from birth and skin that does not feel in spina bifida: common practice, no source.
  it.each(['MMC L3', 'spina bifida', 'Myelomeningozele', 'myelomeningocele', 'mielomeningocele'])(
    '%s: latex and skin that cannot warn, without a column for either',
    async (diagnosis) => {
      expect(await child(diagnosis)).toMatchObject({ latexAlert: true, insensateSkin: true });
    },
  );

  it('leaves a column of the sheet the last word on latex', async () => {
    expect(await child('MMC L3', [['Latex', 'no']])).toMatchObject({ latexAlert: false });
  });

  it.each([
    ['CP', 'cerebral-palsy'],
    ['DMD', 'muscular-dystrophy'],
    ['DDH', 'hip-dysplasia'],
    ['AIS', 'idiopathic-scoliosis'],
    ['CTEV', 'clubfoot'],
    ['trisomy 21', 'down-syndrome'],
    ['SMA', 'spinal-muscular-atrophy'],
    ['MMC L3', 'myelomeningocele-high'],
    ['MMC S1', 'myelomeningocele-low'],
  ])('%s is %s and no latex alert beyond spina bifida', async (diagnosis, condition) => {
    const { conditions, latexAlert } = await child(diagnosis);
    expect(conditions).toContain(condition);
    expect(latexAlert).toBe(condition.startsWith('myelomeningocele'));
  });

  it('takes the side of a hemiplegia', async () => {
    expect(await child('L hemi')).toMatchObject({ affectedSide: 'left', conditions: ['hemiplegia'] });
  });
});
