// Notes: what a careful person wants to know of a holding beside the reasons.
#pragma once

#include <string>
#include <vector>

#include "answers/world.hpp"

namespace coldtally::answers {

/// For a row that has all but its notes.
std::vector<std::string> notes(World& world, const ListsAnswer::Row& row);

}  // namespace coldtally::answers
