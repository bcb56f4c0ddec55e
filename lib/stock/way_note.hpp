// Way note: how long doses were on the way to this site, as the note of their receive keeps it.
#pragma once

#include <optional>
#include <string>

#include "coldtally/quantities.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

// A receive has no field for when the doses left, and ledgers have it in their notes since before there were phrases:
// its form is that of an entry, the same in every language, and is read here alone.

/// The last words of the note. `left`: when they left the other site.
std::string way_note(Instant left, Instant received, const Zone& zone);
/// The way that a note tells; none where there was none. Of a note that tells none: that its length is not known.
std::optional<Remark> way_of(const std::optional<std::string>& note);

}  // namespace coldtally::answers
