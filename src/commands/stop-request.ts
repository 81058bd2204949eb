export class StoppedWhileStarting extends Error {}

export type StopRequest = ReturnType<typeof stopRequest>;

/** npm's shell passes no signal on and only goes away itself. */
const PARENT_LOOKED_AT_MS = 500;

/**
 * What ends a service: a signal, or the end of the process that started it.
 * Hears SIGTERM and SIGINT from now on, the end of a parent that forked us, and the end of npm when npm started us.
 * Asked again, it still tidies up: the deadline of the stop is what ends it at once.
 */
export function stopRequest() {
  let reason: string | null = null;
  let resolve: (reason: string) => void;
  const asked = new Promise<string>((r) => {
    resolve = r;
  });
  const ask = (why: string) => {
    if (reason !== null) return;
    reason = why;
    // A listened-to channel to the parent would keep this process alive when its work is done.
    process.channel?.unref();
    resolve(why);
  };
  process.on('SIGTERM', () => ask('SIGTERM'));
  process.on('SIGINT', () => ask('SIGINT'));
  if (process.send) process.on('disconnect', () => ask('parent gone'));
  else if (process.env.npm_lifecycle_event) {
    const parent = process.ppid;
    setInterval(() => process.ppid !== parent && ask('npm gone'), PARENT_LOOKED_AT_MS).unref();
  }
  return {
    asked,
    /** For the steps of a start: throws once it is asked, so that what comes next is not begun. */
    check() {
      if (reason !== null) throw new StoppedWhileStarting(reason);
    },
  };
}
