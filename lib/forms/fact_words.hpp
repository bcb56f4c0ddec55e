// Fact words: what an entry says, in one line, without when.
#pragma once

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally::forms {

/// "gave 1 dose of mmr lot K0123 from main"
Remark fact_words(const Entry& entry, const Zone& zone);

}  // namespace coldtally::forms
