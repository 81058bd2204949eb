import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const rows = readFileSync(new URL('./asvs-level-2.md', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\| V\d/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .map(([, section, state, words]) => ({ section, state, words }));

/** How many tests a text names; each is there, by its title. */
function testsNamed(words: string): number {
  const named = [...words.matchAll(/(tests\/[\w./-]+\.test\.tsx?) "([^"]+)"/g)];
  for (const [, file, title] of named) {
    expect(existsSync(`${root}${file}`), file).toBe(true);
    expect(readFileSync(`${root}${file}`, 'utf8'), `${file} has no test "${title}"`).toContain(title);
  }
  return named.length;
}

describe('the table of ASVS', () => {
  it('has every chapter', () => {
    const chapters = new Set(rows.map(({ section }) => Number(/^V(\d+)/.exec(section)?.[1])));
    expect([...chapters].sort((a, b) => a - b)).toEqual(Array.from({ length: 14 }, (_, i) => i + 1));
  });

  it.each(rows)('$section: $state', ({ state, words }) => {
    expect(['holds', 'not apply', 'open']).toContain(state);
    expect(words).not.toBe('');
    const named = testsNamed(words);
    if (state === 'holds') expect(named).toBeGreaterThan(0);
  });
});

describe('the threat model', () => {
  const threats = readFileSync(new URL('./threat-model.md', import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| ') && !/^\| (Threat|-)/.test(line));

  it('every threat names what stands against it', () => {
    expect(threats.length).toBeGreaterThan(20);
    for (const threat of threats)
      expect(threat.includes('_outside_') || testsNamed(threat) > 0, threat).toBe(true);
  });
});
