// Programme: the JSON of what a programme asks of a site, of who makes a product, and of reports that were sent.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

class Fields;

/// Each reads the fields of its kind. Throws Error.
ProgrammeRules read_rules(Fields& fields);
Maker read_maker(Fields& fields);
Report read_report(Fields& fields, const Zone& zone);

/// Each adds the fields of its kind to `out`.
void print_rules(nlohmann::ordered_json& out, const ProgrammeRules& rules);
void print_maker(nlohmann::ordered_json& out, const Maker& maker);
void print_report(nlohmann::ordered_json& out, const Report& report);

}  // namespace coldtally::entries
