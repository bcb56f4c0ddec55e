// Departed: doses that left by a transfer or return, what they were then, and what has been learnt of them since.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "coldtally/departures.hpp"
#include "question/world.hpp"
#include "stock/last_use.hpp"

namespace coldtally::answers {

/// Doses just as they leave. `seen`: what was met while those of their lot were brought there, with their own last time
/// in the place.
struct Departing {
    timeline::Holding left;  ///< its history brought to the instant
    UseLimits limits;
    StayCollector seen;
};
/// None where no such entry of the lot is known, or it is later than the world's instant.
std::optional<Departing> departing(World& world, const ledger::Store::LotRow& lot, EntryNumber entry);

/// Those of a lot that are known up to the world's instant, by (at, entry): who has which doses. No reading is read.
std::vector<Departure> departures(const World& world, const ledger::Store::LotRow& lot);
/// The same, judged just before they left; of one entry where it is stated. Without `news`. One pass over the lot, and
/// none where nothing left.
std::vector<DepartedDoses> departed(World& world, const ledger::Store::LotRow& lot,
                                    std::optional<EntryNumber> entry = std::nullopt);
/// Of all lots.
std::vector<DepartedDoses> departed(World& world);

/// Of incidents that were closed without an answer: what left of the doses that stood in their time in doubt, where
/// nobody was told of it, and no guidance answered since. By incident, by time.
std::map<std::string, std::vector<Departure>> left_unanswered(World& world);

/// Guidance and recalls, of a time after doses with this history left, that are of them, by entry. Guidance that lets
/// doses be used is of those that wait for it alone.
std::vector<DepartedDoses::Since> said_since(const World& world, const Departure& departure, const History& history,
                                             bool waits);

/// Does a text tell of the doses that left by an entry? "told of entry 11: by telephone", "told of entry 11, 14: ..."
bool tells_of(const std::string& text, EntryNumber entry);
/// Such a text.
std::string told_text(const std::vector<EntryNumber>& entries, const std::string& text);
/// The last of these steps of incidents, or of the reports, by which who has the doses was told; of one incident where
/// it is stated.
std::optional<EntryNumber> told_of(const World& world, const std::vector<ledger::Dated<Incident>>& steps,
                                   const Departure& departure,
                                   const std::optional<std::string>& incident = std::nullopt);

/// What of `is` who has the doses must hear, where they know `was`: a worse list, further reasons, doubts, more
/// exposure, and guidance and recalls that came. Empty: nothing.
std::vector<Remark> news_of(const DepartedDoses& was, const DepartedDoses& is);
/// The same against what was known when they left, or when who has them was told last.
std::vector<Remark> learnt_since(World& world, const DepartedDoses& departed);
/// Of all lots, with `news`: those of which there are any.
std::vector<DepartedDoses> with_news(World& world);

/// "20 doses of mmr lot A1, sent from main to Harbour 2026-06-04 10:00 (entry 11)"
Remark left_words(const Departure& departure, const Zone& zone);
/// Who must be told, and how it is noted.
Remark left_advice(const Departure& departure);

}  // namespace coldtally::answers
