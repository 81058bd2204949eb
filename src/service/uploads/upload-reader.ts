import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { DoorpostError, type ErrorCode, type ErrorPlace } from '../../errors.js';
import type { NamedFile, ParsedCaseload, ParseOptions } from '../../exchange/parse-caseload.js';

export interface ReadQuestion {
  readonly files: readonly NamedFile[];
  readonly options: ParseOptions;
}
export type ReadAnswer =
  | { readonly parsed: ParsedCaseload }
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
  /** What the files say, read where neither a loop nor a full memory reaches the web server. */
  read(files: readonly NamedFile[], options: ParseOptions): Promise<ParsedCaseload>;
  stop(): void;
}

const launcher = fileURLToPath(new URL('./reader-process.mjs', import.meta.url));

/**
 * One process beside the web server that reads uploads, one at a time, with a limit on memory and time. It is
 * started when the first comes, kept for a minute after the last, and knows no secret and no database.
 */
export function uploadReader(limits: ReaderLimits = readerLimits): UploadReader {
  let child: ChildProcess | null = null;
  let turn: Promise<unknown> = Promise.resolve();
  let inLine = 0;
  let idle: NodeJS.Timeout | undefined;
  const end = () => {
    child?.kill('SIGKILL');
    child = null;
  };
  const started = () => {
    if (child?.connected) return child;
    const next = fork(launcher, [], {
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      execArgv: [`--max-old-space-size=${limits.memoryMebibytes}`],
      env: { PATH: process.env.PATH, HOME: process.env.HOME, TMPDIR: process.env.TMPDIR },
    });
    next.once('exit', () => {
      if (child === next) child = null;
    });
    child = next;
    return next;
  };
  const ask = async (question: ReadQuestion): Promise<ParsedCaseload> => {
    clearTimeout(idle);
    try {
      return await answerOf(started(), question, limits);
    } catch (error) {
      if (!(error instanceof DoorpostError) || error.place.given === GIVEN_UP) end();
      throw error;
    } finally {
      idle = setTimeout(end, limits.idleSeconds * 1000).unref();
    }
  };
  return {
    read(files, options) {
      if (inLine > limits.waiting)
        throw new DoorpostError(
          'too-many-requests',
          'Other files are being read just now: try again in a minute',
        );
      inLine++;
      const answer = turn.then(() => ask({ files, options }));
      turn = answer.catch(() => undefined).finally(() => inLine--);
      return answer;
    },
    stop() {
      clearTimeout(idle);
      end();
    },
  };
}

/** Marks a refusal after which the process is of no use any more. */
const GIVEN_UP = 'the whole upload';

function answerOf(
  child: ChildProcess,
  question: ReadQuestion,
  limits: ReaderLimits,
): Promise<ParsedCaseload> {
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
    const onEnd = () =>
      givenUp('Reading took too much memory', `what is read within ${limits.memoryMebibytes} MiB`);
    const onMessage = (answer: ReadAnswer | 'ready') => {
      if (answer === 'ready') return;
      settle(() => {
        if ('parsed' in answer) resolve(answer.parsed);
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
    child.send(question, (error) => error && onEnd());
  });
}
