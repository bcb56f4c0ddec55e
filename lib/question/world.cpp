#include "question/world.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally::answers {

AnswerHead head_of(const ledger::Store& store, const Question& q, Instant now) {
    const auto tip = store.tip();
    if (tip.entry == 0) throw Error(Code::not_known, store.database().path() + ": the ledger has no entries");
    const Instant latest = std::max(now, store.recorded(tip.entry));
    AnswerHead head;
    head.at = q.at.value_or(latest);
    head.known_on = q.known_on.value_or(latest);
    for (const Instant one : {head.at, head.known_on})
        if (one.seconds_since_1970() > limits::last_instant)
            throw Error(Code::bad_value, std::to_string(one.seconds_since_1970()) +
                                             " s since 1970: must be in the years 1970 to 2199: this computer's clock "
                                             "is wrong; set it, or state the instant");
    head.last_entry = store.last_entry_by(head.known_on);
    if (head.last_entry == 0)
        throw Error(Code::not_known, "known-on: " + head.known_on.text() + ": must not be before the first entry, " +
                                         store.recorded(1).text());
    return head;
}

World::World(const ledger::Store& s, const AnswerHead& h, const ledger::Known& k)
    : store(s), head(h), known(k), at(h.at.seconds_since_1970()), engine(s, known, at) {
    head.ledger = known.site().name;
}

Earlier::Earlier(const World& of, const AnswerHead& head)
    : known(ledger::Known::load(of.store, head.last_entry)), world(of.store, head, known) {}

World& known_before(World& w, EntryNumber entry) {
    auto& kept = w.earlier[entry];
    if (!kept) {
        AnswerHead head = w.head;
        head.last_entry = entry - 1;
        kept = std::make_shared<Earlier>(w, head);
    }
    return kept->world;
}

std::vector<ledger::Store::LotRow> World::lots() const {
    auto all = store.lots();
    std::erase_if(all, [&](const auto& lot) {
        return known.expiry(store.lot_definitions(lot.lot)).empty() || !known.product(lot.product);
    });
    return all;
}

std::vector<ledger::Store::LotRow> World::lots_of(const std::string& number,
                                                  const std::optional<std::string>& product) const {
    auto out = lots();
    std::erase_if(out, [&](const auto& lot) { return lot.number != number || (product && lot.product != *product); });
    return out;
}

bool World::balances_answer() const {
    // for the whole ledger as known now, at an instant after all of it
    return head.last_entry == store.tip().entry && at >= store.recorded(head.last_entry).seconds_since_1970();
}

std::vector<ledger::Store::LotRow> World::lots_with_doses() const {
    if (!balances_answer()) return lots();
    auto out = store.lots_in_stock();
    for (const auto& lot : out)
        if (!known.product(lot.product) || known.expiry(store.lot_definitions(lot.lot)).empty())
            store.database().damaged("lot " + text::quoted(lot.number) + " of product " + text::quoted(lot.product) +
                                     " has doses, and no entry defines it");
    return out;
}

Date World::expiry(const ledger::Store::LotRow& lot) const {
    return Date::parse_expiry(known.expiry(store.lot_definitions(lot.lot)));
}

const Place& World::place(const std::string& id) const {
    const Place* p = known.place(id);
    if (!p)
        throw Error(Code::not_known,
                    "place: " + text::quoted(id) + ": no place of this id is known" + known.place_names());
    return *p;
}

Duration World::awaited(const std::string& place) {
    const auto last = engine.trace_of(place, at).last();
    return Duration(last && *last <= at && at - *last <= known.stale_after().seconds() ? at - *last : 0);
}

ledger::StockWalk World::stock(const ledger::Store::LotRow& lot) const {
    ledger::StockWalk walk;
    for (const auto& m : store.movements(lot.lot))
        if (m.at <= at && known.is_known(m.entry)) walk.apply(m);
    return walk;
}

std::int64_t first_known_of(World& w, const std::string& place) {
    std::int64_t first = w.at;
    for (const auto& definition : w.known.places.at(place))
        first = std::min(first, w.store.recorded(definition.entry).seconds_since_1970());
    const auto& trace = w.engine.trace_of(place);
    if (!trace.spans().empty()) first = std::min(first, trace.spans().front().first_at);
    if (!trace.checks().empty()) first = std::min(first, trace.checks().front().point.at);
    return first;
}

Instant first_record(World& w) {
    std::int64_t first = std::min(w.at, w.store.recorded(1).seconds_since_1970());
    for (const auto& [place, definitions] : w.known.places)
        if (!definitions.empty()) first = std::min(first, first_known_of(w, place));
    for (const auto& lot : w.lots()) {
        if (w.store.first_movement(lot.lot).value_or(first) >= first) continue;
        for (const auto& m : w.store.movements(lot.lot))
            if (w.known.is_known(m.entry)) {
                first = std::min(first, m.at);
                break;
            }
    }
    return Instant(first);
}

Window window_of(const World& w, Instant from, Instant until) {
    if (until < from)
        throw Error(Code::contradiction, "until: " + until.text() + ": must not be before from, " + from.text());
    const std::int64_t a = from.seconds_since_1970(), b = until.seconds_since_1970();
    if (a > w.at || (a == b && b < w.at)) return {true, a, a, false};
    return {false, a, std::min(b, w.at), b >= w.at};
}

}  // namespace coldtally::answers
