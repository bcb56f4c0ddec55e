// Probe readings: the known readings of one probe as blocks that follow on, decoded only where somebody looks inside.
#pragma once

#include <memory>
#include <vector>

#include "ledger/known.hpp"
#include "ledger/store.hpp"

namespace coldtally::trace {

using Rows = std::shared_ptr<const std::vector<Reading>>;

class ProbeReadings {
public:
    /// Holds every reading at or after `from`, and maybe some before. Both must outlive this. `keep_all`: no block is
    /// decoded twice, at 16 bytes a reading; else the last ones decoded are kept.
    ProbeReadings(const ledger::Store& store, const ledger::Known& known, const std::string& probe, std::int64_t from,
                  bool keep_all = false);

    struct Block {
        ledger::BlockSummary summary;
        std::int64_t stored = 0;  ///< its number in the file; 0: `rows` holds it
        Rows rows;
        EntryNumber entry = 0;    ///< that it came with; of merged ones the last
    };
    /// Ascending, none overlapping another, instants strictly ascending over all of them.
    const std::vector<Block>& blocks() const { return blocks_; }
    Rows rows(std::size_t block) const;

private:
    void add_merged(std::size_t from, std::size_t until, const std::vector<ledger::BlockRow>& all);

    const ledger::Store& store_;
    std::vector<Block> blocks_;
    struct Kept {
        std::size_t block = SIZE_MAX;
        std::shared_ptr<std::vector<Reading>> rows;
    };
    mutable std::vector<Kept> kept_;  // the blocks decoded last, by their last digits
};

}  // namespace coldtally::trace
