// Everyday work in a table: drafts, incidents, and what is asked of upkeep, follow-up and loans.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers.hpp"
#include "coldtally/ledger.hpp"
#include "rows.hpp"

namespace scenarios {

/// What whoever stands at the ledger has before them: it, the clock, and the names given so far.
struct Desk {
    Ledger& ledger;
    Instant now;
    const Names& names;
    const Answers& form;
};

/// Whether the words begin with one of `do`, `notice`, `step`, `close`, `report` and `answer`.
bool is_work(const Words& w);

/// Does it, dated at this time. Its entries, that which it is about first. Error where it is refused.
std::vector<EntryNumber> work(const Desk& desk, const std::string& time, Words& w);

/// The lines that answer a question of this word; none where there is no such question here.
std::optional<std::vector<std::string>> answered(const Desk& desk, const Question& q, const std::string& word,
                                                 Words& w);

}  // namespace scenarios
