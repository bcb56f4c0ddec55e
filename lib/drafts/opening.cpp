#include "drafts/opening.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "drafts/filling.hpp"
#include "drafts/naming.hpp"
#include "stock/stock.hpp"
#include "stock/vial_in_use.hpp"
#include "stock/which.hpp"
#include "words/drafts_arrivals.hpp"
#include "words/drafts_warnings.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

constexpr std::size_t longest_mark = 64;

UseLimits limits_of(const World& w, const HoldingKey& key) {
    for (const auto& lot : w.lots_of(key.lot, key.product)) return use_of(w, lot).limits(key);
    return {};
}

LastUse last_use_when_opened(const World& w, const HoldingKey& from, Instant opened, Duration period) {
    UseLimits limits = limits_of(w, from);
    limits.push_back({{UseLimitKind::beyond_use, std::nullopt, opened + period}, true});
    for (const auto& lot : w.lots_of(from.lot, from.product))
        return last_use(w.known.zone(), w.expired_from(lot), limits);
    return {};
}

std::int64_t doses_there(const World& w, const HoldingKey& key) {
    for (const auto& one : doses_present(w))
        if (one.holding == key) return one.doses.count();
    return 0;
}

HoldingKey key_of(const Json& fields) {
    return {stated(fields, "place"), stated(fields, "product"), stated(fields, "lot"), stated(fields, "fund"),
            stated(fields, "mark")};
}

/// Else the opening goes before a give or a waste.
bool of_beyond_use(const Json& fields) { return stated(fields, "kind") == "beyond-use"; }

/// How many doses were in the vial: a whole one's, or all there are; else it must be said.
std::int64_t usual_doses(const Product& product, std::int64_t there) {
    const std::int64_t vial = product.doses_per_vial->count();
    const std::int64_t beside = beside_whole_vials(product, there);
    if (there <= vial) return there;
    if (beside == 0) return vial;
    throw WhichOne(words::vial_doses_not_stated(there, vial),
                   {choice_of({stated_as("vial_doses", std::to_string(vial))}, words::vial_was_full()),
                    choice_of({stated_as("vial_doses", std::to_string(beside))}, words::vial_was_in_use())});
}

/// That of the product; Code::contradiction where there is none.
OpeningPeriod period_needed(const World& w, const std::string& id) {
    const Product* product = w.known.product(id);
    if (auto period = product ? opening_period(*product) : std::nullopt) return *period;
    throw Error(Code::contradiction,
                "opened: product " + text::quoted(id) +
                    " must have several doses a vial (doses_per_vial) and a period of beyond-use after an opening, "
                    "such as \"first puncture\", and has not both; define it so, or note a use_by");
}

/// When the vial was opened: as stated, else at the draft's instant.
Instant opened_at(const World& w, const Json& fields, Instant now) {
    if (!fields.contains("opened")) return w.head.at;
    if (of_beyond_use(fields))
        throw Error(Code::contradiction, "opened: of a beyond-use at says when it was opened");
    if (!is_stated(fields, "opened")) throw Error(Code::bad_value, "opened: must be text");
    const Instant at = [&] {
        try {
            return typed_instant(stated(fields, "opened"), w.known.zone(), now);
        } catch (const Error& e) {
            throw Error(e.code(), std::string("opened: ") + e.what());
        }
    }();
    if (at > w.head.at)
        throw Error(Code::contradiction, "opened: " + w.known.zone().local_text(at) + ": must not be after at, " +
                                             w.known.zone().local_text(w.head.at));
    return at;
}

void must_be_unopened(const World& w, const HoldingKey& from) {
    if (is_opened(limits_of(w, from)))
        throw Error(Code::contradiction, "opened: the doses of " + text::quoted(from.lot) + " in " +
                                             text::quoted(from.place) +
                                             (from.mark.empty() ? "" : ", mark " + text::quoted(from.mark)) +
                                             " are of a vial that was opened already: give out of it without opened "
                                             "and vial, or state the mark of doses that were not opened");
}

/// The mark that keeps the vial apart: as stated, else one that says when it was opened.
std::string mark_of_vial(const World& w, const Json& fields, const HoldingKey& from, Instant opened,
                         std::vector<Remark>& filled) {
    std::string mark = stated(fields, "vial");
    if (mark.empty()) {
        if (fields.contains("vial"))
            throw Error(Code::bad_value, "vial: must be a mark that keeps the opened vial apart, and is empty");
        mark = (from.mark.empty() ? "" : from.mark + ", ") + "opened " + w.known.zone().local_text(opened);
        filled.push_back(words::vial_named(text::quoted(mark)));
    }
    if (mark.size() > longest_mark)
        throw Error(Code::bad_value,
                    "vial: " + text::quoted(mark) + ": too long; state a mark of at most 64 characters");
    HoldingKey vial = from;
    vial.mark = mark;
    if (doses_there(w, vial) > 0)
        throw Error(Code::contradiction, "vial: " + text::quoted(mark) +
                                             ": doses of this lot have that mark there already: must be another; to "
                                             "give out of that vial state it as the mark");
    return mark;
}

/// What was in the vial: as stated, else as is usual; no more than that can be given or wasted of it.
Doses doses_of_vial(const World& w, const Json& fields, const HoldingKey& from, std::vector<Remark>& filled) {
    const std::int64_t there = doses_there(w, from);
    std::int64_t doses = 0;
    if (fields.contains("vial_doses")) {
        if (!fields["vial_doses"].is_number_integer())
            throw Error(Code::bad_value, "vial_doses: must be a whole number");
        doses = fields["vial_doses"].get<std::int64_t>();
        const std::int64_t most = std::max<std::int64_t>(there, 1);
        if (doses < 1 || doses > most)
            throw Error(Code::bad_value, "vial_doses: " + std::to_string(doses) + ": must be 1 to the " +
                                             std::to_string(there) + " that are there");
    } else {
        const Product& product = *w.known.product(from.product);
        doses = usual_doses(product, there);
        filled.push_back((doses == product.doses_per_vial->count() ? words::whole_vial : words::vial_of_all)(doses));
    }
    if (!of_beyond_use(fields) && fields.contains("doses") && fields["doses"].is_number_integer() &&
        fields["doses"].get<std::int64_t>() > doses)
        throw Error(Code::contradiction, "doses: " + std::to_string(fields["doses"].get<std::int64_t>()) +
                                             ": must be at most the " + std::to_string(doses) + " of the vial");
    return Doses(doses);
}

}  // namespace

void find_unopened(World& w, Json& fields, std::vector<Remark>& filled) {
    if ((!fields.contains("opened") && !fields.contains("vial")) || is_stated(fields, "mark")) return;
    std::vector<HoldingKey> match;
    for (const auto& one : doses_present(w)) {
        const auto& k = one.holding;
        const auto fits = [&](const char* field, const std::string& value) {
            return !is_stated(fields, field) || stated(fields, field) == value;
        };
        if (fits("place", k.place) && fits("product", k.product) && fits("lot", k.lot) && fits("fund", k.fund) &&
            !is_opened(limits_of(w, k)))
            match.push_back(k);
    }
    if (match.size() != 1) return;  // said where the holding is filled in
    fields["mark"] = match[0].mark;
    filled.push_back(match[0].mark.empty() ? words::out_of_no_mark()
                                           : words::out_of_mark(text::quoted(match[0].mark)));
}

std::optional<Opening> take_opening(World& w, Json& fields, Instant now, std::vector<Remark>& filled) {
    if (!fields.contains("opened") && !fields.contains("vial")) {
        if (fields.contains("vial_doses"))
            throw Error(Code::contradiction, "vial_doses: comes with opened or vial, and only with one of them");
        return std::nullopt;
    }
    Opening out;
    out.noted = true;
    out.from = key_of(fields);
    const OpeningPeriod period = period_needed(w, out.from.product);
    out.event = period.event;
    out.period = period.period;
    out.at = opened_at(w, fields, now);
    must_be_unopened(w, out.from);
    out.mark = mark_of_vial(w, fields, out.from, out.at, filled);
    out.doses = doses_of_vial(w, fields, out.from, filled);
    out.last_use = last_use_when_opened(w, out.from, out.at, out.period);
    for (const char* field : {"opened", "vial", "vial_doses"}) fields.erase(field);
    fields["mark"] = out.mark;
    if (of_beyond_use(fields) && !fields.contains("event") && !fields.contains("use_by")) {
        fields["event"] = out.event;
        filled.push_back(words::event_named(text::quoted(out.event)));
    }
    return out;
}

std::optional<Opening> opening_offer(World& w, const HoldingKey& from, Doses taken, bool given) {
    const Product* product = w.known.product(from.product);
    const auto period = product ? opening_period(*product) : std::nullopt;
    if (!period || (!given && beside_whole_vials(*product, taken.count()) == 0) || is_opened(limits_of(w, from)))
        return std::nullopt;
    const std::int64_t there = doses_there(w, from);
    const std::int64_t vial = product->doses_per_vial->count();
    Opening out;
    out.from = from;
    out.doses = Doses(there <= vial ? there : beside_whole_vials(*product, there) == 0 ? vial : 0);
    const auto first = first_dose_of_vial(w, from);
    out.at = first ? first->at : w.head.at;
    out.event = period->event;
    out.period = period->period;
    out.last_use = last_use_when_opened(w, from, out.at, out.period);
    return out;
}

std::vector<Json> opening_entries(const Opening& o, const Json& fields) {
    const std::string by = fields.value("by", std::string());
    const auto& k = o.from;
    std::vector<Json> out{Json{{"kind", "move"},
                               {"by", by},
                               {"at", o.at.text()},
                               {"product", k.product},
                               {"lot", k.lot},
                               {"fund", k.fund},
                               {"from", {{"place", k.place}, {"mark", k.mark}}},
                               {"to", {{"place", k.place}, {"mark", o.mark}}},
                               {"doses", o.doses.count()}}};
    if (stated(fields, "kind") != "beyond-use")
        out.push_back(Json{{"kind", "beyond-use"},
                           {"by", by},
                           {"at", o.at.text()},
                           {"place", k.place},
                           {"product", k.product},
                           {"lot", k.lot},
                           {"fund", k.fund},
                           {"mark", o.mark},
                           {"event", o.event}});
    return out;
}

namespace {

Remark given_words(const GivenOut& g, const Zone& zone) { return words::entry_at(g.entry, zone.local_text(g.at)); }

Remark begun_words(const FirstDose& first, const Zone& zone) {
    return (first.begun_before ? words::vial_lacked_doses : words::vial_was_begun)(zone.local_text(first.at),
                                                                                   first.entry);
}

}  // namespace

void must_be_another_vial(const World& w, const Opening& o) {
    const Zone& zone = w.known.zone();
    std::vector<Field> past;
    for (const auto& g : given_since(w, o.from, o.last_use.until)) past.push_back(given_words(g, zone));
    if (past.empty()) return;
    throw Error(Code::missing_field,
                "note: must say that it was of another vial: gives since " + zone.local_text(o.at) +
                    " out of the doses that were not opened: " + english().say(words::listed(past)) +
                    ", past the use of this vial, " + english().say(last_use_words(o.last_use, zone)) +
                    ". Is it of this vial? Then take it back (takeback), note the opening, and give it out of mark " +
                    text::quoted(o.mark) +
                    ", so that review finds it. NOT WRITTEN: do so, or post it again with the note");
}

namespace {

/// Of an opening that is noted.
void tell_noted(const World& w, const Opening& o, const Field& period, Drafted& out) {
    const Zone& zone = w.known.zone();
    const auto first = first_dose_of_vial(w, o.from);
    if (first && first->at < o.at)
        out.warnings.push_back(words::is_it_another_vial(begun_words(*first, zone), zone.local_text(o.at)));
    std::vector<Field> within;
    std::int64_t all = o.doses.count();
    for (const auto& g : given_since(w, o.from, o.at)) {
        if (g.at >= o.last_use.until) break;
        within.push_back(given_words(g, zone));
        all += g.doses.count();
    }
    const Product* product = w.known.product(o.from.product);
    const std::string mark = text::quoted(o.mark);
    if (!within.empty() && product && all > product->doses_per_vial.value_or(Doses(0)).count())
        out.warnings.push_back(words::given_since_then(words::listed(within), mark));
    const Remark until = last_use_words(o.last_use, zone);
    out.next_steps.push_back(words::write_on_the_vial(zone.local_text(o.at), until, period, mark));
    if (w.head.at >= o.last_use.until)
        out.warnings.push_back(words::vial_past_its_use(until, words::if_given_already()));
}

}  // namespace

void tell_opening(const World& w, const Opening& o, Drafted& out) {
    const Zone& zone = w.known.zone();
    const Remark period = words::time_after_event(duration_words(Rational(o.period.seconds()), false), o.event);
    if (o.noted) return tell_noted(w, o, period, out);

    const Product& product = *w.known.product(o.from.product);
    const Field what =
        words::no_opening_is_noted(text::quoted(o.from.product), product.doses_per_vial->count(), period,
                                   text::quoted(o.from.lot), text::quoted(o.from.place));
    if (std::ranges::any_of(out.warnings, [&](const Remark& said) {  // once for all doses of a lot
            return said.is(words::note_the_opening) && said.fields.front() == what;
        }))
        return;
    Remark then = words::would_be_usable(zone.local_text(o.at), last_use_words(o.last_use, zone));
    if (const auto first = first_dose_of_vial(w, o.from)) {
        Remark until = last_use_words(o.last_use, zone);
        if (first->begun_before) until = words::opened_before_that(std::move(until));
        then = words::by_the_book(begun_words(*first, zone), std::move(until));
        if (w.head.at >= o.last_use.until) then = words::and_past(std::move(then));
    }
    out.warnings.push_back(words::note_the_opening(what, std::move(then)));
}

}  // namespace coldtally::answers
