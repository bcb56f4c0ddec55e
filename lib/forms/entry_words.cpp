// What an entry says, in one line.
#include "forms/fact_words.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "words/drafts.hpp"
#include "words/drafts_checks.hpp"
#include "words/entry.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"
#include "words/stock.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;

namespace {

template <class T>
Remark holding_of(const T& t) {
    return holding_words({t.place, t.product, t.lot, t.fund, t.mark});
}

template <class T>
Remark doses_of(const T& t) {
    return words::doses(t.doses.count());
}

Field mark_words(const std::string& place, const std::string& mark) {
    return mark.empty() ? Field(place) : Field(words::place_mark(place, mark));
}

Remark fund_words(const std::string& fund) {
    return fund.empty() ? words::the_empty_fund() : words::fund_named(fund);
}

/// Which doses of a product a hold or guidance is about.
Field scope_words(const std::string& product, const std::optional<std::string>& lot,
                  const std::optional<std::string>& place, const std::optional<std::string>& mark) {
    Field out = lot ? Field(words::lot_of(product, *lot)) : Field(product);
    if (place) out = words::lot_in_place(std::move(out), *place);
    if (mark) out = words::what_with_mark(std::move(out), *mark);
    return out;
}

/// Of a step that a follow-up notes.
Field standing_words(const std::string& step) {
    for (const Standing one : follow_up_standings())
        if (standing_name(one) == step) return forms::standing_words(one);
    return step;
}

struct Teller {
    const Zone& zone;

    Remark operator()(const Site& s) const { return words::entry_site(s.name, s.zone); }
    Remark operator()(const Product& p) const { return words::entry_product(p.product, p.name); }
    Remark operator()(const Lot& l) const {
        return words::entry_lot(l.lot, l.product, Date::parse_expiry(l.expiry).text());
    }
    Remark operator()(const Place& p) const { return words::entry_place(p.place, p.name, place_type_words(p.type)); }
    Remark operator()(const Probe& p) const {
        return words::entry_probe(p.probe, std::string(1, scale_letter(p.scale)));
    }
    Remark operator()(const Certificate& c) const { return words::entry_certificate(c.probe, c.expires.text()); }
    Remark operator()(const Assign& a) const {
        return a.place ? words::probe_put_into(a.probe, *a.place) : words::probe_taken_out(a.probe);
    }
    Remark operator()(const Readings& r) const {
        return words::readings_of_probe(words::readings(r.rows.size()), r.probe);
    }
    Remark operator()(const Check& c) const {
        const std::string scale(1, scale_letter(c.temperature.scale()));
        if (!c.min) return words::entry_check(c.place, c.temperature.text(), scale);
        return words::entry_check_min_max(c.place, c.temperature.text(), c.min->text(), c.max->text(), scale);
    }
    Remark operator()(const Receive& r) const { return words::received_doses(doses_of(r), holding_of(r)); }
    Remark operator()(const Move& m) const {
        const Remark lot = words::lot_of(m.product, m.lot);
        return words::moved_doses(doses_of(m), m.fund.empty() ? lot : words::comma(lot, words::fund_named(m.fund)),
                                  mark_words(m.from_place, m.from_mark), mark_words(m.to_place, m.to_mark));
    }
    Remark operator()(const Give& g) const { return words::gave_doses(doses_of(g), holding_of(g)); }
    Remark operator()(const Waste& w) const { return words::wasted_doses(doses_of(w), holding_of(w), w.reason); }
    Remark operator()(const Return& r) const { return words::returned_doses(doses_of(r), holding_of(r), r.reason); }
    Remark operator()(const Transfer& t) const {
        return words::transferred_doses(doses_of(t), holding_of(t), t.to, t.reason);
    }
    Remark operator()(const Count& c) const { return words::counted_doses(doses_of(c), holding_of(c)); }
    Remark operator()(const BeyondUse& b) const {
        Field until;
        if (b.event)
            until = *b.event;
        else if (const auto* date = b.use_by ? std::get_if<Date>(&*b.use_by) : nullptr)
            until = words::usable_is(words::through(date->text()));
        else if (const auto* instant = b.use_by ? std::get_if<Instant>(&*b.use_by) : nullptr)
            until = words::usable_is(answers::usable_words(*instant, zone));
        return words::entry_beyond_use(holding_of(b), std::move(until));
    }
    Remark operator()(const Hold& h) const {
        return words::entry_hold(scope_words(h.product, h.lot, h.place, h.mark), h.reason);
    }
    Remark operator()(const Guidance& g) const {
        return words::entry_guidance(verdict_words(g), scope_words(g.product, g.lot, g.place, g.mark),
                                     zone.local_text(g.through), g.issuer, g.reference);
    }
    Remark operator()(const Incident& i) const {
        return words::entry_incident(i.incident, step_words(i.step), step_text_words(i.text, zone));
    }
    Remark operator()(const Plan&) const { return words::answer_plan; }
    Remark operator()(const FollowUp& u) const {
        const Remark step = words::entry_follow_up(u.give, standing_words(u.step));
        return u.text.empty() ? step : words::colon(step, u.text);
    }
    Remark operator()(const Training& t) const {
        Remark out = words::entry_training(t.person, t.topic);
        if (t.due) out = words::comma(std::move(out), words::next_due(t.due->text()));
        if (t.reference) out = words::comma(std::move(out), words::proof_is(*t.reference));
        return out;
    }
    Remark operator()(const Trip& t) const {
        if (t.step == TripStep::arrival) {
            Remark out = words::arrival_of(t.container);
            return t.received_by ? words::comma(std::move(out), words::is_received_by(*t.received_by)) : out;
        }
        Remark out = words::departure_of(t.container, *t.destination, *t.reason);
        return t.packed_by ? words::comma(std::move(out), words::is_packed_by(*t.packed_by)) : out;
    }
    Remark operator()(const Void& v) const { return words::took_back_entry(v.voids, v.reason); }
    Remark operator()(const Loan& l) const { return words::entry_loan(l.give, fund_words(l.eligible), l.reason); }
    Remark operator()(const Repayment& r) const {
        return r.with ? words::repaid_with(doses_of(r), r.loan, *r.with) : words::repaid_of_loan(doses_of(r), r.loan);
    }
    Remark operator()(const Maker& m) const {
        Remark out = words::entry_maker(m.product, m.name);
        for (const auto& part : {m.contact, m.phone, m.email})
            if (part) out = words::comma(std::move(out), *part);
        return out;
    }
    Remark operator()(const ProgrammeRules& r) const { return words::entry_rules(r.programme); }
    Remark operator()(const Report& r) const {
        return words::entry_report(r.incident, recipient_words(r.to), r.recipient);
    }
};

}  // namespace

Remark forms::fact_words(const Entry& entry, const Zone& zone) { return std::visit(Teller{zone}, entry.fact); }

Remark entry_words(const Entry& entry, const Zone& zone) {
    Remark said = fact_words(entry, zone);
    return entry.at ? words::entry_said_at(std::move(said), zone.local_text(*entry.at)) : said;
}

}  // namespace coldtally
