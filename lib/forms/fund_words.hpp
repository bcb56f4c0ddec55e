// Fund words: how a fund is called in the tables of stewardship.
#pragma once

#include <string>

#include "coldtally/words.hpp"
#include "words/stewardship.hpp"

namespace coldtally::forms {

inline Field fund_words(const std::string& fund) { return fund.empty() ? Field(words::no_fund()) : Field(fund); }

}  // namespace coldtally::forms
