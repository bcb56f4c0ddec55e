// Opening: what a draft says of a vial that was opened for it, and what to offer where it says nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "stock/opened_vials.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

/// Where an opening is stated (`opened` or `vial`) and no mark: that of the only doses that match and were not opened.
void find_unopened(World& world, text::Json& fields, std::vector<Remark>& filled);
/// Takes `opened`, `vial` and `vial_doses` out of the fields of a give, waste or beyond-use of which the holding is
/// whole, and makes an opening of them; the fields then name the vial's mark. None where they are not there.
/// Code::contradiction where the product has no such period, the doses are of an opened vial or the mark is there
/// already; Code::ambiguous where the stock is in no whole vials and it is not said how many were in this one.
std::optional<Opening> take_opening(World& world, text::Json& fields, Instant now, std::vector<Remark>& filled);
/// Code::missing_field where doses were given, out of those that the vial was among, when it was past its use: an
/// opening that is dated back would leave them out of the review. With a note it is meant.
void must_be_another_vial(const World& world, const Opening& opening);
/// What to offer where doses are taken out of vials that nothing says were opened. None where it is no matter of
/// opening, as of whole vials that are wasted.
std::optional<Opening> opening_offer(World& world, const HoldingKey& from, Doses taken, bool given);
/// The entries of an opening, to be posted before those of `fields`: the vial's doses to its mark, and, unless `fields`
/// are that themselves, its use-by; both when it was opened.
std::vector<text::Json> opening_entries(const Opening& opening, const text::Json& fields);
/// What is to be said of an opening, or of an offer, to a person.
void tell_opening(const World& world, const Opening& opening, Drafted& out);

}  // namespace coldtally::answers
