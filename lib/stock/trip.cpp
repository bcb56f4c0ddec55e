#include <algorithm>
#include <map>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/fit.hpp"
#include "stock/journeys.hpp"
#include "text/json_text.hpp"
#include "words/journeys.hpp"

namespace coldtally::answers {

namespace {

using ledger::MovementOp;

std::string degrees(const trace::Point& p) {
    return Temperature(p.scale, p.value).text() + " °" + scale_letter(p.scale);
}

/// The last reading or check at or before t that is in range.
std::optional<trace::Point> last_good(const trace::Trace& trace, const Range& range, std::int64_t t) {
    std::optional<trace::Point> out;
    const auto take = [&](const trace::Point& p) {
        if (p.at <= t && is_in(range, p.scale, p.value) && (!out || p.at > out->at)) out = p;
    };
    for (const auto& check : trace.checks()) take(check.point);
    std::vector<trace::Point> rows;
    for (auto span = trace.spans().rbegin(); span != trace.spans().rend(); ++span) {
        if (span->first_at > t) continue;
        if (out && span->last_at <= out->at) break;
        rows.clear();
        span->read(rows);
        for (const auto& p : rows) take(p);
    }
    return out;
}

struct Asked {
    World& w;
    TripAnswer& out;
    void tell(std::int64_t at, Remark what) const { out.events.push_back({Instant(at), std::move(what)}); }
};

/// Where doses came from and went to, and when.
using Stops = std::set<std::pair<std::string, std::int64_t>>;

/// What happened to the doses of a lot that were in the container between the departure and the end.
void follow(const Asked& asked, const ledger::Store::LotRow& lot, std::int64_t from, std::int64_t until,
            std::set<std::string>& origins, Stops& stops) {
    World& w = asked.w;
    TripAnswer& out = asked.out;
    std::map<std::int64_t, ledger::HoldingRow> names;
    for (const auto& h : w.store.holdings(lot.lot)) names.emplace(h.holding, h);
    const auto aboard = [&](std::int64_t holding) { return holding != 0 && names.at(holding).place == out.container; };
    std::map<std::int64_t, TripAnswer::Row> rows;
    const Product& product = *w.known.product(lot.product);
    const auto row_of = [&](std::int64_t holding, std::int64_t at) -> TripAnswer::Row& {
        auto [it, fresh] = rows.try_emplace(holding);
        if (fresh) {
            const auto& h = names.at(holding);
            it->second.holding = {h.place, lot.product, lot.number, h.fund, h.mark};
            it->second.from = Instant(at);
            it->second.until = Instant(until);
        }
        return it->second;
    };
    ledger::StockWalk walk;
    for (const auto& m : w.store.movements(lot.lot)) {
        if (m.at > until || !w.known.is_known(m.entry)) continue;
        const auto before = m.source ? walk.doses(m.source) : 0;
        walk.apply(m);
        if (m.at < from) continue;
        const Doses doses(m.doses);
        if (aboard(m.target)) {
            auto& row = row_of(m.target, m.at);
            row.loaded = row.loaded + doses;
            row.until = Instant(until);  // also where it had been emptied before
            if (m.source && !aboard(m.source)) {
                origins.insert(names.at(m.source).place);
                stops.emplace(names.at(m.source).place, m.at);
            }
        }
        if (!aboard(m.source) || m.op == MovementOp::beyond_use) continue;
        auto& row = row_of(m.source, from);
        switch (m.op) {
            case MovementOp::give: row.given = row.given + doses; break;
            case MovementOp::waste: row.wasted = row.wasted + doses; break;
            case MovementOp::give_back: case MovementOp::transfer: row.sent = row.sent + doses; break;
            case MovementOp::move:
                row.unloaded = row.unloaded + doses;
                if (!aboard(m.target)) stops.emplace(names.at(m.target).place, m.at);
                break;
            case MovementOp::count: row.missing = row.missing + (Doses(before) - Doses(walk.doses(m.source))); break;
            case MovementOp::receive: case MovementOp::beyond_use: break;
        }
        if (walk.doses(m.source) == 0) row.until = Instant(m.at);
    }
    for (auto& [holding, row] : rows) {
        row.aboard = Doses(walk.doses(holding));
        row.allowance_seconds = ledger::allowance_seconds(product);
        row.exposure = w.engine.over(product, out.container, row.from.seconds_since_1970(),
                                     row.until.seconds_since_1970(), row.until == w.head.at);
        out.holdings.push_back(std::move(row));
    }
}

void tell_temperatures(const Asked& asked, std::int64_t from, std::int64_t until) {
    const std::string name = text::quoted(asked.out.container);
    const auto& trace = asked.w.engine.trace_of(asked.out.container);
    for (const auto& check : trace.checks())
        if (check.point.at >= from && check.point.at <= until)
            asked.tell(check.point.at, words::check_read(name, degrees(check.point)));
    std::vector<trace::Point> rows, mine;
    for (const auto& span : trace.spans()) {
        if (span.last_at < from || span.first_at > until) continue;
        rows.clear();
        span.read(rows);
        for (const auto& p : rows)
            if (p.at >= from && p.at <= until) mine.push_back(p);
    }
    if (mine.empty()) return;
    const auto by_value = [](const auto& a, const auto& b) { return a.value < b.value; };
    const auto& low = *std::min_element(mine.begin(), mine.end(), by_value);
    const auto& high = *std::max_element(mine.begin(), mine.end(), by_value);
    asked.tell(mine.front().at, words::first_reading(name, degrees(mine.front())));
    asked.tell(low.at, words::lowest_reading(name, degrees(low)));
    asked.tell(high.at, words::highest_reading(name, degrees(high)));
    asked.tell(mine.back().at, words::last_reading(name, degrees(mine.back())));
}

/// What was read in the places they came from and went to, as they left and came: a check of that instant, or of the
/// second before.
void tell_stops(const Asked& asked, const Stops& stops) {
    std::set<std::pair<std::string, std::int64_t>> told;
    for (const auto& [place, at] : stops)
        for (const auto& check : asked.w.engine.trace_of(place).checks())
            if (check.point.at >= at - 1 && check.point.at <= at && told.emplace(place, check.point.at).second)
                asked.tell(check.point.at, words::check_read(text::quoted(place), degrees(check.point)));
}

/// What was known of the places they came from: the last good reading, and who noticed what.
void tell_before(const Asked& asked, const std::set<std::string>& origins, std::int64_t departed) {
    World& w = asked.w;
    for (const auto& origin : origins) {
        const Place* place = w.known.place(origin);
        if (!place) continue;
        const auto good = last_good(w.engine.trace_of(origin), place->range, departed);
        asked.tell(good ? good->at : departed,
                   good ? words::last_good_reading(text::quoted(origin), degrees(*good))
                        : words::no_good_reading(text::quoted(origin)));
        const std::int64_t since = good ? good->at : departed;
        for (const EntryNumber n : w.store.entries_naming_place(origin)) {
            if (!w.known.is_known(n)) continue;
            const Entry e = w.store.named_entry(n);
            const auto* incident = std::get_if<Incident>(&e.fact);
            if (!incident || incident->step != IncidentStep::noticed) continue;
            const auto noticed = e.at->seconds_since_1970();
            if (noticed >= since && noticed <= w.at)
                asked.tell(noticed, words::noticed_then(incident->incident, incident->text));
        }
    }
}

}  // namespace

TripAnswer trip(World& w, const std::string& container, std::optional<Duration> limit) {
    w.place(container);
    const auto loads = departures(w, container);
    if (loads.empty())
        throw Error(Code::not_known, "container: " + text::quoted(container) + ": no departure of it is known then");
    const auto* departure = loads.front();
    TripAnswer out;
    out.head = w.head;
    out.container = container;
    const Trip& t = departure->fact;
    out.destination = t.destination.value_or("");
    out.reason = t.reason.value_or("");
    out.packed_by = t.packed_by;
    out.approval = t.approval;
    out.coolant = t.coolant;
    out.conditioning = t.conditioning;
    out.departure = departure->entry;
    out.departed = Instant(departure->at);
    out.limit = limit;
    if (!limit && !w.known.programme_rules.empty()) out.limit = w.known.programme_rules.back().fact.longest_trip;
    const Asked asked{w, out};
    for (const auto& other : w.known.trips)
        if (!out.arrived && other.fact.container == container && other.fact.step == TripStep::arrival &&
            std::pair(other.at, other.entry) > std::pair(departure->at, departure->entry) && other.at <= w.at) {
            out.arrived = Instant(other.at);
            out.received_by = other.fact.received_by;
        }
    const std::int64_t from = departure->at, until = out.arrived ? out.arrived->seconds_since_1970() : w.at;
    out.lasted = Duration(until - from);

    std::set<std::string> origins;
    Stops stops;
    for (const auto& lot : w.store.lots_in_place(container))
        if (w.known.product(lot.product)) follow(asked, lot, from, until, origins, stops);
    std::sort(out.holdings.begin(), out.holdings.end(),
              [](const auto& a, const auto& b) { return a.holding < b.holding; });
    tell_before(asked, origins, from);
    tell_stops(asked, stops);
    for (const auto* load : loads)
        asked.tell(load->at,
                   words::departure_to(load->fact.destination.value_or(""), load->fact.reason.value_or("")));
    tell_temperatures(asked, from, until);
    if (out.arrived) asked.tell(until, words::arrival);
    std::stable_sort(out.events.begin(), out.events.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    return out;
}

}  // namespace coldtally::answers
