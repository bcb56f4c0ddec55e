// Late arrivals: doses noted late into a place in which an incident was noticed since: its holds would have been of
// them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

class LateArrival {
public:
    /// `arriving`: a receive, or a move into another place; of anything else there is nothing to say. `now` as of
    /// draft.
    LateArrival(const ledger::Store& store, const ledger::Known& known, Instant now, const Entry& arriving);
    /// Is there an incident that is open, names the place and was noticed after the doses came?
    bool any() const { return !notices_.empty(); }
    /// Adds for each of those a hold as its notice would have made, at the notice, where none stands for the lot; with
    /// `no_hold`, a note to the entry that says why not, unless it has that already (`noted`). Says so.
    void finish(const std::optional<std::string>& no_hold, bool noted, Drafted& out) const;

private:
    struct Notice {
        std::string incident;
        Instant at;
        bool held = false;  ///< a hold of it on the lot stands
    };
    std::string place_, product_, lot_;
    std::vector<Notice> notices_;
    const ledger::Known& known_;
};

}  // namespace coldtally::answers
