/** Resolves on the first SIGTERM or SIGINT (or when a parent that was watched goes away); a second one ends at once. */
export function untilStopped(): Promise<string> {
  return new Promise((resolve) => {
    let asked = false;
    const ask = (signal: string) => {
      if (asked) process.exit(130);
      asked = true;
      resolve(signal);
    };
    process.on('SIGTERM', () => ask('SIGTERM'));
    process.on('SIGINT', () => ask('SIGINT'));
    if (process.send) process.on('disconnect', () => ask('parent gone'));
  });
}
