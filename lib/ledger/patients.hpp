// Patients: the gives to one of them.
#pragma once

#include <string>
#include <vector>

#include "ledger/store.hpp"

namespace coldtally::ledger {

/// Numbers of the gives to a patient's token, the voided ones among them, ascending. Reads every give.
std::vector<EntryNumber> gives_to(const Store& store, const std::string& patient);

}  // namespace coldtally::ledger
