// Events of a table, as entries.
#pragma once

#include <string>

#include "rows.hpp"

namespace scenarios {

/// The entry of an event at this time. std::invalid_argument where it is not understood.
Json event(const std::string& time, Words& w, const Names& names);

/// Everyday words as a person states them, "give lot A1 patient P1": the kind, then fields and their values, `-` for an
/// empty one. A draft, which leaves out what has one meaning only.
Json stated(Words& w, const Names& names);

}  // namespace scenarios
