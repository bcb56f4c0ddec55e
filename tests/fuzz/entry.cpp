// Entry: one target as libFuzzer calls it.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "fuzz/targets.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        fuzz::given = {reinterpret_cast<const char*>(data), size};
        fuzz::COLDTALLY_TARGET(fuzz::given);
    } catch (const std::exception& e) {
        std::fprintf(stderr, "FIND: %s\n", e.what());
        std::abort();
    }
    return 0;
}
