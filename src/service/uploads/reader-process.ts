import { DoorpostError } from '../../errors.js';
import { parseCaseload } from '../../exchange/parse-caseload.js';
import type { ReadAnswer, ReadQuestion } from './upload-reader.js';

/** Reads uploads one after another as they are handed over, and ends with the service that started it. */
process.on('disconnect', () => process.exit(0));
// Whoever stops the service by its process group stops this one by closing the channel.
process.on('SIGINT', () => undefined);

process.on('message', async ({ files, options }: ReadQuestion) => {
  process.send?.(await answerTo(() => parseCaseload(files, options)));
});
process.send?.('ready');

async function answerTo(read: () => ReturnType<typeof parseCaseload>): Promise<ReadAnswer> {
  try {
    return { parsed: await read() };
  } catch (error) {
    if (error instanceof DoorpostError)
      return { refused: { code: error.code, message: error.message, place: error.place } };
    const { name, stack } = error as Error;
    // A message may carry what a cell said; frames do not.
    return {
      failed: [name, ...(stack?.split('\n').filter((line) => /^\s+at /.test(line)) ?? [])].join('\n'),
    };
  }
}
