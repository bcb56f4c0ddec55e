#include "stock/explain.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "conditions/out_of_range.hpp"
#include "question/said.hpp"
#include "stock/lists.hpp"
#include "text/json_text.hpp"
#include "words/explanation.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using ledger::Dated;
using ledger::Movement;
using timeline::Holding;
using Lines = std::vector<Explanation::Line>;

/// Of a line that goes with the one before.
constexpr int deeper = 4;

/// "16200/7 s (38 min 35 s)"
std::string exact(const Rational& seconds) {
    std::string out = seconds.text() + " s";
    if (seconds >= Rational(60) || !seconds.is_whole()) out += " (" + duration_words(seconds, true) + ")";
    return out;
}

/// What the issuer was told, as far as it is stated.
Field told_words(const Guidance::Told& t) {
    std::vector<Field> all;
    if (t.out_of_range) all.emplace_back(words::told_out_of_range(t.out_of_range->seconds()));
    if (t.unmonitored) all.emplace_back(words::told_not_known(t.unmonitored->seconds()));
    if (t.points) all.emplace_back(words::told_points(*t.points));
    return all.empty() ? Field() : words::listed(all);
}

/// What happened to one holding, in the order of the timeline.
struct Event {
    std::int64_t at = 0;           ///< when it began
    HoldingKey holding;
    Lines lines;
    bool arrival = false;          ///< doses came in
    bool was_empty = false;        ///< into a holding without doses: its former history is gone
    std::optional<HoldingKey> source = {};
};

class Teller final : public UseCollector {
public:
    explicit Teller(World& w, const Product& product) : UseCollector(w.store, w.known), w_(w), product_(product) {}
    std::vector<Event> events;

    void stayed(const Holding& h, std::int64_t from, std::int64_t until, const Exposure& e) override {
        UseCollector::stayed(h, from, until, e);
        Event out{from, h.key, {{0, words::stayed(when(from), when(until), place_words(h.key), known_as(e))}}};
        for (auto& line : out_of_range_lines(w_, product_, h.key.place, from, until))
            out.lines.push_back({deeper, std::move(line)});
        sums(e, out.lines);
        events.push_back(std::move(out));
    }
    void receives(const Movement& m, const Holding& target, const History& incoming) override {
        UseCollector::receives(m, target, incoming);
        const auto& received = m.flag ? words::received_with_history : words::received_into;
        Event out{m.at, target.key, {of(m, received(words::doses(m.doses), place_words(target.key)))}};
        out.arrival = true;
        out.was_empty = target.doses == 0;
        for (const auto n : incoming.held_by) out.lines.push_back({deeper, words::held_by_recall(n)});
        joins(target, incoming, out.lines);
        events.push_back(std::move(out));
    }
    void moves(const Movement& m, const Holding& source, const Holding& target) override {
        UseCollector::moves(m, source, target);
        Event out{m.at, target.key, {of(m, words::moved_from_to(words::doses(m.doses), place_words(source.key),
                                                                place_words(target.key)))}};
        out.arrival = true;
        out.was_empty = target.doses == 0;
        out.source = source.key;
        joins(target, source.history, out.lines);
        events.push_back(std::move(out));
    }
    void leaves(const Movement& m, const Holding& source, const History*) override {
        const Field doses = words::doses(m.doses), place = place_words(source.key), before = source.doses;
        const auto say = [&](const words::Says<3>& phrase) {
            events.push_back({m.at, source.key, {of(m, phrase(doses, place, before))}});
        };
        switch (m.op) {
            case ledger::MovementOp::give: return say(words::given_of);
            case ledger::MovementOp::waste: return say(words::wasted_of);
            case ledger::MovementOp::give_back: return say(words::returned_of);
            case ledger::MovementOp::transfer: return say(words::transferred_of);
            case ledger::MovementOp::count: return say(words::counted_of);
            case ledger::MovementOp::receive:
            case ledger::MovementOp::move:
            case ledger::MovementOp::beyond_use: break;
        }
    }
    void shortens(const Movement& m, const Holding& h, Instant use_by) override {
        UseCollector::shortens(m, h, use_by);
        events.push_back({m.at, h.key, {of(m, words::shortened(usable_words(use_by, w_.known.zone())))}});
    }
    void holds(const Dated<Hold>& hold, const Holding& h) override {
        events.push_back({hold.at, h.key, {at(hold.at, hold.entry, words::held_for(hold.fact.reason))}});
    }
    void guides(const Dated<Guidance>& g, const Holding& h, bool clears) override {
        UseCollector::guides(g, h, clears);
        const std::int64_t through = g.fact.through.seconds_since_1970();
        Lines lines{at(through, g.entry,
                       words::guided(g.fact.issuer, g.fact.reference, said::verdict_words(g.fact.verdict)))};
        const auto add = [&](Remark line) { lines.push_back({deeper, std::move(line)}); };
        if (g.fact.since) add(words::judged_from(when(g.fact.since->seconds_since_1970())));
        if (g.fact.use_by)
            add(words::usable_is(usable_words(w_.known.zone().end_of_day(*g.fact.use_by), w_.known.zone())));
        const OpenExposure& o = h.history.open;
        if (g.fact.told)
            add(words::told_and_open(told_words(*g.fact.told), (o.warm + o.cold).text(), o.unmonitored.text(),
                                     o.points));
        if (g.fact.verdict != Verdict::discard) add(clears ? words::clears_all() : words::does_not_clear());
        events.push_back({through, h.key, std::move(lines)});
    }

private:
    static Field place_words(const HoldingKey& holding) { return said::place_words(holding); }
    std::string when(std::int64_t t) const { return w_.known.zone().local_text(Instant(t)); }
    Explanation::Line at(std::int64_t t, EntryNumber entry, Remark what) const {
        return {0, words::at_entry(when(t), entry, std::move(what))};
    }
    Explanation::Line of(const Movement& m, Remark what) const { return at(m.at, m.entry, std::move(what)); }

    static Field known_as(const Exposure& e) {
        static constexpr const words::Says<1>* how[class_count] = {&words::time_logged,   &words::time_bounded,
                                                                   &words::time_checked,  &words::time_near,
                                                                   &words::time_awaiting, &words::time_unmonitored};
        std::vector<Field> all;
        for (std::size_t c = 0; c < class_count; ++c)
            if (e.seconds[c].sign() != 0) all.emplace_back((*how[c])(exact(e.seconds[c])));
        return all.empty() ? Field(words::no_time()) : words::listed(all);
    }

    void sums(const Exposure& e, Lines& lines) const {
        const auto add = [&](Remark line) { lines.push_back({deeper, std::move(line)}); };
        const auto side = [&](const SideExposure& s, const Remark& what) {
            if (s.at_most.sign() == 0) return;
            add(words::adds(what, exact(s.estimate), s.at_least.text(), s.at_most.text(), s.degree_s.text()));
        };
        side(e.warm, words::name_warm);
        side(e.cold, words::name_cold);
        side(e.frozen, words::name_frozen);
        for (std::size_t i = 0; i < e.allowances.size(); ++i)
            if (e.allowances[i].sign() != 0) add(words::adds_in_allowance(i + 1, exact(e.allowances[i])));
        if (e.beyond_warm.sign() != 0) add(words::adds_warm_in_none(exact(e.beyond_warm)));
        if (e.beyond_cold.sign() != 0) add(words::adds_cold_in_none(exact(e.beyond_cold)));
        if (e.points != 0) add(words::adds_points(e.points));
    }

    static void joins(const Holding& target, const History& incoming, Lines& lines) {
        if (target.doses == 0) return;
        lines.push_back({deeper, words::joins(words::doses(target.doses))});
        const auto both = [&](const Remark& what, const Rational& there, const Rational& in) {
            if (there.sign() != 0 || in.sign() != 0)
                lines.push_back({deeper, words::joins_sum(what, there.text(), in.text())});
        };
        const Exposure &a = target.history.total, &b = incoming.total;
        both(words::name_warm, a.warm.estimate, b.warm.estimate);
        both(words::name_cold, a.cold.estimate, b.cold.estimate);
        both(words::name_frozen, a.frozen.estimate, b.frozen.estimate);
        for (std::size_t i = 0; i < std::max(a.allowances.size(), b.allowances.size()); ++i)
            both(words::allowance_numbered(i + 1), i < a.allowances.size() ? a.allowances[i] : Rational(),
                 i < b.allowances.size() ? b.allowances[i] : Rational());
        const auto u = static_cast<std::size_t>(Class::unmonitored);
        both(words::value_not_known, a.seconds[u], b.seconds[u]);
    }

    World& w_;
    const Product& product_;
};

/// The events that made the history of a holding, those of holdings its doses came from included.
Lines told(const std::vector<Event>& events, const HoldingKey& holding) {
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
    Lines out;
    for (const Event* e : kept) out.insert(out.end(), e->lines.begin(), e->lines.end());
    return out;
}

Remark why(World& w, Reason reason) {
    switch (reason) {
        case Reason::expired: return words::because_expired;
        case Reason::condemned: return words::because_condemned;
        case Reason::warm: return words::because_warm;
        case Reason::cold: return words::because_cold;
        case Reason::frozen: return words::because_frozen;
        case Reason::over_allowance: return words::because_over_allowance;
        case Reason::point: return words::because_point;
        case Reason::held: return words::because_held;
        case Reason::unmonitored: break;
    }
    return words::because_unmonitored(w.known.unmonitored_limit().seconds());
}

void totals(const ListsAnswer::Row& row, Lines& lines) {
    const History& h = row.history;
    const auto total = [&](const Remark& what, const Rational& all, const Rational& open) {
        lines.push_back({deeper, words::total_and_open(what, exact(all), exact(open))});
    };
    total(words::name_warm, h.total.warm.estimate, h.open.warm);
    total(words::name_cold, h.total.cold.estimate, h.open.cold);
    total(words::name_frozen, h.total.frozen.estimate, h.open.frozen);
    for (std::size_t i = 0; i < row.allowance_seconds.size(); ++i) {
        const auto used = i < h.total.allowances.size() ? h.total.allowances[i] : Rational();
        total(words::sum_allowance_of(i + 1, row.allowance_seconds[i].seconds()), used,
              i < h.open.allowances.size() ? h.open.allowances[i] : Rational());
    }
    total(words::sum_warm_in_none, h.total.beyond_warm, h.open.beyond_warm);
    total(words::sum_cold_in_none, h.total.beyond_cold, h.open.beyond_cold);
    total(words::value_not_known, h.total.seconds[static_cast<std::size_t>(Class::unmonitored)], h.open.unmonitored);
    lines.push_back({deeper, words::points_and_open(h.total.points, h.open.points)});
}

void conclusion(World& w, const ListsAnswer::Row& row, Lines& lines) {
    const Zone& zone = w.known.zone();
    lines.push_back({0, words::now_with_totals(zone.local_text(w.head.at), words::doses(row.doses.count()))});
    totals(row, lines);
    const Remark until = last_use_words(row.last_use, zone);
    lines.push_back({deeper, row.last_use.set_by == UseLimitKind::expiry
                                 ? words::usable_is(until)
                                 : words::usable_is_expiry(until, row.expiry.text())});
    for (const Reason reason : row.reasons)
        lines.push_back({0, words::reason_is(said::reason_words(reason), why(w, reason))});
    for (const auto& note : row.notes) lines.push_back({0, words::noted(note)});
    const Remark list = said::list_words(row.list);
    std::vector<Field> incidents;
    for (const auto& incident : row.in_doubt) incidents.emplace_back(words::incident_named(incident));
    if (!incidents.empty())
        lines.push_back({0, words::list_is_in_doubt(list, words::listed(incidents))});
    else
        lines.push_back({0, (said::is_kept_warned(row.list, {}, row.beside) ? words::list_is_warned
                                                                            : words::list_is)(list)});
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
    const auto escaped = [](const std::string& name) {
        const std::string in_quotes = text::quoted(name);
        return in_quotes.substr(1, in_quotes.size() - 2);
    };
    const HoldingKey as_asked{escaped(key.place), key.product, key.lot, escaped(key.fund), escaped(key.mark)};
    throw Refusal(Code::not_known,
                  words::no_such_holding(text::quoted(key.lot), text::quoted(key.product), said::place_words(as_asked),
                                         w.head.at.text(), words::task("stock")));
}

}  // namespace coldtally::answers
