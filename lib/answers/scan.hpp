// Scan: what the code on a box says beside what the ledger knows.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "answers/world.hpp"
#include "coldtally/gs1.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// The code's text, its years understood from the world's instant.
Gs1Scan read_scan(const World& world, std::string_view text);
/// Products with this GTIN (14 digits), ordered by id.
std::vector<std::string> products_with(const World& world, const std::string& gtin);

ScanAnswer scan(World& world, std::string_view text);

/// Where the lot of a draft is the text of a code and no lot's number: puts in what the code says of lot, product and,
/// in a delivery or a lot's definition, expiry, and says so in `filled`; what the code has and the ledger lacks in
/// `warnings`. Code::contradiction where draft and code differ, or a delivery's code and the ledger; of other entries,
/// which say what has happened or keep doses apart, the latter is a warning. Code::missing_field where the code states
/// no lot.
void take_scan(World& world, text::Json& fields, std::vector<std::string>& filled, std::vector<std::string>& warnings);

}  // namespace coldtally::answers
