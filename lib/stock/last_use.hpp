// Last use: until when doses may be used, and what sets it. Every answer and every paper has it from here.
#pragma once

#include <map>
#include <vector>

#include "coldtally/stewardship.hpp"
#include "question/world.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

/// One thing that shortened the use of doses.
struct UseLimit : DatesAnswer::Limit {
    bool opening = false;  ///< a beyond-use of vials that were opened; see opens_vial
};
using UseLimits = std::vector<UseLimit>;

/// Every limit that shortened the use of a holding's doses, wherever they were then: as histories travel, so do they.
class UseCollector : public StayCollector {
public:
    /// Both must outlive this.
    UseCollector(const ledger::Store& store, const ledger::Known& known) : store_(store), known_(known) {}
    void receives(const ledger::Movement& m, const timeline::Holding& target, const History& incoming) override;
    void moves(const ledger::Movement& m, const timeline::Holding& source, const timeline::Holding& target) override;
    void shortens(const ledger::Movement& m, const timeline::Holding& h, Instant use_by) override;
    void guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) override;

    /// Those of a holding, in the order in which its doses met them.
    UseLimits limits(const HoldingKey& holding) const;

private:
    void put_in(const timeline::Holding& target, const UseLimits& more);
    const ledger::Store& store_;
    const ledger::Known& known_;
    std::map<HoldingKey, UseLimits> of_;
};

/// The limits of a lot's holdings with doses, without regard to temperatures: a question of dates reads no reading.
UseCollector use_of(const World& world, const ledger::Store::LotRow& lot);

/// The expiry of the lot and all limits, ascending.
std::vector<DatesAnswer::Limit> in_order(Instant expired_from, const UseLimits& limits);
/// The first of those.
LastUse last_use(const Zone& zone, Instant expired_from, const UseLimits& limits);
LastUse last_use(const Zone& zone, const DatesAnswer::Limit& first);

/// "2026-06-30", where that day can be used to its end; else "until 2026-05-29 14:00". `until`: the first instant of no
/// more use; seconds are cut, which errs to the early side.
Field last_day_words(Instant until, const Zone& zone);
/// The same as a day or a moment alone.
std::string last_day_text(Instant until, const Zone& zone);
/// The same in a sentence, to the second: "through 2026-06-30", "until 2026-05-29 14:00".
Remark usable_words(Instant until, const Zone& zone);
/// "expiry", "beyond-use (entry 12)"
Remark set_by_words(const LastUse& use);
/// "through 2026-06-30, the expiry", "until 2026-05-29 14:00, by beyond-use (entry 12)"
Remark last_use_words(const LastUse& use, const Zone& zone);

}  // namespace coldtally::answers
