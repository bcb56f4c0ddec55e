// Scan: what the code on a box says beside what the ledger knows.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "coldtally/gs1.hpp"
#include "coldtally/stock.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The code's text, its years understood from the world's instant.
Gs1Scan read_scan(const World& world, std::string_view text);
/// Products with this GTIN (14 digits), ordered by id.
std::vector<std::string> products_with(const World& world, const std::string& gtin);

ScanAnswer scan(World& world, std::string_view text);

// What is said of a code wherever one is read.

/// `product`: the one that draft or lot name otherwise; null where none does.
Remark no_such_gtin(const std::string& gtin, const Product* product);
Remark lost_separator(const Gs1Scan& code);
Remark hour_of_expiry();

}  // namespace coldtally::answers
