// Vial in use: of doses in no whole vials of which no opening is noted, when the first was taken out of the vial in
// use.
#pragma once

#include <optional>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

struct FirstDose {
    Instant at;
    EntryNumber entry = 0;
    bool begun_before = false;  ///< doses of it were missing then: it had been opened before
};
/// The give or waste by which the vial in use was begun: the first since the holding was last in whole vials, or since
/// its last vial was used up; also where the vial stood elsewhere then. None where it is in whole vials, or nothing was
/// taken out of it. Whole vials are those of `doses_per_vial`; vials are taken to be used up one after the other, and
/// doses that are moved in no whole vials to be those of the vial in use: choices of ours.
std::optional<FirstDose> first_dose_of_vial(const World& world, const HoldingKey& holding);

/// A dose given out of a holding, whenever the question is asked for.
struct GivenOut {
    EntryNumber entry = 0;
    Instant at;
    Doses doses;
};
/// Those given out of a holding from an instant on, by time: of doses that were not opened, from when a vial among them
/// is said to have been.
std::vector<GivenOut> given_since(const World& world, const HoldingKey& holding, Instant from);

/// Doses given out of a vial of which no opening is noted, when it would have been past its use had it been opened as
/// its first dose was taken.
struct GivenPast {
    std::int64_t holding = 0;
    FirstDose first;
    Instant usable_until;
    std::vector<GivenOut> given;
};
/// Of one lot, one a vial, in the order of time. They leave it by an opening noted where they were given: taken back,
/// and given out of its mark.
std::vector<GivenPast> given_past_by_the_book(const World& world, const ledger::Store::LotRow& lot);

/// What was given, before anybody noted the opening of a vial that is dated back, out of the doses that it was among,
/// when that vial was past its use: it may have been of it; and what was given past the use by the book where no
/// opening is noted. Of one lot, one a vial.
std::vector<Remark> given_past_vials(const World& world, const ledger::Store::LotRow& lot);

}  // namespace coldtally::answers
