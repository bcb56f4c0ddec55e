// Which: where several are meant by what is stated, the choices, each as what is to be stated for it.
#pragma once

#include <string>
#include <vector>

#include "coldtally/words.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// A parameter of the task at hand, an empty value included.
Suggestion::Argument stated_as(std::string name, std::string value);
/// "`--mark 'bin 2'`: 7 doses"
Remark choice_of(std::vector<Suggestion::Argument> stated, Field what);
/// Lots of one number, by their product: "`--product mmr`: Fictovax, expiry 2027-05-31".
std::vector<Remark> product_choices(const World& world, const std::vector<ledger::Store::LotRow>& lots);
/// A WhichOne of those.
[[noreturn]] void which_product(const World& world, const std::vector<ledger::Store::LotRow>& lots);

}  // namespace coldtally::answers
