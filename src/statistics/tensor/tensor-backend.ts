import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import type * as TensorFlow from '@tensorflow/tfjs-core';

/** 'native': TensorFlow's C library; 'wasm': WebAssembly with SIMD; 'cpu': plain JavaScript. */
export type TensorBackend = 'native' | 'wasm' | 'cpu';

// The packages' one-file builds: loading their hundreds of modules one by one takes ten times as long.
const require = createRequire(import.meta.url);
export const tf = require('@tensorflow/tfjs-core') as typeof TensorFlow;

const start: Record<TensorBackend, () => Promise<boolean>> = {
  async native() {
    // Optional: a name in a variable keeps the compiler from asking for its types where it did not install.
    const name = '@tensorflow/tfjs-node';
    require(name);
    return tf.setBackend('tensorflow');
  },
  async wasm() {
    const wasm = require('@tensorflow/tfjs-backend-wasm') as typeof import('@tensorflow/tfjs-backend-wasm');
    wasm.setWasmPaths(`${dirname(require.resolve('@tensorflow/tfjs-backend-wasm'))}/`);
    // One thread: children are shared out over processors, and threads of the backend's own keep Node from ending.
    wasm.setThreadsCount(1);
    return tf.setBackend('wasm');
  },
  async cpu() {
    require('@tensorflow/tfjs-backend-cpu');
    return tf.setBackend('cpu');
  },
};

/** Makes another backend the current one, for comparing them; false where it is not installed. */
export function useTensorBackend(backend: TensorBackend): Promise<boolean> {
  return start[backend]().catch(() => false);
}

async function fastest(): Promise<TensorBackend> {
  tf.enableProdMode();
  for (const backend of ['native', 'wasm'] as const) if (await useTensorBackend(backend)) return backend;
  await start.cpu();
  return 'cpu';
}

/** The fastest backend installed here, made ready before anything that multiplies is loaded. */
export const tensorBackend = await fastest();
