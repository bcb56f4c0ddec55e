#include "stock/departed.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "conditions/incidents.hpp"
#include "conditions/released.hpp"
#include "question/said.hpp"
#include "stock/doubt.hpp"
#include "stock/handover.hpp"
#include "stock/how_far.hpp"
#include "stock/reasons.hpp"
#include "words/journeys.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using ledger::Movement;
using ledger::MovementOp;

constexpr std::string_view told_start = "told of entry ";

bool leaves_site(const Movement& m) { return m.op == MovementOp::transfer || m.op == MovementOp::give_back; }

/// Catches doses as they leave.
class Leaving final : public UseCollector {
public:
    Leaving(World& w, const Product& product, std::optional<EntryNumber> entry)
        : UseCollector(w.store, w.known), w_(w), product_(product), entry_(entry) {}

    void leaves(const Movement& m, const timeline::Holding& source, const History*) override {
        if (!leaves_site(m) || (entry_ && m.entry != *entry_)) return;
        Departing d{source, limits(source.key), *this};
        if (source.since < m.at) {
            d.left.history.accrue(w_.engine.over(product_, source.key.place, source.since, m.at, false));
            d.seen.stays[source.key.place].emplace_back(source.since, m.at);  // which nothing else tells
        }
        all.emplace(m.entry, std::move(d));
    }
    std::map<EntryNumber, Departing> all;

private:
    World& w_;
    const Product& product_;
    std::optional<EntryNumber> entry_;
};

/// Of the lot, in one pass up to the last of them.
std::map<EntryNumber, Departing> all_departing(World& w, const ledger::Store::LotRow& lot,
                                               std::optional<EntryNumber> entry) {
    const Product* product = w.known.product(lot.product);
    std::optional<std::int64_t> last;
    for (const auto& m : w.store.movements(lot.lot))
        if (leaves_site(m) && m.at <= w.at && w.known.is_known(m.entry) && (!entry || m.entry == *entry))
            last = std::max(last.value_or(m.at), m.at);
    if (!product || !last) return {};
    Leaving seen(w, *product, entry);
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    timeline.run(*last, false, &seen);
    return std::move(seen.all);
}

bool is_more(const Exposure& was, const Exposure& is) {
    for (const auto side : {&Exposure::warm, &Exposure::cold, &Exposure::frozen})
        if ((is.*side).estimate > (was.*side).estimate || (is.*side).at_most > (was.*side).at_most) return true;
    return is.points > was.points || goes_beyond(was, is);
}

template <class T>
std::vector<T> gained(const std::vector<T>& was, const std::vector<T>& is) {
    std::vector<T> out;
    for (const auto& one : is)
        if (std::ranges::find(was, one) == was.end()) out.push_back(one);
    return out;
}

}  // namespace

std::optional<Departing> departing(World& w, const ledger::Store::LotRow& lot, EntryNumber entry) {
    auto all = all_departing(w, lot, entry);
    if (all.empty()) return std::nullopt;
    return std::move(all.begin()->second);
}

std::vector<Departure> departures(const World& w, const ledger::Store::LotRow& lot) {
    std::map<std::int64_t, HoldingKey> where;
    std::vector<Departure> out;
    for (const auto& m : w.store.movements(lot.lot)) {
        if (!leaves_site(m) || m.at > w.at || !w.known.is_known(m.entry)) continue;
        if (where.empty())
            for (const auto& h : w.store.holdings(lot.lot))
                where[h.holding] = {h.place, lot.product, lot.number, h.fund, h.mark};
        Departure d{m.entry, Instant(m.at), where.at(m.source), Doses(m.doses), {}, {}};
        const auto entry = w.store.entry(m.entry, false);
        if (const auto* t = std::get_if<Transfer>(&entry->fact)) d.to = t->to, d.reason = t->reason;
        if (const auto* r = std::get_if<Return>(&entry->fact)) d.reason = r->reason;
        out.push_back(std::move(d));
    }
    std::ranges::sort(out, {}, [](const auto& d) { return std::pair(d.at, d.entry); });
    return out;
}

std::vector<DepartedDoses> departed(World& w, const ledger::Store::LotRow& lot, std::optional<EntryNumber> entry) {
    std::vector<DepartedDoses> out;
    auto all = all_departing(w, lot, entry);
    if (all.empty()) return out;
    const Product& product = *w.known.product(lot.product);
    const auto steps = incident_steps(w);
    for (auto& d : departures(w, lot)) {
        const auto it = all.find(d.entry);
        if (it == all.end()) continue;
        DepartedDoses one;
        one.departure = std::move(d);
        one.departure.told = told_of(w, steps, one.departure);
        one.history = std::move(it->second.left.history);
        if (is_expired(one.history, w.expired_from(lot), one.departure.at)) one.reasons.push_back(Reason::expired);
        if (!one.history.condemned_by.empty()) one.reasons.push_back(Reason::condemned);
        const bool discard = !one.reasons.empty();
        const auto waits = quarantine_reasons(one.history, product, w.known.unmonitored_limit());
        one.reasons.insert(one.reasons.end(), waits.begin(), waits.end());
        one.list = discard ? List::discard : waits.empty() ? List::keep : List::quarantine;
        one.in_doubt = incidents_of(doubts_of(w, one.departure.holding, one.history, it->second.seen));
        one.since =
            said_since(w, one.departure, one.history, one.list != List::keep || !one.in_doubt.empty());
        for (auto& held : held_after(w, one.history, it->second.seen.clearings.of(one.departure.holding)))
            one.since.push_back({held.hold->entry, false, true, std::move(held.said)});
        out.push_back(std::move(one));
    }
    return out;
}

std::vector<DepartedDoses> departed(World& w) {
    std::vector<DepartedDoses> out;
    for (const auto& lot : w.lots()) std::ranges::move(departed(w, lot), std::back_inserter(out));
    std::ranges::sort(out, {}, [](const auto& d) { return std::pair(d.departure.at, d.departure.entry); });
    return out;
}

std::map<std::string, std::vector<Departure>> left_unanswered(World& w) {
    std::map<std::string, std::vector<Departure>> out;
    const auto closed = closed_doubts(w);
    if (closed.empty()) return out;
    const auto steps = incident_steps(w);
    for (const auto& lot : w.lots()) {
        auto gone = departures(w, lot);
        std::erase_if(gone, [&](const Departure& d) {
            const std::int64_t at = d.at.seconds_since_1970();
            return std::ranges::none_of(closed, [&](const Doubt& c) { return c.from <= at && at <= *c.closed; });
        });
        if (gone.empty()) continue;
        const auto all = all_departing(w, lot, std::nullopt);
        for (const Departure& d : gone) {
            const auto it = all.find(d.entry);
            if (it == all.end()) continue;
            const History& history = it->second.left.history;
            for (const Doubt& doubt :
                 doubts_of(w, closed, d.at.seconds_since_1970(), d.holding, history, it->second.seen)) {
                if (told_of(w, steps, d, doubt.incident)) continue;
                const auto since = said_since(w, d, history, true);
                if (std::ranges::any_of(since, [](const auto& one) { return !one.hold; })) continue;
                out[doubt.incident].push_back(d);
            }
        }
    }
    for (auto& [incident, left] : out)
        std::ranges::sort(left, {}, [](const Departure& d) { return std::pair(d.at, d.entry); });
    return out;
}

std::vector<DepartedDoses::Since> said_since(const World& w, const Departure& d, const History& history,
                                             bool waits) {
    std::vector<DepartedDoses::Since> out;
    const std::int64_t left = d.at.seconds_since_1970();
    const HoldingKey& key = d.holding;
    const auto later = [&](std::int64_t at, EntryNumber entry) {
        return at <= w.at && std::pair(at, entry) > std::pair(left, d.entry);
    };
    for (const auto& g : w.known.guidance) {
        const Guidance& f = g.fact;
        if (f.product != key.product || f.lot != key.lot || (f.verdict != Verdict::discard && !waits)) continue;
        if (!later(f.through.seconds_since_1970(), g.entry) || (f.since && f.since->seconds_since_1970() > left) ||
            (f.mark && *f.mark != key.mark) || (f.place && !history.places.contains(*f.place)))
            continue;
        const Remark verdict = said::verdict_words(f.verdict);
        out.push_back({g.entry, f.verdict == Verdict::discard, false,
                       f.use_by ? words::guidance_says_by(verdict, f.use_by->text(), f.issuer, f.reference, g.entry)
                                : words::guidance_says(verdict, f.issuer, f.reference, g.entry)});
    }
    // what is held in one place is what is there then
    for (const auto& h : w.known.holds)
        if (h.fact.product == key.product && (!h.fact.lot || *h.fact.lot == key.lot) && !h.fact.place &&
            (!h.fact.mark || *h.fact.mark == key.mark) && later(h.at, h.entry))
            out.push_back(
                {h.entry, false, true, words::in_brackets(words::held_for(h.fact.reason), words::entry(h.entry))});
    std::ranges::sort(out, {}, &DepartedDoses::Since::entry);
    return out;
}

bool tells_of(const std::string& text, EntryNumber entry) {
    if (!text.starts_with(told_start)) return false;
    const std::string said = text.substr(told_start.size(), text.find(':') - told_start.size());
    if (said.find_first_not_of("0123456789, ") != std::string::npos) return false;
    const std::string one = std::to_string(entry);
    std::size_t from = 0;
    while (from <= said.size()) {
        const std::size_t end = std::min(said.find(", ", from), said.size());
        if (said.compare(from, end - from, one) == 0) return true;
        from = end + 2;
    }
    return false;
}

std::string told_text(const std::vector<EntryNumber>& entries, const std::string& text) {
    std::string out;
    for (const EntryNumber n : entries) out += (out.empty() ? std::string(told_start) : ", ") + std::to_string(n);
    return out + ": " + text;
}

std::optional<EntryNumber> told_of(const World& w, const std::vector<ledger::Dated<Incident>>& steps,
                                   const Departure& d, const std::optional<std::string>& incident) {
    std::optional<EntryNumber> out;
    const std::int64_t left = d.at.seconds_since_1970();
    for (const auto& s : steps)
        if (s.at >= left && (!incident || s.fact.incident == *incident) &&
            (s.fact.step == IncidentStep::action || is_telling(s.fact.step)) && tells_of(s.fact.text, d.entry))
            out = std::max(out.value_or(0), s.entry);
    for (const auto& r : w.known.reports)
        if (!d.to.empty() && r.at >= left && r.at <= w.at && r.fact.recipient == d.to &&
            (!incident || r.fact.incident == *incident))
            out = std::max(out.value_or(0), r.entry);
    return out;
}

std::vector<Remark> news_of(const DepartedDoses& was, const DepartedDoses& is) {
    std::vector<Remark> out;
    const auto more = gained(was.reasons, is.reasons);
    const Remark before = said::list_words(was.list), after = said::list_words(is.list);
    if (is.list < was.list)
        out.push_back(more.empty() ? words::becomes(before, after)
                                   : words::becomes_for(before, after, said::reasons_words(more)));
    else if (!more.empty())
        out.push_back(words::with_new_reasons(after, said::reasons_words(more)));
    for (const auto& incident : gained(was.in_doubt, is.in_doubt)) out.push_back(words::now_in_doubt(incident));
    if (is_more(was.history.total, is.history.total)) {
        const auto exposure = [](const History& h) {
            const auto said = exposure_words(h);
            return said ? Field(*said) : Field();
        };
        out.push_back(was_exposed(was.history)
                          ? words::now_known_before(exposure(is.history), exposure(was.history))
                          : words::now_known(exposure(is.history)));
    }
    for (const auto& one : is.since)
        if (std::ranges::find(was.since, one) == was.since.end()) out.push_back(one.text);
    return out;
}

std::vector<Remark> learnt_since(World& w, const DepartedDoses& now) {
    const Departure& d = now.departure;
    const EntryNumber last = std::max(d.entry, d.told.value_or(0));
    if (last >= w.head.last_entry) return {};
    // as it was seen then: what was awaited was not yet what never came
    const Instant recorded = w.store.named_entry(last).recorded.value_or(w.head.at);
    AnswerHead head = w.head;
    head.last_entry = last;
    head.at = std::min(w.head.at, std::max(d.at, recorded));
    const auto known = ledger::Known::load(w.store, last);
    World then(w.store, head, known);
    const auto lots = then.lots_of(d.holding.lot, d.holding.product);
    const auto was = lots.empty() ? std::vector<DepartedDoses>() : departed(then, lots.front(), d.entry);
    return was.empty() ? std::vector<Remark>() : news_of(was.front(), now);
}

std::vector<DepartedDoses> with_news(World& w) {
    std::vector<DepartedDoses> out;
    for (auto& d : departed(w)) {
        if (d.list == List::keep && d.in_doubt.empty() && d.since.empty() && !was_exposed(d.history)) continue;
        d.news = learnt_since(w, d);
        if (!d.news.empty()) out.push_back(std::move(d));
    }
    return out;
}

Remark left_words(const Departure& d, const Zone& zone) {
    const HoldingKey& k = d.holding;
    Remark lot = words::lot_of(k.product, k.lot);
    if (!k.fund.empty()) lot = words::comma(lot, words::fund_named(k.fund));
    if (!k.mark.empty()) lot = words::comma(lot, words::mark_named(k.mark));
    const Remark doses = words::doses(d.doses.count());
    const Remark when = words::in_brackets(zone.local_text(d.at), words::entry(d.entry));
    return d.to.empty() ? words::left_returned(doses, lot, k.place, when)
                        : words::left_sent(doses, lot, k.place, d.to, when);
}

Remark left_advice(const Departure& d) {
    const std::string entry = std::to_string(d.entry);
    const Suggestion told = words::parameter("told", entry);
    return d.to.empty() ? words::tell_who_has_them(told)
                        : words::tell_site(d.to, words::task("handover", {{"", entry}}), told);
}

}  // namespace coldtally::answers
