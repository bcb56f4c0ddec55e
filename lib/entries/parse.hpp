// Entries from JSON: every form and bound that an entry must keep by itself.
#pragma once

#include <string>

#include "coldtally/entries.hpp"
#include "text/json_text.hpp"

namespace coldtally::entries {

enum class Form {
    posted,    ///< without `entry` and `recorded`
    exported,  ///< with both
    stored,    ///< as exported; the rows of readings stand elsewhere
};

/// `zone`: that in which local times are read (a site entry reads its own in its own); null where there is no site yet.
/// `where` ("line 3") begins every message. Throws Error.
Entry parse_entry(const text::Json& json, const Zone* zone, const std::string& where, Form form);

}  // namespace coldtally::entries
