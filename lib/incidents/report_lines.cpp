#include <algorithm>

#include "coldtally/error.hpp"
#include "incidents/began.hpp"
#include "incidents/investigation.hpp"
#include "ledger/movement.hpp"
#include "question/said.hpp"
#include "text/json_text.hpp"
#include "timeline/lot_timeline.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using ledger::Movement;
using ledger::MovementOp;

struct MovedOut {
    std::int64_t at;
    EntryNumber entry;
    Remark said;
};

/// The lines, holding by holding.
class Lines {
public:
    explicit Lines(Investigation& i) : i_(i), w_(i.w) {}

    /// Of an affected place: the holdings with doses in it while it was in doubt.
    void add(const std::string& place, const std::vector<Window>& times) {
        for (const auto& lot : w_.store.lots_in_place(place)) {
            if (!w_.known.product(lot.product) || !i_.is_wanted(lot.product)) continue;
            movements_ = w_.store.movements(lot.lot);
            std::erase_if(movements_, [&](const auto& m) { return m.at > w_.at || !w_.known.is_known(m.entry); });
            for (const auto& h : w_.store.holdings(lot.lot))
                if (h.place == place) add(lot, h, times);
        }
    }

    std::vector<MovedOut> take_moved() { return std::move(moved_); }

    /// Beside each line: doses that came to it out of another, and are counted there, too.
    void say_twice_counted() const {
        for (auto& l : i_.out.lines)
            for (const Reached& from : reached_)
                if (const auto came = from.doses.find(l.holding); came != from.doses.end())
                    l.beside.push_back(words::also_in_line_of(came->second, said::place_words(from.line)));
    }

private:
    /// Doses of a line by the holding into which they were moved since.
    struct Reached {
        HoldingKey line;
        std::map<HoldingKey, std::int64_t> doses;
    };

    /// A holding's stay in the place while it was in doubt.
    struct Stay {
        std::int64_t first;    ///< in the time in doubt
        std::int64_t exposed;  ///< what it did to them may have begun before
        Doses doses;           ///< then
        Exposure exposure;
    };

    void add(const ledger::Store::LotRow& lot, const ledger::HoldingRow& h,
             const std::vector<Window>& times) {
        const auto stay = stay_of(lot, h, times);
        if (!stay) return;
        const Product& product = *w_.known.product(lot.product);
        IncidentAnswer::Line l;
        l.holding = {h.place, lot.product, lot.number, h.fund, h.mark};
        l.product_name = product.name;
        if (const Maker* m = w_.known.maker(lot.product)) l.maker = m->name;
        l.expiry = w_.expiry(lot);
        l.doses = stay->doses;
        l.exposure = stay->exposure;
        l.allowance_seconds = ledger::allowance_seconds(product);
        l.before = before(lot, h, stay->exposed);
        follow(l.holding, stay->first);
        reached_.push_back({l.holding, {}});
        count_since(lot, h, stay->first, l);
        i_.lots.insert({lot.product, lot.number});
        i_.out.lines.push_back(std::move(l));
    }

    std::optional<Stay> stay_of(const ledger::Store::LotRow& lot, const ledger::HoldingRow& h,
                                const std::vector<Window>& times) {
        const Product& product = *w_.known.product(lot.product);
        std::optional<Stay> out;
        std::int64_t since = 0, came = 0, counted = 0;
        const auto stay_in = [&](const Window& window, std::int64_t from, std::int64_t until, std::int64_t doses) {
            const auto a = std::max(from, window.from), b = std::min(until, window.until);
            const bool last = window.with_end && b == window.until && until > b;
            if (doses == 0 || a > b || (a == b && !last)) return;
            std::int64_t exposed = from;
            if (from <= window.from)
                exposed = std::max({came, counted,
                                    may_have_begun(w_, exposure::LimitsOf(product), h.place, window.from)});
            const Exposure then = w_.engine.over(product, h.place, exposed, b, last);
            counted = b;
            if (out)
                out->exposure.add(then);
            else
                out = {a, exposed, Doses(doses), then};
        };
        const auto stay = [&](std::int64_t from, std::int64_t until, std::int64_t doses) {
            for (const Window& window : times) stay_in(window, from, until, doses);
        };
        ledger::StockWalk walk;
        for (const auto& m : movements_) {
            const auto before = walk.doses(h.holding);
            walk.apply(m);
            if (walk.doses(h.holding) == before) continue;
            stay(since, m.at, before);
            since = m.at;
            if (m.target == h.holding) came = m.at;  // what came in had a history of its own
        }
        stay(since, INT64_MAX, walk.doses(h.holding));
        return out;
    }

    /// What the doses had been through by then.
    History before(const ledger::Store::LotRow& lot, const ledger::HoldingRow& h, std::int64_t exposed) {
        timeline::LotTimeline timeline(w_.store, w_.known, w_.engine, lot);
        timeline.run(exposed, false);
        const auto& there = timeline.holdings().at(h.holding);
        History out = there.history;
        if (there.since < exposed)
            out.accrue(w_.engine.over(*w_.known.product(lot.product), h.place, there.since, exposed, false));
        return out;
    }

    /// What became of them since, also of those into whose holdings they were moved.
    void count_since(const ledger::Store::LotRow& lot, const ledger::HoldingRow& h, std::int64_t first,
                     IncidentAnswer::Line& l) {
        std::map<std::int64_t, const ledger::HoldingRow*> where;
        const auto holdings = w_.store.holdings(lot.lot);
        for (const auto& other : holdings) where[other.holding] = &other;
        std::set<std::int64_t> reached{h.holding};
        ledger::StockWalk walk;
        for (const auto& m : movements_) {
            const auto booked = m.op == MovementOp::count ? walk.doses(m.source) : 0;
            walk.apply(m);
            if (m.at < first || !reached.contains(m.source)) continue;
            switch (m.op) {
            case MovementOp::count:
                if (m.at >= i_.since) l.counted = Instant(m.at);
                (m.doses > booked ? l.found : l.missing) += std::abs(m.doses - booked);
                break;
            case MovementOp::move:
                if (m.target != h.holding) {
                    const auto& to = *where.at(m.target);
                    reached_.back().doses[{to.place, lot.product, lot.number, to.fund, to.mark}] += m.doses;
                }
                if (reached.insert(m.target).second) {
                    const auto& to = *where.at(m.target);
                    follow({to.place, lot.product, lot.number, to.fund, to.mark}, m.at);
                }
                if (m.source == h.holding && m.at >= i_.since) moved_out(lot, m, h.place, where.at(m.target)->place);
                break;
            case MovementOp::give: l.given += m.doses; break;
            case MovementOp::waste: l.wasted += m.doses; break;
            case MovementOp::give_back: l.returned += m.doses; break;
            case MovementOp::transfer: l.transferred += m.doses; break;
            default: break;
            }
        }
    }

    void moved_out(const ledger::Store::LotRow& lot, const Movement& m, const std::string& from,
                   const std::string& to) {
        moved_.push_back({m.at, m.entry,
                          words::moved(words::doses(m.doses), words::lot_of(lot.product, lot.number), from, to,
                                       w_.known.zone().local_text(Instant(m.at)), m.entry)});
    }

    void follow(const HoldingKey& key, std::int64_t since) {
        const auto [at, fresh] = i_.followed.emplace(key, since);
        if (!fresh) at->second = std::min(at->second, since);
    }

    Investigation& i_;
    World& w_;
    std::vector<Movement> movements_;  // of the lot, known, up to the instant asked about
    std::vector<MovedOut> moved_;
    std::vector<Reached> reached_;  // of the lines, in their order of finding
};

}  // namespace

void add_lines(Investigation& i) {
    Lines lines(i);
    for (const auto& [place, times] : i.windows) lines.add(place, times);
    std::ranges::sort(i.out.lines, {}, &IncidentAnswer::Line::holding);
    lines.say_twice_counted();
    auto moved = lines.take_moved();
    std::ranges::stable_sort(moved, {}, [](const auto& m) { return std::pair(m.at, m.entry); });
    for (auto& m : moved) i.out.moved.push_back(std::move(m.said));
    i.out.counted =
        !i.out.lines.empty() && std::ranges::all_of(i.out.lines, [](const auto& l) { return l.counted.has_value(); });
    if (i.out.maker && i.out.lines.empty())
        throw Error(Code::not_known, "maker: " + text::quoted(*i.out.maker) +
                                         ": no product known to be of this maker was in the affected places; a "
                                         "maker entry (product, name) says who makes a product");
}

}  // namespace coldtally::answers
