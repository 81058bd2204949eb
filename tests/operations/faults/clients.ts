import { randomUUID } from 'node:crypto';
import { pause } from './folder-processes.js';

/** Children who collect visits while things break. */
export const VISITED = 30;
export const IMPORT_CHILDREN = 40;

export interface Answer {
  readonly status: number;
  readonly body: Record<string, string>;
}
export type Ask = (method: string, path: string, body?: unknown, key?: string) => Promise<Answer>;

/** What was answered 'done' to those who wrote, and how often each answer came. */
export interface Acknowledged {
  readonly visits: string[];
  readonly imports: string[];
  readonly lists: Set<string>;
  readonly answers: Map<string, number>;
}

/**
 * Asks until it is answered: a lost connection or a 5xx is asked again with the same Idempotency-Key, as a program
 * that must not lose a visit would. `done` ends the asking.
 */
export function askUntilAnswered(
  port: number,
  tokens: { readonly clinician: string; readonly administrator: string },
  answers: Map<string, number>,
  stop: { now: boolean },
): Ask {
  const count = (what: string) => answers.set(what, (answers.get(what) ?? 0) + 1);
  return async (method, path, body, key) => {
    for (;;) {
      try {
        const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
          method,
          headers: {
            authorization: `Bearer ${path.startsWith('/api/imports') ? tokens.administrator : tokens.clinician}`,
            ...(body === undefined ? {} : { 'content-type': 'application/json' }),
            ...(key ? { 'idempotency-key': key } : {}),
          },
          body: body === undefined ? undefined : JSON.stringify(body),
          signal: AbortSignal.timeout(20_000),
        });
        const read = (await answer.json()) as Record<string, string>;
        count(
          answer.status < 400
            ? String(answer.status)
            : `${answer.status} ${read.code}${answer.status === 503 && !answer.headers.has('retry-after') ? ' without Retry-After' : ''}`,
        );
        if (answer.status < 500) return { status: answer.status, body: read };
      } catch (error) {
        count((error as Error).name === 'TimeoutError' ? 'no answer in 20 s' : 'connection lost');
      }
      if (stop.now) return { status: 0, body: {} };
      await pause(100);
    }
  };
}

export async function enterVisits(
  ask: Ask,
  { visits }: Acknowledged,
  stop: { now: boolean },
  everyMs = 20,
): Promise<void> {
  for (let n = 0; !stop.now; n++) {
    const mark = `kill-${randomUUID()}`;
    const { status } = await ask(
      'POST',
      `/api/children/c${n % VISITED}/measurements`,
      { measure: 'foot_length', side: 'left', value: 190, date: '2026-01-15', entered: mark },
      mark,
    );
    if (status === 201) visits.push(mark);
    await pause(everyMs);
  }
}

/** `look` gives the children of an import that are there now. */
export async function importAgainAndAgain(
  ask: Ask,
  { imports }: Acknowledged,
  stop: { now: boolean },
  faults: string[],
  look: (prefix: string) => Promise<number | null>,
): Promise<void> {
  for (let i = 0; !stop.now; i++) {
    const prefix = `imp${i}x`;
    const rows = Array.from(
      { length: IMPORT_CHILDREN },
      (_, k) => `${prefix}${k},2019-01-02,female,moved-away`,
    );
    const text = ['id,birth_date,sex,status', ...rows].join('\n');
    const dry = await ask('POST', '/api/imports', { files: [{ name: 'children.csv', text }] });
    // Reading was cut short by a stop, or another is being read.
    if (dry.status !== 201) continue;
    const commit = await ask('POST', `/api/imports/${dry.body.id}/commit`, {}, prefix);
    if (commit.status !== 202) {
      if (!stop.now) faults.push(`commit of an import answered ${commit.status}`);
      continue;
    }
    imports.push(prefix);
    for (let n = 0; n < 15 && !stop.now; n++) {
      const there = await look(prefix);
      if (there !== null && there !== 0 && there !== IMPORT_CHILDREN)
        faults.push(`half an import was seen: ${there} of ${IMPORT_CHILDREN}`);
      if (there === IMPORT_CHILDREN) break;
      await pause(100);
    }
  }
}

export async function makeLists(ask: Ask, { lists }: Acknowledged, stop: { now: boolean }): Promise<void> {
  while (!stop.now) {
    const { status, body } = await ask('POST', '/api/recall-runs', {});
    if (status === 202) lists.add(body.jobRunId);
    await pause(500);
  }
}
