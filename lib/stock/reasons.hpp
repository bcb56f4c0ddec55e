// Reasons: why doses must not be used, by expiry and by history.
#pragma once

#include <vector>

#include "coldtally/stock.hpp"
#include "ledger/known.hpp"

namespace coldtally::answers {

bool is_expired(const History& history, Instant expired_from, Instant t);
/// Reasons of quarantine, in the order in which they are listed.
std::vector<Reason> quarantine_reasons(const History& history, const Product& product, Duration unmonitored_limit);
/// Would there be such a reason, had guidance never cleared anything? Holds that it has emptied show nothing.
bool shows_exposure(const History& history, const Product& product, Duration unmonitored_limit);

}  // namespace coldtally::answers
