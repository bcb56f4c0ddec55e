// Follow-up draft: whose dose a step of follow-up is of, from a few words.
#pragma once

#include <vector>

#include "coldtally/words.hpp"
#include "question/world.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// The drafts of steps, each with its `give`: `fields` as they are where they state only that. Else those of the gives
/// to `patient` (a token; also the number of a give), which `give`, `product` and `lot` narrow. Code::ambiguous where
/// there are several and `every` is not true; with it, all of a lot that is stated, else all of the review list.
/// Code::not_there.
std::vector<text::Json> follow_up_drafts(World& world, text::Json fields, std::vector<Remark>& filled);

}  // namespace coldtally::answers
