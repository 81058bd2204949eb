import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { describe, expect, it } from 'vitest';

const root = new URL('../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), 'utf8');
const { dependencies, optionalDependencies } = JSON.parse(read('package.json')) as Record<
  string,
  Record<string, string>
>;
const declared = [...Object.keys(dependencies), ...Object.keys(optionalDependencies)];

describe('what the product depends on', () => {
  it('has a line of reason each', () => {
    const section = /## Dependencies\n([\s\S]*?)\n## /.exec(read('DEVELOPERS.md'))?.[1] ?? '';
    const named = [...section.matchAll(/`([^`]+)`/g)].map((m) => m[1]);
    const missing = declared.filter(
      (name) => !named.some((n) => n === name || (/^-|^tfjs/.test(n) && name.endsWith(n))),
    );
    expect(missing).toEqual([]);
  });

  it('is declared wherever it is imported', () => {
    const files = readdirSync(new URL('src/', root), { recursive: true, encoding: 'utf8' });
    const imported = new Set<string>();
    for (const file of files.filter((f) => /\.(ts|tsx|mjs)$/.test(f)))
      for (const [, name] of read(`src/${file}`).matchAll(
        /^import (?!type )(?:[^'"]* from )?['"]([^'".][^'"]*)['"]/gm,
      ))
        imported.add(name.startsWith('@') ? name.split('/').slice(0, 2).join('/') : name.split('/')[0]);
    const undeclared = [...imported].filter(
      (name) => !name.startsWith('node:') && !builtinModules.includes(name) && !declared.includes(name),
    );
    expect(undeclared).toEqual([]);
  });
});
