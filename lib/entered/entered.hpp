// Entered: the entries as they were typed, found by what they name, each with what took it back.
#pragma once

#include <map>

#include "coldtally/entered.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Code::bad_value for a kind that is none and for a number below 0; where nothing is as asked, Code::not_known for a
/// place, product or lot that is not known, or initials that nobody used; Code::contradiction where until lies before
/// from.
EnteredAnswer entered(World& world, const EnteredRequest& request);

/// What is taken back, by the entries known up to the question's.
std::map<EntryNumber, EnteredAnswer::TakenBack> taken_back(const World& world);

}  // namespace coldtally::answers
