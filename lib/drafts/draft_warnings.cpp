#include "drafts/draft_warnings.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "conditions/fit.hpp"
#include "drafts/come_back.hpp"
#include "drafts/entry_warnings.hpp"
#include "drafts/read_back.hpp"
#include "drafts/redefine.hpp"
#include "incidents/release.hpp"
#include "stock/beside_notes.hpp"
#include "stock/departed.hpp"
#include "stock/doubt.hpp"
#include "stock/handover.hpp"
#include "stock/lists.hpp"
#include "stock/lot_twins.hpp"
#include "stock/opened_vials.hpp"
#include "stock/recalls.hpp"
#include "text/json_text.hpp"
#include "text/shell_word.hpp"
#include "upkeep/plan.hpp"

namespace coldtally::answers {

std::optional<Judged> listed(World& w, const HoldingKey& key) {
    for (const auto& lot : w.lots_of(key.lot, key.product))
        for (auto& row : listed(w, lot))
            if (row.holding == key) return std::move(row);
    return std::nullopt;
}

namespace {

constexpr const char* elsewhere =
    "DO NOT USE these yet: take doses from elsewhere until it is known what they have been through";

std::string with_and(const std::vector<std::string>& parts) {
    std::string out;
    for (std::size_t i = 0; i < parts.size(); ++i)
        out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return out;
}

struct Warner {
    World& w;
    const Entry& entry;
    Drafted& out;
    const bool all_leave = false;

    void say(const std::string& text) const {  // once for all entries of a batch
        if (std::find(out.warnings.begin(), out.warnings.end(), text) == out.warnings.end())
            out.warnings.push_back(text);
    }

    void twins(const std::string& number) const {
        for (const auto& lot : lot_twins(w, number))
            say("lot " + text::quoted(number) + " is easily taken for lot " + text::quoted(lot.number) + " of " +
                text::quoted(lot.product) + ": read the label again");
    }

    template <class T>
    static HoldingKey key_of(const T& t) {
        return {t.place, t.product, t.lot, t.fund, t.mark};
    }

    /// What leaves for use must be on keep.
    void not_on_keep(const std::optional<Judged>& row, const std::string& what_then) const {
        if (!row || row->list == List::keep) return;
        const HoldingKey& key = row->holding;
        say("NOT ON KEEP: lot " + text::quoted(key.lot) + " in " + text::quoted(key.place) +
            (key.mark.empty() ? "" : ", mark " + text::quoted(key.mark)) + " was on the list " +
            std::string(list_name(row->list)) + " then (" + with_and(row->reasons) + "). " + what_then);
    }

    /// An alarm is going: what was read last in the place is out of range, or the doses were there when an open
    /// incident was noticed.
    void alarm(const std::optional<Judged>& row) const {
        if (!row) return;
        const std::string& place = row->holding.place;
        if (const auto last = row->list == List::keep ? last_out_of_range(w, place) : std::nullopt)
            say("the last that was read in " + text::quoted(place) + " is out of range, " + *last + ": " + elsewhere);
        for (const Note& note : row->told)
            if (note.kind == Note::Kind::incident) say(note.text + ": " + elsewhere);
    }

    /// What the list that they are on does not say.
    void beside(const std::optional<ListsAnswer::Row>& row) const {
        if (!row) return;
        for (const auto& note : row->beside) say(note);
    }

    /// Nothing has been read for longer than half a day: twice a day is the trade's (common practice, no source).
    void unread(const std::optional<Judged>& row) const {
        if (!row || row->list != List::keep) return;
        const std::string& place = row->holding.place;
        const std::int64_t since = w.awaited(place).seconds();
        if (since > 43200)
            say("NOTHING WAS READ in " + text::quoted(place) + " for " + duration_words(Rational(since), true) +
                ": look at its display first, and note what it shows");
    }

    /// The same patient, the same lot, the same day.
    void given_before(const Give& g) const {
        const auto id = w.store.lot(g.product, g.lot);
        if (!id) return;
        const Zone& zone = w.known.zone();
        const Date today = zone.local(w.head.at).date;
        for (const auto& m : w.store.movements(*id)) {
            if (m.op != ledger::MovementOp::give || !w.known.is_known(m.entry) || std::abs(m.at - w.at) > 2 * 86400 ||
                zone.local(Instant(m.at)).date != today)
                continue;
            if (w.store.fact<Give>(m.entry).patient == g.patient)
                say("entry " + std::to_string(m.entry) + " gave the same patient of this lot at " +
                    zone.local_text(Instant(m.at)) + " already: if it is the same dose, take one back");
        }
    }

    bool has_probe(const std::string& place) const {
        for (const auto& a : trace::assignments(w.known))
            if (a.place == place && a.from <= w.at && a.until > w.at) return true;
        return false;
    }

    /// Doses come into a place from another.
    void into(const std::string& place) const {
        if (const auto last = last_out_of_range(w, place))
            say("the last that was read in " + text::quoted(place) + " is out of range, " + *last +
                ": wait until it is in range, or take another");
    }

    /// Doses with this history come into a holding.
    void arriving(const std::string& product_id, const HoldingKey& target, const History* incoming) const {
        const Place* place = w.known.place(target.place);
        const Product* product = w.known.product(product_id);
        if (!place || !product) return;
        const FitResult fits = fit(place->range, *product);
        if (fits.fit == Fit::allowance)
            say(text::quoted(target.place) + " (" + range_words(place->range) + ") is not the storage of " +
                text::quoted(product_id) + " (" + range_words(product->range) +
                "): time there counts against its allowance of " +
                duration_words(Rational((*product->allowances)[*fits.allowance].seconds.seconds()), false));
        if (freezes(place->range, *product))
            say("FREEZES: " + text::quoted(target.place) + " (" + range_words(place->range) + ") does not suit " +
                text::quoted(product_id) + " (" + range_words(product->range) +
                "): freezing can ruin doses that look as they always did");
        else if (fits.fit == Fit::unsuited)
            say(text::quoted(target.place) + " (" + range_words(place->range) + ") does not suit " +
                text::quoted(product_id) + " (" + range_words(product->range) +
                "), and no allowance covers it: time out of range puts it into quarantine");
        if (place->type == PlaceType::room && !has_probe(target.place))
            say("no logger is in " + text::quoted(target.place) +
                ": the time there is not known, and puts the doses into quarantine unless checks are made");
        for (const auto& incident : doubted_now(w, target.place))
            say("IN DOUBT: incident " + incident + " is open, and " + text::quoted(target.place) +
                " is not known to be good again: what comes in now is in doubt, too, and is on no hold");
        const auto there = listed(w, target);
        std::string sooner;  // a vial that was opened, put among others
        if (there && incoming) {
            const auto &a = there->history.use_by, &b = incoming->use_by;
            if (a != b && (a || b))
                sooner = "; ALL would be usable " +
                         usable_words(!a ? *b : !b ? *a : std::min(*a, *b), w.known.zone()) + ", as the first to end";
        }
        if (there && (!incoming || !(there->history == *incoming)))
            say("joins " + std::to_string(there->doses.count()) + " doses of the lot that are in " +
                text::quoted(target.place) +
                (target.mark.empty() ? " without a mark" : " under mark " + text::quoted(target.mark)) +
                ": from then on all of them count as exposed to the worse of the two" + sooner +
                "; a mark of its own keeps them apart");
    }

    /// What an answer is awaited for may come back into use.
    void answer_awaited(const HoldingKey& key) const {
        const auto row = listed(w, key);
        if (row && row->list == List::quarantine)
            say("lot " + text::quoted(key.lot) + " in " + text::quoted(key.place) +
                (key.mark.empty() ? "" : ", mark " + text::quoted(key.mark)) + " is on the list quarantine (" +
                with_and(row->reasons) +
                "): an answer is awaited, and may be that these doses can be used: throw nothing away and send nothing "
                "back before it has come");
    }

    /// Other movements of the lot that are equal to this one, and counts that it is dated before. `twice`: of a kind of
    /// which two equal ones are rare.
    void beside_others(bool twice) const {
        const auto names = ledger::movement_names(entry.fact);
        const auto id = names ? w.store.lot(names->product, names->lot) : std::nullopt;
        if (!id) return;
        const auto holding = [&](const std::string& place, const std::string& mark) {
            return place.empty() ? std::optional<std::int64_t>(0) : w.store.holding(*id, place, names->fund, mark);
        };
        const auto source = holding(names->source_place, names->source_mark),
                   target = holding(names->target_place, names->target_mark);
        std::set<std::int64_t> counted;
        for (const auto& m : w.store.movements(*id)) {
            if (!w.known.is_known(m.entry) || m.at < w.at) continue;
            if (twice && m.at == w.at && m.op == names->op && m.doses == names->doses && m.source == source &&
                m.target == target)
                say("entry " + std::to_string(m.entry) +
                    " is the same, at the same instant: if it is the same doses, take one back");
            // until the next count of a holding: that one sets what the book says
            if (m.at > w.at && m.op == ledger::MovementOp::count && (m.source == source || m.source == target) &&
                counted.insert(m.source).second)
                say("entry " + std::to_string(m.entry) + " counted lot " + text::quoted(names->lot) + " later, at " +
                    w.known.zone().local_text(Instant(m.at)) + ": its count then shows another difference");
        }
    }

    /// A recall is of doses that are at another site, too, and nothing here holds those.
    void have_left(const Hold& h) const {
        constexpr std::size_t most = 20;
        std::vector<Departure> gone;
        for (const auto& lot : w.lots())
            if (lot.product == h.product && (!h.lot || lot.number == *h.lot))
                for (auto& d : departures(w, lot))
                    if (!h.mark || d.holding.mark == *h.mark) gone.push_back(std::move(d));
        for (std::size_t i = 0; i < std::min(gone.size(), most); ++i)
            say("NOT HERE ANY MORE: " + left_words(gone[i], w.known.zone()) + ": " + left_advice(gone[i]));
        if (gone.size() > most)
            say("NOT HERE ANY MORE: " + std::to_string(gone.size() - most) +
                " more departures of this product: `coldtally follow-up` with each lot lists them");
    }

    /// Were doses ever where this would act?
    void matches_none(const std::string& product, const std::optional<std::string>& number,
                      const std::optional<std::string>& place, const std::optional<std::string>& mark,
                      const char* then) const {
        for (const auto& lot : w.lots()) {
            if (lot.product != product || (number && lot.number != *number)) continue;
            std::set<std::int64_t> meant;
            for (const auto& h : w.store.holdings(lot.lot))
                if ((!place || h.place == *place) && (!mark || h.mark == *mark)) meant.insert(h.holding);
            for (const auto& m : w.store.movements(lot.lot))
                if (w.known.is_known(m.entry) && (meant.contains(m.source) || meant.contains(m.target))) return;
        }
        say("no doses of " + text::quoted(product) + (number ? " lot " + text::quoted(*number) : "") +
            (place ? " in " + text::quoted(*place) : "") + (mark ? ", mark " + text::quoted(*mark) : "") +
            " are or were known: " + then);
    }

    void operator()(const Lot& l) const {
        twins(l.lot);
        // Common practice, no source: no vaccine is delivered with so long to go.
        const Date expiry = Date::parse_expiry(l.expiry), today = w.known.zone().local(w.head.known_on).date;
        if (expiry > Date{today.year + 10, today.month, today.day})
            say("lot " + text::quoted(l.lot) + " would expire on " + expiry.text() +
                ", more than ten years from now: read the year again");
        const auto id = w.store.lot(l.product, l.lot);
        const std::string before = id ? w.known.expiry(w.store.lot_definitions(*id)) : std::string();
        if (!before.empty() && Date::parse_expiry(before) != Date::parse_expiry(l.expiry))
            say("EXPIRY DIFFERS: lot " + text::quoted(l.lot) + " was known with expiry " + before + "; " + l.expiry +
                " replaces it, for all that was and will be asked");
        if (w.head.at >= w.known.zone().end_of_day(Date::parse_expiry(l.expiry)))
            say("lot " + text::quoted(l.lot) + " has expired already");
    }
    void operator()(const Receive& r) const {
        const auto id = w.store.lot(r.product, r.lot);
        const std::string expiry = id ? w.known.expiry(w.store.lot_definitions(*id)) : std::string();
        if (!expiry.empty()) {  // else its definition comes with it, and warns
            twins(r.lot);
            if (w.head.at >= w.known.zone().end_of_day(Date::parse_expiry(expiry)))
                say("lot " + text::quoted(r.lot) + " expired on " + Date::parse_expiry(expiry).text());
        }
        beside_others(true);
        if (r.handover && r.handover->history.total.seconds[static_cast<std::size_t>(Class::awaiting)].sign() > 0)
            say("READINGS WERE MISSING when the sender stated this history, for " +
                duration_words(r.handover->history.total.seconds[static_cast<std::size_t>(Class::awaiting)], true) +
                ": ask for it anew once they are read, and note that one in place of this");
        for (const auto& h : recalls(w, r.product, r.lot))
            say("DO NOT USE: a recall of this lot stands (entry " + std::to_string(h.entry) + "): " + h.fact.reason);
        for (const auto& said : condemned_elsewhere(w, r.product, r.lot, {}))
            say("CONDEMNED: guidance says discard for doses of lot " + text::quoted(r.lot) + " that were here: " +
                said + ". It does not hold for what comes now unless its issuer says so: keep these apart, and ask");
        if (!r.handover)
            for (const auto& one : entry.note ? may_come_back(w, r) : std::vector<std::string>())
                say("THE SAME DOSES? " + one + ": received without a history they count as never exposed");
        into(r.place);
        arriving(r.product, key_of(r), r.handover ? &r.handover->history : nullptr);
    }
    void operator()(const Move& m) const {
        twins(m.lot);
        beside_others(true);
        const HoldingKey source{m.from_place, m.product, m.lot, m.fund, m.from_mark};
        const HoldingKey target{m.to_place, m.product, m.lot, m.fund, m.to_mark};
        const auto row = listed(w, source);
        if (m.from_place != m.to_place || m.from_mark != m.to_mark)
            arriving(m.product, target, row ? &row->history : nullptr);
        if (m.from_place != m.to_place) into(m.to_place);
        if (row && row->list != List::keep && !m.from_mark.empty() && m.to_mark.empty())
            say("the doses lose their mark " + text::quoted(m.from_mark) + " while they are on the list " +
                std::string(list_name(row->list)));
    }
    void operator()(const Give& g) const {
        twins(g.lot);
        const auto row = listed(w, key_of(g));
        not_on_keep(row,
                    "If it has not been given yet, do not give it; if it has, it stands on the review list, and a "
                    "clinician decides with the health department");
        alarm(row);
        beside(row);
        unread(row);
        given_before(g);
        beside_others(false);
        if (!g.certain) say("the chart names the lot and not the box: review judges by the worst of its holdings");
    }
    void operator()(const Waste& t) const {
        twins(t.lot);
        beside_others(true);
        answer_awaited(key_of(t));
    }
    void operator()(const Return& r) const {
        twins(r.lot);
        beside_others(true);
        answer_awaited(key_of(r));
    }
    void operator()(const Transfer& t) const {
        twins(t.lot);
        beside_others(true);
        const auto row = listed(w, key_of(t));
        not_on_keep(row, "The receiver must be told, and their exposure goes with the doses");
        if (row && was_exposed(row->history))
            say("WERE OUT OF RANGE: the doses of lot " + text::quoted(t.lot) + " in " + text::quoted(t.place) +
                (t.mark.empty() ? "" : ", mark " + text::quoted(t.mark)) + " were " + exposure_words(row->history) +
                ", since receipt: their history must go with them (handover)");
        if (row)
            for (const Note& note : row->told)
                if (note.kind == Note::Kind::incident) say(note.text + ": the receiver must be told");
        beside(row);
        unread(row);
        if (row && !row->history.condemned_by.empty())
            say("guidance said discard for these doses: they are not to be transferred for use");
    }
    void operator()(const Count& c) const {
        twins(c.lot);
        beside_others(false);
        const auto row = listed(w, key_of(c));
        if (!row || row->doses == c.doses) return;
        const auto difference = c.doses.count() - row->doses.count();
        say("the book says " + std::to_string(row->doses.count()) + ": " +
            std::to_string(difference < 0 ? -difference : difference) + (difference < 0 ? " missing" : " found") +
            ", kept as variance; look for the reason before it is called waste");
    }
    void operator()(const Check& c) const {
        const Place& place = w.place(c.place);
        const Scale s = c.temperature.scale();
        struct Value {
            const char* name;
            const std::optional<Temperature> value;
        } const values[] = {{"temperature", c.temperature}, {"minimum", c.min}, {"maximum", c.max}};
        bool out_of_range = false, freezing = false;
        read_at_once(c);
        for (const auto& [name, value] : values) {
            if (!value) continue;
            const Scale other = s == Scale::C ? Scale::F : Scale::C;
            if (!is_in(place.range, s, value->thousandths()) && is_in(place.range, other, value->thousandths()))
                say(std::string(name) + " " + value->text() + " would be in range in °" + scale_letter(other) +
                    ": read the scale again; if it was mistyped, take this check back");
            else if (!is_plausible(*value))
                say(std::string(name) + " " + value->text() + " °" + scale_letter(s) +
                    " is beyond what vaccines are ever kept at: read it again; if it was mistyped, take this check "
                    "back");
            const Rational degrees(value->thousandths(), 1000);
            const bool cold = place.range.low && degrees < place.range.low->in(s),
                       warm = place.range.high && degrees > place.range.high->in(s);
            if (!cold && !warm) continue;
            out_of_range = true;
            const bool frozen = cold && may_freeze(place) && value->celsius() <= Rational(0);
            freezing = freezing || frozen;
            say("ACT NOW: " + std::string(name) + " " + value->text() + " °" + scale_letter(s) + " is " +
                (cold ? "below" : "above") + " the range of " + text::quoted(c.place) + ", " +
                range_words(place.range) + (frozen ? ", and FREEZING" : ""));
        }
        if (c.min && is_first(c.place))
            say("the first check of " + text::quoted(c.place) +
                ": its minimum and maximum are kept and not used, because nothing says since when they stand");
        if (!out_of_range) return;
        // Common practice, no source: keep, mark, move, measure, tell.
        out.next_steps = {
            "Mark the doses DO NOT USE; keep them in range; throw nothing away.",
            "Look at door, plug, power and setting." +
                (all_leave ? std::string()
                           : " Does the unit not come back soon, move the doses: coldtally move-list " +
                                 text::shell_word(w.store.database().path()) + " " + text::shell_word(c.place)),
            "Read the logger and import its file: it tells since when, and which doses were inside.",
            "Tell the supervisor; then the health department and the manufacturers, as local rules say. Note each as "
            "an incident step."};
        if (freezing)
            out.next_steps.insert(out.next_steps.begin() + 1,
                                  "Freezing can ruin doses that look as they always did: none is used before its "
                                  "manufacturer has answered.");
    }
    void operator()(const BeyondUse& b) const {
        twins(b.lot);
        const auto row = listed(w, key_of(b));
        const Product* product = w.known.product(b.product);
        if (!row || !product) return;
        std::optional<Instant> until;
        if (const auto* date = b.use_by ? std::get_if<Date>(&*b.use_by) : nullptr)
            until = w.known.zone().end_of_day(*date);
        if (const auto* instant = b.use_by ? std::get_if<Instant>(&*b.use_by) : nullptr) until = *instant;
        if (b.event && product->beyond_use)
            if (const auto period = product->beyond_use->find(*b.event); period != product->beyond_use->end())
                until = w.head.at + period->second;
        if (until && *until >= row->last_use.until)
            say("changes nothing: these doses are usable no longer than that as it is, " +
                last_use_words(row->last_use, w.known.zone()));
        if (const auto& vial = product->doses_per_vial;
            b.event && opens_vial(*b.event) && vial && vial->count() > 1 && row->doses > *vial)
            say("shortens the use of all " + std::to_string(row->doses.count()) + " doses there, more than the " +
                std::to_string(vial->count()) +
                " of one vial: if one vial was opened, state a mark for it (vial), which keeps its doses apart");
    }
    void operator()(const Hold& h) const {
        if (h.lot) twins(*h.lot);
        if (!h.place && !h.mark)
            say("names neither place nor mark: it stands as a recall, also for doses received later, until it is "
                "voided");
        if (!h.place && !h.mark && h.lot)
            if (const auto id = w.store.lot(h.product, *h.lot)) {
                std::int64_t given = 0;
                for (const auto& m : w.store.movements(*id))
                    if (m.op == ledger::MovementOp::give && w.known.is_known(m.entry)) given += m.doses;
                if (given > 0)
                    say(std::to_string(given) + (given == 1 ? " dose" : " doses") +
                        " of this lot given: `coldtally follow-up --lot " + text::shell_word(*h.lot) +
                        " --product " + text::shell_word(h.product) + "` lists to whom");
            }
        if (!h.place) have_left(h);
        matches_none(h.product, h.lot, h.place, h.mark, "it holds none now");
    }
    void operator()(const Guidance& g) const {
        twins(g.lot);
        matches_none(g.product, g.lot, g.place, g.mark, "it judges none");
        for (const auto& said : recalls_lifted(w, g)) say(said);
        if (g.verdict != Verdict::discard && !g.told)
            say("no figures are stated that the issuer was told: it clears all that these doses have been through "
                "until " +
                w.known.zone().local_text(g.through) +
                ", and what is learnt of that time later, freezing as well. Where "
                "the issuer knew of less, state what was told");
    }
    void operator()(const Assign& a) const {
        if (!a.place) return;
        for (const auto& other : trace::assignments(w.known))
            if (other.place == *a.place && other.probe != a.probe && other.from <= w.at && other.until > w.at)
                say("ends the time of probe " + text::quoted(other.probe) + " in " + text::quoted(*a.place));
        const Certificate* c = trace::Calibration(w.known, a.probe).at(w.at);
        const auto certificates = w.known.certificates.find(a.probe);
        const bool later = !c && certificates != w.known.certificates.end() && !certificates->second.empty();
        if (later)
            say("probe " + text::quoted(a.probe) + " has no certificate then; its first is of " +
                w.known.zone().local(Instant(certificates->second.front().at)).date.text());
        else if (!c)
            say("probe " + text::quoted(a.probe) + " has no certificate");
        else if (w.head.at >= w.known.zone().end_of_day(c->expires))
            say("the certificate of probe " + text::quoted(a.probe) + " expired on " + c->expires.text());
    }
    void operator()(const Certificate& c) const {
        if (w.head.at >= w.known.zone().end_of_day(c.expires)) say("that certificate has expired already");
    }
    void operator()(const Site& s) const {
        if (s.zone != w.known.site().zone)
            say("the time zone changes from " + w.known.site().zone +
                ": local times and days of expiry are read in the new one");
    }
    void operator()(const Product& p) const {
        for (const auto& gtin : p.gtin.value_or(std::vector<std::string>()))
            if (!gtin_14(gtin))
                say("GTIN " + text::quoted(gtin) +
                    " has not 8, 12, 13 or 14 digits with a right check digit: no scanned code will be found by it");
    }
    /// Its holds are found again by it alone.
    void operator()(const Void& v) const {
        const auto e = w.store.entry(v.voids, false);
        const auto* i = e ? std::get_if<Incident>(&e->fact) : nullptr;
        if (!i || i->step != "noticed" || !i->place) return;
        std::string stand;
        for (const auto& h : w.known.holds)
            if (h.fact.reason == hold_reason(i->incident, *i->place))
                stand += (stand.empty() ? "" : ", ") + std::to_string(h.entry);
        if (!stand.empty())
            say("the holds that came with this notice stand (entries " + stand +
                "), and no incident says why any more: take them back, too, if nothing was wrong");
    }
    void operator()(const Plan& p) const {
        for (const auto& f : plan_findings(w, p, *entry.at)) say(f.text);
    }
    template <class Other>
    void operator()(const Other&) const {}

    /// A check of the same place at the same instant.
    void read_at_once(const Check& c) const {
        for (const auto& row : w.store.checks(c.place, w.at))
            if (row.at == w.at && w.known.is_known(row.entry))
                say("entry " + std::to_string(row.entry) + " is a check of " + text::quoted(c.place) +
                    " at that instant already: of the two the later entry holds");
    }

    /// Common practice, no source: nothing is stored colder than in liquid nitrogen, and no room is hotter.
    static bool is_plausible(const Temperature& t) {
        return t.celsius() >= Rational(-200) && t.celsius() <= Rational(60);
    }

    /// Its range keeps clear of freezing, so that 0 °C is not meant to be there.
    static bool may_freeze(const Place& place) {
        return place.range.low && place.range.low->in(Scale::C) >= Rational(0);
    }
    bool is_first(const std::string& place) const {
        return !w.store.check_before(place, w.at, [&](EntryNumber n) { return w.known.is_known(n); });
    }
};

}  // namespace

/// What another definition of a known thing changes, line by line as it is read back.
void warn_of_changes(World& w, const Entry& entry, Drafted& out) {
    const auto before = held(w.known, w.store, entry.fact);
    // of a lot its expiry is all, and is compared; rules are not read back, and say where they are looser
    if (!before || std::holds_alternative<Lot>(entry.fact) || std::holds_alternative<ProgrammeRules>(entry.fact))
        return;
    const auto old = read_back(*before), now = read_back(entry.fact);
    const auto value = [](const std::vector<ReadBack>& all, const std::string& name) {
        const auto it = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
        return it == all.end() ? std::string("not stated") : it->value;
    };
    std::vector<std::string> names;
    for (const auto* all : {&old, &now})
        for (const auto& one : *all)
            if (std::find(names.begin(), names.end(), one.name) == names.end() &&
                value(old, one.name) != value(now, one.name))
                names.push_back(one.name);
    if (names.empty()) out.warnings.push_back("says nothing that is not known already");
    for (const auto& name : names)
        out.warnings.push_back("CHANGES the definition for all that was and will be asked: " + name + ": " +
                               value(old, name) + " -> " + value(now, name));
}

void warn(World& w, const Entry& entry, Drafted& out, bool all_leave) {
    warn_of_changes(w, entry, out);
    EntryWarnings(w.store, w.known, EntryWarnings::Changes::said).add(entry, out.warnings, [&](const HoldingKey& key) {
        const auto row = listed(w, key);
        return row ? row->history.use_by : std::nullopt;
    });
    std::visit(Warner{w, entry, out, all_leave}, entry.fact);
}

}  // namespace coldtally::answers
