// Departures: doses that left for another site, or back. No list and no review holds them any more; what is learnt of
// them later must still reach who has them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/stock.hpp"

namespace coldtally {

/// Doses that left by one transfer or return.
struct Departure {
    EntryNumber entry = 0;
    Instant at;
    HoldingKey holding;  ///< that they left
    Doses doses;
    std::string to;      ///< the other site; empty: returned
    std::string reason;
    /// What says that who has them was told, later than they left: the last step of an incident whose text begins "told
    /// of entry N: " ("N, M" of several), or report to a recipient of the site's name. None: nothing.
    std::optional<EntryNumber> told = {};
};

/// The same with what they were just before they left, by all that is known.
struct DepartedDoses {
    Departure departure;
    List list = List::keep;
    std::vector<Reason> reasons;
    std::vector<std::string> in_doubt;  ///< as in ListsAnswer
    History history;
    /// Guidance, and recalls of their lot, that hold for a time after they left and are of them, too.
    struct Since {
        EntryNumber entry = 0;
        bool discard = false;  ///< guidance that says so
        bool hold = false;     ///< a recall
        Remark text;
        friend bool operator==(const Since&, const Since&) = default;
    };
    std::vector<Since> since;
    /// What who has them must hear, and was not known when they left, or when they were told last: worse
    /// lists, reasons, exposure, guidance and recalls. Only where it was asked for.
    std::vector<Remark> news = {};
};

}  // namespace coldtally
