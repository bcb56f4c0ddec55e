// Lot timeline: what the doses of one lot have been through, event by event. No event of another lot changes it.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "exposure/engine.hpp"
#include "ledger/known.hpp"
#include "ledger/store.hpp"

namespace coldtally::timeline {

struct Holding {
    HoldingKey key;
    std::int64_t doses = 0;
    History history;
    std::int64_t since = 0;  ///< its history holds all before this instant
    std::optional<std::int64_t> quiet_until;  ///< from since to here nothing but time and extremes is added to it
};

/// Looks on while a timeline runs. Every call comes before the event acts, the histories being those just before it.
class Observer {
public:
    virtual ~Observer() = default;
    /// Time [from, until) in its place went into the history of a holding.
    virtual void stayed(const Holding&, std::int64_t from, std::int64_t until, const Exposure&) {
        (void)from, (void)until;
    }
    virtual void receives(const ledger::Movement&, const Holding& target, const History& incoming) {
        (void)target, (void)incoming;
    }
    virtual void moves(const ledger::Movement&, const Holding& source, const Holding& target) {
        (void)source, (void)target;
    }
    /// give, waste, return, transfer, count. `judged`: of a give, the history that review judges, if judges() asks for
    /// it.
    virtual void leaves(const ledger::Movement&, const Holding& source, const History* judged) {
        (void)source, (void)judged;
    }
    virtual bool judges() const { return false; }
    /// A give before which the holding's history took in nothing but time and extremes, which have not been added up.
    /// True where that is enough; else `leaves` follows.
    virtual bool leaves_quietly(const ledger::Movement&, const Holding& source) { (void)source; return false; }
    virtual void shortens(const ledger::Movement&, const Holding&, Instant use_by) { (void)use_by; }
    virtual void holds(const ledger::Dated<Hold>&, const Holding&) {}
    /// `clears`: it says use or use-by, and was told no less than the history shows open.
    virtual void guides(const ledger::Dated<Guidance>&, const Holding&, bool clears) { (void)clears; }
};

class LotTimeline {
public:
    /// All must outlive this.
    LotTimeline(const ledger::Store& store, const ledger::Known& known, exposure::Engine& engine,
                const ledger::Store::LotRow& lot)
        : LotTimeline(store, known, &engine, lot) {}
    /// Without exposure: where the doses were, by what they are held and condemned, and their use-by. No reading is
    /// read, and what is open is not known.
    LotTimeline(const ledger::Store& store, const ledger::Known& known, const ledger::Store::LotRow& lot)
        : LotTimeline(store, known, nullptr, lot) {}

    /// Runs all that happened at or before `at`; then, with `to_the_end`, brings the histories of holdings with doses
    /// to `at`, what stands at that instant included.
    void run(std::int64_t at, bool to_the_end, Observer* observer = nullptr);
    /// Holdings by number in the file, in no order that means anything; those without doses have no history to speak
    /// of.
    const std::map<std::int64_t, Holding>& holdings() const { return holdings_; }
    const Product& product() const { return *product_; }

private:
    LotTimeline(const ledger::Store& store, const ledger::Known& known, exposure::Engine* engine,
                const ledger::Store::LotRow& lot);
    void bring(Holding& holding, std::int64_t at, bool with_end, Observer* observer);
    void put_in(Holding& target, std::int64_t doses, History history);
    void apply(const ledger::Movement& m, Observer* observer);
    void apply(const ledger::Dated<Hold>& hold, Observer* observer);
    void apply(const ledger::Dated<Guidance>& guidance, Observer* observer);
    void leave(const ledger::Movement& m, Holding& source, Observer* observer);
    History judged(const ledger::Movement& give, const Holding& source, Observer* observer);

    const ledger::Store& store_;
    const ledger::Known& known_;
    exposure::Engine* engine_;  // null: without exposure
    ledger::Store::LotRow lot_;
    const Product* product_;
    std::map<std::int64_t, Holding> holdings_;
    std::vector<const ledger::Dated<Hold>*> standing_;  // recalls so far
};

/// Does the history show more open than the guidance's issuer was told, in any number that is stated?
bool shows_more_than_told(const History& history, const Guidance& guidance);

}  // namespace coldtally::timeline
