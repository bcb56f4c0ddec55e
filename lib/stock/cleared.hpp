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

/// By holding, while a timeline runs. As histories travel, so do they; doses that join others may be of either, and are
/// answered for by what answers for both.
class Clearings {
public:
    void receives(const timeline::Holding& target);
    void moves(const timeline::Holding& source, const timeline::Holding& target);
    void guides(const ledger::Dated<Guidance>& guidance, const timeline::Holding& holding, bool clears);
    const std::vector<Clearing>& of(const HoldingKey& holding) const;
    /// Up to when guidance has cleared all of a holding's doses; none: not all of them.
    std::optional<std::int64_t> all_through(const HoldingKey& holding) const;
    /// Has guidance that was posted after an entry cleared all of them, up to `until` at least?
    bool answer(const HoldingKey& holding, std::int64_t until, EntryNumber after) const;

private:
    using Part = std::vector<const ledger::Dated<Guidance>*>;  ///< what cleared doses that came together
    const std::set<Part>& parts(const HoldingKey& holding) const;

    std::map<HoldingKey, std::vector<Clearing>> of_;
    std::map<HoldingKey, std::set<Part>> parts_;
};

/// "guidance of entry 13 (use; Maker, case 1)"
Remark guidance_words(const ledger::Dated<Guidance>& guidance);

/// Out of range, known now and not before the guidance was posted, which cleared it all the same:
/// words::learnt_after_guidance. Where it was told no figure that it could be compared with, more of it; whatever it
/// was told, another kind of it (too warm, too cold, frozen) and what was further out. Looks at what was known then
/// only where something that is out of range came later. Later guidance, posted when it was known, answers for it.
std::vector<Remark> learnt_after(World& world, const ledger::Store::LotRow& lot,
                                 const std::vector<Clearing>& clearings);
/// Of the same kind, what those doses are known now to have been through by `at` and were not before an entry was
/// posted; none: nothing worse. `now`: all of it.
std::optional<Field> not_known_before(World& world, const ledger::Store::LotRow& lot, const HoldingKey& holding,
                                       std::int64_t at, const History& now, EntryNumber entry);

/// A hold that was posted after guidance that lifts it, since it judges through a later instant, and that no later
/// guidance answers: words::held_after_guidance.
struct HeldAfter {
    const ledger::Dated<Hold>* hold;
    Remark said;
};
/// `now`: what the doses are held by still says it itself.
std::vector<HeldAfter> held_after(const World& world, const History& now, const std::vector<Clearing>& clearings);

/// What the displays of places showed while doses of the lot had been there (see conditions/display_memory.hpp): before
/// the doses' instant `at`, out of the range of the product, or of a place where an allowance lets it be, and not
/// posted before guidance that clears that time.
std::vector<Remark> displays_shown(World& world, const ledger::Store::LotRow& lot,
                                   const std::set<std::string>& places, std::int64_t at,
                                   const std::vector<Clearing>& clearings);

}  // namespace coldtally::answers
