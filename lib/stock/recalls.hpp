// Recalls: holds of a lot that name neither place nor mark, and so stand for all of it, also for what comes later.
#pragma once

#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// Those known that hold at the world's instant, by (at, number); also of a whole product.
std::vector<ledger::Dated<Hold>> recalls(const World& world, const std::string& product, const std::string& lot);

/// What to say of guidance that lets doses be used: one line for each recall that still holds any of them at its
/// `through`. It is lifted as any other hold is, whatever the issuer was asked about.
std::vector<Remark> recalls_lifted(World& world, const Guidance& guidance);

/// "held: recall by the maker (entry 12)"
Remark recall_words(const ledger::Dated<Hold>& recall);

}  // namespace coldtally::answers
