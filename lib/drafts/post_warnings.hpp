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

    /// An entry that the ledger does not hold yet. `where`: "line 3".
    void add(const Entry& entry, const std::string& where);
    /// All that is to be said, once the ledger holds them: beside what is said of each, what doses left by them that
    /// must not be used. Asks for no temperatures.
    std::vector<std::string> at_the_end();
    const std::vector<Brief>& briefs() const { return briefs_; }

private:
    const ledger::Store& store_;
    const ledger::Known& known_;
    EntryWarnings entries_;
    std::vector<std::string> said_;
    std::vector<Brief> briefs_;
    std::map<EntryNumber, std::string> leaving_;  ///< where each entry by which doses leave stands
    std::set<std::pair<std::string, std::string>> lots_;  ///< that they are of: product, number
};

}  // namespace coldtally::answers
