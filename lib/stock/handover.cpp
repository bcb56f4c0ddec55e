#include "stock/handover.hpp"

#include <algorithm>
#include <cstdio>

#include "coldtally/error.hpp"
#include "conditions/released.hpp"
#include "stock/beside_notes.hpp"
#include "stock/departed.hpp"
#include "stock/doubt.hpp"
#include "stock/how_far.hpp"
#include "stock/last_use.hpp"
#include "stock/lists.hpp"
#include "stock/opened_vials.hpp"
#include "stock/reasons.hpp"
#include "text/json_text.hpp"
#include "words/journeys.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally {

std::string handover_file_name(const Transfer& transfer, Instant left, const Zone& zone) {
    std::string lot;
    for (const char c : transfer.lot)
        lot += (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' ? c : '_';
    const auto local = zone.local(left);
    char time[16];
    std::snprintf(time, sizeof time, "%02d%02d%02d", local.second_of_day / 3600, local.second_of_day / 60 % 60,
                  local.second_of_day % 60);
    return "handover-" + lot + "-" + local.date.text() + "-" +
           std::string(time, local.second_of_day % 60 == 0 ? 4 : 6) + ".json";
}

}  // namespace coldtally

namespace coldtally::answers {

bool was_exposed(const History& h) {
    const Exposure& t = h.total;
    return t.warm.at_most.sign() > 0 || t.cold.at_most.sign() > 0 || t.frozen.at_most.sign() > 0 || t.points > 0 ||
           t.beyond_warm.sign() > 0 || t.beyond_cold.sign() > 0 ||
           std::any_of(t.allowances.begin(), t.allowances.end(), [](const Rational& used) { return used.sign() > 0; });
}

std::optional<Remark> exposure_words(const History& h) {
    std::vector<Remark> out;
    const auto side = [&](const SideExposure& s, const Remark& what, const std::optional<Rational>& far, bool warm) {
        if (s.at_most.sign() <= 0) return;
        const std::string time = duration_words(s.at_most, true);
        Remark one = words::exposed_for(what, s.at_least == s.at_most ? Field(time) : Field(words::at_most(time)));
        if (far)
            one = (warm ? words::up_to_degrees : words::down_to_degrees)(std::move(one), degrees_words(*far, warm));
        out.push_back(std::move(one));
    };
    const Exposure& t = h.total;
    side(t.warm, words::too_warm, t.highest_C, true);
    side(t.cold, words::too_cold, t.lowest_C, false);
    side(t.frozen, words::at_freeze_limit, std::nullopt, false);
    if (t.points > 0) out.push_back(words::exposed_points(words::readings_or_checks(t.points)));
    // of single readings: which side they were on is not known here
    if (t.points > 0 && t.warm.at_most.sign() == 0 && t.cold.at_most.sign() == 0 && t.lowest_C && t.highest_C)
        out.push_back(words::from_to(degrees_words(*t.lowest_C, false), degrees_words(*t.highest_C, true)));
    return words::semicolons(out);
}

namespace {

/// A transfer that stands, and what left by it.
struct Handed {
    EntryNumber number;
    Entry entry;
    ledger::Store::LotRow lot;
    const Product* product;
    Departing left;

    const Transfer& transfer() const { return std::get<Transfer>(entry.fact); }
};

/// Code::not_known where there is none.
Handed handed(World& w, EntryNumber number) {
    const auto refuse = [&](const std::string& why) {
        throw Error(Code::not_known, "entry: " + std::to_string(number) + ": " + why);
    };
    if (number < 1 || number > w.head.last_entry)
        refuse("no entry of this number is known; must be that of a transfer");
    auto entry = w.store.entry(number, false);
    const auto* t = entry ? std::get_if<Transfer>(&entry->fact) : nullptr;
    if (!t) refuse("must be a transfer, and is another kind of entry");
    if (!w.known.is_known(number)) refuse("this transfer was taken back");
    if (*entry->at > w.head.at)
        refuse("this transfer, of " + entry->at->text() + ", is later than the instant asked about");
    const auto lots = w.lots_of(t->lot, t->product);
    const Product* product = w.known.product(t->product);
    if (lots.empty() || !product) refuse("its lot is not known");
    auto left = departing(w, lots.front(), number);
    if (!left) refuse("no doses left by it");
    return {number, std::move(*entry), lots.front(), product, std::move(*left)};
}

/// What it is of, without what the ledger judges of it.
HandoverAnswer stated(const World& w, const Handed& of) {
    HandoverAnswer out;
    out.head = w.head;
    out.transfer = of.number;
    out.left = *of.entry.at;
    out.by = of.entry.by;
    out.to = of.transfer().to;
    out.reason = of.transfer().reason;
    out.holding = of.left.left.key;
    out.product_name = of.product->name;
    out.doses = of.transfer().doses;
    out.expiry = w.expiry(of.lot);
    out.last_use = last_use(w.known.zone(), w.expired_from(of.lot), of.left.limits);
    out.history = of.left.left.history;
    return out;
}

using AllSince = std::vector<DepartedDoses::Since>;

/// The list just before they left, and by what was said since.
void judge_handed(World& w, const Handed& of, const std::vector<Reason>& waiting, const AllSince& since,
                  HandoverAnswer& out) {
    const History& h = out.history;
    const auto says = [&](bool DepartedDoses::Since::*what) {
        return std::ranges::any_of(since, [&](const auto& one) { return one.*what; });
    };
    auto waits = waiting;
    out.exposed = was_exposed(h);
    out.condemned = !h.condemned_by.empty() || says(&DepartedDoses::Since::discard);
    if (is_expired(h, w.expired_from(of.lot), out.left)) out.reasons.push_back(Reason::expired);
    if (out.condemned) out.reasons.push_back(Reason::condemned);
    const bool discard = !out.reasons.empty();
    if (says(&DepartedDoses::Since::hold) && h.held_by.empty()) waits.push_back(Reason::held);
    out.reasons.insert(out.reasons.end(), waits.begin(), waits.end());
    out.list = discard ? List::discard : waits.empty() ? List::keep : List::quarantine;
}

std::vector<Remark> notes_of(World& w, const Handed& of, const std::vector<Doubt>& doubts, const HandoverAnswer& out) {
    ListsAnswer::Row row;
    row.holding = out.holding;
    row.expiry = out.expiry;
    row.last_use = out.last_use;
    row.history = out.history;
    row.allowance_seconds = ledger::allowance_seconds(*of.product);
    auto told = notes(w, row, of.left.seen.stays, doubts);
    // of the place as it is now; what was awaited when they left is said beside
    std::erase_if(told, [](const Note& note) { return note.kind == Note::Kind::awaited; });
    return said_of(told);
}

/// What keeps them from use, and why the receiver must hold them.
void add_in_question(const World& w, const std::vector<Doubt>& doubts, const AllSince& since, HandoverAnswer& out) {
    const History& h = out.history;
    for (std::size_t i = 0; i < doubts.size(); ++i) {
        const Doubt& d = doubts[i];  // its parts in one place are in the notes
        if (i > 0 && doubts[i - 1].incident == d.incident && doubts[i - 1].place == d.place) continue;
        out.to_hold.push_back(words::to_hold_in_doubt(d.incident, d.place));
        out.beside.push_back(words::handover_in_doubt(d.incident, d.place));
    }
    for (const auto& g : w.known.guidance)
        if (h.condemned_by.contains(g.entry))
            out.beside.push_back(words::handover_condemned(g.fact.issuer, g.fact.reference, g.entry));
    for (const auto& hold : w.known.holds)
        if (h.held_by.contains(hold.entry)) {
            out.to_hold.push_back(words::as_said(hold.fact.reason));
            out.beside.push_back(words::handover_held(hold.fact.reason, hold.entry));
        }
    for (const auto& one : since) {
        if (one.hold) out.to_hold.push_back(one.text);
        out.beside.push_back((one.discard ? words::since_left_discard
                              : one.hold  ? words::since_left_hold
                                          : words::since_left_use)(one.text));
    }
}

/// What of their time the history lacks.
void add_lacking(const World& w, const Handed& of, HandoverAnswer& out) {
    const auto& not_come = of.left.seen.not_come;
    if (const auto* came = not_come.of(out.holding))
        for (const auto& [receive, time] : *came)
            if (!time.cleared) out.beside.push_back(not_come_words(receive, time.seconds));
    const Rational missing = out.history.total.seconds[static_cast<std::size_t>(Class::awaiting)] -
                             not_come.most(out.holding);  // what is to be read here
    if (missing.sign() > 0)
        out.beside.push_back(words::handover_readings_missing(duration_words(missing, true), of.number));
    out.beside.push_back(words::history_ends(w.known.zone().local_text(out.left), out.left.text()));
}

/// As the receive of the other site takes it: places by site, and no hold and no guidance, which are this site's.
Handover handed_over(const HandoverAnswer& of, const Product& product) {
    Handover out;
    out.history = of.history;
    out.allowance_seconds = ledger::allowance_seconds(product);
    out.history.condemned_by.clear();
    out.history.held_by.clear();
    out.history.places.clear();
    for (const auto& place : of.history.places)
        out.history.places.insert(place.find('/') != std::string::npos ? place : of.head.ledger + "/" + place);
    return out;
}

}  // namespace

HandoverAnswer handover(World& w, EntryNumber number) {
    const Handed of = handed(w, number);
    HandoverAnswer out = stated(w, of);
    const History& h = out.history;
    const auto waits = quarantine_reasons(h, *of.product, w.known.unmonitored_limit());
    const auto doubts = doubts_of(w, out.holding, h, of.left.seen);
    auto closed = doubts_of(w, closed_doubts(w), out.left.seconds_since_1970(), out.holding, h, of.left.seen);
    const Departure gone{number, out.left, out.holding, out.doses, out.to, out.reason};
    const auto since = said_since(w, gone, h, !waits.empty() || !doubts.empty() || !closed.empty());
    if (std::ranges::any_of(since, [](const auto& one) { return !one.hold; })) closed.clear();  // it was answered
    judge_handed(w, of, waits, since, out);

    // what is awaited may show exposure when it comes
    const auto some = [&](Class c) { return h.total.seconds[static_cast<std::size_t>(c)].sign() > 0; };
    const bool not_known = some(Class::unmonitored) || some(Class::awaiting);
    out.notes = notes_of(w, of, doubts, out);
    besides_of_history(w, out.holding, h, of.left.seen, out.left.seconds_since_1970(), out.beside);
    for (const auto& held : held_after(w, h, of.left.seen.clearings.of(out.holding)))  // its remark is among those
        out.to_hold.push_back(words::as_said(held.hold->fact.reason));
    if (const auto vial = vial_without_opening(*of.product, out.doses.count(), of.left.limits))
        out.beside.push_back(words::handover_vial_not_noted(*vial));
    out.needed = out.exposed || not_known || h.use_by || out.list != List::keep || !doubts.empty() ||
                 !closed.empty() || !out.beside.empty() || !since.empty();
    add_in_question(w, doubts, since, out);
    for (const auto& d : closed) {
        out.to_hold.push_back(words::to_hold_closed(d.incident, d.place));
        out.beside.push_back(words::handover_closed(d.incident, d.place));
    }
    add_lacking(w, of, out);
    out.handover = handed_over(out, *of.product);
    return out;
}

}  // namespace coldtally::answers
