import { DoorpostError } from '../../errors.js';
import { readRecords } from '../../exchange/parse-caseload.js';
import { refusedRowText } from '../../exchange/refused-row.js';
import { recordsFile } from './records-file.js';
import { noRoomForUploads } from './upload-folder.js';
import type { ReadAnswer, ReadQuestion, ReadUpload } from './upload-reader.js';
import { packed, unpacked } from './uploaded-files.js';

/** Reads uploads one after another as they are handed over, and ends with the service that started it. */
process.on('disconnect', () => process.exit(0));
// Whoever stops the service by its process group stops this one by closing the channel.
process.on('SIGINT', () => undefined);

/** Twenty years of a large clinic. */
export const MOST_RECORDS = 300_000;

process.on('message', async (question: ReadQuestion) => {
  process.send?.(await answerTo(() => readUpload(question)));
});
process.send?.('ready');

async function readUpload({ files, options, shown, into }: ReadQuestion): Promise<ReadUpload> {
  const given = 'packed' in files ? unpacked(files.packed) : files;
  const records = recordsFile(into);
  let count = 0;
  const said = await readRecords(given, options, (part, record) => {
    if (++count > MOST_RECORDS) throw tooMany();
    records.add(part, record);
  }).finally(() => records.close());
  const { refused, doubtful, notices, questions, columns } = said;
  return {
    said: {
      refused: refused.slice(0, shown).map(refusedRowText),
      refusedCount: refused.length,
      doubtful: doubtful
        .slice(0, shown)
        .map(({ file, row, column, given: written }) => `${file} row ${row}, ${column} "${written}"`),
      doubtfulCount: doubtful.length,
      notices,
      questions,
      columns,
    },
    lists: records.lists,
    packed: questions.length + columns.length > 0 ? await packed(given) : null,
  };
}

const tooMany = (): DoorpostError =>
  new DoorpostError('too-large', `The files hold more than ${MOST_RECORDS} records and readings`, {
    field: 'files',
    accepted: `at most ${MOST_RECORDS} at a time; send more in parts`,
  });

async function answerTo(read: () => Promise<ReadUpload>): Promise<ReadAnswer> {
  try {
    return { read: await read() };
  } catch (error) {
    if (error instanceof DoorpostError) return refusal(error);
    const { name, stack, code } = error as Error & { code?: string };
    if (code === 'ENOENT') return refusal(new DoorpostError('bad-request', 'The upload was broken off'));
    if (code === 'ENOSPC') return refusal(noRoomForUploads());
    // A message may carry what a cell said; frames do not.
    return {
      failed: [name, ...(stack?.split('\n').filter((line) => /^\s+at /.test(line)) ?? [])].join('\n'),
    };
  }
}

const refusal = ({ code, message, place }: DoorpostError): ReadAnswer => ({
  refused: { code, message, place },
});
