#include "drafts/handover_file.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/restated.hpp"
#include "stock/way_note.hpp"
#include "text/limits.hpp"
#include "text/names_alike.hpp"
#include "text/utf8.hpp"
#include "words/conditions.hpp"
#include "words/drafts_arrivals.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"
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

std::string text_of(const Json& form, const char* field) {
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

/// What is said beside the figures and must be said here, too, since no figure of this site holds it either; all of it
/// where the file has no codes.
std::vector<SenderLine> told_beside(const Json& form) {
    if (!form.contains("beside")) return {};
    const auto texts = list(form, "beside");
    const auto codes = form.find("beside_codes");
    std::vector<SenderLine> out;
    if (codes == form.end() || !codes->is_array() || codes->size() != texts.size()) {
        for (const auto& text : texts) out.push_back({{}, text});
        return out;
    }
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Json& one = (*codes)[i];
        const Json code = one.is_object() && one.contains("code") ? one["code"] : Json();
        if (!code.is_string() || code == words::learnt_after_guidance.phrase.code ||
            code == words::display_showed.phrase.code || code == words::handover_vial_not_noted.phrase.code ||
            code == words::handover_restated.phrase.code || code == words::held_after_guidance.phrase.code ||
            code == words::sender_said.phrase.code || code == words::sender_forbids.phrase.code)
            out.push_back({code.is_string() ? code.get<std::string>() : std::string(), texts[i]});
    }
    return out;
}

bool contains(const std::vector<std::string>& all, const std::string& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

/// None: a name that this version does not know.
std::optional<Reason> reason_of(const std::string& name) {
    for (int i = 0; i <= static_cast<int>(Reason::held); ++i)
        if (reason_name(static_cast<Reason>(i)) == name) return static_cast<Reason>(i);
    return std::nullopt;
}

/// Short enough to be the reason of an entry, whatever another site wrote.
std::string shortened(std::string text) {
    constexpr std::size_t most = 3000;
    if (text.size() <= most) return text;
    std::size_t end = most;
    while ((static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // not within a character
    return text.substr(0, end) + " ...";
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
    site_ = text_of(form, "ledger");
    transfer_ = whole(form, "transfer");
    const std::string left = text_of(form, "left"), expiry = text_of(form, "expiry");
    try {
        left_ = parse_instant(left, zone);
        expiry_ = Date::parse(expiry);
    } catch (const Error& e) {
        throw Error(e.code(), std::string("handover: left, expiry: ") + e.what());
    }
    to_ = text_of(form, "to");
    product_ = text_of(form, "product");
    lot_ = text_of(form, "lot");
    doses_ = whole(form, "doses");
    reasons_ = list(form, "reasons");
    told_ = told_beside(form);
    to_hold_ = list(form, "to_hold");
    const Json& history = value(form, "handover");
    if (history.is_null() || contains(reasons_, "condemned"))
        throw Error(Code::contradiction, "handover: the sender, " + text::quoted(site_) +
                                             ", has guidance that says discard for these doses: must not be received "
                                             "for use. Keep them apart, marked DO NOT USE, and ask the sender");
    if (!history.is_object()) refuse("handover", history, "a history");
    *handover = history;
}

/// As a receive's note names it, too: the form of an entry.
Remark HandoverFile::name() const { return words::handover_named(site_, transfer_); }

/// "held at Harbour: warm; recall": also the reason of the hold, and then no longer than such a text may be.
Field HandoverFile::held() const {
    const Remark out = words::held_at(site_, *words::semicolons(why_));
    const std::string whole = english().say(out), reason = shortened(whole);
    return reason == whole ? Field(out) : Field(reason);
}

void HandoverFile::check(World& w, Drafted& out, bool held_here) {
    const Receive receive = std::get<Receive>(out.entries.back().fact);
    if (stated_ && !whole_) out.warnings.push_back(words::nothing_binds());
    if (whole_) {
        must_fit(receive);
        say_what_it_is(w, receive, out);
        compare_with_history(w, receive, out);
        judge_way(w, receive, out);
    }
    if (no_hold_ && why_.empty() && !held_here)
        throw Error(Code::contradiction, "no_hold: comes with a handover of doses that the sender has on hold or in "
                                         "doubt; this states none");
    if (why_.empty()) return;
    out.warnings.insert(out.warnings.begin(),
                        no_hold_ ? words::sent_not_held(*no_hold_, held()) : words::sent_held(held()));
}

void HandoverFile::must_fit(const Receive& receive) const {
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
}

void HandoverFile::say_what_it_is(World& w, const Receive& receive, Drafted& out) const {
    const Zone& zone = w.known.zone();
    out.filled.push_back(words::handover_is_of(name(), words::doses(doses_), to_, zone.local_text(left_)));
    if (!text::named_alike(w.head.ledger, to_))
        out.warnings.push_back(words::for_another_site(text::quoted(to_), text::quoted(w.head.ledger)));
    if (left_ > w.head.at) out.warnings.push_back(words::left_later(zone.local_text(left_)));
    compare_expiry(w, out);
    for (const auto& line : told_) out.warnings.push_back(words::the_sender_says(line.text));
    say_use(w, receive, out);
    received_before(w, receive, out);
}

/// A use-by after the expiry shortens nothing. Of two expiries the earlier is the one to go by.
void HandoverFile::say_use(World& w, const Receive& receive, Drafted& out) const {
    const auto& use_by = receive.handover->history.use_by;
    if (!use_by) return;
    const Zone& zone = w.known.zone();
    const Date last = std::min(expiry_, expiry_here(w, out).value_or(expiry_));
    const Remark usable = usable_words(*use_by, zone);
    if (*use_by <= w.head.at)
        out.warnings.push_back(words::use_is_past(usable));
    else if (*use_by > zone.end_of_day(last))
        out.warnings.push_back(words::handover_use_by_late(usable, last.text()));
    else if (*use_by < zone.end_of_day(last))
        out.warnings.push_back(words::use_is_shortened(usable));
}

/// What the history shows of itself needs no hold; the sender's other reasons do.
void HandoverFile::compare_with_history(World& w, const Receive& receive, Drafted& out) {
    const Product* product = w.known.product(receive.product);
    std::vector<Reason> shown;
    if (product && receive.handover->allowance_seconds == ledger::allowance_seconds(*product))
        shown = quarantine_reasons(receive.handover->history, *product, w.known.unmonitored_limit());
    if (!shown.empty()) out.warnings.push_back(words::history_in_quarantine(said::reasons_words(shown)));
    for (const auto& one : to_hold_) why_.push_back(words::as_said(one));
    for (const auto& name : reasons_) {
        const auto reason = reason_of(name);
        if (reason == Reason::expired || (reason == Reason::held && !to_hold_.empty()) ||
            (reason && std::ranges::find(shown, *reason) != shown.end()))
            continue;
        why_.push_back(reason ? said::reason_words(*reason) : words::as_said(name));
    }
}

/// No figure of either site holds the way.
void HandoverFile::judge_way(World& w, const Receive& receive, Drafted& out) {
    way_ = way_note(left_, w.head.at, w.known.zone());
    if (left_ >= w.head.at) return;
    const Duration took = w.head.at - left_;
    const Remark what = words::the_way_took(duration_words(Rational(took.seconds()), true),
                                            w.known.zone().local_text(left_), w.known.zone().local_text(w.head.at));
    const Place* place = w.known.place(receive.place);
    const Duration most = place ? place->near.value_or(Place::usual_near) : Place::usual_near;
    if (took > most && why_.empty() && !out.entries.back().note)
        throw Error(Code::missing_field,
                    "note: must say what is known of the way: " + english().say(what) +
                        ". NOT WRITTEN: post it again with the note; or receive them at the instant they left into the "
                        "container they travelled in, with its readings or checks, and move them from there");
    out.warnings.push_back(words::the_way(what));
}

std::optional<Date> HandoverFile::expiry_here(World& w, const Drafted& out) const {
    std::string here;
    if (const auto id = w.store.lot(product_, lot_)) here = w.known.expiry(w.store.lot_definitions(*id));
    for (const auto& entry : out.entries)
        if (const auto* lot = std::get_if<Lot>(&entry.fact)) here = lot->expiry;
    return here.empty() ? std::nullopt : std::optional(Date::parse_expiry(here));
}

void HandoverFile::compare_expiry(World& w, Drafted& out) const {
    const auto here = expiry_here(w, out);
    if (!here || *here == expiry_) return;
    const Remark differs = words::sender_states_expiry(expiry_.text(), text::quoted(lot_), here->text());
    if (*here > expiry_ && !out.entries.back().note)
        throw Error(Code::missing_field, "note: must say what the label says, since the later day would count: " +
                                             english().say(differs) + ". NOT WRITTEN: post it again with the note");
    out.warnings.push_back(words::sender_expiry_differs(differs));
}

void HandoverFile::received_before(World& w, const Receive& receive, Drafted& out) const {
    const auto id = w.store.lot(product_, lot_);
    if (!id) return;
    std::vector<Field> entries;
    std::int64_t doses = receive.doses.count();
    const std::string noted = handover_note(site_, transfer_);
    for (const auto& m : w.store.movements(*id)) {
        if (m.op != ledger::MovementOp::receive || !m.flag || !w.known.is_known(m.entry)) continue;
        if (!names_handover(w.store.named_entry(m.entry).note, noted)) continue;
        entries.emplace_back(m.entry);
        doses += m.doses;
    }
    if (entries.empty()) {
        if (doses < doses_)
            out.warnings.push_back(words::fewer_than_sent(doses_ - doses, doses_));
        return;
    }
    const auto others = received_otherwise(w, product_, lot_, noted, *receive.handover);
    for (const Received& other : others) {
        const Receive& first = other.receive;
        out.warnings.push_back(words::received_otherwise(name(), other.entry, told_words(first.handover->history),
                                                         told_words(receive.handover->history)));
        if (other.at == *out.entries.back().at && first.place == receive.place && first.fund == receive.fund &&
            first.mark == receive.mark)
            out.next_steps.push_back(words::take_back_the_older(
                other.entry, words::task("takeback", {{"", std::to_string(other.entry)},
                                                      {"", english().say(words::same_transfer_restated())}})));
        else
            out.warnings.push_back(words::received_otherwise_elsewhere(
                w.known.zone().local_text(other.at),
                said::place_words({first.place, first.product, first.lot, first.fund, first.mark}), other.entry));
    }
    if (!others.empty()) return;
    out.warnings.push_back((doses > doses_ ? words::received_more : words::received_already)(
        name(), words::listed(entries), doses, doses_));
}

bool HandoverFile::finish(Drafted& out) const {
    if (!whole_) return false;
    Entry& receive = out.entries.back();
    std::string note = receive.note ? *receive.note + "; " : "";
    const bool says_why = !why_.empty() && no_hold_;
    if (says_why) note += no_hold_note(*no_hold_) + "; ";
    const std::string named = note + handover_note(site_, transfer_) + "; ";
    const std::size_t length = std::min(limits::free_text_characters, text::characters(named + way_));
    receive.note = named + sender_note(told_, limits::free_text_characters - length) + way_;
    if (why_.empty() || no_hold_) return says_why;
    const auto& r = std::get<Receive>(receive.fact);
    Entry hold;
    hold.at = receive.at;
    hold.by = receive.by;
    hold.fact = Hold{english().say(held()), r.product, r.lot, r.place, r.mark};
    out.entries.push_back(std::move(hold));
    return false;
}

}  // namespace coldtally::answers
