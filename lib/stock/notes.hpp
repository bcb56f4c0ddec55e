// Notes: what a careful person wants to know of a holding beside the reasons.
#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "coldtally/stock.hpp"

#include "question/world.hpp"
#include "stock/cleared.hpp"
#include "stock/not_come.hpp"

namespace coldtally::answers {

/// When doses of a lot were in a place: [from, until), by place, ascending as they were told, those that adjoin as one.
using Stays = std::map<std::string, std::vector<std::pair<std::int64_t, std::int64_t>>>;

class StayCollector : public timeline::Observer {
public:
    Stays stays;
    Clearings clearings;
    NotCome not_come;                                    ///< the senders' readings that never came here
    void receives(const ledger::Movement& movement, const timeline::Holding& target, const History& incoming) override;
    void moves(const ledger::Movement& movement, const timeline::Holding& source,
               const timeline::Holding& target) override;
    void guides(const ledger::Dated<Guidance>& guidance, const timeline::Holding& holding, bool clears) override;
    void stayed(const timeline::Holding& holding, std::int64_t from, std::int64_t until,
                const Exposure& exposure) override;
};

/// A note, and what it is of where something depends on that.
struct Note {
    enum class Kind {
        other,
        incident,  ///< an open incident in whose time in doubt the doses stood
        awaited,   ///< readings of up to now that have not come yet
        beside,    ///< what must be known before they are used; see beside_notes.hpp
        vial,      ///< an opened vial of which no entry says when
    } kind = Kind::other;
    Remark said;
};
std::vector<Remark> said_of(const std::vector<Note>& notes);
/// Of those kinds, in the order of the notes.
std::vector<Remark> said_of(const std::vector<Note>& notes, std::initializer_list<Note::Kind> kinds);

/// What was read last in a place by the instant of the question, corrected; none: nothing.
std::optional<trace::Point> last_read(World& world, const std::string& place);
/// "9.4 °C at 2026-03-02 08:05", where the last that was read in the place up to the instant is out of its range.
std::optional<Remark> last_out_of_range(World& world, const std::string& place);
/// Seconds up to the instant for which readings of a row's doses are awaited: since the last one of their place. 0:
/// none are. What a sender had not read when the doses left is no part of it: its readings do not come here.
Rational awaited(World& world, const ListsAnswer::Row& row);
struct Doubt;
/// For a row that has all but its notes.
std::vector<Note> notes(World& world, const ListsAnswer::Row& row, const Stays& stays,
                        const std::vector<Doubt>& doubts);

}  // namespace coldtally::answers
