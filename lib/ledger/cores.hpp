// Cores: whether work is worth being shared.
#pragma once

#include <sched.h>

#include <future>

namespace coldtally::ledger {

/// May this process run on two cores?
inline bool another_core() {
    cpu_set_t cores;
    return ::sched_getaffinity(0, sizeof cores, &cores) == 0 && CPU_COUNT(&cores) > 1;
}

/// How to run what is worth it: at once on another core, where there is one; else when its outcome is asked for.
inline std::launch beside(bool worth_it) {
    return worth_it && another_core() ? std::launch::async : std::launch::deferred;
}

}  // namespace coldtally::ledger
