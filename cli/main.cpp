// coldtally: the process of the command line.
#include <fcntl.h>
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <csignal>
#include <cstdint>
#include <cstdlib>

#include "program.hpp"

namespace {

// A descriptor 0 to 2 that is closed would be given to the next file opened, the ledger perhaps, and then printed into.
void hold_standard_descriptors() {
    int descriptor = ::open("/dev/null", O_RDONLY);
    while (descriptor >= 0 && descriptor <= STDERR_FILENO) descriptor = ::open("/dev/null", O_RDONLY);
    if (descriptor >= 0) ::close(descriptor);
}

// A question takes some megabytes, and to get them 4 KiB at a time takes up to a seventh of its time. The heap is made
// to grow once, by addresses alone, and is given large pages where the system has them.
void take_large_pages() {
    constexpr int at_once = 64 << 20, usual = 128 << 10,
                  apart = 4 << 20;  // what is larger than `apart` is no part of the heap
    mallopt(M_TRIM_THRESHOLD, 2 * at_once);
    mallopt(M_MMAP_THRESHOLD, apart);
    mallopt(M_TOP_PAD, at_once);
    void* const first = std::malloc(apart / 2);  // more than what is left of the heap there was
    mallopt(M_TOP_PAD, usual);                   // where there are not so many addresses, it grows as ever
    if (!first) return;
    const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
    const auto from = reinterpret_cast<std::uintptr_t>(first) / page * page;
    const auto until = reinterpret_cast<std::uintptr_t>(::sbrk(0));
    if (from < until) ::madvise(reinterpret_cast<void*>(from), until - from, MADV_HUGEPAGE);
    std::free(first);
}

}  // namespace

int main(int count, char** given) {
    take_large_pages();
    hold_standard_descriptors();
    std::signal(SIGPIPE, SIG_IGN);  // a reader that has gone is an output that cannot be written: status 3
    // so is a file that may not grow further (ulimit -f): without it the process ends without a word
    std::signal(SIGXFSZ, SIG_IGN);
    return coldtally::cli::run_program(count, given, coldtally::english());
}
