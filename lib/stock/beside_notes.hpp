// Beside notes: what must be known of doses before they are used though the list that they are on does not say it. They
// are said on the list's own line, by give, move list and dates; no list changes by them.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "coldtally/stock.hpp"

#include "stock/notes.hpp"

namespace coldtally::answers {

/// For a row that has its history and list:
/// - guidance cleared it of more than was known when it was posted, or of a kind or height that was not;
/// - guidance lifted holds that were posted after it;
/// - the display of a place that it was in showed something out of range at the place's first check, in no figure;
/// - they came by a handover that was stated anew and received again since, and lack what the newer one tells;
/// - what their sender said of them beside its figures (stock/sender_note.hpp), and no guidance answered since;
/// - an incident is open, and guidance settles it for these doses;
/// - by the at-most sums it may have been out of range for longer than is permitted, or have frozen, and is on keep;
/// - it was not known for long, and the site's own limit lets that pass;
/// - the last that was read in its place is out of range, and nothing was read since;
/// - the range of its place does not lie within its product's;
/// - guidance says discard for other doses of its lot;
/// - a way from another site of which nothing is known;
/// - time at another site whose readings had not been read there when the doses left, and never came here.
/// `seen`: what was met while the doses of its lot were brought to the world's instant.
std::vector<Remark> beside_notes(World& world, const ListsAnswer::Row& row, const StayCollector& seen);

/// Of those the first six, which go with the doses wherever they go. `at`: of which instant the history is.
void besides_of_history(World& world, const HoldingKey& holding, const History& history, const StayCollector& seen,
                        std::int64_t at, std::vector<Remark>& out);

/// Guidance, known and of an instant not later than the world's, that says discard for doses of a lot: who, which
/// reference, through when.
std::vector<Remark> condemned_elsewhere(const World& world, const std::string& product, const std::string& lot,
                                        const std::set<EntryNumber>& but);

}  // namespace coldtally::answers
