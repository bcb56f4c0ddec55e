// Loosening: by which entries doses may be used that could not be, or for longer, or what they have been through gets
// less.
#pragma once

#include <string>
#include <vector>

#include "coldtally/drafts.hpp"

namespace coldtally {

/// What entries change that nobody may overlook, in sentences.
struct Loosening {
    Changes changes;
    /// What must be meant: "LOOSENS: ..." (doses come off a list or lose a reason not to be used, may be used for
    /// longer, or have less behind them; gives come off the review list or have a better finding; excursions vanish or
    /// are shortened), and "DISAGREE: ..." where two devices in one place cannot both be right and one of them is out
    /// of range. Empty where there is nothing of it.
    std::vector<std::string> asks;
    /// What is said and needs no answer: "KNOWN NOW: ..." where time that was not known has been measured, and
    /// devices that disagree in range.
    std::vector<std::string> says;
};

}  // namespace coldtally
