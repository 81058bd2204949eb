import { parseCaseload } from '../../src/exchange/parse-caseload.js';

const VISITS = 10;
const two = (n: number): string => String(n).padStart(2, '0');

/** Reads a sheet with a row a visit: name, birth date, day, both feet, a device, remarks. */
export async function readSheetOf(rows: number): Promise<string> {
  const lines = ['Name,DOB,Visit date,Foot L,Foot R,Device,Notes'];
  for (let i = 0; i < rows; i++) {
    const child = Math.floor(i / VISITS);
    const visit = i % VISITS;
    const birth = `${two(1 + (child % 28))}/${two(1 + (child % 12))}/${2015 + (child % 5)}`;
    const seen = `${two(13 + visit)}/${two(1 + visit)}/${2021 + Math.floor(visit / 2)}`;
    const foot = 15 + visit * 0.5;
    lines.push(
      `Child${child} Family${child % 977},${birth},${seen},${foot},${foot + 0.2},L solid AFO,remark ${i}`,
    );
  }
  const bytes = new TextEncoder().encode(lines.join('\n'));
  const { caseload, refused } = await parseCaseload([{ name: 'sheet.csv', bytes }], {
    today: '2026-11-25',
    takeProbable: true,
  });
  const { children, measurements } = caseload;
  return `${children.length} children, ${measurements.length} readings, ${refused.length} refused`;
}
