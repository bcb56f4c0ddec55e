#include "clock.hpp"

#include <time.h>

namespace coldtally::cli {

Instant current_instant() {
    timespec since_1970;  // UTC; the nanoseconds of std::chrono would end in 2262 and begin anew before 1970
    ::clock_gettime(CLOCK_REALTIME, &since_1970);
    return Instant(since_1970.tv_sec);
}

}  // namespace coldtally::cli
