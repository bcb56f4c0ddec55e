// Limit doubts: limits that may have been typed wrong, and temperatures between limits that no allowance covers.
#pragma once

#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

/// What of the limits of a place or a product must not pass without a note; empty for any other fact.
/// Measured by published ranges: tests/published/storage-ranges.txt has them with their sources.
std::vector<Remark> limit_doubts(const Fact& fact);
/// Times of a first definition that let much go by, of a site, a place or a product: how long a temperature may be not
/// known, how long data may not come, how far a reading speaks, how long an allowance is. What makes them longer later
/// is asked about as looser.
std::vector<Remark> time_doubts(const Fact& fact);
/// That the two numbers of a limit are not one temperature: more than 1 °F apart. `what` names it.
std::vector<Remark> pair_doubts(const Field& what, const Limit& limit);
/// Corrections of a certificate that are larger than a certified thermometer is expected to need, a line each.
std::vector<Remark> correction_doubts(const Certificate& certificate, Scale scale);
/// What of them is unusual, and can be right: a range that is none of the published ones.
std::vector<Remark> unusual_limits(const Fact& fact);
/// For each gap between a product's range and its allowances, or between two of these: the temperatures that are in
/// none, exactly, in both scales. A limit in two scales governs each: the gap may be in one scale alone.
std::vector<Remark> holes(const Product& product);

/// Are they one limit? Equal in a scale both state, and in no such scale unequal; where there is none, converted.
bool same_limit(const Limit& a, const Limit& b);
/// A band that begins or ends where the range or another band does, in one scale, does so in both: takes the limit as
/// that one has it. `what` gets a line for each limit that was taken.
void meet_limits(Allowance& band, const Range& range, const std::vector<Allowance>& others,
                 std::vector<Remark>& what);

}  // namespace coldtally::answers
