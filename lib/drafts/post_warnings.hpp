// Post warnings: what is warned of in entries that are posted as they are, line by line.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "drafts/entry_warnings.hpp"
#include "drafts/loosening.hpp"

namespace coldtally::answers {

class PostWarnings {
public:
    /// Must outlive this; for all entries of one batch.
    PostWarnings(const ledger::Store& store, const ledger::Known& known)
        : store_(store), known_(known), entries_(store, known) {}

    /// An entry that the ledger does not hold yet, and the line of the text that it stands in.
    void add(const Entry& entry, std::int64_t line);
    /// All that is to be said, once the ledger holds them: beside what is said of each, what doses left by them that
    /// must not be used. Asks for no temperatures.
    std::vector<Remark> at_the_end();
    const std::vector<Brief>& briefs() const { return briefs_; }

private:
    const ledger::Store& store_;
    const ledger::Known& known_;
    EntryWarnings entries_;
    std::vector<Remark> said_;
    std::vector<Brief> briefs_;
    std::map<EntryNumber, std::int64_t> leaving_;  ///< the line of each entry by which doses leave
    std::set<std::pair<std::string, std::string>> lots_;  ///< that they are of: product, number
};

}  // namespace coldtally::answers
