// Not come: time of doses before a receive whose readings the sender had not read, and this ledger never will.
#pragma once

#include <map>

#include "coldtally/words.hpp"
#include "timeline/lot_timeline.hpp"

namespace coldtally::answers {

/// Looks on, or is told by who does, and keeps of each holding by which receives such time came; as histories travel,
/// so does it.
class NotCome {
public:
    struct Time {
        Rational seconds;
        bool cleared = false;  ///< guidance has cleared the doses since
    };
    void receives(const ledger::Movement& movement, const timeline::Holding& target, const History& incoming);
    void moves(const timeline::Holding& source, const timeline::Holding& target);
    void clears(const timeline::Holding& holding);

    /// By the entry of the receive; null: there is none.
    const std::map<EntryNumber, Time>* of(const HoldingKey& holding) const;
    /// Is any of it not cleared?
    bool is_open(const HoldingKey& holding) const;
    /// The longest, cleared or not: histories that were joined count as much.
    Rational most(const HoldingKey& holding) const;

private:
    std::map<HoldingKey, std::map<EntryNumber, Time>> of_;
};

/// "THE SENDER'S READINGS HAVE NOT COME (entry 12): ...", with what is to be done.
Remark not_come_words(EntryNumber receive, const Rational& seconds);

}  // namespace coldtally::answers
