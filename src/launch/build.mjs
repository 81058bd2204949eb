import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { dirname, extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Packages of hundreds of small modules, read as part of ours: five times as fast. The others are left where they are. */
const INLINED = ['date-fns', 'kysely', 'vega', 'vega-lite', 'zod'];
/** Builds of older sources that are kept, for what still runs from them. */
const OLDER_KEPT = 2;

/** Builds into a folder, whole or not at all; where that cannot be written, nothing happens. */
export async function build(root, files, place) {
  try {
    mkdirSync(dirname(place), { recursive: true, mode: 0o755 });
    await buildInto(place, root, files);
  } catch (error) {
    if (!['EACCES', 'EPERM', 'EROFS'].includes(error.code)) throw error;
  }
}

async function buildInto(place, root, files) {
  const { build: bundle } = await import('esbuild');
  const making = mkdtempSync(`${place}-`);
  try {
    await bundle({ ...settings(root, files), entryPoints: entriesOf(root, files), outdir: making });
    if (!place.startsWith(root)) symlinkSync(join(root, 'node_modules'), join(making, 'node_modules'));
    // Whoever installs builds; whoever runs it reads.
    chmodSync(making, 0o755);
    renameSync(making, place);
    forgetOlder(place);
  } catch (error) {
    rmSync(making, { recursive: true, force: true });
    // Another process was faster.
    if (!existsSync(place)) throw error;
  }
}

/** How the files of a folder's src/ are built, whatever is begun with. */
export function settings(root, files) {
  const { dependencies, optionalDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return {
    outbase: join(root, 'src'),
    absWorkingDir: root,
    bundle: true,
    splitting: true,
    format: 'esm',
    outExtension: { '.js': '.mjs' },
    platform: 'node',
    target: 'node20',
    external: Object.keys({ ...dependencies, ...optionalDependencies }).filter(
      (name) => !INLINED.includes(name),
    ),
    sourcemap: 'external',
    minifyWhitespace: true,
    sourcesContent: false,
    logLevel: 'error',
    plugins: [ownPlace(files)],
  };
}

/** The program, and whatever has a launcher of its own beside it. */
const entriesOf = (root, files) => [
  join(root, 'src/commands/main.ts'),
  ...files.filter((f) => f.endsWith('.ts') && files.includes(f.replace(/\.ts$/, '.mjs'))),
];

/** A file that finds others from where it stands goes on to do so. */
function ownPlace(files) {
  const found = files.filter((f) => /\.tsx?$/.test(f) && readFileSync(f, 'utf8').includes('import.meta.url'));
  const escaped = found.map((f) => f.replace(/[\\.+*?^$|(){}[\]]/g, '\\$&'));
  return {
    name: 'own-place',
    setup({ onLoad }) {
      onLoad({ filter: new RegExp(`^(${escaped.join('|')})$`) }, ({ path }) => ({
        contents: readFileSync(path, 'utf8').replaceAll(
          'import.meta.url',
          JSON.stringify(pathToFileURL(path).href),
        ),
        loader: extname(path) === '.tsx' ? 'tsx' : 'ts',
      }));
    },
  };
}

function forgetOlder(place) {
  const folder = dirname(place);
  const older = readdirSync(folder)
    .map((name) => join(folder, name))
    .filter((path) => path !== place)
    .sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs);
  for (const path of older.slice(OLDER_KEPT)) rmSync(path, { recursive: true, force: true });
}
