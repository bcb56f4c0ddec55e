// Loosening: by which entries doses may be used that could not be, or for longer, or what they have been through gets
// less.
#pragma once

#include <vector>

#include "coldtally/drafts.hpp"

namespace coldtally {

/// What entries change that nobody may overlook.
struct Loosening {
    Changes changes;
    /// What must be meant: "LOOSENS: ..." (doses come off a list or lose a reason not to be used, may be used for
    /// longer, or have less behind them; gives come off the review list or have a better finding; excursions vanish or
    /// are shortened), and "DISAGREE: ..." where two devices in one place cannot both be right and one of them is out
    /// of range. Empty where there is nothing of it.
    std::vector<Remark> asks;
    /// What is said and needs no answer: "KNOWN NOW: ..." where time that was not known has been measured, and
    /// devices that disagree in range.
    std::vector<Remark> says;
    /// Holds that the closing of an incident took back, by what does not hold any more with these entries: to be posted
    /// with them, dated as the last entry is or later.
    std::vector<Hold> holds = {};
};

}  // namespace coldtally
