// Answer draft: guidance made of a report that was sent, with what its issuer was told.
#pragma once

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Guidance on a lot with what the report told; without `changes`. `guidance`: the entry to be made, but for `through`
/// and `told`. Code::not_known where the entry is no report known, or told nothing of the lot.
AnswerDraft answer_draft(World& world, EntryNumber report, const Entry& guidance);
/// Adds to the concerns what the changes condemn though nothing was found of it.
void ask_what_is_meant(AnswerDraft& draft, const Zone& zone);

}  // namespace coldtally::answers
