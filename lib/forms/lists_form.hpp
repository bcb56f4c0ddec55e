// Lists form: a row of the lists, as other answers have it, too.
#pragma once

#include "coldtally/stock.hpp"

#include "forms/answer_json.hpp"

namespace coldtally::forms {

Json listed_json(const ListsAnswer::Row& row);

}  // namespace coldtally::forms
