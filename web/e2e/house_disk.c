// The disk of a house under test: while the file LYNEARM_E2E_FULL is there, whatever would be written to
// a file in the folder LYNEARM_E2E_DISK meets a full disk (ENOSPC), as the database would hear it from
// the system. Preloaded by house.mjs, so that no disk has to be filled and nobody has to be root. What is
// written to memory that is shared (the index of the database's log) is let through: it has its room.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/uio.h>
#include <unistd.h>

static int full(int file) {
  const char* const folder = getenv("LYNEARM_E2E_DISK");
  const char* const flag = getenv("LYNEARM_E2E_FULL");
  const int before = errno;
  if (!folder || !flag || access(flag, F_OK) != 0) return errno = before, 0;
  char link[40];
  char path[PATH_MAX];
  snprintf(link, sizeof link, "/proc/self/fd/%d", file);
  const ssize_t length = readlink(link, path, sizeof path);
  const size_t within = strlen(folder);
  errno = before;
  if (length <= (ssize_t)within || strncmp(path, folder, within) != 0 || path[within] != '/') return 0;
  errno = ENOSPC;
  return 1;
}

// The system's own function of this name.
#define OWN(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t write(int file, const void* from, size_t bytes) {
  return full(file) ? -1 : OWN(write)(file, from, bytes);
}
ssize_t writev(int file, const struct iovec* from, int pieces) {
  return full(file) ? -1 : OWN(writev)(file, from, pieces);
}
ssize_t pwrite(int file, const void* from, size_t bytes, off_t at) {
  return full(file) ? -1 : OWN(pwrite)(file, from, bytes, at);
}
ssize_t pwrite64(int file, const void* from, size_t bytes, off64_t at) {
  return full(file) ? -1 : OWN(pwrite64)(file, from, bytes, at);
}
int fallocate(int file, int mode, off_t at, off_t bytes) {
  return full(file) ? -1 : OWN(fallocate)(file, mode, at, bytes);
}
int fallocate64(int file, int mode, off64_t at, off64_t bytes) {
  return full(file) ? -1 : OWN(fallocate64)(file, mode, at, bytes);
}
int posix_fallocate(int file, off_t at, off_t bytes) {
  return full(file) ? ENOSPC : OWN(posix_fallocate)(file, at, bytes);
}
int posix_fallocate64(int file, off64_t at, off64_t bytes) {
  return full(file) ? ENOSPC : OWN(posix_fallocate64)(file, at, bytes);
}
