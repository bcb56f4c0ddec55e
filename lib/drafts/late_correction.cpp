#include "drafts/late_correction.hpp"

#include <algorithm>
#include <set>

#include "ledger/movement.hpp"
#include "words/drafts.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

using ledger::Movement;
using ledger::MovementOp;

namespace {

constexpr std::int64_t new_source = -1, new_target = -2;
constexpr std::size_t most_again = 40;  // more than that nobody reads through; a choice of ours

bool before(const Movement& a, const Movement& b) { return std::pair(a.at, a.entry) < std::pair(b.at, b.entry); }

/// The movements of one lot, in the order of its timeline.
class Timeline {
public:
    explicit Timeline(std::vector<Movement> all) : all_(std::move(all)) { std::ranges::sort(all_, before); }

    void add(const Movement& m) { all_.insert(std::ranges::upper_bound(all_, m, before), m); }
    void remove(EntryNumber entry) {
        std::erase_if(all_, [&](const Movement& m) { return m.entry == entry; });
    }
    /// The first that is not possible.
    std::optional<EntryNumber> fails() const {
        ledger::StockWalk stock;
        for (const Movement& m : all_)
            if (stock.apply(m)) return m.entry;
        return std::nullopt;
    }
    /// Doses that a movement finds where it takes them.
    std::int64_t found_by(const Movement& m) const {
        ledger::StockWalk stock;
        for (const Movement& one : all_)
            if (before(one, m)) stock.apply(one);
        return stock.doses(m.source);
    }
    const Movement* find(EntryNumber entry) const {
        const auto it = std::ranges::find(all_, entry, &Movement::entry);
        return it == all_.end() ? nullptr : &*it;
    }

private:
    std::vector<Movement> all_;
};

class Correction {
public:
    Correction(World& w, const Entry& late, const Movement& as, std::int64_t lot)
        : w_(w), late_(late), was_(known_of(w, lot)), m_(as) {}

    std::optional<LateCorrection> make() {
        Timeline with = was_;
        with.add(m_);
        const auto first = with.fails();
        if (!first || *first == m_.entry) return std::nullopt;  // nothing is against it, or it is not possible itself
        again_.insert(*first);
        while (again_.size() <= most_again) {
            const auto more = try_out();
            if (impossible_) return std::nullopt;
            if (!more) return finish();
            if (!again_.insert(*more).second) return std::nullopt;
        }
        return std::nullopt;
    }

private:
    static Timeline known_of(const World& w, std::int64_t lot) {
        auto all = w.store.movements(lot);
        std::erase_if(all, [&](const Movement& m) { return !w.known.is_known(m.entry); });
        return Timeline(std::move(all));
    }

    std::vector<Movement> in_order() const {
        std::vector<Movement> out;
        for (const EntryNumber entry : again_) out.push_back(*was_.find(entry));
        std::ranges::sort(out, before);
        return out;
    }

    /// Step by step as it would be posted, each of which must be possible: what must be taken back besides; none where
    /// it is whole.
    std::optional<EntryNumber> try_out() {
        Timeline now = was_;
        const auto all = in_order();
        for (auto m = all.rbegin(); m != all.rend(); ++m) {
            now.remove(m->entry);
            if (const auto more = now.fails()) return more;
        }
        now.add(m_);
        if (const auto more = now.fails()) return other_than(*more, m_.entry);
        doses_.clear();
        EntryNumber number = m_.entry;
        for (Movement m : all) {
            const bool all_there = m.op == MovementOp::move && was_.found_by(m) == m.doses;
            m.entry = ++number;
            if (all_there) m.doses = std::min(m.doses, now.found_by(m));
            doses_.push_back(m.doses);
            if (m.op == MovementOp::move && m.doses == 0) continue;  // what it took was not there any more
            now.add(m);
            if (const auto more = now.fails()) return other_than(*more, m.entry);
        }
        return std::nullopt;
    }
    std::optional<EntryNumber> other_than(EntryNumber found, EntryNumber own) {
        impossible_ = found >= m_.entry;  // it, or what is posted again: the doses are not there
        return found == own || impossible_ ? std::nullopt : std::optional(found);
    }

    /// Would another entry name what is gone?
    bool is_named(const Entry& e) const {
        if (std::holds_alternative<Transfer>(e.fact)) return true;  // by the handover that left with it
        bool found = false;
        const auto look = [&](const Entry& duty) {
            if (!w_.known.is_known(duty.number)) return;
            const auto* loan = std::get_if<Loan>(&duty.fact);
            const auto* step = std::get_if<FollowUp>(&duty.fact);
            const auto* repayment = std::get_if<Repayment>(&duty.fact);
            found = found || (loan && loan->give == e.number) || (step && step->give == e.number) ||
                    (repayment && repayment->with == e.number);
        };
        for (const auto kind : {Loan::kind, FollowUp::kind, Repayment::kind})
            w_.store.for_each_duty(kind, w_.known.upto, look);
        return found;
    }

    std::optional<LateCorrection> finish() const {
        const auto all = in_order();
        std::vector<Entry> undone, again;
        std::vector<Remark> changed;
        for (std::size_t i = 0; i < all.size(); ++i) {
            Entry e = w_.store.named_entry(all[i].entry);
            if (is_named(e)) return std::nullopt;
            Entry undo;
            undo.at = w_.head.at;
            undo.by = late_.by;
            undo.fact = Void{e.number, "posted again after a late entry"};
            undone.insert(undone.begin(), std::move(undo));
            if (auto* move = std::get_if<Move>(&e.fact); move && move->doses.count() != doses_[i]) {
                changed.push_back(doses_[i] == 0 ? words::late_dropped(e.number)
                                                 : words::late_changed(e.number, doses_[i], move->doses.count()));
                if (doses_[i] == 0) continue;
                move->doses = Doses(doses_[i]);
            }
            const std::string was = "posted again, entry " + std::to_string(e.number) + " by " + e.by;
            e.note = e.note ? *e.note + "; " + was : was;
            e.number = 0;
            e.recorded.reset();
            e.by = late_.by;
            again.push_back(std::move(e));
        }
        LateCorrection out{std::move(undone), words::late_asks(all.size())};
        if (const auto how = words::semicolons(changed)) out.asks = words::colon(std::move(out.asks), *how);
        out.entries.push_back(late_);
        out.entries.insert(out.entries.end(), again.begin(), again.end());
        return out;
    }

    World& w_;
    const Entry& late_;
    Timeline was_;
    Movement m_;
    std::set<EntryNumber> again_;
    std::vector<std::int64_t> doses_;  // of what is posted again, in order
    bool impossible_ = false;
};

}  // namespace

std::optional<LateCorrection> late_correction(World& w, const Entry& late) {
    const auto names = ledger::movement_names(late.fact);
    if (!names || !late.at || std::holds_alternative<Transfer>(late.fact) ||
        std::holds_alternative<BeyondUse>(late.fact))
        return std::nullopt;
    const auto lot = w.store.lot(names->product, names->lot);
    if (!lot) return std::nullopt;
    const auto holding = [&](const std::string& place, const std::string& mark, std::int64_t if_new) {
        return place.empty() ? 0 : w.store.holding(*lot, place, names->fund, mark).value_or(if_new);
    };
    const Movement m{late.at->seconds_since_1970(),
                     w.known.upto + 1,
                     names->op,
                     holding(names->source_place, names->source_mark, new_source),
                     holding(names->target_place, names->target_mark, new_target),
                     names->doses,
                     names->flag};
    // the newest of its holdings contradicts nothing
    const auto is_last = [&](std::int64_t of) { return of <= 0 || w.store.balance(of).last_at <= m.at; };
    if (is_last(m.source) && is_last(m.target)) return std::nullopt;
    return Correction(w, late, m, *lot).make();
}

}  // namespace coldtally::answers
