// Notes: what a careful person wants to know of a holding beside the reasons.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "answers/world.hpp"

namespace coldtally::answers {

/// When doses of a lot were in a place: [from, until), by place, ascending as they were told, those that adjoin as one.
using Stays = std::map<std::string, std::vector<std::pair<std::int64_t, std::int64_t>>>;

class StayCollector : public timeline::Observer {
public:
    Stays stays;
    std::map<HoldingKey, std::int64_t> cleared_through;  ///< up to when guidance has cleared all of a holding's doses
    void receives(const ledger::Movement& movement, const timeline::Holding& target, const History& incoming) override;
    void moves(const ledger::Movement& movement, const timeline::Holding& source,
               const timeline::Holding& target) override;
    void guides(const ledger::Dated<Guidance>& guidance, const timeline::Holding& holding, bool clears) override;
    void stayed(const timeline::Holding& holding, std::int64_t from, std::int64_t until, const Exposure& exposure) override;
};

/// "9.4 °C at 2026-03-02 08:05", where the last that was read in the place up to the instant is out of its range.
std::optional<std::string> last_out_of_range(World& world, const std::string& place);
/// Seconds up to the instant for which readings of a row's doses are awaited: since the last one of their place. 0: none are.
Rational awaited(World& world, const ListsAnswer::Row& row);
struct Doubt;
/// For a row that has all but its notes.
std::vector<std::string> notes(World& world, const ListsAnswer::Row& row, const Stays& stays,
                               const std::vector<Doubt>& doubts);

}  // namespace coldtally::answers
