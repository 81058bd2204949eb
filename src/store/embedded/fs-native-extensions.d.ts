declare module 'fs-native-extensions' {
  /** Takes an exclusive lock on the whole open file at once, or says false. */
  export function tryLock(fd: number): boolean;
}
