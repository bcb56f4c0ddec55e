// Changes: what lies between two states of a ledger, on stock, lists and review.
#pragma once

#include <map>

#include "coldtally/drafts.hpp"
#include "coldtally/incidents.hpp"
#include "question/world.hpp"
#include "stock/departed.hpp"

namespace coldtally::answers {

/// Lists and review of one state, and the excursions of some places, to be compared with those of another.
struct Snapshot {
    ListsAnswer lists;
    ReviewAnswer review;
    std::vector<DepartedDoses> left;
    struct OfPlace {
        std::vector<IncidentExcursion> excursions;           ///< of all that is recorded
        std::map<std::string, std::int64_t> open_incidents;  ///< of this place, and how many belong to each
    };
    std::map<std::string, OfPlace> places;
};
/// `entries`: the known places that they define anew are those of the snapshot.
Snapshot snapshot(World& world, const std::vector<Entry>& entries);
Changes changes(const Snapshot& before, const Snapshot& after);

Snapshot::OfPlace excursions_of(World& world, const std::string& place);
/// What becomes of the excursions of a place.
Changes::OfPlace compare(const std::string& place, const Snapshot::OfPlace& before, const Snapshot::OfPlace& after);

}  // namespace coldtally::answers
