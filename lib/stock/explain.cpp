#include "stock/explain.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "conditions/out_of_range.hpp"
#include "stock/lists.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

using ledger::Dated;
using ledger::Movement;
using timeline::Holding;

std::string doses_text(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

std::string name_of(const HoldingKey& k) {
    return k.place + (k.fund.empty() ? "" : ", fund " + k.fund) + (k.mark.empty() ? "" : ", mark " + k.mark);
}

/// "16200/7 s (38 min 35 s)"
std::string exact(const Rational& seconds) {
    std::string out = seconds.text() + " s";
    if (seconds >= Rational(60) || !seconds.is_whole()) out += " (" + duration_words(seconds, true) + ")";
    return out;
}

/// What the issuer was told, as far as it is stated.
std::string told_words(const Guidance::Told& t) {
    std::string out;
    const auto add = [&](const std::string& words) { out += (out.empty() ? "" : ", ") + words; };
    if (t.out_of_range) add("out of range " + std::to_string(t.out_of_range->seconds()) + " s");
    if (t.unmonitored) add("not known " + std::to_string(t.unmonitored->seconds()) + " s");
    if (t.points) add("points " + std::to_string(*t.points));
    return out;
}

/// What happened to one holding, in the order of the timeline.
struct Event {
    std::int64_t at = 0;           ///< when it began
    HoldingKey holding;
    std::vector<std::string> lines;
    bool arrival = false;          ///< doses came in
    bool was_empty = false;        ///< into a holding without doses: its former history is gone
    std::optional<HoldingKey> source;
};

class Teller final : public UseCollector {
public:
    explicit Teller(World& w, const Product& product) : UseCollector(w.store, w.known), w_(w), product_(product) {}
    std::vector<Event> events;

    void stayed(const Holding& h, std::int64_t from, std::int64_t until, const Exposure& e) override {
        UseCollector::stayed(h, from, until, e);
        Event out{from, h.key, {}, false, false, {}};
        out.lines.push_back(when(from) + " to " + when(until) + "  in " + name_of(h.key) + ": " + known_as(e));
        for (auto& line : out_of_range_lines(w_, product_, h.key.place, from, until))
            out.lines.push_back("    " + line);
        sums(e, out.lines);
        events.push_back(std::move(out));
    }
    void receives(const Movement& m, const Holding& target, const History& incoming) override {
        UseCollector::receives(m, target, incoming);
        Event out{m.at, target.key, {}, true, target.doses == 0, {}};
        out.lines.push_back(head(m) + "received " + doses_text(m.doses) + " into " + name_of(target.key) +
                            (m.flag ? ", with the history that the sender states" : ""));
        for (const auto n : incoming.held_by)
            out.lines.push_back("    held by entry " + std::to_string(n) + ", a recall that stands");
        joins(target, incoming, out.lines);
        events.push_back(std::move(out));
    }
    void moves(const Movement& m, const Holding& source, const Holding& target) override {
        UseCollector::moves(m, source, target);
        Event out{m.at, target.key, {}, true, target.doses == 0, source.key};
        out.lines.push_back(head(m) + "moved " + doses_text(m.doses) + " from " + name_of(source.key) + " to " +
                            name_of(target.key) + "; their history goes with them");
        joins(target, source.history, out.lines);
        events.push_back(std::move(out));
    }
    void leaves(const Movement& m, const Holding& source, const History*) override {
        static constexpr const char* verbs[] = {"", "", "", "given", "wasted", "returned", "transferred", "counted"};
        events.push_back({m.at,
                          source.key,
                          {head(m) + std::string(verbs[static_cast<int>(m.op)]) + " " + doses_text(m.doses) + " of " +
                           name_of(source.key) + ", which had " + std::to_string(source.doses)},
                          false,
                          false,
                          {}});
    }
    void shortens(const Movement& m, const Holding& h, Instant use_by) override {
        UseCollector::shortens(m, h, use_by);
        events.push_back(
            {m.at, h.key, {head(m) + "beyond-use: usable " + usable_words(use_by, w_.known.zone())}, false, false, {}});
    }
    void holds(const Dated<Hold>& hold, const Holding& h) override {
        events.push_back({hold.at,
                          h.key,
                          {when(hold.at) + "  entry " + std::to_string(hold.entry) + ": held: " + hold.fact.reason},
                          false,
                          false,
                          {}});
    }
    void guides(const Dated<Guidance>& g, const Holding& h, bool clears) override {
        UseCollector::guides(g, h, clears);
        std::vector<std::string> lines{when(g.fact.through.seconds_since_1970()) + "  entry " +
                                       std::to_string(g.entry) + ": guidance of " + g.fact.issuer + " (" +
                                       g.fact.reference + "): " + std::string(verdict_name(g.fact.verdict)) +
                                       ", for all up to this instant"};
        if (g.fact.since)
            lines.push_back("    it judged what happened from " + when(g.fact.since->seconds_since_1970()) + " on");
        if (g.fact.use_by) lines.push_back("    usable through " + g.fact.use_by->text());
        const OpenExposure& o = h.history.open;
        if (g.fact.told)
            lines.push_back("    told: " + told_words(*g.fact.told) + "; open: out of range " +
                            (o.warm + o.cold).text() + " s, not known " + o.unmonitored.text() + " s, points " +
                            std::to_string(o.points));
        if (g.fact.verdict != Verdict::discard)
            lines.push_back(clears ? "    clears all that was open, and the holds"
                                   : "    does not clear: more is open than its issuer was told");
        events.push_back({g.fact.through.seconds_since_1970(), h.key, std::move(lines), false, false, {}});
    }

private:
    std::string when(std::int64_t t) const { return w_.known.zone().local_text(Instant(t)); }
    std::string head(const Movement& m) const { return when(m.at) + "  entry " + std::to_string(m.entry) + ": "; }

    static std::string known_as(const Exposure& e) {
        std::string out;
        for (int c = 0; c < class_count; ++c) {
            const auto& s = e.seconds[static_cast<std::size_t>(c)];
            if (s.sign() != 0)
                out += (out.empty() ? "" : ", ") + std::string(class_name(Class(c))) + " " + exact(s) +
                       (Class(c) == Class::checked ? ", where nothing is known between the checks"
                        : Class(c) == Class::near  ? ", the temperature itself not known"
                                                   : "");
        }
        return out.empty() ? "no time" : out;
    }

    void sums(const Exposure& e, std::vector<std::string>& lines) const {
        const auto side = [&](const SideExposure& s, const char* what) {
            if (s.at_most.sign() == 0) return;
            lines.push_back("    adds " + std::string(what) + ": " + exact(s.estimate) + " (at least " +
                            s.at_least.text() + " s, at most " + s.at_most.text() + " s), " + s.degree_s.text() +
                            " °C·s");
        };
        side(e.warm, "warm");
        side(e.cold, "cold");
        side(e.frozen, "frozen");
        for (std::size_t i = 0; i < e.allowances.size(); ++i)
            if (e.allowances[i].sign() != 0)
                lines.push_back("    of it in allowance " + std::to_string(i + 1) + ": " + exact(e.allowances[i]));
        if (e.beyond_warm.sign() != 0) lines.push_back("    of it warm in no allowance: " + exact(e.beyond_warm));
        if (e.beyond_cold.sign() != 0) lines.push_back("    of it cold in no allowance: " + exact(e.beyond_cold));
        if (e.points != 0)
            lines.push_back("    readings and checks out of range and in no allowance, or frozen: " +
                            std::to_string(e.points));
    }

    static void joins(const Holding& target, const History& incoming, std::vector<std::string>& lines) {
        if (target.doses == 0) return;
        lines.push_back("    joins " + doses_text(target.doses) +
                        " there; of each number the larger stands from now on:");
        const auto both = [&](const char* what, const Rational& there, const Rational& in) {
            if (there.sign() != 0 || in.sign() != 0)
                lines.push_back("    " + std::string(what) + ": there " + there.text() + " s, coming in " + in.text() +
                                " s");
        };
        const Exposure &a = target.history.total, &b = incoming.total;
        both("warm", a.warm.estimate, b.warm.estimate);
        both("cold", a.cold.estimate, b.cold.estimate);
        both("frozen", a.frozen.estimate, b.frozen.estimate);
        for (std::size_t i = 0; i < std::max(a.allowances.size(), b.allowances.size()); ++i)
            both(("allowance " + std::to_string(i + 1)).c_str(), i < a.allowances.size() ? a.allowances[i] : Rational(),
                 i < b.allowances.size() ? b.allowances[i] : Rational());
        const auto u = static_cast<std::size_t>(Class::unmonitored);
        both("not known", a.seconds[u], b.seconds[u]);
    }

    World& w_;
    const Product& product_;
};

/// The events that made the history of a holding, those of holdings its doses came from included.
std::vector<std::string> told(const std::vector<Event>& events, const HoldingKey& holding) {
    std::vector<const Event*> kept;
    std::set<HoldingKey> followed{holding};
    for (auto e = events.rbegin(); e != events.rend(); ++e) {
        if (!followed.contains(e->holding)) continue;
        kept.push_back(&*e);
        if (e->arrival && e->was_empty) followed.erase(e->holding);
        if (e->source) followed.insert(*e->source);
    }
    std::reverse(kept.begin(), kept.end());
    // a stay is told when it ends, and may have begun before what was told meanwhile
    std::stable_sort(kept.begin(), kept.end(), [](const Event* a, const Event* b) { return a->at < b->at; });
    std::vector<std::string> out;
    for (const Event* e : kept) out.insert(out.end(), e->lines.begin(), e->lines.end());
    return out;
}

void conclusion(World& w, const ListsAnswer::Row& row, std::vector<std::string>& lines) {
    const History& h = row.history;
    lines.push_back(w.known.zone().local_text(w.head.at) + "  now " + doses_text(row.doses.count()) +
                    "; totals since receipt, and what is open of them:");
    const auto total = [&](const std::string& what, const Rational& all, const Rational& open) {
        lines.push_back("    " + what + ": " + exact(all) + ", open " + exact(open));
    };
    total("warm", h.total.warm.estimate, h.open.warm);
    total("cold", h.total.cold.estimate, h.open.cold);
    total("frozen", h.total.frozen.estimate, h.open.frozen);
    for (std::size_t i = 0; i < row.allowance_seconds.size(); ++i) {
        const auto used = i < h.total.allowances.size() ? h.total.allowances[i] : Rational();
        total("allowance " + std::to_string(i + 1) + " of " + std::to_string(row.allowance_seconds[i].seconds()) + " s",
              used, i < h.open.allowances.size() ? h.open.allowances[i] : Rational());
    }
    total("warm in no allowance", h.total.beyond_warm, h.open.beyond_warm);
    total("cold in no allowance", h.total.beyond_cold, h.open.beyond_cold);
    total("not known", h.total.seconds[static_cast<std::size_t>(Class::unmonitored)], h.open.unmonitored);
    lines.push_back("    readings and checks out of range: " + std::to_string(h.total.points) + ", open " +
                    std::to_string(h.open.points));
    lines.push_back("    usable " + last_use_words(row.last_use, w.known.zone()) +
                    (row.last_use.set_by != "expiry" ? "; expiry " + row.expiry.text() : ""));
    for (const auto& reason : row.reasons) {
        static const std::map<std::string, std::string> why{
            {"expired", "past its expiry or its beyond-use"},
            {"condemned", "guidance says discard"},
            {"warm", "open time warm in no allowance is above 0"},
            {"cold", "open time cold in no allowance is above 0"},
            {"frozen", "open time at or below the freeze limit is above 0"},
            {"over-allowance", "an allowance is used beyond its seconds"},
            {"point", "an open reading or check is out of range"},
            {"held", "a hold is open"},
        };
        const auto it = why.find(reason);
        lines.push_back("reason " + reason + ": " +
                        (it != why.end() ? it->second
                                         : "open time not known is above the site's limit of " +
                                               std::to_string(w.known.unmonitored_limit().seconds()) + " s"));
    }
    for (const auto& note : row.notes) lines.push_back("note: " + note);
    std::string doubt;
    for (const auto& incident : row.in_doubt)
        doubt += (doubt.empty() ? "; IN DOUBT, open: incident " : ", incident ") + incident;
    lines.push_back("list: " + std::string(list_name(row.list)) + doubt);
}

}  // namespace

Explanation explain(World& w, const HoldingKey& key) {
    for (const auto& lot : w.lots()) {
        if (lot.product != key.product || lot.number != key.lot) continue;
        Teller teller(w, *w.known.product(lot.product));
        timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
        timeline.run(w.at, true, &teller);
        for (const auto& [id, h] : timeline.holdings()) {
            if (h.key != key || h.doses == 0) continue;
            Explanation out{w.head, key, told(teller.events, key)};
            conclusion(w, judge(w, lot, h, teller), out.lines);
            return out;
        }
    }
    throw Error(Code::not_known, "holding: " + text::quoted(key.lot) + " of " + text::quoted(key.product) + " in " +
                                     text::quoted(name_of(key)) + ": no such doses at " + w.head.at.text() +
                                     "; `stock` lists those there are");
}

}  // namespace coldtally::answers
