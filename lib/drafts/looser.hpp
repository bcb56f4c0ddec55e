// Looser: in which way a definition forbids less than the one that holds.
#pragma once

#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"
#include "drafts/redefine.hpp"

namespace coldtally::answers {

/// Each way in which `after` is looser than `before`, of the same thing: "high 8 °C (46 °F) -> 10 °C (50 °F)"; a range
/// that reaches further on a side or has lost it; a freeze limit that is lower or gone; an allowance that is new,
/// longer, of a wider band, or of which another, longer one takes the temperatures; a period of beyond-use that is
/// longer or gone; a later expiry; longer times of a place or site, the usual ones where none is stated. A limit is
/// compared in each scale as readings of that scale are. Of a programme's rules: conditions, by their names, that fewer
/// temperatures or places meet, or later; times within which something is due that are longer or gone. Empty where it
/// is none of that, and of other kinds.
std::vector<Remark> looser(const Fact& before, const Fact& after);

/// Both of it, of what is redefined.
std::vector<Remark> looser_than(const ledger::Known& known, const Redefined& both);

/// Of a place whose type is another: conditions and checks that the programme asks of the one type, not of the other.
std::vector<Remark> looser_by_type(const ProgrammeRules& rules, const Fact& before, const Fact& after);

}  // namespace coldtally::answers
