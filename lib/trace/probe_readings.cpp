#include "trace/probe_readings.hpp"

#include <algorithm>

namespace coldtally::trace {

namespace {
constexpr std::size_t kept_blocks = 64;
}

ProbeReadings::ProbeReadings(const ledger::Store& store, const ledger::Known& known, const std::string& probe,
                             std::int64_t from, bool keep_all)
    : store_(store), kept_(kept_blocks) {
    const auto id = store.probe(probe);
    if (!id) return;
    auto all = store.blocks(*id, from);
    std::erase_if(all, [&](const ledger::BlockRow& b) { return !known.is_known(b.entry); });
    blocks_.reserve(all.size());
    for (std::size_t i = 0; i < all.size();) {
        std::int64_t end = all[i].summary.last_at;
        std::size_t j = i + 1;
        while (j < all.size() && all[j].summary.first_at <= end) end = std::max(end, all[j++].summary.last_at);
        if (j == i + 1)
            blocks_.push_back({all[i].summary, all[i].block, nullptr, all[i].entry});
        else
            add_merged(i, j, all);  // batches that overlap: equal readings count once
        i = j;
    }
    if (keep_all) kept_.resize(blocks_.size());
}

void ProbeReadings::add_merged(std::size_t from, std::size_t until, const std::vector<ledger::BlockRow>& all) {
    std::vector<Reading> rows;
    EntryNumber last = 0;
    for (std::size_t i = from; i < until; ++i) {
        store_.read_block(all[i].block, rows);
        last = std::max(last, all[i].entry);
    }
    std::ranges::stable_sort(rows, {}, &Reading::at);
    const auto same = [](const Reading& a, const Reading& b) { return a.at == b.at; };
    rows.erase(std::unique(rows.begin(), rows.end(), same), rows.end());
    for (std::size_t i = 0; i < rows.size(); i += ledger::readings_per_block) {
        const auto end = std::min(rows.size(), i + ledger::readings_per_block);
        auto part = std::make_shared<const std::vector<Reading>>(rows.begin() + static_cast<std::ptrdiff_t>(i),
                                                                 rows.begin() + static_cast<std::ptrdiff_t>(end));
        blocks_.push_back({ledger::summary_of(*part), 0, part, last});
    }
}

Rows ProbeReadings::rows(std::size_t block) const {
    const Block& b = blocks_[block];
    if (b.rows) return b.rows;
    Kept& kept = kept_[block % kept_.size()];
    if (kept.block == block) return kept.rows;
    // another block is decoded into the memory of one that nobody looks at any more
    if (!kept.rows || kept.rows.use_count() > 1) kept.rows = std::make_shared<std::vector<Reading>>();
    kept.block = SIZE_MAX;  // where the next line throws
    store_.read_block_over(b.stored, *kept.rows);
    const auto& rows = *kept.rows;
    const auto& s = b.summary;
    const bool agrees = static_cast<std::int64_t>(rows.size()) == s.readings &&
                        rows.front() == Reading{Instant(s.first_at), s.first} &&
                        rows.back() == Reading{Instant(s.last_at), s.last};
    if (!agrees)
        store_.database().damaged("the summary of block " + std::to_string(b.stored) +
                                  " of readings is not that of its readings");
    kept.block = block;
    return kept.rows;
}

}  // namespace coldtally::trace
