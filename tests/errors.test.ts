import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { DoorpostError, errorCatalogue } from '../src/errors.js';

const src = fileURLToPath(new URL('../src/', import.meta.url));
const texts = readdirSync(src, { recursive: true, withFileTypes: true })
  .filter((f) => f.isFile() && /\.(ts|tsx)$/.test(f.name) && f.name !== 'errors.ts')
  .map((f) => readFileSync(join(f.parentPath, f.name), 'utf8'));

test.each(Object.keys(errorCatalogue))("'%s' is used by some code", (code) => {
  expect(texts.some((text) => text.includes(`'${code}'`))).toBe(true);
});

test.each(Object.entries(errorCatalogue))('%s has an HTTP status and a sentence', (_, entry) => {
  expect(entry.status).toBeGreaterThanOrEqual(400);
  expect(entry.status).toBeLessThan(600);
  expect(entry.title).toMatch(/^[A-Z][^.]+$/);
});

test('an error knows its status and its place', () => {
  const error = new DoorpostError('invalid-value', 'row 3: value is 0', {
    row: 3,
    field: 'value',
    given: '0',
  });
  expect(error.status).toBe(422);
  expect(error.place).toEqual({ row: 3, field: 'value', given: '0' });
});
