import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import * as tf from '@tensorflow/tfjs-core';

/** 'native': TensorFlow's C library; 'wasm': WebAssembly; 'cpu': plain JavaScript. */
export type TensorBackend = 'native' | 'wasm' | 'cpu';

const require = createRequire(import.meta.url);
let chosen: Promise<TensorBackend> | undefined;

/** The fastest backend that is installed here, made ready; chosen once, then kept. */
export function tensorBackend(): Promise<TensorBackend> {
  chosen ??= choose();
  return chosen;
}

/** Makes another backend the current one, for comparing them; false where it is not installed. */
export async function useTensorBackend(backend: TensorBackend): Promise<boolean> {
  const ready = await start[backend]().catch(() => false);
  if (ready) chosen = Promise.resolve(backend);
  return ready;
}

async function choose(): Promise<TensorBackend> {
  tf.enableProdMode();
  for (const backend of ['native', 'wasm'] as const)
    if (await start[backend]().catch(() => false)) return backend;
  await start.cpu();
  return 'cpu';
}

const start: Record<TensorBackend, () => Promise<boolean>> = {
  async native() {
    // Optional: a name in a variable keeps the compiler from asking for its types where it did not install.
    const name = '@tensorflow/tfjs-node';
    await import(name);
    return tf.setBackend('tensorflow');
  },
  async wasm() {
    const { setWasmPaths, setThreadsCount } = await import('@tensorflow/tfjs-backend-wasm');
    setWasmPaths(`${dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))}/`);
    // One thread: worker threads of the WASM backend keep a Node process from ending.
    setThreadsCount(1);
    return tf.setBackend('wasm');
  },
  async cpu() {
    await import('@tensorflow/tfjs-backend-cpu');
    return tf.setBackend('cpu');
  },
};
