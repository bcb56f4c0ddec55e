// Token doubts: a patient's token that looks like something a person can be known by. Nothing is removed from a ledger.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace coldtally::answers {

/// What a token looks like: "a name", "a date of birth", "a telephone number", "a record number"; empty where like
/// none. By its form alone, a choice of ours: it may be wrong both ways.
std::vector<std::string> token_looks_like(std::string_view token);
/// The warning, which does not repeat the token; empty where there is none.
std::string token_doubt(std::string_view token);

}  // namespace coldtally::answers
