import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { DoorpostError, type ErrorCode, type ErrorPlace } from '../../errors.js';
import type { ParseOptions } from '../../exchange/parse-caseload.js';
import type { SaidOfUpload } from '../import-plan.js';
import type { Lists } from './records-file.js';
import type { UploadedFiles } from './uploaded-files.js';

export interface ReadQuestion {
  readonly files: UploadedFiles;
  readonly options: ParseOptions;
  /** How many refused rows are told. */
  readonly shown: number;
  /** Where the records go: a file that is not there yet. */
  readonly into: string;
}
export interface ReadUpload {
  readonly said: SaidOfUpload;
  readonly lists: Lists;
  /** Null where there is nothing to answer. */
  readonly packed: Uint8Array | null;
}
export type ReadAnswer =
  | { readonly read: ReadUpload }
  | { readonly refused: { code: ErrorCode; message: string; place: ErrorPlace } }
  | { readonly failed: string };

export interface ReaderLimits {
  readonly memoryMebibytes: number;
  readonly seconds: number;
  /** Uploads that wait for the one being read. */
  readonly waiting: number;
  readonly idleSeconds: number;
}

export const readerLimits: ReaderLimits = { memoryMebibytes: 1024, seconds: 60, waiting: 4, idleSeconds: 60 };

export interface UploadReader {
  /** What the files say, found where neither a loop nor a full memory reaches the web server. */
  read(question: ReadQuestion): Promise<ReadUpload>;
  stop(): void;
}

const launcher = fileURLToPath(new URL('./reader-process.mjs', import.meta.url));

/**
 * One process beside the web server that reads uploads, one at a time, with a limit on memory and time. It is
 * started when the first comes, kept for a minute after the last, and knows no secret and no database.
 */
export function uploadReader(limits: ReaderLimits = readerLimits, program = launcher): UploadReader {
  let child: ChildProcess | null = null;
  let ready = Promise.resolve(false);
  let turn: Promise<unknown> = Promise.resolve();
  let inLine = 0;
  let idle: NodeJS.Timeout | undefined;
  const end = () => {
    child?.kill('SIGKILL');
    child = null;
  };
  const started = () => {
    if (child?.connected) return child;
    const next = fork(program, [], {
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      execArgv: [`--max-old-space-size=${limits.memoryMebibytes}`],
      env: { PATH: process.env.PATH, HOME: process.env.HOME, TMPDIR: process.env.TMPDIR },
    });
    next.once('exit', () => {
      if (child === next) child = null;
    });
    // Starting is not reading: the limit of time is not spent on it.
    ready = new Promise((resolve) => {
      next.once('message', () => resolve(true)).once('exit', () => resolve(false));
      next.once('error', () => resolve(false));
    });
    child = next;
    return next;
  };
  const ask = async (question: ReadQuestion): Promise<ReadUpload> => {
    clearTimeout(idle);
    try {
      const reading = started();
      if (!(await ready)) throw new Error('the process that reads uploads did not start');
      return await answerOf(reading, question, limits);
    } catch (error) {
      if (!(error instanceof DoorpostError) || error.place.given === GIVEN_UP) end();
      throw error;
    } finally {
      idle = setTimeout(end, limits.idleSeconds * 1000).unref();
    }
  };
  return {
    read(question) {
      if (inLine > limits.waiting)
        throw new DoorpostError(
          'too-many-requests',
          'Other files are being read just now: try again in a minute',
        );
      inLine++;
      const answer = turn.then(() => ask(question));
      turn = answer.catch(() => undefined).finally(() => inLine--);
      return answer;
    },
    stop() {
      clearTimeout(idle);
      end();
    },
  };
}

/** How a process ends whose memory is full: by V8's abort, or by the kernel. */
const OUT_OF_MEMORY: ReadonlySet<string | number | null> = new Set(['SIGABRT', 'SIGTRAP', 'SIGKILL', 134]);

/** Marks a refusal after which the process is of no use any more. */
const GIVEN_UP = 'the whole upload';

function answerOf(child: ChildProcess, question: ReadQuestion, limits: ReaderLimits): Promise<ReadUpload> {
  return new Promise((resolve, reject) => {
    const givenUp = (message: string, accepted: string) =>
      settle(() =>
        reject(
          new DoorpostError('invalid-file', message, {
            given: GIVEN_UP,
            accepted: `${accepted}: send it in parts`,
          }),
        ),
      );
    const timer = setTimeout(
      () =>
        givenUp(
          `Reading took longer than ${limits.seconds} seconds`,
          `what is read in ${limits.seconds} seconds`,
        ),
      limits.seconds * 1000,
    );
    const onEnd = () => {
      const how = child.signalCode ?? child.exitCode;
      if (OUT_OF_MEMORY.has(how) && !child.killed)
        givenUp('Reading took too much memory', `what is read within ${limits.memoryMebibytes} MiB`);
      else settle(() => reject(new Error(`the process that reads uploads ended by itself (${how})`)));
    };
    const onMessage = (answer: ReadAnswer) => {
      settle(() => {
        if ('read' in answer) resolve(answer.read);
        else if ('refused' in answer)
          reject(new DoorpostError(answer.refused.code, answer.refused.message, answer.refused.place));
        else reject(Object.assign(new Error('reading an upload failed'), { stack: answer.failed }));
      });
    };
    const settle = (then: () => void) => {
      clearTimeout(timer);
      child.off('message', onMessage).off('exit', onEnd).off('error', onEnd);
      then();
    };
    child.on('message', onMessage).once('exit', onEnd).once('error', onEnd);
    // What cannot be sent any more goes to a process that is ending, and its end is told.
    if (child.connected) child.send(question, () => undefined);
    else onEnd();
  });
}
