#include "stock/departed.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "conditions/incidents.hpp"
#include "stock/doubt.hpp"
#include "stock/handover.hpp"
#include "stock/reasons.hpp"

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
    return is.points > was.points;
}

std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : ", ") + part;
    return out;
}

std::vector<std::string> gained(const std::vector<std::string>& was, const std::vector<std::string>& is) {
    std::vector<std::string> out;
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
        if (is_expired(one.history, w.expired_from(lot), one.departure.at)) one.reasons.emplace_back("expired");
        if (!one.history.condemned_by.empty()) one.reasons.emplace_back("condemned");
        const bool discard = !one.reasons.empty();
        const auto waits = quarantine_reasons(one.history, product, w.known.unmonitored_limit());
        one.reasons.insert(one.reasons.end(), waits.begin(), waits.end());
        one.list = discard ? List::discard : waits.empty() ? List::keep : List::quarantine;
        for (const auto& doubt : doubts_of(w, one.departure.holding, one.history, it->second.seen))
            one.in_doubt.push_back(doubt.incident);
        one.since =
            said_since(w, one.departure, one.history, one.list != List::keep || !one.in_doubt.empty());
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
        out.push_back({g.entry, f.verdict == Verdict::discard, false,
                       "guidance says " + std::string(verdict_name(f.verdict)) +
                           (f.use_by ? " " + f.use_by->text() : "") + ": " + f.issuer + ", " + f.reference +
                           " (entry " + std::to_string(g.entry) + ")"});
    }
    // what is held in one place is what is there then
    for (const auto& h : w.known.holds)
        if (h.fact.product == key.product && (!h.fact.lot || *h.fact.lot == key.lot) && !h.fact.place &&
            (!h.fact.mark || *h.fact.mark == key.mark) && later(h.at, h.entry))
            out.push_back({h.entry, false, true,
                           "held: " + h.fact.reason + " (entry " + std::to_string(h.entry) + ")"});
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
            (s.fact.step == "action" || s.fact.step.ends_with(" told")) && tells_of(s.fact.text, d.entry))
            out = std::max(out.value_or(0), s.entry);
    for (const auto& r : w.known.reports)
        if (!d.to.empty() && r.at >= left && r.at <= w.at && r.fact.recipient == d.to &&
            (!incident || r.fact.incident == *incident))
            out = std::max(out.value_or(0), r.entry);
    return out;
}

std::vector<std::string> news_of(const DepartedDoses& was, const DepartedDoses& is) {
    std::vector<std::string> out;
    const auto reasons = gained(was.reasons, is.reasons);
    if (is.list < was.list)
        out.push_back(std::string(list_name(was.list)) + " -> " + std::string(list_name(is.list)) +
                      (reasons.empty() ? "" : " for " + joined(reasons)));
    else if (!reasons.empty())
        out.push_back(std::string(list_name(is.list)) + "; new: " + joined(reasons));
    for (const auto& incident : gained(was.in_doubt, is.in_doubt))
        out.push_back("in the time in doubt of incident " + incident + ", which is open");
    if (is_more(was.history.total, is.history.total))
        out.push_back("now known: " + exposure_words(is.history) +
                      (was_exposed(was.history) ? ", before: " + exposure_words(was.history) : std::string()));
    for (const auto& one : is.since)
        if (std::ranges::find(was.since, one) == was.since.end()) out.push_back(one.text);
    return out;
}

std::vector<std::string> learnt_since(World& w, const DepartedDoses& now) {
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
    return was.empty() ? std::vector<std::string>() : news_of(was.front(), now);
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

std::string left_words(const Departure& d, const Zone& zone) {
    const HoldingKey& k = d.holding;
    return std::to_string(d.doses.count()) + (d.doses.count() == 1 ? " dose of " : " doses of ") + k.product + " lot " +
           k.lot + (k.fund.empty() ? "" : ", fund " + k.fund) + (k.mark.empty() ? "" : ", mark " + k.mark) +
           (d.to.empty() ? ", returned from " + k.place : ", sent from " + k.place + " to " + d.to) + " " +
           zone.local_text(d.at) + " (entry " + std::to_string(d.entry) + ")";
}

std::string left_advice(const Departure& d) {
    const std::string entry = std::to_string(d.entry);
    return (d.to.empty() ? std::string("who has them must be told")
                         : d.to + " must be told: `coldtally handover " + entry + "` states their history anew") +
           "; once they are, note a step with --told " + entry;
}

}  // namespace coldtally::answers
