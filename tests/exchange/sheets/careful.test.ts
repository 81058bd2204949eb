/** Where a clinic's list can be read two ways, the way that cannot harm: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { parseCaseload } from '../../../src/exchange/parse-caseload.js';

const HEAD = 'Name;DOB;Sex;Diagnosis;Latex;Sensation;Date;Foot L (mm)';

async function read(...lists: string[][]) {
  const files = lists.map((lines, i) => ({
    name: `list${i}.csv`,
    bytes: new TextEncoder().encode(`${lines.join('\n')}\n`),
  }));
  const { caseload, refused, notices } = await parseCaseload(files, {
    today: '2026-11-25',
    takeProbable: true,
  });
  return {
    alerts: caseload.children.map((c) => [c.name, c.latexAlert, c.insensateSkin]),
    sizes: caseload.measurements.map((m) => m.value),
    names: caseload.children.map((c) => c.name),
    refused: refused.map((r) => `${r.column} ${r.given}: ${r.why}`),
    notices,
  };
}

describe('what protects a child', () => {
  it('a word that says neither yes nor no is an alert, and that is told', async () => {
    const { alerts, notices } = await read([HEAD, 'Ada Alder;2019-03-01;f;CP;query;patchy;2026-02-02;180']);
    expect(alerts).toEqual([['Ada Alder', true, true]]);
    for (const word of ['Latex "query"', 'Sensation "patchy"'])
      expect(notices.join()).toContain(`${word} is neither yes nor no; taken as yes to be safe.`);
  });

  it('of sensation "intact" and "normal" can warn, "absent" and "reduced" cannot', async () => {
    const said = ['intact', 'normal', 'absent below knee', 'reduced'];
    const rows = said.map((word, i) => `Ada A${i}x;2019-03-0${i + 1};f;CP;no;${word};2026-02-02;180`);
    const { alerts } = await read([HEAD, ...rows]);
    expect(alerts.map(([, , cannotWarn]) => cannotWarn)).toEqual([false, false, true, true]);
  });
});

describe('whose a row is', () => {
  it('a later row that says the child otherwise is told, and the first stands', async () => {
    const { names, sizes, refused } = await read([
      HEAD,
      'Ada Alder;2019-03-01;f;CP;;;2026-02-02;180',
      'Ada Alder;2019-03-01;m;CP;;;2026-06-02;184',
    ]);
    expect([names, sizes]).toEqual([['Ada Alder'], [180, 184]]);
    expect(refused).toEqual(['Sex m: differs from female, read before for this child; the first is kept']);
  });

  it('two children in one cell are not made one, and cost no other row', async () => {
    const { names, refused } = await read([
      HEAD,
      'Ada and Max Alder;2019-03-01;f;CP;;;2026-02-02;180',
      'Ben Birch;2018-03-01;m;CP;;;2026-02-02;185',
    ]);
    expect(names).toEqual(['Ben Birch']);
    expect(refused[0]).toContain('names more than one child');
  });

  it('a name that two children have takes no size for either', async () => {
    const { sizes, refused } = await read(
      ['Name;DOB;Sex', 'Ada Alder;2019-03-01;f', 'Ada Alder;2015-07-09;f', 'Ben Birch;2018-03-01;m'],
      ['Name;Date;Foot L (mm)', 'Ada Alder;2026-02-02;180', 'Ben Birch;2026-02-02;185'],
    );
    expect(sizes).toEqual([185]);
    expect(refused[0]).toContain('is the name of several children');
  });
});
