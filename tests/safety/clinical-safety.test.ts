import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** Rows `| H1 | ... | proof | residual |` of the safety file and `| D1 | ... | proof |` of the data protection page. */
const rowsOf = (file: string, id: RegExp) =>
  readFileSync(new URL(file, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => id.test(line))
    .map((line) => line.split('|').map((cell) => cell.trim()));
const hazards = rowsOf('clinical-safety.md', /^\| H\d/);
const answers = rowsOf('data-protection.md', /^\| D\d/);
const proofs = [...hazards.map((row) => [row[1], row[6]]), ...answers.map((row) => [row[1], row[4]])];

describe('what is promised', () => {
  it('of each hazard: severity, controls, proof', () => {
    expect(hazards.length).toBeGreaterThanOrEqual(14);
    for (const [, id, hazard, , severity, controls, proof] of hazards) {
      expect(hazard, id).not.toBe('');
      expect(severity, id).toMatch(/^S[1-4]$/);
      expect(controls, id).not.toBe('');
      expect(proof, id).not.toBe('');
    }
  });

  it.each(proofs.filter(([, proof]) => proof !== ''))(
    '%s is proved by tests that are there and run',
    (_, proof) => {
      const named = proof.split(/; (?=`)/).map((text) => /^`([^`]+)` › (.+)$/.exec(text));
      expect(named).not.toContain(null);
      for (const [, file, title] of named as RegExpExecArray[]) {
        const path = new URL(`../${file}`, import.meta.url);
        expect(existsSync(path), file).toBe(true);
        const text = readFileSync(path, 'utf8').replaceAll("\\'", "'");
        const at = text.indexOf(title);
        expect(at, `${file}: ${title}`).toBeGreaterThan(0);
        expect(text.slice(text.lastIndexOf('\n', at), at), `${title} is skipped`).not.toMatch(
          /skip|todo|only/,
        );
      }
    },
  );
});
