// Random sites: one product, one lot, two places and three probes, full of edges; as entries to post and as the second
// implementation's records. Integer arithmetic alone, so that a seed means the same everywhere.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "second/histories.hpp"

namespace properties {

/// xorshift64* (Vigna 2016).
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15u + 1) {}
    std::uint64_t next() {
        state_ ^= state_ >> 12;
        state_ ^= state_ << 25;
        state_ ^= state_ >> 27;
        return state_ * 0x2545F4914F6CDD1Du;
    }
    /// From low to high, both included.
    std::int64_t from(std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool one_in(std::int64_t n) { return from(1, n) == 1; }

private:
    std::uint64_t state_;
};

/// 2026-03-02T00:00:00Z; everything random happens in the half day that follows.
inline constexpr std::int64_t start = 1772409600;
inline constexpr std::int64_t length = 43200;

struct RandomSite {
    explicit RandomSite(std::uint64_t seed);

    std::vector<std::string> entries;      ///< JSON, in the order of posting
    std::vector<bool> is_measurement;      ///< readings and checks, entry by entry
    second::Records records;
    std::vector<second::Place> places;
    second::Lot lot;
    std::int64_t unmonitored_limit_s = 0;

    std::string text() const;
};

}  // namespace properties
