// Sender note: what the site that sent doses said of them beside their figures, as the note of their receive keeps it.
// No figure of this site holds it, so it goes with the doses wherever they go.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "stock/cleared.hpp"

namespace coldtally::answers {

/// One line of it: the code of its phrase, empty where the handover has none, and its text.
struct SenderLine {
    std::string code, text;
};

// A receive has no field for it: its form is that of an entry, the same in every language, and is read here alone.

/// Those lines as a part of a note, in at most so many characters: longer ones are cut, the first go first.
std::string sender_note(const std::vector<SenderLine>& lines, std::size_t characters);
/// The lines that a note has.
std::vector<SenderLine> sender_lines(const std::string& note);

/// What came with a receive.
struct SenderSaid {
    EntryNumber entry = 0;
    std::int64_t at = 0;
    std::string place, handover;
    std::set<std::string> places;  ///< of the history that it brought
    std::vector<SenderLine> lines;
};
/// Were doses with this history at another site, so that anything came with them?
bool came_from_elsewhere(const History& history);
/// Of a lot's receives that are known, up to the world's instant.
std::vector<SenderSaid> sender_said(const World& world, std::int64_t lot);
/// Of those, what is of doses with this history, and no guidance has answered that was posted after their receive:
/// words::sender_forbids, where it forbids their use, and words::sender_said. `covered`: the last entry of guidance
/// that covers them, where they were given.
std::vector<Remark> sender_words(const std::vector<SenderSaid>& said, const HoldingKey& holding, const History& history,
                                 const Clearings& clearings, EntryNumber covered = 0);

}  // namespace coldtally::answers
