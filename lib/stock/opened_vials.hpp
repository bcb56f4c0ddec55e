// Opened vials: of which products a vial must get a use-by when it is opened, and which stock nothing says was opened.
#pragma once

#include <optional>
#include <string>

#include "coldtally/entries.hpp"
#include "stock/last_use.hpp"

namespace coldtally::answers {

/// The event of a product's by which a vial is opened, and how long it is good from then on.
struct OpeningPeriod {
    std::string event;
    Duration period;
};
/// Does an event of this name open a vial? One of which the name has "punctur", "open" or "reconstitut" in it, in any
/// case.
bool opens_vial(const std::string& event);
/// None where a vial holds one dose, or no such event has a period. Of several the puncture, else the one that says
/// open; of equal ones the shortest.
std::optional<OpeningPeriod> opening_period(const Product& product);

/// Does anything say that doses with these limits are of a vial that was opened?
bool is_opened(const UseLimits& limits);
/// How many of the doses are in no whole vial.
std::int64_t beside_whole_vials(const Product& product, std::int64_t doses);

/// Of doses in no whole vials of which no limit says that one was opened: that. None where it is no matter of opening.
std::optional<Remark> vial_without_opening(const Product& product, std::int64_t doses, const UseLimits& limits);

}  // namespace coldtally::answers
