// Recalls: holds of a lot that name neither place nor mark, and so stand for all of it, also for what comes later.
#pragma once

#include <string>
#include <vector>

#include "answers/world.hpp"

namespace coldtally::answers {

/// Those known that hold at the world's instant, by (at, number); also of a whole product.
std::vector<ledger::Dated<Hold>> recalls(const World& world, const std::string& product, const std::string& lot);

/// That guidance which lets doses be used lifts such a hold as it lifts any other, whatever it was asked about.
std::string lifts_recall(const ledger::Dated<Hold>& recall, const std::string& issuer);

}  // namespace coldtally::answers
