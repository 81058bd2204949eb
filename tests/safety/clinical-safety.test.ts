import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** The safety file's rows `| H1 | ... |`, its controls each with the tests that prove it. */
const hazards = readFileSync(new URL('clinical-safety.md', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\| H\d/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()));

describe('the clinical safety file', () => {
  it('has severity, controls, proof for each of its hazards', () => {
    expect(hazards.length).toBeGreaterThanOrEqual(14);
    for (const [, id, hazard, , severity, controls] of hazards) {
      expect(hazard, id).not.toBe('');
      expect(severity, id).toMatch(/^S[1-4]$/);
      expect(controls, id).not.toBe('');
    }
  });

  it.each(hazards.map((row) => [row[1], row[6]]))(
    '%s: the tests that prove its controls are there and run',
    (_, proof) => {
      const proofs = proof.split(/; (?=`)/).map((text) => /^`([^`]+)` › (.+)$/.exec(text));
      expect(proofs).not.toContain(null);
      for (const [, file, title] of proofs as RegExpExecArray[]) {
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
