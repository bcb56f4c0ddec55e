// Cells: what stands in a cell of a clinic's file, as people and spreadsheets write it, as the JSON of an entry's
// field. Each throws Error with what would be right; the cell and its place are said by the caller.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "coldtally/quantities.hpp"
#include "text/json_text.hpp"

namespace coldtally::start {

using text::Json;

/// A message without the quoted cell that it begins with: a mistake has the cell itself.
std::string without_cell(std::string message, const std::string& cell);

/// "2C/36F", "2 °C / 36 °F", "-50 C"
Json limit_cell(std::string_view cell);
/// "28 days", in seconds
Json duration_cell(std::string_view cell);
/// "40"
Json whole_cell(std::string_view cell);
/// "0.5", "0,5"
Json degrees_cell(std::string_view cell);
/// "C", "°F", "Celsius"
Json scale_cell(std::string_view cell);
/// "yes", "x"; "no"
Json yes_cell(std::string_view cell);
/// One of these names, whatever its capitals and hyphens; else the one that it may be is offered.
Json name_cell(std::string_view cell, const std::vector<std::string>& names);
/// The same for a type of place: "fridge" is offered "refrigerator".
Json place_type_cell(std::string_view cell);
/// Several, with semicolons between them.
std::vector<std::string> several(std::string_view cell, std::string_view between);
/// "2027-05-31", or as the site's people write dates.
Json date_cell(std::string_view cell, const Zone& zone, Instant now);
/// The same, or a month alone: "2027-05", "05/2027".
Json expiry_cell(std::string_view cell, const Zone& zone, Instant now);
/// "2026-11-02 07:00", "07:00"; a date alone is its first instant. As an instant of UTC.
Json instant_cell(std::string_view cell, const Zone& zone, Instant now);
/// "0=0.2 5=0.1"
Json corrections_cell(std::string_view cell);
/// A number as a label; Code::bad_value for "1.23E+11", which a spreadsheet made of one.
Json number_text_cell(std::string_view cell);

}  // namespace coldtally::start
