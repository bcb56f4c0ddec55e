#include "entries/parse.hpp"

#include <algorithm>

#include "entries/duties.hpp"
#include "entries/fields.hpp"
#include "entries/names.hpp"
#include "entries/programme.hpp"

namespace coldtally::entries {

namespace {

/// Low must not lie above high, in every scale that both state; where there is none, converted.
bool inverted(const Limit& low, const Limit& high) {
    bool common = false;
    for (const Scale s : {Scale::C, Scale::F}) {
        const auto& a = s == Scale::C ? low.C : low.F;
        const auto& b = s == Scale::C ? high.C : high.F;
        if (!a || !b) continue;
        common = true;
        if (a->thousandths() > b->thousandths()) return true;
    }
    return !common && low.in(Scale::C) > high.in(Scale::C);
}

Range range(Fields& of) {
    Fields f = of.object("range");
    Range out;
    if (f.has("low")) out.low = f.limit("low");
    if (f.has("high")) out.high = f.limit("high");
    f.done();
    if (!out.low && !out.high) of.refuse_value("range", of.value("range"), "must state low, high, or both");
    if (out.low && out.high && inverted(*out.low, *out.high))
        of.refuse(Code::contradiction, "range", shown(of.value("range")) + ": low must not lie above high");
    return out;
}

struct Context {
    const Zone& zone;
    Form form;
};

Site site(Fields& f, const Context&) {
    Site s;
    s.name = f.free_text("name");
    s.zone = f.free_text("zone");
    if (f.has("unmonitored_limit_s")) s.unmonitored_limit = f.seconds("unmonitored_limit_s");
    if (f.has("stale_after_s")) s.stale_after = f.seconds("stale_after_s");
    return s;
}

Product product(Fields& f, const Context&) {
    Product p;
    p.product = f.id("product");
    p.name = f.free_text("name");
    p.range = range(f);
    if (f.has("freeze_limit")) p.freeze_limit = f.limit("freeze_limit");
    if (f.has("allowances")) {
        p.allowances.emplace();
        const Json& list = f.array("allowances");
        for (std::size_t i = 0; i < list.size(); ++i) {
            Fields a = f.within(list[i], f.name_of("allowances[" + std::to_string(i) + "]"));
            Fields band = a.object("band");
            Allowance out{band.limit("low"), band.limit("high"), a.seconds("seconds", 1), a.free_text("source")};
            band.done();
            a.done();
            if (inverted(out.low, out.high))
                a.refuse(Code::contradiction, "band", shown(list[i].at("band")) + ": low must not lie above high");
            p.allowances->push_back(std::move(out));
        }
    }
    if (f.has("beyond_use")) {
        Fields events = f.object("beyond_use");
        p.beyond_use.emplace();
        for (const auto& [event, unused] : f.value("beyond_use").items()) {
            f.check_id(event, "beyond_use", false, true);
            (*p.beyond_use)[event] = events.seconds(event.c_str());
        }
    }
    if (f.has("cvx")) p.cvx = f.id("cvx");
    if (f.has("gtin")) {
        p.gtin.emplace();
        for (const Json& g : f.array("gtin")) {
            if (!g.is_string()) f.refuse_value("gtin", g, "must be text");
            f.check_id(g.get<std::string>(), "gtin", false, true);
            p.gtin->push_back(g.get<std::string>());
        }
    }
    if (f.has("doses_per_vial")) p.doses_per_vial = f.doses("doses_per_vial");
    return p;
}

Lot lot(Fields& f, const Context&) {
    Lot l{f.id("product"), f.id("lot"), f.free_text("expiry")};
    try {
        Date::parse_expiry(l.expiry);
    } catch (const Error& e) {
        f.refuse(e.code(), "expiry", e.what());
    }
    return l;
}

Place place(Fields& f, const Context&) {
    Place p;
    p.place = f.place_id("place");
    p.name = f.free_text("name");
    p.type =
        PlaceType(f.choice("type", {"refrigerator", "freezer", "ultra-cold freezer", "transport container", "room"}));
    p.range = range(f);
    if (f.has("max_gap_s")) p.max_gap = f.seconds("max_gap_s", 1);
    if (f.has("max_check_gap_s")) p.max_check_gap = f.seconds("max_check_gap_s", 1);
    if (f.has("near_s")) p.near = Duration(f.whole("near_s", 0, limits::near_s));
    return p;
}

Probe probe(Fields& f, const Context&) {
    Probe p{f.id("probe"), f.scale("scale"), {}};
    if (f.has("serial")) p.serial = f.free_text("serial");
    return p;
}

Certificate certificate(Fields& f, const Context&) {
    Certificate c;
    c.probe = f.id("probe");
    c.expires = f.date("expires");
    if (f.has("number")) c.number = f.free_text("number");
    if (f.has("tolerance")) {
        c.tolerance = f.difference("tolerance");
        if (c.tolerance->thousandths() < 0) f.refuse_value("tolerance", f.value("tolerance"), "must not be negative");
    }
    if (f.has("correction")) {
        c.correction.emplace();
        const Json& rows = f.array("correction");
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const std::string name = "correction[" + std::to_string(i) + "]";
            if (!rows[i].is_array() || rows[i].size() != 2)
                f.refuse_value(name, rows[i], "must be [indicated, correction]");
            try {
                const auto indicated = TemperatureDifference::parse(number_text(rows[i][0])).thousandths();
                const auto correction = TemperatureDifference::parse(number_text(rows[i][1]));
                if (!c.correction->empty()) {
                    const auto& before = c.correction->back();
                    if (indicated <= before.indicated)
                        f.refuse(Code::contradiction, name,
                                 shown(rows[i]) + ": the indicated temperatures must increase from row to row");
                    if (indicated + correction.thousandths() < before.indicated + before.correction.thousandths())
                        f.refuse(Code::contradiction, name,
                                 shown(rows[i]) + ": indicated + correction must not decrease from row to row");
                }
                c.correction->push_back({indicated, correction});
            } catch (const Error& e) {
                if (e.code() == Code::contradiction) throw;
                f.refuse(e.code(), name, e.what());
            }
        }
    }
    return c;
}

Assign assign(Fields& f, const Context&) {
    Assign a{f.id("probe"), {}};
    if (f.has("place")) a.place = f.place_id("place");
    return a;
}

TemperatureDifference resolution(Fields& f) {
    const TemperatureDifference r = f.difference("resolution");
    const auto n = r.thousandths();
    if (n != 1 && n != 10 && n != 100 && n != 1000)
        f.refuse_value("resolution", f.value("resolution"), "must be \"1\", \"0.1\", \"0.01\" or \"0.001\"");
    return r;
}

Readings readings(Fields& f, const Context& c) {
    Readings r;
    r.probe = f.id("probe");
    r.scale = f.scale("scale");
    if (f.has("source")) {
        Fields s = f.object("source");
        r.source = Readings::Source{s.free_text("file"), s.free_text("sha256"), {}};
        check_sha256(r.source->sha256, f.name_of("source: sha256"));
        if (s.has("resolution")) r.source->resolution = resolution(s);
        s.done();
    }
    if (c.form == Form::stored) return r;
    const Json& rows = f.array("rows");
    check_row_count(rows.size(), f.name_of("rows"));
    r.rows.reserve(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Json& row = rows[i];
        const auto name = [&] { return "rows[" + std::to_string(i) + "]"; };
        if (!row.is_array() || row.size() != 2 || !row[0].is_string())
            f.refuse_value(name(), row, "must be [instant, temperature]");
        const std::string t = number_text(row[1]);
        if (t.empty()) f.refuse_value(name(), row[1], "must be degrees as text (\"4.2\") or a whole number");
        try {
            r.rows.push_back({parse_instant(row[0].get_ref<const std::string&>(), c.zone),
                              Temperature::parse(t, r.scale).thousandths()});
        } catch (const Error& e) {
            f.refuse(e.code(), name(), e.what());
        }
    }
    return r;
}

Check check(Fields& f, const Context&) {
    Check c;
    c.place = f.place_id("place");
    const Scale s = f.scale("scale");
    c.temperature = f.temperature("temperature", s);
    if (f.has("min") != f.has("max"))
        f.refuse(Code::missing_field, f.has("min") ? "max" : "min", "is missing: min and max come together");
    if (f.has("min")) {
        c.min = f.temperature("min", s);
        c.max = f.temperature("max", s);
        if (c.min->thousandths() > c.temperature.thousandths())
            f.refuse(Code::contradiction, "min",
                     c.min->text() + ": must not lie above the temperature " + c.temperature.text());
        if (c.max->thousandths() < c.temperature.thousandths())
            f.refuse(Code::contradiction, "max",
                     c.max->text() + ": must not lie below the temperature " + c.temperature.text());
    }
    if (f.has("probe")) c.probe = f.id("probe");
    return c;
}

/// The five fields that name a holding.
template <class T>
T in_holding(Fields& f) {
    T t;
    t.place = f.place_id("place");
    t.product = f.id("product");
    t.lot = f.id("lot");
    t.fund = f.optional_label("fund");
    t.mark = f.optional_label("mark");
    return t;
}

Rational at_most_the(Fields& f, const char* field, const Rational& whole, const char* whole_name) {
    const Rational r = f.not_negative(field);
    if (r > whole) f.refuse(Code::handover_differs, field, r.text() + ": must not be above " + whole_name);
    return r;
}

std::pair<SideExposure, Rational> side(Fields& of, const char* name) {
    Fields f = of.object(name);
    SideExposure s{f.not_negative("at_least_s"), f.not_negative("estimate_s"), f.not_negative("at_most_s"),
                   f.not_negative("degree_Cs")};
    if (s.at_least > s.estimate)
        f.refuse(Code::handover_differs, "at_least_s", s.at_least.text() + ": must not be above estimate_s");
    if (s.estimate > s.at_most)
        f.refuse(Code::handover_differs, "estimate_s", s.estimate.text() + ": must not be above at_most_s");
    const Rational open = at_most_the(f, "open_s", s.estimate, "estimate_s");
    f.done();
    return {s, open};
}

Handover handover(Fields& of, const Context& c) {
    Fields f = of.object("handover");
    Handover out;
    auto& [total, open, places, condemned_by, held_by, use_by] = out.history;
    std::tie(total.warm, open.warm) = side(f, "warm");
    std::tie(total.cold, open.cold) = side(f, "cold");
    std::tie(total.frozen, open.frozen) = side(f, "frozen");
    const Json& list = f.array("allowances");
    for (std::size_t i = 0; i < list.size(); ++i) {
        Fields a = f.within(list[i], f.name_of("allowances[" + std::to_string(i) + "]"));
        out.allowance_seconds.push_back(a.seconds("seconds", 1));
        total.allowances.push_back(a.not_negative("used_s"));
        open.allowances.push_back(at_most_the(a, "open_s", total.allowances.back(), "used_s"));
        a.done();
    }
    Fields b = f.object("beyond");
    total.beyond_warm = b.not_negative("warm_s");
    open.beyond_warm = at_most_the(b, "warm_open_s", total.beyond_warm, "warm_s");
    total.beyond_cold = b.not_negative("cold_s");
    open.beyond_cold = at_most_the(b, "cold_open_s", total.beyond_cold, "cold_s");
    b.done();
    total.points = f.whole("points", 0, INT64_MAX);
    open.points = f.whole("points_open", 0, INT64_MAX);
    if (open.points > total.points)
        f.refuse(Code::handover_differs, "points_open", std::to_string(open.points) + ": must not be above points");
    Fields v = f.object("coverage");
    for (int i = 0; i < class_count; ++i) {
        const std::string field = std::string(class_name(Class(i))) + "_s";
        if (Class(i) == Class::near && c.form == Form::stored && !v.has(field.c_str()))
            continue;  // posted before time was told near
        total.seconds[static_cast<std::size_t>(i)] = v.not_negative(field.c_str());
    }
    open.unmonitored = at_most_the(v, "unmonitored_open_s", total.seconds[static_cast<std::size_t>(Class::unmonitored)],
                                   "unmonitored_s");
    v.done();
    const bool known = !f.value("lowest_C").is_null();
    if (known == f.value("highest_C").is_null())
        f.refuse(Code::handover_differs, "highest_C", "must be null where lowest_C is, and only there");
    if (known) {
        total.lowest_C = f.rational("lowest_C");
        total.highest_C = f.rational("highest_C");
        if (*total.lowest_C > *total.highest_C)
            f.refuse(Code::handover_differs, "lowest_C", total.lowest_C->text() + ": must not be above highest_C");
    }
    for (const Json& p : f.array("places")) {
        const std::string s = p.is_string() ? p.get<std::string>() : std::string();
        const auto slash = s.rfind('/');
        if (slash == std::string::npos || slash == 0 || slash + 1 == s.size())
            f.refuse_value("places", p, "must be \"site/place\", neither side empty");
        places.insert(s);
    }
    for (const char* name : {"condemned_by", "held_by"})
        if (!f.array(name).empty())
            f.refuse(Code::handover_differs, name,
                     shown(f.value(name)) + ": must be empty: entry numbers mean nothing at another site");
    if (!f.value("use_by").is_null()) use_by = f.instant("use_by", c.zone);
    f.done();
    return out;
}

Receive receive(Fields& f, const Context& c) {
    auto r = in_holding<Receive>(f);
    r.doses = f.doses("doses");
    if (f.has("handover")) r.handover = handover(f, c);
    return r;
}

Move move(Fields& f, const Context&) {
    Move m;
    m.product = f.id("product");
    m.lot = f.id("lot");
    m.fund = f.optional_label("fund");
    Fields from = f.object("from"), to = f.object("to");
    m.from_place = from.place_id("place");
    m.from_mark = from.optional_label("mark");
    m.to_place = to.place_id("place");
    m.to_mark = to.optional_label("mark");
    from.done();
    to.done();
    m.doses = f.doses("doses");
    if (m.from_place == m.to_place && m.from_mark == m.to_mark)
        f.refuse(Code::contradiction, "to", shown(f.value("to")) + ": must be another place or another mark than from");
    return m;
}

Give give(Fields& f, const Context&) {
    auto g = in_holding<Give>(f);
    if (f.has("doses")) g.doses = f.doses("doses");
    g.patient = f.free_text("patient");
    if (g.patient.empty())
        f.refuse_value("patient", f.value("patient"), "must be a token that only the clinic's chart can resolve");
    if (f.has("certain")) g.certain = f.truth("certain");
    return g;
}

template <class T>
T with_reason(Fields& f) {
    auto t = in_holding<T>(f);
    t.doses = f.doses("doses");
    t.reason = f.free_text("reason");
    return t;
}

Transfer transfer(Fields& f, const Context&) {
    auto t = with_reason<Transfer>(f);
    t.to = f.free_text("to");
    return t;
}

Count count(Fields& f, const Context&) {
    auto c = in_holding<Count>(f);
    c.doses = f.doses("doses", 0);
    return c;
}

BeyondUse beyond_use(Fields& f, const Context& c) {
    auto b = in_holding<BeyondUse>(f);
    if (f.has("event") == f.has("use_by"))
        f.refuse(Code::contradiction, "use_by", "must be given, or event, and not both");
    if (f.has("event")) {
        b.event = f.id("event");
    } else {
        const Json& v = f.value("use_by");
        if (v.is_string() && v.get_ref<const std::string&>().size() <= 10)
            b.use_by = f.date("use_by");
        else
            b.use_by = f.instant("use_by", c.zone);
    }
    return b;
}

Hold hold(Fields& f, const Context&) {
    Hold h;
    h.reason = f.free_text("reason");
    h.product = f.id("product");
    if (f.has("lot")) h.lot = f.id("lot");
    if (f.has("place")) h.place = f.place_id("place");
    if (f.has("mark")) h.mark = f.label("mark");
    return h;
}

Guidance guidance(Fields& f, const Context& c) {
    Guidance g;
    g.product = f.id("product");
    g.lot = f.id("lot");
    if (f.has("place")) g.place = f.place_id("place");
    if (f.has("mark")) g.mark = f.label("mark");
    if (f.has("since")) g.since = f.instant("since", c.zone);
    g.through = f.instant("through", c.zone);
    if (g.since && *g.since > g.through)
        f.refuse(Code::contradiction, "since", g.since->text() + ": must not be after through, " + g.through.text());
    g.verdict = Verdict(f.choice("verdict", {"use", "use-by", "discard"}));
    if (g.verdict == Verdict::use_by)
        g.use_by = f.date("use_by");
    else if (f.has("use_by"))
        f.refuse(Code::contradiction, "use_by", "comes only with the verdict \"use-by\"");
    g.issuer = f.free_text("issuer");
    g.reference = f.free_text("reference");
    if (f.has("told")) {
        Fields t = f.object("told");
        g.told.emplace();
        if (t.has("out_of_range_s")) g.told->out_of_range = t.seconds("out_of_range_s");
        if (t.has("unmonitored_s")) g.told->unmonitored = t.seconds("unmonitored_s");
        if (t.has("points")) g.told->points = t.whole("points", 0, 1'000'000'000);
        t.done();
        if (!g.told->out_of_range && !g.told->unmonitored && !g.told->points)
            f.refuse_value("told", f.value("told"),
                           "must state out_of_range_s, unmonitored_s or points, at least one of them");
    }
    return g;
}

Incident incident(Fields& f, const Context&) {
    Incident i;
    i.incident = f.id("incident");
    i.step = IncidentStep(f.choice("step", incident_steps));
    i.text = f.free_text("text");
    if (f.has("place")) i.place = f.place_id("place");
    return i;
}

std::optional<std::string> maybe_text(Fields& f, const char* field) {
    if (!f.has(field)) return std::nullopt;
    return f.free_text(field);
}

template <class T, class Make>
std::vector<T> list_of(Fields& f, const char* field, Make make) {
    std::vector<T> out;
    if (!f.has(field)) return out;
    const Json& list = f.array(field);
    for (std::size_t i = 0; i < list.size(); ++i) {
        Fields item = f.within(list[i], f.name_of(std::string(field) + "[" + std::to_string(i) + "]"));
        out.push_back(make(item));
        item.done();
    }
    return out;
}

Plan plan(Fields& f, const Context&) {
    Plan p;
    p.people = list_of<Plan::Person>(f, "people", [](Fields& i) {
        return Plan::Person{i.free_text("name"),
                            i.free_text("role"),
                            maybe_text(i, "office"),
                            maybe_text(i, "home"),
                            maybe_text(i, "mobile"),
                            maybe_text(i, "email"),
                            i.has("alternate") && i.truth("alternate")};
    });
    p.backups = list_of<Plan::Backup>(f, "backups", [](Fields& i) {
        Plan::Backup b{i.free_text("name"),
                       maybe_text(i, "contact"),
                       maybe_text(i, "phone"),
                       maybe_text(i, "address"),
                       maybe_text(i, "agreement"),
                       maybe_text(i, "power"),
                       maybe_text(i, "distance"),
                       maybe_text(i, "capacity"),
                       {},
                       {}};
        if (i.has("agreed")) b.agreed = i.date("agreed");
        if (i.has("agreed_until")) b.agreed_until = i.date("agreed_until");
        return b;
    });
    const auto service = [](Fields& i) {
        return Plan::Service{i.free_text("what"), i.free_text("phone"), maybe_text(i, "name")};
    };
    p.services = list_of<Plan::Service>(f, "services", service);
    p.notify = list_of<Plan::Service>(f, "notify", service);
    p.containers = maybe_text(f, "containers");
    p.packing = maybe_text(f, "packing");
    p.steps = maybe_text(f, "steps");
    if (f.has("reviewed")) p.reviewed = f.date("reviewed");
    p.reviewed_by = maybe_text(f, "reviewed_by");
    if (f.has("review_due")) p.review_due = f.date("review_due");
    p.signatures = list_of<Plan::Signature>(f, "signatures", [](Fields& i) {
        return Plan::Signature{i.free_text("name"), i.date("signed")};
    });
    return p;
}

Trip trip(Fields& f, const Context&) {
    Trip t;
    t.container = f.place_id("container");
    t.step = TripStep(f.choice("step", {"departure", "arrival"}));
    if (t.step == TripStep::departure) {
        static constexpr const char* reasons[] = {"emergency", "relocation", "avoid waste", "off-site clinic"};
        t.destination = f.free_text("destination");
        t.reason = reasons[f.choice("reason", {reasons[0], reasons[1], reasons[2], reasons[3]})];
        t.packed_by = maybe_text(f, "packed_by");
        t.approval = maybe_text(f, "approval");
        t.coolant = maybe_text(f, "coolant");
        t.conditioning = maybe_text(f, "conditioning");
    } else {
        t.received_by = maybe_text(f, "received_by");
    }
    return t;
}

Void voids(Fields& f, const Context&) { return Void{f.whole("voids", 1, INT64_MAX), f.free_text("reason")}; }

ProgrammeRules rules(Fields& f, const Context&) { return read_rules(f); }
Maker maker(Fields& f, const Context&) { return read_maker(f); }
Report report(Fields& f, const Context& c) { return read_report(f, c.zone); }
Loan loan(Fields& f, const Context&) { return read_loan(f); }
Repayment repayment(Fields& f, const Context&) { return read_repayment(f); }
FollowUp follow_up(Fields& f, const Context&) { return read_follow_up(f); }
Training training(Fields& f, const Context&) { return read_training(f); }

/// Does the kind need `at`? Definitions may have one; readings have none.
enum class At { needed, optional, none };

struct Kind {
    std::string_view name;
    At at;
    Fact (*parse)(Fields&, const Context&);
};

template <auto parse>
Fact as_fact(Fields& f, const Context& c) {
    return parse(f, c);
}

Waste waste(Fields& f, const Context&) { return with_reason<Waste>(f); }
Return give_back(Fields& f, const Context&) { return with_reason<Return>(f); }

constexpr Kind kinds[] = {
    {Site::kind, At::optional, as_fact<site>},
    {Product::kind, At::optional, as_fact<product>},
    {Lot::kind, At::optional, as_fact<lot>},
    {Place::kind, At::optional, as_fact<place>},
    {Probe::kind, At::optional, as_fact<probe>},
    {Certificate::kind, At::needed, as_fact<certificate>},
    {Assign::kind, At::needed, as_fact<assign>},
    {Readings::kind, At::none, as_fact<readings>},
    {Check::kind, At::needed, as_fact<check>},
    {Receive::kind, At::needed, as_fact<receive>},
    {Move::kind, At::needed, as_fact<move>},
    {Give::kind, At::needed, as_fact<give>},
    {Waste::kind, At::needed, as_fact<waste>},
    {Return::kind, At::needed, as_fact<give_back>},
    {Transfer::kind, At::needed, as_fact<transfer>},
    {Count::kind, At::needed, as_fact<count>},
    {BeyondUse::kind, At::needed, as_fact<beyond_use>},
    {Hold::kind, At::needed, as_fact<hold>},
    {Guidance::kind, At::needed, as_fact<guidance>},
    {Incident::kind, At::needed, as_fact<incident>},
    {Plan::kind, At::needed, as_fact<plan>},
    {Trip::kind, At::needed, as_fact<trip>},
    {Void::kind, At::needed, as_fact<voids>},
    {ProgrammeRules::kind, At::optional, as_fact<rules>},
    {Maker::kind, At::optional, as_fact<maker>},
    {Report::kind, At::needed, as_fact<report>},
    {Loan::kind, At::needed, as_fact<loan>},
    {Repayment::kind, At::needed, as_fact<repayment>},
    {FollowUp::kind, At::needed, as_fact<follow_up>},
    {Training::kind, At::needed, as_fact<training>},
};

}  // namespace

Entry parse_entry(const Json& json, const Zone* zone, const std::string& where, Form form) {
    Fields f(json, where, form == Form::stored);
    const Json& kind_field = f.value("kind");
    const auto* kind = std::find_if(std::begin(kinds), std::end(kinds), [&](const Kind& k) {
        return kind_field.is_string() && kind_field.get_ref<const std::string&>() == k.name;
    });
    if (kind == std::end(kinds))
        f.refuse_value("kind", kind_field,
                       "must be a kind of entry: site, product, lot, place, probe, certificate, assign, readings, "
                       "check, receive, move, give, waste, return, transfer, count, beyond-use, hold, guidance, "
                       "incident, plan, void, rules, maker, report, loan, repayment, follow-up, training or trip");

    std::optional<Zone> own;
    if (kind->name == Site::kind) {
        try {
            own.emplace(f.free_text("zone"));
        } catch (const Error& e) {
            if (e.code() == Code::missing_field || e.code() == Code::machine) throw;
            if (form == Form::stored)  // it was found when it was posted
                throw Error(Code::machine,
                            std::string(e.what()) + ", and this computer has no data for it: install tzdata");
            f.refuse(e.code(), "zone", e.what());
        }
        zone = &*own;
    }
    if (zone == nullptr)
        throw Error(Code::no_site,
                    f.name_of("kind") + ": " + shown(kind_field) + ": the first entry of a ledger must be a site");

    Entry e;
    if (form != Form::posted) {
        e.number = f.whole("entry", 1, INT64_MAX);
        e.recorded = f.instant("recorded", *zone);
    }
    if (kind->at == At::needed || (kind->at == At::optional && f.has("at"))) e.at = f.instant("at", *zone);
    e.by = f.id("by");
    if (f.has("note")) e.note = f.free_text("note");
    e.fact = kind->parse(f, Context{*zone, form});
    f.done();
    if (const auto* g = std::get_if<Guidance>(&e.fact); g && g->through > *e.at)
        f.refuse(Code::contradiction, "through", g->through.text() + ": must not be later than at, " + e.at->text());
    if (const auto* r = std::get_if<Report>(&e.fact); r && r->through > *e.at)
        f.refuse(Code::contradiction, "through", r->through.text() + ": must not be later than at, " + e.at->text());
    return e;
}

}  // namespace coldtally::entries
