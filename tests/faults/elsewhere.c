// Elsewhere: laid over the C library, it gives a program another clock, and a system without zone data.
//
// COLDTALLY_TEST_CLOCK: seconds since 1970 that the clock shows, negative before. COLDTALLY_TEST_ZONES: "none":
// /usr/share/zoneinfo is not there; "folder": every zone is a folder; "unreadable": every zone's file gives an input or
// output error.
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <time.h>

static const char zones[] = "/usr/share/zoneinfo";

static void* next_of(const char* name) {
    void* found = dlsym(RTLD_NEXT, name);
    if (!found) abort();
    return found;
}

static int clock_is_set(struct timespec* t) {
    const char* text = getenv("COLDTALLY_TEST_CLOCK");
    if (!text) return 0;
    t->tv_sec = (time_t)strtoll(text, NULL, 10);
    t->tv_nsec = 0;
    return 1;
}

int clock_gettime(clockid_t which, struct timespec* t) {
    if (which == CLOCK_REALTIME && clock_is_set(t)) return 0;
    int (*call)(clockid_t, struct timespec*) = next_of("clock_gettime");
    return call(which, t);
}

time_t time(time_t* out) {
    struct timespec t;
    clock_gettime(CLOCK_REALTIME, &t);
    if (out) *out = t.tv_sec;
    return t.tv_sec;
}

int gettimeofday(struct timeval* restrict out, void* restrict zone) {
    struct timespec t;
    (void)zone;
    clock_gettime(CLOCK_REALTIME, &t);
    out->tv_sec = t.tv_sec;
    out->tv_usec = t.tv_nsec / 1000;
    return 0;
}

// Another path in the place of one of zone data; NULL: refused, with errno set.
static const char* elsewhere(const char* path) {
    const char* what = getenv("COLDTALLY_TEST_ZONES");
    if (!what || !path || strncmp(path, zones, sizeof zones - 1) != 0) return path;
    if (strcmp(what, "folder") == 0) return "/";
    errno = strcmp(what, "unreadable") == 0 ? EIO : ENOENT;
    return NULL;
}

#define LAID_OVER(result, name, failed, parameters, arguments) \
    result name parameters {                                   \
        result(*call) parameters = next_of(#name);             \
        path = elsewhere(path);                                \
        return path ? call arguments : failed;                 \
    }

LAID_OVER(FILE*, fopen, NULL, (const char* path, const char* mode), (path, mode))
LAID_OVER(FILE*, fopen64, NULL, (const char* path, const char* mode), (path, mode))
LAID_OVER(DIR*, opendir, NULL, (const char* path), (path))
LAID_OVER(int, stat, -1, (const char* path, struct stat* out), (path, out))
LAID_OVER(int, lstat, -1, (const char* path, struct stat* out), (path, out))

static int mode_of(int flags, va_list more) { return (flags & (O_CREAT | O_TMPFILE)) ? va_arg(more, int) : 0; }

#define LAID_OVER_OPEN(name)                                 \
    int name(const char* path, int flags, ...) {             \
        int (*call)(const char*, int, ...) = next_of(#name); \
        va_list more;                                        \
        va_start(more, flags);                               \
        const int mode = mode_of(flags, more);               \
        va_end(more);                                        \
        path = elsewhere(path);                              \
        return path ? call(path, flags, mode) : -1;          \
    }

LAID_OVER_OPEN(open)
LAID_OVER_OPEN(open64)
