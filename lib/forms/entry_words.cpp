#include "forms/table.hpp"
#include "stock/last_use.hpp"

namespace coldtally {

using namespace forms;

namespace {

template <class T>
HoldingKey key_of(const T& t) {
    return {t.place, t.product, t.lot, t.fund, t.mark};
}

std::string mark_words(const std::string& place, const std::string& mark) {
    return place + (mark.empty() ? "" : ", mark " + mark);
}

std::string fund_words(const std::string& fund) { return fund.empty() ? "the empty fund" : "fund " + fund; }

struct Teller {
    const Zone& zone;

    std::string operator()(const Site& s) const { return "site " + s.name + ", time zone " + s.zone; }
    std::string operator()(const Product& p) const { return "product " + p.product + ": " + p.name; }
    std::string operator()(const Lot& l) const {
        return "lot " + l.lot + " of " + l.product + ", expiry " + Date::parse_expiry(l.expiry).text();
    }
    std::string operator()(const Place& p) const {
        return "place " + p.place + ": " + p.name + ", " + std::string(place_type_name(p.type));
    }
    std::string operator()(const Probe& p) const { return "probe " + p.probe + ", °" + scale_letter(p.scale); }
    std::string operator()(const Certificate& c) const {
        return "certificate of probe " + c.probe + ", until " + c.expires.text();
    }
    std::string operator()(const Assign& a) const {
        return "probe " + a.probe + (a.place ? " put into " + *a.place : " taken out");
    }
    std::string operator()(const Readings& r) const {
        return counted(static_cast<std::int64_t>(r.rows.size()), "reading") + " of probe " + r.probe;
    }
    std::string operator()(const Check& c) const {
        std::string out = "check of " + c.place + ": " + c.temperature.text();
        if (c.min) out += ", minimum " + c.min->text() + ", maximum " + c.max->text();
        return out + " °" + scale_letter(c.temperature.scale());
    }
    std::string operator()(const Receive& r) const {
        return "received " + doses_words(r.doses.count()) + " of " + holding_words(key_of(r));
    }
    std::string operator()(const Move& m) const {
        return "moved " + doses_words(m.doses.count()) + " of " + m.product + " lot " + m.lot +
               (m.fund.empty() ? "" : ", fund " + m.fund) + " from " + mark_words(m.from_place, m.from_mark) + " to " +
               mark_words(m.to_place, m.to_mark);
    }
    std::string operator()(const Give& g) const {
        return "gave " + doses_words(g.doses.count()) + " of " + holding_words(key_of(g));
    }
    std::string operator()(const Waste& w) const {
        return "wasted " + doses_words(w.doses.count()) + " of " + holding_words(key_of(w)) + ": " + w.reason;
    }
    std::string operator()(const Return& r) const {
        return "returned " + doses_words(r.doses.count()) + " of " + holding_words(key_of(r)) + ": " + r.reason;
    }
    std::string operator()(const Transfer& t) const {
        return "transferred " + doses_words(t.doses.count()) + " of " + holding_words(key_of(t)) + " to " + t.to +
               ": " + t.reason;
    }
    std::string operator()(const Count& c) const {
        return "counted " + doses_words(c.doses.count()) + " of " + holding_words(key_of(c));
    }
    std::string operator()(const BeyondUse& b) const {
        std::string until;
        if (const auto* date = b.use_by ? std::get_if<Date>(&*b.use_by) : nullptr)
            until = "usable through " + date->text();
        if (const auto* instant = b.use_by ? std::get_if<Instant>(&*b.use_by) : nullptr)
            until = "usable " + answers::usable_words(*instant, zone);
        return "beyond-use of " + holding_words(key_of(b)) + ": " + (b.event ? *b.event : until);
    }
    std::string operator()(const Hold& h) const {
        return "hold on " + h.product + (h.lot ? " lot " + *h.lot : "") + (h.place ? " in " + *h.place : "") +
               (h.mark ? ", mark \"" + *h.mark + "\"" : "") + ": " + h.reason;
    }
    std::string operator()(const Guidance& g) const {
        return "guidance " + std::string(verdict_name(g.verdict)) + (g.use_by ? " " + g.use_by->text() : "") + " for " +
               g.product + " lot " + g.lot + (g.place ? " in " + *g.place : "") +
               (g.mark ? ", mark \"" + *g.mark + "\"" : "") + ", through " + zone.local_text(g.through) + ", by " +
               g.issuer + ", " + g.reference;
    }
    std::string operator()(const Incident& i) const { return "incident " + i.incident + ", " + i.step + ": " + i.text; }
    std::string operator()(const Plan&) const { return "contingency plan"; }
    std::string operator()(const FollowUp& u) const {
        return "follow-up of give " + std::to_string(u.give) + ", " + u.step + (u.text.empty() ? "" : ": " + u.text);
    }
    std::string operator()(const Training& t) const {
        return "training of " + t.person + " in " + t.topic + (t.due ? ", next due " + t.due->text() : "") +
               (t.reference ? ", proof: " + *t.reference : "");
    }
    std::string operator()(const Trip& t) const {
        if (t.step == TripStep::arrival)
            return "arrival of " + t.container + (t.received_by ? ", received by " + *t.received_by : "");
        return "departure of " + t.container + " to " + *t.destination + " (" + *t.reason + ")" +
               (t.packed_by ? ", packed by " + *t.packed_by : "");
    }
    std::string operator()(const Void& v) const {
        return "took back entry " + std::to_string(v.voids) + ": " + v.reason;
    }
    std::string operator()(const Loan& l) const {
        return "loan: give " + std::to_string(l.give) + " is owed by " + fund_words(l.eligible) + ": " + l.reason;
    }
    std::string operator()(const Repayment& r) const {
        return "repaid " + doses_words(r.doses.count()) + " of loan " + std::to_string(r.loan) +
               (r.with ? " with entry " + std::to_string(*r.with) : "");
    }
    std::string operator()(const Maker& m) const {
        std::string out = "maker of " + m.product + ": " + m.name;
        for (const auto& part : {m.contact, m.phone, m.email})
            if (part) out += ", " + *part;
        return out;
    }
    /// Kinds of which one line says no more than their name.
    template <class Other>
    std::string operator()(const Other&) const {
        return std::string(Other::kind);
    }
};

}  // namespace

std::string entry_words(const Entry& entry, const Zone& zone) {
    return std::visit(Teller{zone}, entry.fact) + (entry.at ? ", at " + zone.local_text(*entry.at) : "");
}

}  // namespace coldtally
