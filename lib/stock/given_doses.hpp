// Given doses: some of them counted and named, for what a review says beside its rows.
#pragma once

#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

/// Doses given, counted, with the first of their entries.
class GivenDoses {
public:
    void add(EntryNumber entry, std::int64_t doses) {
        entries_.push_back(entry);
        doses_ += doses;
    }
    bool any() const { return !entries_.empty(); }
    /// "3 doses given (entries 4, 7)"
    Remark words() const;

private:
    std::vector<EntryNumber> entries_;
    std::int64_t doses_ = 0;
};

}  // namespace coldtally::answers
