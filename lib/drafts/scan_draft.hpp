// Scan draft: what the code on a box fills in of a draft.
#pragma once

#include <vector>

#include "coldtally/words.hpp"
#include "question/world.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// Where the lot of a draft is the text of a code and no lot's number: puts in what the code says of lot, product and,
/// in a delivery or a lot's definition, expiry, and says so in `filled`; what the code has and the ledger lacks in
/// `warnings`. Code::contradiction where draft and code differ, or a delivery's code and the ledger; of other entries,
/// which say what has happened or keep doses apart, the latter is a warning. Code::missing_field where the code states
/// no lot.
void take_scan(World& world, text::Json& fields, std::vector<Remark>& filled, std::vector<Remark>& warnings);

}  // namespace coldtally::answers
