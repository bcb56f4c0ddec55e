// Restated: a transfer of another site whose handover was received more than once, with another history each time, and
// what goes on by the older one.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// A receive with a handover.
struct Received {
    EntryNumber entry = 0;
    Instant at;
    std::string handover;  ///< by its note
    Receive receive;
};
/// Known receives of a lot by the handover of that name, of whatever instant, whose history is another.
std::vector<Received> received_otherwise(const World& world, const std::string& product, const std::string& lot,
                                         const std::string& name, const Handover& handover);

/// "too warm 6 h 13 min", or that nothing out of range was known.
Remark told_words(const History& history);

/// Doses given, at any instant up to the world's, with the history of that receive and without that of `newer`.
std::vector<std::pair<EntryNumber, Doses>> given_by_older(World& world, const Received& received,
                                                          const Handover& newer);

/// What is to be said of doses whose history came by a handover that was stated anew and received again since, and that
/// lack what the newer one tells.
std::vector<Remark> restated_since(const World& world, const HoldingKey& holding, const History& history);
/// The same of doses given of a lot, whatever was found of them.
std::vector<Remark> given_before_restated(World& world, const ledger::Store::LotRow& lot);

}  // namespace coldtally::answers
