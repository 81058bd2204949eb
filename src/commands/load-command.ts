import { exitCodes } from './exit-codes.js';

type Action = (...given: never[]) => Promise<unknown>;
type Loaded = (...given: unknown[]) => Promise<void>;

/** `load('recall-list', 'recallList')` calls that export of that file, which is read only now. */
export type Load = (file: string, exportName: string) => Loaded;

/** A number that a command returns is its exit code; else it is 0. */
export function loadCommand(ended: (exitCode: number) => void): Load {
  return (file, exportName) =>
    async (...given) => {
      const module = (await import(/* @vite-ignore */ `./${file}.ts`)) as Record<string, Action>;
      const args = given.slice(0, -1); // the last one is the Command itself
      const code: unknown = await module[exportName](...(args as never[]));
      ended(typeof code === 'number' ? code : exitCodes.done);
    };
}
