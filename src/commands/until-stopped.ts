/** Resolves on the first SIGTERM or SIGINT (or when a parent that was watched goes away); a second one ends at once. */
export function untilStopped(): Promise<string> {
  return new Promise((resolve) => {
    let asked = false;
    const ask = (signal: string) => {
      if (asked) process.exit(130);
      asked = true;
      // A listened-to channel to the parent would keep this process alive when its work is done.
      process.channel?.unref();
      resolve(signal);
    };
    process.on('SIGTERM', () => ask('SIGTERM'));
    process.on('SIGINT', () => ask('SIGINT'));
    if (process.send) process.on('disconnect', () => ask('parent gone'));
  });
}
