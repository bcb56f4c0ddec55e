// Made: a batch of readings that a program made, judged by the rules of its JSON form without going through it.
#pragma once

#include <string>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

/// Is it an entry of readings?
bool has_rows(const Entry& entry);
/// Error with the message that parse_entry would give. The entry is one of readings.
void check_made(const Entry& entry, const std::string& where);

}  // namespace coldtally::entries
