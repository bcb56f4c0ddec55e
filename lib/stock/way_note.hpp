// Way note: what the note of an entry keeps of how doses came: by which handover, how long they were on the way to this
// site, and why they are not on hold.
#pragma once

#include <optional>
#include <string>

#include "coldtally/entries.hpp"
#include "coldtally/quantities.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

// A receive has no field for these, and ledgers have them in their notes since before there were phrases: their form is
// that of an entry, the same in every language, and is written and read here alone.

/// The last words of the note. `left`: when they left the other site.
std::string way_note(Instant left, Instant received, const Zone& zone);
/// The way that a note tells; none where there was none. Of a note that tells none: that its length is not known.
std::optional<Remark> way_of(const std::optional<std::string>& note);

/// "handover of Harbour, transfer 53": by which doses came. Stands before the way in the note.
std::string handover_note(const std::string& site, EntryNumber transfer);
/// The handover that a note names before a way, as handover_note has it; empty where it names none.
std::string handover_of_note(const std::optional<std::string>& note);
/// Does a note name this handover anywhere? Also where people wrote the note, and no way stands in it.
bool names_handover(const std::optional<std::string>& note, const std::string& handover);

/// Why doses are not on hold. It is for who reads the note; nothing else does.
std::string no_hold_note(const std::string& why);

}  // namespace coldtally::answers
