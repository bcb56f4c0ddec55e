// Entry warnings: what is warned of in an entry whichever way it is posted. They ask for no temperatures, so that they
// cost little.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "coldtally/words.hpp"
#include "ledger/known.hpp"

namespace coldtally::answers {

class EntryWarnings {
public:
    /// The instant from which on doses must not be used by what they have been through; none: not known or none.
    using UseBy = std::function<std::optional<Instant>(const HoldingKey&)>;

    /// Is what a definition changes said besides, line by line? Then only what it drops is said here.
    enum class Changes { said, not_said };

    /// Must outlive this; for all entries of one batch.
    EntryWarnings(const ledger::Store& store, const ledger::Known& known, Changes changes = Changes::not_said)
        : store_(store), known_(known), changes_(changes) {}

    /// Adds what is to be said of an entry that the ledger does not hold yet, each warning once.
    void add(const Entry& entry, std::vector<Remark>& out, const UseBy& use_by = {});

private:
    struct Teller;
    const std::set<std::string>& funds();
    const ledger::Store& store_;
    const ledger::Known& known_;
    const Changes changes_;
    std::optional<std::set<std::string>> funds_;
};

}  // namespace coldtally::answers
