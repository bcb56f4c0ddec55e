// World: the instant asked about, the instant it is asked from, and all that is known there. Every answer starts with
// one.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "coldtally/question.hpp"
#include "exposure/engine.hpp"
#include "ledger/known.hpp"
#include "ledger/store.hpp"
#include "timeline/lot_timeline.hpp"

namespace coldtally::answers {

struct Closings;
struct Doubt;
struct Earlier;
struct FirstDisplay;

/// The head of the answer, but for the site's name: `now` stands in for what the question leaves open, or the instant
/// of the last entry, where that is later. Code::not_known where known-on lies before the first entry.
AnswerHead head_of(const ledger::Store& store, const Question& question, Instant now);

class World {
public:
    /// `known`: the entries up to head.last_entry. Store and known must outlive this.
    World(const ledger::Store& store, const AnswerHead& head, const ledger::Known& known);
    World(const World&) = delete;
    World& operator=(const World&) = delete;

    const ledger::Store& store;
    AnswerHead head;
    const ledger::Known& known;
    std::int64_t at;
    exposure::Engine engine;
    std::shared_ptr<const std::vector<Doubt>> doubts;  ///< of open incidents, once they have been looked for
    std::shared_ptr<const Closings> closings;  ///< once they have been judged; see conditions/released.hpp
    /// Of places, once they have been looked for; null: there is none. See conditions/display_memory.hpp.
    std::map<std::string, std::shared_ptr<const FirstDisplay>> displays;
    std::map<EntryNumber, std::shared_ptr<Earlier>> earlier;  ///< what was known before an entry; see earlier()

    /// Lots that are known, ordered by (product, number).
    std::vector<ledger::Store::LotRow> lots() const;
    /// Those of a number; of one product where it is stated.
    std::vector<ledger::Store::LotRow> lots_of(const std::string& number,
                                               const std::optional<std::string>& product = std::nullopt) const;
    /// Do the balances, which hold all that is posted, say what is on hand at the instant?
    bool balances_answer() const;
    /// Lots that may have doses at the instant: those of lots() for an instant in the past, else those in stock.
    std::vector<ledger::Store::LotRow> lots_with_doses() const;
    Date expiry(const ledger::Store::LotRow& lot) const;
    /// The first instant at which doses of the lot are expired.
    Instant expired_from(const ledger::Store::LotRow& lot) const { return known.zone().end_of_day(expiry(lot)); }
    /// Code::not_known where the place is not defined.
    const Place& place(const std::string& id) const;
    /// Time up to the instant whose readings have not come yet, of a place: since its last reading or check. 0: nothing
    /// is awaited.
    Duration awaited(const std::string& place);
    /// Doses of a lot by holding after all its known movements up to the instant.
    ledger::StockWalk stock(const ledger::Store::LotRow& lot) const;
};

/// What was known before an entry that is known, of the same instant; read once.
struct Earlier {
    Earlier(const World& of, const AnswerHead& head);
    ledger::Known known;
    World world;
};
World& known_before(World& world, EntryNumber entry);

/// The instant of the first thing that is known: a definition of a place or the site as it was posted, a reading, a
/// check, a movement; at most the instant of the question.
Instant first_record(World& world);
/// The same of one place: its definition, reading or check.
std::int64_t first_known_of(World& world, const std::string& place);

/// A window as asked, cut to the instant of the question. `with_end`: it includes its end, which is that instant.
struct Window {
    bool empty = true;
    std::int64_t from = 0, until = 0;
    bool with_end = false;
};
/// Code::contradiction where until lies before from.
Window window_of(const World& world, Instant from, Instant until);

}  // namespace coldtally::answers
