import { DoorpostError } from '../../errors.js';
import { parseCaseload } from '../../exchange/parse-caseload.js';
import { type ChildRecord, childrenIn, ungroup } from '../../records/caseload.js';
import { importPlan } from '../import-plan.js';
import type { ReadAnswer, ReadQuestion, ReadUpload, ToReader } from './upload-reader.js';
import { filesInMemory, packed } from './uploaded-files.js';

/** Reads uploads one after another as they are handed over, and ends with the service that started it. */
process.on('disconnect', () => process.exit(0));
// Whoever stops the service by its process group stops this one by closing the channel.
process.on('SIGINT', () => undefined);

/** Twenty years of a large clinic; what the database and the web server are handed at once. */
export const MOST_RECORDS = 300_000;

/** What the clinic keeps, as it comes in parts before the question. */
let kept: ChildRecord[] = [];

process.on('message', async (message: ToReader) => {
  if ('kept' in message) {
    kept.push(...message.kept);
    return;
  }
  const compared = kept;
  kept = [];
  process.send?.(await answerTo(() => readUpload(message, compared)));
});
process.send?.('ready');

async function readUpload(
  { files, options, shown }: ReadQuestion,
  compared: ChildRecord[],
): Promise<ReadUpload> {
  const given = await filesInMemory(files);
  const parsed = await parseCaseload(given, options);
  const records = Object.values(parsed.caseload).reduce((sum, rows) => sum + rows.length, 0);
  if (records > MOST_RECORDS)
    throw new DoorpostError('too-large', `The files hold ${records} records and readings`, {
      field: 'files',
      accepted: `at most ${MOST_RECORDS} at a time; send more in parts`,
    });
  return {
    plan: importPlan(ungroup(compared), parsed, shown),
    caseload: JSON.stringify(parsed.caseload),
    childIds: childrenIn(parsed.caseload),
    packed: packed(given),
  };
}

async function answerTo(read: () => Promise<ReadUpload>): Promise<ReadAnswer> {
  try {
    return { read: await read() };
  } catch (error) {
    if (error instanceof DoorpostError)
      return { refused: { code: error.code, message: error.message, place: error.place } };
    const { name, stack, code } = error as Error & { code?: string };
    if (code === 'ENOENT')
      return { refused: { code: 'bad-request', message: 'The upload was broken off', place: {} } };
    // A message may carry what a cell said; frames do not.
    return {
      failed: [name, ...(stack?.split('\n').filter((line) => /^\s+at /.test(line)) ?? [])].join('\n'),
    };
  }
}
