// Handovers: what goes with doses that leave for another site, so that what they have been through is not lost on the
// way.
#pragma once

#include <string>
#include <vector>

#include "coldtally/stock.hpp"

namespace coldtally {

/// The history of doses just before they left by a transfer, as the receive of the other site takes it, and what it
/// cannot say.
struct HandoverAnswer {
    AnswerHead head;
    EntryNumber transfer = 0;  ///< its entry
    Instant left;              ///< its instant: the history ends there, and the way is not in it
    std::string by, to, reason;
    HoldingKey holding;  ///< that they left
    std::string product_name;
    Doses doses;
    Date expiry;
    LastUse last_use;
    bool exposed = false;  ///< were ever out of range, or may have been, whether guidance has covered it or not
    bool needed =
        false;  ///< exposed, or not known for a time, or of a shortened use, or in question: it must go with them
    List list = List::keep;  ///< just before they left, and by guidance and recalls of a later time that are of them
    std::vector<Reason> reasons;
    std::vector<Remark> notes;    ///< as on the lists
    std::vector<Remark> beside;   ///< what the form of a history cannot say, and the receiver must know
    std::vector<Remark> to_hold;  ///< why the receiver must hold them: reasons of holds, incidents that are open
    bool condemned = false;           ///< guidance says discard, also of a later time: there is no handover of them
    Handover handover;                ///< places as "site/place"; no hold and no guidance in it
    History history;                  ///< the same as it stands in this ledger
};

/// "handover-K0123-2026-03-02-0922.json", by the lot and the local time. What a file's name should not hold becomes
/// "_".
std::string handover_file_name(const Transfer& transfer, Instant left, const Zone& zone);

}  // namespace coldtally
