#include "stock/handover.hpp"

#include <algorithm>
#include <cstdio>

#include "coldtally/error.hpp"
#include "stock/beside_notes.hpp"
#include "stock/departed.hpp"
#include "stock/doubt.hpp"
#include "stock/last_use.hpp"
#include "stock/lists.hpp"
#include "stock/opened_vials.hpp"
#include "stock/reasons.hpp"
#include "text/json_text.hpp"

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

std::string exposure_words(const History& h) {
    std::string out;
    const auto add = [&](const std::string& words) { out += (out.empty() ? "" : "; ") + words; };
    const auto side = [&](const SideExposure& s, const char* what) {
        if (s.at_most.sign() > 0)
            add(std::string(what) + " for " + (s.at_least == s.at_most ? "" : "at most ") +
                duration_words(s.at_most, true));
    };
    side(h.total.warm, "too warm");
    side(h.total.cold, "too cold");
    side(h.total.frozen, "at or below the freeze limit");
    if (h.total.points > 0)
        add(std::to_string(h.total.points) + (h.total.points == 1 ? " reading or check" : " readings or checks") +
            " out of range in no allowance, or at or below the freeze limit");
    return out;
}

HandoverAnswer handover(World& w, EntryNumber number) {
    const auto refuse = [&](const std::string& why) {
        throw Error(Code::not_known, "entry: " + std::to_string(number) + ": " + why);
    };
    if (number < 1 || number > w.head.last_entry)
        refuse("no entry of this number is known; must be that of a transfer");
    const auto entry = w.store.entry(number, false);
    const auto* t = entry ? std::get_if<Transfer>(&entry->fact) : nullptr;
    if (!t) refuse("must be a transfer, and is another kind of entry");
    if (!w.known.is_known(number)) refuse("this transfer was taken back");
    if (*entry->at > w.head.at)
        refuse("this transfer, of " + entry->at->text() + ", is later than the instant asked about");
    const auto lots = w.lots_of(t->lot, t->product);
    const Product* product = w.known.product(t->product);
    if (lots.empty() || !product) refuse("its lot is not known");
    const auto& lot = lots.front();

    const auto left = departing(w, lot, number);
    if (!left) refuse("no doses left by it");

    HandoverAnswer out;
    out.head = w.head;
    out.transfer = number;
    out.left = *entry->at;
    out.by = entry->by;
    out.to = t->to;
    out.reason = t->reason;
    out.holding = left->left.key;
    out.product_name = product->name;
    out.doses = t->doses;
    out.expiry = w.expiry(lot);
    out.last_use = last_use(w.known.zone(), w.expired_from(lot), left->limits);
    out.history = left->left.history;
    const History& h = out.history;
    auto waits = quarantine_reasons(h, *product, w.known.unmonitored_limit());
    const auto doubts = doubts_of(w, out.holding, h, left->seen);
    const Departure gone{number, out.left, out.holding, out.doses, out.to, out.reason};
    const auto since = said_since(w, gone, h, !waits.empty() || !doubts.empty());
    const auto says = [&](bool DepartedDoses::Since::*what) {
        return std::ranges::any_of(since, [&](const auto& one) { return one.*what; });
    };
    out.exposed = was_exposed(h);
    out.condemned = !h.condemned_by.empty() || says(&DepartedDoses::Since::discard);
    if (is_expired(h, w.expired_from(lot), out.left)) out.reasons.emplace_back("expired");
    if (out.condemned) out.reasons.emplace_back("condemned");
    const bool discard = !out.reasons.empty();
    if (says(&DepartedDoses::Since::hold) && h.held_by.empty()) waits.emplace_back("held");
    out.reasons.insert(out.reasons.end(), waits.begin(), waits.end());
    out.list = discard ? List::discard : waits.empty() ? List::keep : List::quarantine;
    // what is awaited may show exposure when it comes
    const auto some = [&](Class c) { return h.total.seconds[static_cast<std::size_t>(c)].sign() > 0; };
    const bool not_known = some(Class::unmonitored) || some(Class::awaiting);
    out.needed = out.exposed || not_known || h.use_by || out.list != List::keep;

    ListsAnswer::Row row;
    row.holding = out.holding;
    row.expiry = out.expiry;
    row.last_use = out.last_use;
    row.history = h;
    row.allowance_seconds = ledger::allowance_seconds(*product);
    out.needed = out.needed || !doubts.empty();
    auto told = notes(w, row, left->seen.stays, doubts);
    // of the place as it is now; what was awaited when they left is said beside
    std::erase_if(told, [](const Note& note) { return note.kind == Note::Kind::awaited; });
    if (const auto vial = vial_without_opening(*product, t->doses.count(), left->limits))
        told.push_back({Note::Kind::vial, *vial});
    out.notes = texts_of(told);
    besides_of_history(w, out.holding, h, left->seen, out.left.seconds_since_1970(), out.beside);
    out.needed = out.needed || !out.beside.empty();
    for (const auto& d : doubts) {
        out.to_hold.push_back("in doubt: incident " + d.incident + " is open, and they stood in " + d.place);
        out.beside.push_back("INCIDENT " + d.incident + " IS OPEN: these doses stood in " + d.place +
                             " in the time in doubt. The receiver must keep them from use until it is settled");
    }

    for (const auto& g : w.known.guidance)
        if (h.condemned_by.contains(g.entry))
            out.beside.push_back("GUIDANCE SAYS DISCARD: " + g.fact.issuer + ", " + g.fact.reference + " (entry " +
                                 std::to_string(g.entry) +
                                 "). These doses must not be used, and no history of them is handed over for use");
    for (const auto& hold : w.known.holds)
        if (h.held_by.contains(hold.entry)) {
            out.to_hold.push_back(hold.fact.reason);
            out.beside.push_back("HELD: " + hold.fact.reason + " (entry " + std::to_string(hold.entry) +
                                 "). The receiver must hold them, too, until it is lifted: a receive by the file does, "
                                 "one that takes the history alone does not");
        }
    for (const auto& one : since) {
        out.needed = true;
        if (one.hold) out.to_hold.push_back(one.text);
        out.beside.push_back("SAID SINCE THEY LEFT: " + one.text +
                             (one.discard ? ". These doses must not be used, and no history of them is handed over for "
                                            "use: tell the receiver"
                              : one.hold  ? ". The receiver must hold them, too, until it is lifted"
                                          : ". It changes nothing at the receiver by itself: tell it"));
    }
    if (const auto* came = left->seen.not_come.of(out.holding))
        for (const auto& [receive, time] : *came)
            if (!time.cleared) out.beside.push_back(not_come_words(receive, time.seconds));
    const Rational missing = h.total.seconds[static_cast<std::size_t>(Class::awaiting)] -
                             left->seen.not_come.most(out.holding);  // what is to be read here
    if (missing.sign() > 0)
        out.beside.push_back("READINGS ARE MISSING for " + duration_words(missing, true) +
                             " of the time before they left, and what they will tell is not in this history: read the "
                             "loggers, then state the handover of entry " +
                             std::to_string(number) + " anew; the receiver takes this one back and notes that one");
    out.beside.push_back("The history ends when they left, at " + w.known.zone().local_text(out.left) + " (" +
                         out.left.text() + "). The way is not in it");

    out.handover.history = h;
    out.handover.allowance_seconds = row.allowance_seconds;
    History& stated = out.handover.history;
    stated.condemned_by.clear();
    stated.held_by.clear();
    stated.places.clear();
    for (const auto& place : h.places)
        stated.places.insert(place.find('/') != std::string::npos ? place : w.head.ledger + "/" + place);
    return out;
}

}  // namespace coldtally::answers
