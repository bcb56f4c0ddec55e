// Read back: what a definition says, whole, in both scales, with durations in words; what it leaves out is said, too.
#pragma once

#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

/// One thing that a definition says. Of two definitions of one thing equal names mean the same.
struct ReadBack {
    Remark name;
    Field value;
    /// "range: 2 °C (36 °F) to 8 °C (46 °F)"
    Remark text() const;
    friend bool operator==(const ReadBack&, const ReadBack&) = default;
};
/// Empty for what is no definition, certificate or assignment. `probe_scale`: of the probe a certificate is of.
std::vector<ReadBack> read_back(const Fact& fact, Scale probe_scale = Scale::C);

/// Exactly: "46.4", "-0.5", and where no decimal of three digits is it, a fraction: "7 7/9".
std::string exact_words(const Rational& degrees);
/// "8 °C (46 °F)"; stated in one scale alone, the other is its exact conversion: "8 °C (= 46.4 °F)".
std::string both_scales(const Limit& limit);
/// "2 °C (36 °F) to 8 °C (46 °F)", "at most 8 °C (46 °F), with no lower limit".
Remark both_scales(const Range& range);
/// Every second of it: "3 d", "1 h 30 min", "1 min 1 s".
std::string whole_duration_words(Duration duration);

}  // namespace coldtally::answers
