// Cleared: which guidance cleared doses, and what of what it cleared nobody knew when it was posted.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// Guidance that cleared doses, or covers doses given, and all that these had been through by then, as known now.
struct Clearing {
    const ledger::Dated<Guidance>* guidance;
    HoldingKey holding;   ///< that they were in then
    std::int64_t at = 0;  ///< its `through`; of a give, when the doses left
    History history;
};

/// By holding, while a timeline runs. As histories travel, so do they; doses that join others may be of either.
class Clearings {
public:
    void receives(const timeline::Holding& target);
    void moves(const timeline::Holding& source, const timeline::Holding& target);
    void guides(const ledger::Dated<Guidance>& guidance, const timeline::Holding& holding, bool clears);
    const std::vector<Clearing>& of(const HoldingKey& holding) const;

private:
    std::map<HoldingKey, std::vector<Clearing>> of_;
};

/// "guidance of entry 13 (use; Maker, case 1)"
Remark guidance_words(const ledger::Dated<Guidance>& guidance);

/// Out of range, known now and not before the guidance was posted, which was told no figure that it could be compared
/// with, and so cleared it all the same: words::learnt_after_guidance. Looks at what was known then only where
/// something that is out of range came later. Later guidance that was posted when it was known answers for it.
std::vector<Remark> learnt_after(World& world, const ledger::Store::LotRow& lot,
                                 const std::vector<Clearing>& clearings);

/// What the displays of places showed while doses of the lot had been there (see conditions/display_memory.hpp): before
/// the doses' instant `at`, out of the range of the product, or of a place where an allowance lets it be, and not
/// posted before guidance that clears that time.
std::vector<Remark> displays_shown(World& world, const ledger::Store::LotRow& lot,
                                   const std::set<std::string>& places, std::int64_t at,
                                   const std::vector<Clearing>& clearings);

}  // namespace coldtally::answers
