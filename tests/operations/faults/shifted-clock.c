/* The real clock, put forward or back by the seconds that stand in the file named in DOORPOST_CLOCK_FILE. */
#define _GNU_SOURCE
#include <stdio.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static long shift(void) {
  static long seconds;
  static struct timespec read;
  struct timespec now;
  syscall(SYS_clock_gettime, CLOCK_MONOTONIC, &now);
  /* Once in 50 ms is enough. */
  if (read.tv_sec && (now.tv_sec - read.tv_sec) * 1000 + (now.tv_nsec - read.tv_nsec) / 1000000 < 50) return seconds;
  read = now;
  const char *name = getenv("DOORPOST_CLOCK_FILE");
  FILE *file = name ? fopen(name, "r") : NULL;
  if (file) {
    if (fscanf(file, "%ld", &seconds) != 1) seconds = 0;
    fclose(file);
  }
  return seconds;
}

int clock_gettime(clockid_t id, struct timespec *t) {
  int failed = syscall(SYS_clock_gettime, id, t);
  if (!failed && (id == CLOCK_REALTIME || id == CLOCK_REALTIME_COARSE)) t->tv_sec += shift();
  return failed;
}

int gettimeofday(struct timeval *restrict t, void *restrict zone) {
  (void)zone;
  struct timespec now;
  clock_gettime(CLOCK_REALTIME, &now);
  t->tv_sec = now.tv_sec;
  t->tv_usec = now.tv_nsec / 1000;
  return 0;
}

time_t time(time_t *t) {
  struct timespec now;
  clock_gettime(CLOCK_REALTIME, &now);
  if (t) *t = now.tv_sec;
  return now.tv_sec;
}
