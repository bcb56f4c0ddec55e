// The invented site of the benchmarks: twenty places, up to ten years of five-minute readings, made from integers
// alone, so that it is the same on every machine.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace bench {

inline constexpr int places = 20;
inline constexpr std::int64_t step_s = 300;
inline constexpr std::int64_t first_at = 1420070400;  // 2015-01-01T00:00:00Z

/// A generator of our own: those of the standard library differ in their distributions from one library to the next.
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed * 2862933555777941757ull + 3037000493ull) {}
    std::uint64_t next() {
        state_ ^= state_ << 13;
        state_ ^= state_ >> 7;
        state_ ^= state_ << 17;
        return state_;
    }
    /// From low to high, both included.
    std::int64_t between(std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(high - low + 1));
    }

private:
    std::uint64_t state_;
};

struct Reading {
    std::int64_t at;
    std::int32_t thousandths;  // °C
};

/// Bounds in thousandths of a degree.
struct Bounds {
    std::int32_t low, high;
    bool has_freeze;
    std::int32_t freeze;
};
inline constexpr Bounds refrigerated{2000, 8000, true, -500};
inline constexpr Bounds frozen{-50000, -15000, false, 0};
inline bool is_freezer(int place) { return place % 4 == 3; }
inline Bounds bounds_of(int place) { return is_freezer(place) ? frozen : refrigerated; }

/// Readings of a place over `years`/4 of a year steps: `quarters` quarters of a ten-year record (4 is all of it).
std::vector<Reading> readings_of(int place, int quarters, int digits);
std::int64_t end_of(int quarters);

struct Stay {
    int place;
    std::int64_t from, until;
};

/// Entries of the ledger but its readings, as JSON Lines, and the stays of all histories.
struct Book {
    std::string definitions, events;
    std::vector<Stay> stays;
};
Book book_of(int quarters, int gives);

std::string instant_text(std::int64_t t);
std::string decimal_text(std::int32_t thousandths, int digits);

}  // namespace bench
