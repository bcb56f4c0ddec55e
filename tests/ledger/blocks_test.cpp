// Blocks of readings: what goes in comes out, small; what is no block is refused.
#include <catch2/catch.hpp>

#include "coldtally/error.hpp"
#include "ledger/blocks.hpp"
#include "ledger/movement.hpp"
#include "trace/calibration.hpp"

using namespace coldtally;
using namespace coldtally::ledger;

namespace {

std::string_view view(const Bytes& b) { return {reinterpret_cast<const char*>(b.data()), b.size()}; }

std::vector<Reading> decoded(const Bytes& b) {
    std::vector<Reading> out;
    decode_block(view(b), out);
    return out;
}

/// Readings of steps and temperatures.
std::vector<Reading> readings(std::int64_t at, const std::vector<std::pair<std::int64_t, std::int32_t>>& rows) {
    std::vector<Reading> out;
    for (const auto& [step, value] : rows) out.push_back({Instant(at += step), value});
    return out;
}

}  // namespace

TEST_CASE("a block of readings comes back as it was, with any steps and temperatures") {
    const std::vector<std::vector<Reading>> all{
        readings(0, {{5, 4200}}),
        readings(1'700'000'000, {{0, 4200},
                                 {300, 4300},
                                 {300, 4300},
                                 {300, 4200},
                                 {301, 4100},
                                 {1, -50000},
                                 {100'000'000, 900'000},
                                 {300, 1}}),
        readings(-5, {{0, -273150}, {1, 1'000'000}}),
        readings(7'258'118'399, {{0, 0}, {1, 1}, {2, -1}}),
    };
    for (const auto& rows : all) {
        const Bytes block = encode_block(rows);
        CHECK(decoded(block) == rows);
        for (std::size_t n = 0; n < block.size(); ++n) {
            std::vector<Reading> out;
            CHECK_THROWS_AS(decode_block(view(block.substr(0, n)), out), Error);  // cut anywhere
        }
        std::vector<Reading> out;
        CHECK_THROWS_AS(decode_block(view(block + Bytes(1, 0)), out), Error);  // and with something behind
    }
}

TEST_CASE("a full block comes back as it was, whatever lengths its numbers have, over what was in memory before") {
    std::uint64_t state = 7;  // numbers of our own, the same everywhere (the generator of POSIX's rand48 family)
    const auto below = [&](std::int32_t n) {
        state = (state * 0x5DEECE66D + 11) & 0xFFFFFFFFFFFF;
        return static_cast<std::int32_t>((state >> 16) % static_cast<std::uint64_t>(n));
    };
    std::vector<Reading> over;
    for (const std::int32_t widest :
         {1, 60, 64, 200, 8191, 8193, 100'000, 1'000'000}) {  // one byte holds -64 to 63, two -8192 to 8191
        for (const std::size_t count : {2u, 9u, 17u, 511u, 512u}) {
            std::vector<Reading> rows;
            std::int64_t at = 1'600'000'000;
            for (std::size_t i = 0; i < count; ++i) {
                at += below(20) == 0 ? 1 + below(100'000) : 300;
                rows.push_back({Instant(at), below(3) == 0 ? below(widest) : below(60)});
            }
            const Bytes block = encode_block(rows);
            CHECK(decoded(block) == rows);
            decode_block_over(view(block), over);
            CHECK(over == rows);
            bool all_refused = true;
            for (std::size_t n = 0; n < block.size(); ++n) {
                std::vector<Reading> out;
                try {
                    decode_block(view(block.substr(0, n)), out);
                    all_refused = false;
                } catch (const Error& e) {
                    all_refused = all_refused && e.code() == Code::damaged;
                }
            }
            CHECK(all_refused);
        }
    }
}

TEST_CASE("a block counts its temperatures in the largest unit that divides all their steps") {
    for (const std::int32_t unit : {1, 2, 3, 7, 32, 100, 250, 1000, 4096, 65535}) {
        const std::vector<std::int32_t> in_units{0, 3, -2, -2, 5, 0, 1};
        std::vector<Reading> rows;
        for (std::size_t i = 0; i < in_units.size(); ++i)
            rows.push_back({Instant(static_cast<std::int64_t>(i) * 60), 4321 + unit * in_units[i]});
        const Bytes block = encode_block(rows);
        // the page of the ledger, "Blocks of readings": rows, first instant, usual step, first temperature (8642
        // zigzag), unit
        Bytes start{7, 0, 60, 0xC2, 0x43};
        for (auto n = static_cast<std::uint32_t>(unit); n != 0; n >>= 7)
            start += static_cast<unsigned char>(n >> 7 ? (n & 0x7F) | 0x80 : n);
        // no other steps; 3, -5, 0, 7, -5, 1 units
        start += Bytes{0, 6, 9, 0, 14, 9, 2};
        CHECK(block == start);
        CHECK(decoded(block) == rows);
    }
}

TEST_CASE(
    "the usual step of a block is the one that occurs most often, of several the shortest; its unit is 1 where no "
    "temperature differs") {
    struct Example {
        std::vector<std::pair<std::int64_t, std::int32_t>> rows;
        Bytes bytes;  // count, first instant, usual step, first temperature, unit; other steps; temperature steps
    };
    for (const auto& [rows, bytes] : {
             Example{{{0, 5}, {60, 5}, {50, 5}, {50, 5}}, {4, 0, 50, 10, 1, 1, 1, 60, 0, 0, 0}},
             Example{{{0, 0}, {60, 2}, {50, 4}, {60, 6}, {50, 8}}, {5, 0, 50, 0, 2, 2, 1, 60, 2, 60, 2, 2, 2, 2}},
             Example{{{0, 0}, {50, -1}, {60, -1}, {60, -1}, {50, -1}, {60, -1}},
                     {6, 0, 60, 0, 1, 2, 1, 50, 3, 50, 1, 0, 0, 0, 0}},
             Example{{{0, 7}}, {1, 0, 0, 14, 1, 0}},
         })
        CHECK(encode_block(readings(0, rows)) == bytes);
}

TEST_CASE("a block's summary says what its readings are") {
    const auto s = summary_of(readings(1000, {{0, 4200}, {300, 4600}, {900, 3900}, {300, 4100}}));
    CHECK(s.readings == 4);
    CHECK(s.first_at == 1000);
    CHECK(s.last_at == 2500);
    CHECK(s.longest_step == 900);
    CHECK(s.first == 4200);
    CHECK(s.last == 4100);
    CHECK(s.lowest == 3900);
    CHECK(s.highest == 4600);
}

TEST_CASE("a five-minute reading of one digit takes about a byte") {
    std::vector<Reading> rows;
    for (int i = 0; i < 512; ++i) rows.push_back({Instant(300 * i), 4000 + 100 * (i % 7)});
    CHECK(encode_block(rows).size() <= 512 + 16);
}

TEST_CASE("SHA-256 is that of the standard") {
    // FIPS 180-2, appendix B.1, read from memory: the one-block message "abc"
    CHECK(hexadecimal(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(next_link(first_link(), "a", {}) != next_link(first_link(), "b", {}));
}

TEST_CASE("a stock walk moves doses from one account to another, and refuses what is not there") {
    StockWalk walk;
    const auto move = [&](MovementOp op, std::int64_t source, std::int64_t target, std::int64_t doses) {
        const auto refused = walk.apply({0, 1, op, source, target, doses, false});
        return refused ? english().say(*refused) : std::string();
    };
    CHECK(move(MovementOp::receive, 0, 1, 10).empty());
    CHECK(move(MovementOp::move, 1, 2, 4).empty());
    CHECK(walk.doses(1) == 6);
    CHECK(walk.doses(2) == 4);
    CHECK(move(MovementOp::give, 2, 0, 5) == "takes 5 doses where there are 4 then");
    CHECK(walk.doses(2) == 4);
    CHECK(move(MovementOp::count, 2, 0, 6).empty());
    CHECK(walk.doses(2) == 6);
    CHECK(move(MovementOp::count, 3, 0, 0).empty());
    CHECK(move(MovementOp::count, 3, 0, 1) == "counts 1 dose where there are none then");
}

TEST_CASE("a correction is linear between its rows, constant beyond them, and rounds halves away from zero") {
    Certificate c;
    c.correction = std::vector<Certificate::Row>{
        {-1000, TemperatureDifference(-1)}, {1000, TemperatureDifference(0)}, {2000, TemperatureDifference(1000)}};
    CHECK(trace::corrected(nullptr, 1234) == 1234);
    CHECK(trace::corrected(&c, -5000) == -5001);
    CHECK(trace::corrected(&c, 9000) == 10000);
    CHECK(trace::corrected(&c, 1500) == 2000);
    CHECK(trace::corrected(&c, 0) == -1);      // 0 - 0.0005 degree: half a thousandth, away from zero
    CHECK(trace::corrected(&c, -500) == -501); // -0.5 - 0.00075
    CHECK(trace::corrected(&c, 500) == 500);   // 0.5 - 0.00025
    c.correction = std::vector<Certificate::Row>{{0, TemperatureDifference(0)}, {2, TemperatureDifference(1)}};
    CHECK(trace::corrected(&c, 1) == 2);       // 0.001 + 0.0005
}
