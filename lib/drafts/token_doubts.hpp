// Token doubts: a patient's token that looks like something a person can be known by. Nothing is removed from a ledger.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "coldtally/words.hpp"

namespace coldtally::answers {

/// What a token looks like: "a name", "a date of birth", "a telephone number", "a record number"; empty where like
/// none. By its form alone, a choice of ours: it may be wrong both ways.
std::vector<Remark> token_looks_like(std::string_view token);
/// The warning, which does not repeat the token; none where it looks like none of these.
std::optional<Remark> token_doubt(std::string_view token);

}  // namespace coldtally::answers
