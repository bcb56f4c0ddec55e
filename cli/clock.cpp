#include "clock.hpp"

#include <chrono>

namespace coldtally::cli {

Instant current_instant() {
    const auto since_1970 = std::chrono::system_clock::now().time_since_epoch();  // UTC from C++20 on
    return Instant(std::chrono::floor<std::chrono::seconds>(since_1970).count());
}

}  // namespace coldtally::cli
