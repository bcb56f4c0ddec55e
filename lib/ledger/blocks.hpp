// Blocks: readings of one batch, delta-coded in runs of up to 512, each with a summary.
//
// A block's bytes are numbers of 7 bits a byte, least significant first, the top bit saying that more follow; signed
// ones zigzag (0, -1, 1, -2 ...):
//   count, first instant (signed), usual step, first temperature (signed), unit,
//   number of other steps, for each: how many steps after the last one listed, its length;
//   count - 1 temperature steps (signed), in units.
// Instants ascend strictly. The unit is the greatest common divisor of the temperature steps, 1 where all are 0.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "ledger/chain.hpp"

namespace coldtally::ledger {

inline constexpr std::size_t readings_per_block = 512;

struct BlockSummary {
    std::int64_t readings = 0;
    std::int64_t first_at = 0, last_at = 0;
    std::int64_t longest_step = 0;  ///< seconds; 0 for a single reading
    std::int32_t first = 0, last = 0, lowest = 0, highest = 0;  ///< thousandths of a degree, as indicated
    friend bool operator==(const BlockSummary&, const BlockSummary&) = default;
};

/// `readings`: 1 to readings_per_block, strictly ascending by instant.
BlockSummary summary_of(std::span<const Reading> readings);
Bytes encode_block(std::span<const Reading> readings);
/// Appends to `out`. Code::damaged where the bytes are no block: more readings than a block may have, instants that do
/// not ascend or lie outside 1970 to 2199. Temperatures are whatever the bytes add up to in 32 bits; their digest says
/// whether they are those of before.
void decode_block(std::string_view data, std::vector<Reading>& out);
/// The same, in place of what `out` holds; on failure it holds anything.
void decode_block_over(std::string_view data, std::vector<Reading>& out);

}  // namespace coldtally::ledger
