// History differences: in what two histories differ, for people.
#pragma once

#include <vector>

#include "coldtally/forms.hpp"

namespace coldtally::forms {

/// "out of range: too warm 3 h 20 min -> nothing"; one for each thing that differs. Never empty where the two are not
/// equal.
std::vector<Remark> history_differences(const History& before, const History& after, const Zone& zone, Scale scale);

}  // namespace coldtally::forms
