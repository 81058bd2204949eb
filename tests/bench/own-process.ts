import { execFileSync } from 'node:child_process';
import { join, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));

const launcher = (name: string) => import(pathToFileURL(join(here, '../../src/launch', name)).href);
const [{ settings }, { filesBelow }] = await Promise.all(['build.mjs', 'launch.mjs'].map(launcher));

/** Builds a file of this folder as the program is built, with the src/ of some version, runs it and reads what it says. */
export async function ownProcess(
  root: string,
  entry: string,
  args: readonly (string | number)[],
): Promise<{ readonly wall: number; readonly cpu: number }> {
  const outfile = join(root, 'node_modules', '.cache', `${entry}.mjs`);
  const shared = settings(root, filesBelow(join(root, 'src')));
  const ofThisVersion = {
    name: 'of-this-version',
    setup({
      onResolve,
    }: {
      onResolve: (which: { filter: RegExp }, to: (of: { path: string }) => object) => void;
    }) {
      onResolve({ filter: /^\.\.\/\.\.\/src\// }, ({ path }) => ({
        path: join(root, path.replace(/^(\.\.\/)+/, '').replaceAll('/', sep)).replace(/\.js$/, '.ts'),
      }));
    },
  };
  await build({
    ...shared,
    splitting: false,
    outbase: undefined,
    entryPoints: [join(here, `${entry}.ts`)],
    outfile,
    plugins: [ofThisVersion, ...shared.plugins],
  });
  return JSON.parse(execFileSync(process.execPath, [outfile, ...args.map(String)], { encoding: 'utf8' }));
}
