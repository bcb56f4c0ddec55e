// Follow-up form: where a dose stands, as people are told it.
#pragma once

#include "coldtally/upkeep.hpp"

namespace coldtally::forms {

Remark standing_words(Standing standing);

}  // namespace coldtally::forms
