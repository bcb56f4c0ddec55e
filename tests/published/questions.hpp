// Questions: what a block of published values asks the library; each goes through a ledger of its own.
#pragma once

#include <string>

namespace published {

/// The library's answer, as the tables write answers. std::invalid_argument where the words of the case are not
/// understood.
std::string answer(const std::string& question, const std::string& given, const std::string& input);

}  // namespace published
