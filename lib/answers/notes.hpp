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
    void stayed(const timeline::Holding& holding, std::int64_t from, std::int64_t until, const Exposure& exposure) override;
};

/// Seconds up to the instant for which readings of a row's doses are awaited: since the last one of their place. 0: none are.
Rational awaited(World& world, const ListsAnswer::Row& row);
/// For a row that has all but its notes.
std::vector<std::string> notes(World& world, const ListsAnswer::Row& row, const Stays& stays);

}  // namespace coldtally::answers
