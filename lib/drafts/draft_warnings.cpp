#include "drafts/draft_warnings.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "conditions/fit.hpp"
#include "drafts/come_back.hpp"
#include "drafts/entry_warnings.hpp"
#include "drafts/naming.hpp"
#include "drafts/read_back.hpp"
#include "drafts/redefine.hpp"
#include "incidents/release.hpp"
#include "question/said.hpp"
#include "stock/beside_notes.hpp"
#include "stock/departed.hpp"
#include "stock/doubt.hpp"
#include "stock/handover.hpp"
#include "stock/lists.hpp"
#include "stock/lot_twins.hpp"
#include "stock/opened_vials.hpp"
#include "stock/recalls.hpp"
#include "text/json_text.hpp"
#include "upkeep/plan.hpp"
#include "words/drafts_checks.hpp"
#include "words/drafts_warnings.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

std::optional<Judged> listed(World& w, const HoldingKey& key) {
    for (const auto& lot : w.lots_of(key.lot, key.product))
        for (auto& row : listed(w, lot))
            if (row.holding == key) return std::move(row);
    return std::nullopt;
}

namespace {

Field with_and(const std::vector<Reason>& reasons) {
    std::vector<Field> all;
    for (const Reason reason : reasons) all.push_back(said::reason_words(reason));
    return words::listed_with_and(all);
}

struct Warner {
    World& w;
    const Entry& entry;
    Drafted& out;
    const bool all_leave = false;

    void say(Remark what) const {  // once for all entries of a batch
        if (std::find(out.warnings.begin(), out.warnings.end(), what) == out.warnings.end())
            out.warnings.push_back(std::move(what));
    }

    void twins(const std::string& number) const {
        for (const auto& lot : lot_twins(w, number))
            say(words::easily_taken_for(text::quoted(number), text::quoted(lot.number), text::quoted(lot.product)));
    }

    template <class T>
    static HoldingKey key_of(const T& t) {
        return {t.place, t.product, t.lot, t.fund, t.mark};
    }

    /// What leaves for use must be on keep.
    void not_on_keep(const std::optional<Judged>& row, Remark then) const {
        if (!row || row->list == List::keep) return;
        say(words::not_on_keep(lot_in(row->holding), said::list_words(row->list), with_and(row->reasons),
                               std::move(then)));
    }

    /// An alarm is going: what was read last in the place is out of range, or the doses were there when an open
    /// incident was noticed.
    void alarm(const std::optional<Judged>& row) const {
        if (!row) return;
        const std::string& place = row->holding.place;
        if (const auto last = row->list == List::keep ? last_out_of_range(w, place) : std::nullopt)
            say(words::take_from_elsewhere(words::last_read_out(text::quoted(place), *last)));
        for (const Note& note : row->told)
            if (note.kind == Note::Kind::incident) say(words::take_from_elsewhere(note.said));
    }

    /// The chart names the lot alone: what is said of the other boxes that the dose may have come out of.
    void may_be_of_others(const Give& g) const {
        for (const auto& lot : w.lots_of(g.lot, g.product))
            for (const auto& row : listed(w, lot)) {
                if (row.holding == key_of(g)) continue;
                const Field box = place_named(row.holding.place, row.holding.mark);
                if (row.list != List::keep)
                    say(words::lot_may_be_of(box, words::colon(said::list_words(row.list), with_and(row.reasons))));
                for (const Note& note : row.told)
                    if (note.kind == Note::Kind::incident) say(words::lot_may_be_of(box, note.said));
                for (const auto& one : row.beside)
                    if (forbids_use(one)) say(words::lot_may_be_of(box, one));
            }
    }

    /// Posted late: the time in doubt, in the place, of what was noticed after it and is open now.
    void in_later_doubt(const Give& g) const {
        AnswerHead head = w.head;
        head.at = std::max(head.at, head.known_on);
        if (head.at == w.head.at || w.store.incident_entries().empty()) return;
        World now(w.store, head, w.known);
        for (const Doubt& d : open_doubts(now)) {
            if (d.lapsed || d.from > w.at || d.noticed == 0) continue;
            const Instant noticed = *w.store.named_entry(d.noticed).at;
            if (noticed <= w.head.at) continue;  // an alarm that was going
            if (d.place == g.place)
                say(words::given_in_later_doubt(text::quoted(d.place), d.incident,
                                                w.known.zone().local_text(noticed)));
            else if (!g.certain && has_doses_of(g, d.place))
                say(words::may_be_in_later_doubt(text::quoted(d.place), d.incident,
                                                 w.known.zone().local_text(noticed)));
        }
    }

    /// Has the place any doses of that lot?
    bool has_doses_of(const Give& g, const std::string& place) const {
        for (const auto& lot : w.lots_of(g.lot, g.product)) {
            const auto walk = w.stock(lot);
            for (const auto& h : w.store.holdings(lot.lot))
                if (h.place == place && walk.doses(h.holding) > 0) return true;
        }
        return false;
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
            say(words::nothing_was_read(text::quoted(place), duration_words(Rational(since), true)));
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
                say(words::given_before(m.entry, zone.local_text(Instant(m.at))));
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
            say(words::wait_or_take_another(words::last_read_out(text::quoted(place), *last)));
    }

    /// Doses with this history come into a holding.
    void arriving(const std::string& product_id, const HoldingKey& target, const History* incoming) const {
        const Place* place = w.known.place(target.place);
        const Product* product = w.known.product(product_id);
        if (!place || !product) return;
        const FitResult fits = fit(place->range, *product);
        const std::string name = text::quoted(target.place), of = text::quoted(product_id);
        const Field place_range = range_words(place->range), product_range = range_words(product->range);
        if (fits.fit == Fit::allowance) {
            const Duration permitted = (*product->allowances)[*fits.allowance].seconds;
            say(words::not_its_storage(name, place_range, of, product_range,
                                       duration_words(Rational(permitted.seconds()), false)));
        }
        if (freezes(place->range, *product))
            say(words::place_freezes(name, place_range, of, product_range));
        else if (fits.fit == Fit::unsuited)
            say(words::place_unsuited(name, place_range, of, product_range));
        if (place->type == PlaceType::room && !has_probe(target.place)) say(words::room_without_logger(name));
        for (const auto& incident : doubted_now(w, target.place)) say(words::comes_into_doubt(incident, name));
        joins(target, incoming);
    }

    /// Doses with this history come to others of their lot.
    void joins(const HoldingKey& target, const History* incoming) const {
        const auto there = listed(w, target);
        if (!there || (incoming && there->history == *incoming)) return;
        const std::string place = text::quoted(target.place);
        const Remark where = target.mark.empty() ? words::there_without_mark(place)
                                                 : words::there_under_mark(place, text::quoted(target.mark));
        const std::optional<Instant> a = there->history.use_by, b = incoming ? incoming->use_by : a;
        if (a != b)  // a vial that was opened, put among others
            say(words::joins_there_sooner(
                there->doses.count(), where,
                usable_words(!a ? *b : !b ? *a : std::min(*a, *b), w.known.zone())));
        else
            say(words::joins_there(there->doses.count(), where));
    }

    /// What an answer is awaited for may come back into use.
    void answer_awaited(const HoldingKey& key) const {
        const auto row = listed(w, key);
        if (row && row->list == List::quarantine)
            say(words::wait_for_the_answer(words::on_list_quarantine(lot_in(key), with_and(row->reasons))));
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
                say(words::same_entry(m.entry));
            // until the next count of a holding: that one sets what the book says
            if (m.at > w.at && m.op == ledger::MovementOp::count && (m.source == source || m.source == target) &&
                counted.insert(m.source).second)
                say(words::counted_later(m.entry, text::quoted(names->lot), w.known.zone().local_text(Instant(m.at))));
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
            say(words::have_left(left_words(gone[i], w.known.zone()), left_advice(gone[i])));
        if (gone.size() > most) say(words::more_departures(gone.size() - most, words::task("follow_up")));
    }

    /// Were doses ever where this would act?
    void matches_none(const std::string& product, const std::optional<std::string>& number,
                      const std::optional<std::string>& place, const std::optional<std::string>& mark,
                      const words::Says<1>& then) const {
        for (const auto& lot : w.lots()) {
            if (lot.product != product || (number && lot.number != *number)) continue;
            std::set<std::int64_t> meant;
            for (const auto& h : w.store.holdings(lot.lot))
                if ((!place || h.place == *place) && (!mark || h.mark == *mark)) meant.insert(h.holding);
            for (const auto& m : w.store.movements(lot.lot))
                if (w.known.is_known(m.entry) && (meant.contains(m.source) || meant.contains(m.target))) return;
        }
        Field doses = text::quoted(product);
        if (number) doses = words::lot_of(std::move(doses), text::quoted(*number));
        if (place) doses = words::lot_in_place(std::move(doses), text::quoted(*place));
        if (mark) doses = words::comma(std::move(doses), words::mark_named(text::quoted(*mark)));
        say(then(std::move(doses)));
    }

    void operator()(const Lot& l) const {
        twins(l.lot);
        // Common practice, no source: no vaccine is delivered with so long to go.
        const Date expiry = Date::parse_expiry(l.expiry), today = w.known.zone().local(w.head.known_on).date;
        if (expiry > Date{today.year + 10, today.month, today.day})
            say(words::expires_late(text::quoted(l.lot), expiry.text()));
        const auto id = w.store.lot(l.product, l.lot);
        const std::string before = id ? w.known.expiry(w.store.lot_definitions(*id)) : std::string();
        if (!before.empty() && Date::parse_expiry(before) != Date::parse_expiry(l.expiry))
            say(words::expiry_replaced(text::quoted(l.lot), before, l.expiry));
        if (w.head.at >= w.known.zone().end_of_day(Date::parse_expiry(l.expiry)))
            say(words::lot_has_expired(text::quoted(l.lot)));
    }
    void operator()(const Receive& r) const {
        const auto id = w.store.lot(r.product, r.lot);
        const std::string expiry = id ? w.known.expiry(w.store.lot_definitions(*id)) : std::string();
        if (!expiry.empty()) {  // else its definition comes with it, and warns
            twins(r.lot);
            if (w.head.at >= w.known.zone().end_of_day(Date::parse_expiry(expiry)))
                say(words::lot_expired_on(text::quoted(r.lot), Date::parse_expiry(expiry).text()));
        }
        beside_others(true);
        constexpr auto awaiting = static_cast<std::size_t>(Class::awaiting);
        if (r.handover && r.handover->history.total.seconds[awaiting].sign() > 0)
            say(words::readings_were_missing(duration_words(r.handover->history.total.seconds[awaiting], true)));
        for (const auto& h : recalls(w, r.product, r.lot)) say(words::recall_holds_it(h.entry, h.fact.reason));
        for (const auto& guidance : condemned_elsewhere(w, r.product, r.lot, {}))
            say(words::lot_condemned(text::quoted(r.lot), guidance));
        if (!r.handover && entry.note)
            for (const auto& one : may_come_back(w, r)) say(words::the_same_doses(one));
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
            say(words::mark_lost(text::quoted(m.from_mark), said::list_words(row->list)));
    }
    void operator()(const Give& g) const {
        twins(g.lot);
        const auto row = listed(w, key_of(g));
        not_on_keep(row, words::if_given_already());
        alarm(row);
        beside(row);
        unread(row);
        given_before(g);
        beside_others(false);
        in_later_doubt(g);
        if (g.certain) return;
        say(words::lot_and_not_box());
        may_be_of_others(g);
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
        not_on_keep(row, words::exposure_goes_with_them());
        if (row && was_exposed(row->history))
            say(words::have_been_out_of_range(
                lot_in(key_of(t)), exposure_words(row->history).value_or(words::how_far_not_known())));
        if (row)
            for (const Note& note : row->told)
                if (note.kind == Note::Kind::incident) say(words::receiver_must_be_told(note.said));
        beside(row);
        unread(row);
        const Product* product = w.known.product(t.product);
        for (const auto& lot : w.lots_of(t.lot, t.product))
            if (const auto vial =
                    product ? vial_without_opening(*product, t.doses.count(), use_of(w, lot).limits(key_of(t)))
                            : std::nullopt)
                say(words::receiver_must_be_told(*vial));
        if (row && !row->history.condemned_by.empty())
            say(words::condemned_not_to_be_sent());
    }
    void operator()(const Count& c) const {
        twins(c.lot);
        beside_others(false);
        const auto row = listed(w, key_of(c));
        if (!row || row->doses == c.doses) return;
        const auto difference = c.doses.count() - row->doses.count();
        if (difference < 0)
            say(words::count_missing(row->doses.count(), -difference));
        else
            say(words::count_found(row->doses.count(), difference));
    }
    void operator()(const Check& c) const {
        const Place& place = w.place(c.place);
        const Scale s = c.temperature.scale();
        struct Value {
            const words::Says<1>& name;
            const std::optional<Temperature> value;
        } const values[] = {
            {words::temperature_is, c.temperature}, {words::minimum_is, c.min}, {words::maximum_is, c.max}};
        bool out_of_range = false, freezing = false;
        read_at_once(c);
        for (const auto& [name, value] : values) {
            if (!value) continue;
            const Scale other = s == Scale::C ? Scale::F : Scale::C;
            const Remark shown = name(value->text() + " °" + scale_letter(s));
            if (!is_in(place.range, s, value->thousandths()) && is_in(place.range, other, value->thousandths()))
                say(words::in_range_in_other_scale(name(value->text()), std::string(1, scale_letter(other))));
            else if (!is_plausible(*value))
                say(words::not_plausible(shown));
            const Rational degrees(value->thousandths(), 1000);
            const bool cold = place.range.low && degrees < place.range.low->in(s),
                       warm = place.range.high && degrees > place.range.high->in(s);
            if (!cold && !warm) continue;
            out_of_range = true;
            const bool frozen = cold && may_freeze(place) && value->celsius() <= Rational(0);
            freezing = freezing || frozen;
            say((frozen ? words::act_now_freezing
                 : cold ? words::act_now_below
                        : words::act_now_above)(shown, text::quoted(c.place), range_words(place.range)));
        }
        if (c.min && is_first(c.place))
            say(words::first_check(text::quoted(c.place)));
        if (out_of_range) steps_at_once(c.place, freezing);
    }

    /// Common practice, no source: keep, mark, move, measure, tell.
    void steps_at_once(const std::string& place, bool freezing) const {
        auto& steps = out.next_steps;
        steps = {words::mark_the_doses()};
        if (freezing) steps.push_back(words::freezing_can_ruin());
        steps.push_back(all_leave ? words::look_at_the_unit()
                                  : words::look_and_move(words::task(
                                        "move_list", {{"ledger", w.store.database().path()}, {"", place}})));
        steps.push_back(words::read_the_logger());
        steps.push_back(words::tell_the_supervisor());
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
            say(words::shortens_nothing(last_use_words(row->last_use, w.known.zone())));
        if (const auto& vial = product->doses_per_vial;
            b.event && opens_vial(*b.event) && vial && vial->count() > 1 && row->doses > *vial)
            say(words::shortens_all(row->doses.count(), vial->count()));
    }
    void operator()(const Hold& h) const {
        if (h.lot) twins(*h.lot);
        if (!h.place && !h.mark)
            say(words::stands_as_recall());
        if (!h.place && !h.mark && h.lot)
            if (const auto id = w.store.lot(h.product, *h.lot)) {
                std::int64_t given = 0;
                for (const auto& m : w.store.movements(*id))
                    if (m.op == ledger::MovementOp::give && w.known.is_known(m.entry)) given += m.doses;
                if (given > 0)
                    say(words::given_of_lot(
                        given, words::task("follow_up", {{"lot", *h.lot}, {"product", h.product}})));
            }
        if (!h.place) have_left(h);
        matches_none(h.product, h.lot, h.place, h.mark, words::matches_none_held);
    }
    void operator()(const Guidance& g) const {
        twins(g.lot);
        matches_none(g.product, g.lot, g.place, g.mark, words::matches_none_judged);
        for (const auto& lifted : recalls_lifted(w, g)) say(lifted);
        if (g.verdict != Verdict::discard && !g.told)
            say(words::no_figures_told(w.known.zone().local_text(g.through)));
    }
    void operator()(const Assign& a) const {
        if (!a.place) return;
        for (const auto& other : trace::assignments(w.known))
            if (other.place == *a.place && other.probe != a.probe && other.from <= w.at && other.until > w.at)
                say(words::ends_time_of_probe(text::quoted(other.probe), text::quoted(*a.place)));
        const Certificate* c = trace::Calibration(w.known, a.probe).at(w.at);
        const auto certificates = w.known.certificates.find(a.probe);
        const bool later = !c && certificates != w.known.certificates.end() && !certificates->second.empty();
        if (later)
            say(words::not_certified_then(
                text::quoted(a.probe),
                w.known.zone().local(Instant(certificates->second.front().at)).date.text()));
        else if (!c)
            say(words::not_certified(text::quoted(a.probe)));
        else if (w.head.at >= w.known.zone().end_of_day(c->expires))
            say(words::certificate_ended(text::quoted(a.probe), c->expires.text()));
    }
    void operator()(const Certificate& c) const {
        if (w.head.at >= w.known.zone().end_of_day(c.expires)) say(words::certificate_has_ended());
    }
    void operator()(const Site& s) const {
        if (s.zone != w.known.site().zone)
            say(words::zone_changes(w.known.site().zone));
    }
    void operator()(const Product& p) const {
        for (const auto& gtin : p.gtin.value_or(std::vector<std::string>()))
            if (!gtin_14(gtin)) say(words::gtin_not_read(text::quoted(gtin)));
    }
    /// Its holds are found again by it alone.
    void operator()(const Void& v) const {
        const auto e = w.store.entry(v.voids, false);
        const auto* i = e ? std::get_if<Incident>(&e->fact) : nullptr;
        if (!i || i->step != IncidentStep::noticed || !i->place) return;
        std::vector<EntryNumber> stand;
        for (const auto& h : w.known.holds)
            if (h.fact.reason == hold_reason(i->incident, *i->place)) stand.push_back(h.entry);
        if (!stand.empty()) say(words::holds_still_stand(words::entries_of(stand)));
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
                say(words::check_at_once(row.entry, text::quoted(c.place)));
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
    const auto both = redefined(w.known, w.store, entry.fact);
    // rules are not read back, and say where they are looser; of a lot its expiry is all, and is compared
    if (!both || std::holds_alternative<Lot>(entry.fact) || std::holds_alternative<ProgrammeRules>(both->after)) return;
    const auto old = read_back(both->before), now = read_back(both->after);
    const auto value = [](const std::vector<ReadBack>& all, const Remark& name) {
        const auto it = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
        return it == all.end() ? Field(words::not_stated()) : it->value;
    };
    std::vector<Remark> names;
    for (const auto* all : {&old, &now})
        for (const auto& one : *all)
            if (std::find(names.begin(), names.end(), one.name) == names.end() &&
                value(old, one.name) != value(now, one.name))
                names.push_back(one.name);
    if (names.empty()) out.warnings.push_back(words::says_nothing_new());
    for (const auto& name : names)
        out.warnings.push_back(words::changes_definition(name, value(old, name), value(now, name)));
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
