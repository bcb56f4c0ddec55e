// Follow-up: the doses of the review list, or all given of a lot, and what was done about each.
#pragma once

#include "answers/world.hpp"
#include "coldtally/upkeep.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// See Ledger::follow_up.
FollowUpAnswer follow_up(World& world, const std::optional<std::string>& lot,
                         const std::optional<std::string>& product);

/// The drafts of steps, each with its `give`: `fields` as they are where they state only that. Else those of the gives
/// to `patient` (a token; also the number of a give), which `give`, `product` and `lot` narrow. Code::ambiguous where
/// there are several and `every` is not true; with it, all of a lot that is stated, else all of the review list.
/// Code::not_there.
std::vector<text::Json> follow_up_drafts(World& world, text::Json fields, std::vector<std::string>& filled);

}  // namespace coldtally::answers
