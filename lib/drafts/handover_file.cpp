#include "drafts/handover_file.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "conditions/display_memory.hpp"
#include "stock/beside_notes.hpp"
#include "stock/cleared.hpp"
#include "stock/last_use.hpp"
#include "stock/reasons.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

[[noreturn]] void refuse(const char* field, const Json& value, const std::string& must) {
    throw Error(Code::bad_value,
                std::string("handover: ") + field + ": " +
                    value.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 80) + ": must be " + must);
}

const Json& value(const Json& form, const char* field) {
    const auto it = form.find(field);
    if (it == form.end())
        throw Error(Code::missing_field, std::string("handover: ") + field +
                                             ": must be there; the file is to be taken as the sender's transfer wrote "
                                             "it, or the history in it alone");
    return *it;
}

std::string words(const Json& form, const char* field) {
    const Json& v = value(form, field);
    if (!v.is_string() || v.get_ref<const std::string&>().empty()) refuse(field, v, "text");
    return v.get<std::string>();
}

std::int64_t whole(const Json& form, const char* field) {
    const Json& v = value(form, field);
    if (!v.is_number_integer() || v.get<double>() < 1 || v.get<double>() > 1e15)
        refuse(field, v, "a whole number, 1 or more");
    return v.get<std::int64_t>();
}

std::vector<std::string> list(const Json& form, const char* field) {
    const Json& v = value(form, field);
    std::vector<std::string> out;
    if (!v.is_array()) refuse(field, v, "a list of texts");
    for (const auto& one : v) {
        if (!one.is_string()) refuse(field, v, "a list of texts");
        out.push_back(one.get<std::string>());
    }
    return out;
}

bool contains(const std::vector<std::string>& all, const std::string& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Short enough to be the reason of an entry, whatever another site wrote.
std::string shortened(std::string text) {
    constexpr std::size_t most = 3000;
    if (text.size() <= most) return text;
    std::size_t end = most;
    while ((static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // not within a character
    return text.substr(0, end) + " ...";
}

/// One of two names within the other, whatever the case of letters a to z: people shorten names.
bool is_named_by(std::string_view a, std::string_view b) {
    const auto holds = [](std::string_view whole, std::string_view part) {
        const auto same = [](char x, char y) { return lower(x) == lower(y); };
        return std::search(whole.begin(), whole.end(), part.begin(), part.end(), same) != whole.end() || part.empty();
    };
    return holds(a, b) || holds(b, a);
}

std::string not_for(const std::string& what) {
    return what + ". It tells nothing of the doses received: ask the sender for the file of these";
}

}  // namespace

HandoverFile::HandoverFile(Json& fields, const Zone& zone) {
    if (const auto it = fields.find("no_hold"); it != fields.end()) {
        if (!it->is_string() || it->get_ref<const std::string&>().find_first_not_of(" \t") == std::string::npos)
            throw Error(Code::bad_value, "no_hold: must say why the doses are not put on hold");
        no_hold_ = it->get<std::string>();
        fields.erase(it);
    }
    const auto handover = fields.find("handover");
    stated_ = handover != fields.end();
    whole_ = stated_ && handover->is_object() && handover->contains("handover");
    if (!whole_) return;
    const Json form = *handover;
    site_ = words(form, "ledger");
    transfer_ = whole(form, "transfer");
    const std::string left = words(form, "left"), expiry = words(form, "expiry");
    try {
        left_ = parse_instant(left, zone);
        expiry_ = Date::parse(expiry);
    } catch (const Error& e) {
        throw Error(e.code(), std::string("handover: left, expiry: ") + e.what());
    }
    to_ = words(form, "to");
    product_ = words(form, "product");
    lot_ = words(form, "lot");
    doses_ = whole(form, "doses");
    reasons_ = list(form, "reasons");
    if (form.contains("beside")) beside_ = list(form, "beside");
    to_hold_ = list(form, "to_hold");
    const Json& history = value(form, "handover");
    if (history.is_null() || contains(reasons_, "condemned"))
        throw Error(Code::contradiction, "handover: the sender, " + text::quoted(site_) +
                                             ", has guidance that says discard for these doses: must not be received "
                                             "for use. Keep them apart, marked DO NOT USE, and ask the sender");
    if (!history.is_object()) refuse("handover", history, "a history");
    *handover = history;
}

void HandoverFile::check(World& w, Drafted& out, bool held_here) {
    const Receive receive = std::get<Receive>(out.entries.back().fact);
    if (stated_ && !whole_)
        out.warnings.push_back(
            "NOTHING BINDS this history to these doses: it names no site, product, lot or number of doses, and cannot "
            "say that they are on hold or in doubt where they come from: ask the sender. How long they were on the way "
            "is not known either, and no figure holds it");
    if (whole_) {
        const auto differs = [&](const std::string& what) { throw Error(Code::handover_differs, "handover: " + what); };
        if (product_ != receive.product)
            differs(not_for("product: must be " + text::quoted(receive.product) + ", which is received; it states " +
                            text::quoted(product_)));
        if (lot_ != receive.lot)
            differs(not_for("lot: must be " + text::quoted(receive.lot) + ", which is received; it states " +
                            text::quoted(lot_)));
        if (doses_ < receive.doses.count())
            differs(not_for("doses: " + std::to_string(receive.doses.count()) + " are received; it states " +
                            std::to_string(doses_) + ", and must be of as many at least"));
        out.filled.push_back(name() + ", of " + std::to_string(doses_) + (doses_ == 1 ? " dose" : " doses") + " to " +
                             to_ + " that left at " + w.known.zone().local_text(left_));
        if (!is_named_by(w.head.ledger, to_))
            out.warnings.push_back("FOR ANOTHER SITE? By the handover the doses were sent to " + text::quoted(to_) +
                                   ", and this ledger is of " + text::quoted(w.head.ledger) +
                                   ": look whether it is of this delivery");
        if (left_ > w.head.at)
            out.warnings.push_back("LEFT LATER: by the handover the doses left at " + w.known.zone().local_text(left_) +
                                   ", after they are received: look whether it is of this delivery");
        compare_expiry(w, out);
        for (const auto& line : beside_)  // of no figure and no list, here as there
            if (line.starts_with(learnt_start) || line.starts_with(display_start))
                out.warnings.push_back("THE SENDER SAYS, and no figure here holds it: " + line);
        if (const auto& use_by = receive.handover->history.use_by)
            out.warnings.push_back(
                "THEIR USE IS SHORTENED: by the handover they are usable " + usable_words(*use_by, w.known.zone()) +
                (*use_by <= w.head.at ? ": PAST, do not use" : ", whatever the expiry says: write it on them"));
        received_before(w, receive, out);

        const Product* product = w.known.product(receive.product);
        std::vector<std::string> shown;  // of itself, by the history
        if (product && receive.handover->allowance_seconds == ledger::allowance_seconds(*product))
            shown = quarantine_reasons(receive.handover->history, *product, w.known.unmonitored_limit());
        if (!shown.empty()) {
            std::string all;
            for (const auto& reason : shown) all += (all.empty() ? "" : ", ") + reason;
            out.warnings.push_back("DO NOT USE: by this history they are on the list quarantine here, too (" + all +
                                   "): mark them, keep them in range, and ask the sender for the answer");
        }
        auto why = to_hold_;
        for (const auto& reason : reasons_)
            if (reason != "expired" && !contains(shown, reason) && (reason != "held" || to_hold_.empty()))
                why.push_back(reason);
        for (const auto& one : why) hold_ += (hold_.empty() ? "held at " + site_ + ": " : "; ") + one;
        hold_ = shortened(hold_);
    }
    if (whole_) judge_way(w, receive, out);
    if (no_hold_ && hold_.empty() && !held_here)
        throw Error(Code::contradiction, "no_hold: comes with a handover of doses that the sender has on hold or in "
                                         "doubt; this states none");
    if (hold_.empty()) return;
    const std::string said = no_hold_ ? "NOT PUT ON HOLD, because: " + *no_hold_ + ". They were " + hold_
                                : "DO NOT USE: the doses are put on hold here, too, since they were " + hold_ +
                                      ". Mark them, keep them in range, and ask the sender for the answer";
    out.warnings.insert(out.warnings.begin(), said);
}

/// No figure of either site holds the way.
void HandoverFile::judge_way(World& w, const Receive& receive, Drafted& out) {
    way_ = way_words(left_, w.head.at, w.known.zone());
    if (left_ >= w.head.at) return;
    const Duration took = w.head.at - left_;
    const std::string what = "the way took " + duration_words(Rational(took.seconds()), true) + ", from " +
                             w.known.zone().local_text(left_) + " to " + w.known.zone().local_text(w.head.at) +
                             ": nothing is known of it, and no figure of this ledger holds it";
    const Place* place = w.known.place(receive.place);
    const Duration most = place ? place->near.value_or(Place::usual_near) : Place::usual_near;
    if (took > most && hold_.empty() && !out.entries.back().note)
        throw Error(Code::missing_field,
                    "note: must say what is known of the way: " + what +
                        ". NOT WRITTEN: post it again with the note; or receive them at the instant they left into the "
                        "container they travelled in, with its readings or checks, and move them from there");
    out.warnings.push_back("THE WAY: " + what);
}

void HandoverFile::compare_expiry(World& w, Drafted& out) const {
    std::string here;
    if (const auto id = w.store.lot(product_, lot_)) here = w.known.expiry(w.store.lot_definitions(*id));
    for (const auto& entry : out.entries)
        if (const auto* lot = std::get_if<Lot>(&entry.fact)) here = lot->expiry;
    if (here.empty() || Date::parse_expiry(here) == expiry_) return;
    const std::string differs = "the sender states " + expiry_.text() + " for lot " + text::quoted(lot_) +
                                ", this ledger " + Date::parse_expiry(here).text() + ": read the label again";
    if (Date::parse_expiry(here) > expiry_ && !out.entries.back().note)
        throw Error(Code::missing_field, "note: must say what the label says, since the later day would count: " +
                                             differs + ". NOT WRITTEN: post it again with the note");
    out.warnings.push_back("EXPIRY DIFFERS: " + differs);
}

void HandoverFile::received_before(World& w, const Receive& receive, Drafted& out) const {
    const auto id = w.store.lot(product_, lot_);
    if (!id) return;
    std::string entries;
    std::int64_t doses = receive.doses.count();
    for (const auto& m : w.store.movements(*id)) {
        if (m.op != ledger::MovementOp::receive || !m.flag || !w.known.is_known(m.entry)) continue;
        const auto note = w.store.named_entry(m.entry).note.value_or("") + ";";
        if (note.find(name() + ";") == std::string::npos) continue;
        entries += (entries.empty() ? "" : ", ") + std::to_string(m.entry);
        doses += m.doses;
    }
    if (entries.empty()) {
        if (doses < doses_)
            out.warnings.push_back("FEWER THAN WERE SENT: " + std::to_string(doses_ - doses) + " of the " +
                                   std::to_string(doses_) + " are not received with this: ask where they are");
        return;
    }
    out.warnings.push_back("RECEIVED ALREADY: the " + name() + " was received by entry " + entries +
                           ": with this, " + std::to_string(doses) + " of its " + std::to_string(doses_) + " doses" +
                           (doses > doses_ ? ", MORE THAN WERE SENT" : "") +
                           ". If these are the same doses, take one back");
}

void HandoverFile::finish(Drafted& out) const {
    if (!whole_) return;
    Entry& receive = out.entries.back();
    std::string note = receive.note ? *receive.note + "; " : "";
    if (!hold_.empty() && no_hold_) note += "not put on hold: " + *no_hold_ + "; ";
    receive.note = note + name() + "; " + way_;
    if (hold_.empty() || no_hold_) return;
    const auto& r = std::get<Receive>(receive.fact);
    Entry hold;
    hold.at = receive.at;
    hold.by = receive.by;
    hold.fact = Hold{hold_, r.product, r.lot, r.place, r.mark};
    out.entries.push_back(std::move(hold));
}

}  // namespace coldtally::answers
