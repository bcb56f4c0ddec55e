#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"
#include "coldtally/error.hpp"
#include "entries/duties.hpp"
#include "entries/history_json.hpp"
#include "entries/print.hpp"
#include "entries/programme.hpp"

namespace coldtally {

std::string_view class_name(Class c) noexcept {
    constexpr std::string_view names[] = {"logged", "bounded", "checked", "near", "awaiting", "unmonitored"};
    return names[static_cast<int>(c)];
}

std::string_view place_type_name(PlaceType type) noexcept {
    constexpr std::string_view names[] = {"refrigerator", "freezer", "ultra-cold freezer", "transport container",
                                          "room"};
    return names[static_cast<int>(type)];
}

std::string_view verdict_name(Verdict verdict) noexcept {
    constexpr std::string_view names[] = {"use", "use-by", "discard"};
    return names[static_cast<int>(verdict)];
}

std::string_view trip_step_name(TripStep step) noexcept {
    return step == TripStep::departure ? "departure" : "arrival";
}

std::string_view kind_of(const Entry& entry) noexcept {
    return std::visit([](const auto& f) { return std::decay_t<decltype(f)>::kind; }, entry.fact);
}

bool is_definition(const Entry& entry) noexcept {
    return entry.fact.index() <= 4  // site, product, lot, place, probe
           || std::holds_alternative<ProgrammeRules>(entry.fact) || std::holds_alternative<Maker>(entry.fact);
}

namespace entries {

using Json = nlohmann::ordered_json;

Json limit_json(const Limit& l) {
    Json out = Json::object();
    if (l.C) out["C"] = l.C->text();
    if (l.F) out["F"] = l.F->text();
    return out;
}

namespace {

std::string scale_text(Scale s) { return std::string(1, scale_letter(s)); }

template <class T>
void put(Json& out, const char* field, const std::optional<T>& value) {
    if (value) out[field] = *value;
}

void put_text(Json& out, const char* field, const std::string& value) {
    if (!value.empty()) out[field] = value;
}

void put_seconds(Json& out, const char* field, const std::optional<Duration>& value) {
    if (value) out[field] = value->seconds();
}

Json range_json(const Range& r) {
    Json out = Json::object();
    if (r.low) out["low"] = limit_json(*r.low);
    if (r.high) out["high"] = limit_json(*r.high);
    return out;
}

template <class T>
void put_holding(Json& out, const T& t) {
    out["place"] = t.place;
    out["product"] = t.product;
    out["lot"] = t.lot;
    put_text(out, "fund", t.fund);
    put_text(out, "mark", t.mark);
}

struct Printer {
    Json& out;

    void operator()(const Site& s) const {
        out["name"] = s.name;
        out["zone"] = s.zone;
        put_seconds(out, "unmonitored_limit_s", s.unmonitored_limit);
        put_seconds(out, "stale_after_s", s.stale_after);
    }
    void operator()(const Product& p) const {
        out["product"] = p.product;
        out["name"] = p.name;
        out["range"] = range_json(p.range);
        if (p.freeze_limit) out["freeze_limit"] = limit_json(*p.freeze_limit);
        if (p.allowances) {
            out["allowances"] = Json::array();
            for (const auto& a : *p.allowances)
                out["allowances"].push_back({{"band", {{"low", limit_json(a.low)}, {"high", limit_json(a.high)}}},
                                             {"seconds", a.seconds.seconds()},
                                             {"source", a.source}});
        }
        if (p.beyond_use) {
            out["beyond_use"] = Json::object();
            for (const auto& [event, period] : *p.beyond_use) out["beyond_use"][event] = period.seconds();
        }
        put(out, "cvx", p.cvx);
        put(out, "gtin", p.gtin);
        if (p.doses_per_vial) out["doses_per_vial"] = p.doses_per_vial->count();
    }
    void operator()(const Lot& l) const {
        out["product"] = l.product;
        out["lot"] = l.lot;
        out["expiry"] = l.expiry;
    }
    void operator()(const Place& p) const {
        out["place"] = p.place;
        out["name"] = p.name;
        out["type"] = place_type_name(p.type);
        out["range"] = range_json(p.range);
        put_seconds(out, "max_gap_s", p.max_gap);
        put_seconds(out, "max_check_gap_s", p.max_check_gap);
        put_seconds(out, "near_s", p.near);
    }
    void operator()(const Probe& p) const {
        out["probe"] = p.probe;
        out["scale"] = scale_text(p.scale);
        put(out, "serial", p.serial);
    }
    void operator()(const Certificate& c) const {
        out["probe"] = c.probe;
        out["expires"] = c.expires.text();
        put(out, "number", c.number);
        if (c.tolerance) out["tolerance"] = c.tolerance->text();
        if (c.correction) {
            out["correction"] = Json::array();
            for (const auto& row : *c.correction)
                out["correction"].push_back(
                    Json::array({TemperatureDifference(row.indicated).text(), row.correction.text()}));
        }
    }
    void operator()(const Assign& a) const {
        out["probe"] = a.probe;
        put(out, "place", a.place);
    }
    void operator()(const Readings& r) const {
        out["probe"] = r.probe;
        out["scale"] = scale_text(r.scale);
        if (r.source) out["source"] = {{"file", r.source->file}, {"sha256", r.source->sha256}};
        if (r.source && r.source->resolution) out["source"]["resolution"] = r.source->resolution->text();
        if (r.rows.empty()) return;  // as stored: the rows stand in their blocks
        auto& rows = out["rows"] = Json::array();
        for (const auto& row : r.rows)
            rows.push_back(Json::array({row.at.text(), Temperature(r.scale, row.thousandths).text()}));
    }
    void operator()(const Check& c) const {
        out["place"] = c.place;
        out["scale"] = scale_text(c.temperature.scale());
        out["temperature"] = c.temperature.text();
        if (c.min) out["min"] = c.min->text();
        if (c.max) out["max"] = c.max->text();
        put(out, "probe", c.probe);
    }
    void operator()(const Receive& r) const {
        put_holding(out, r);
        out["doses"] = r.doses.count();
        if (r.handover) out["handover"] = history_json(r.handover->history, r.handover->allowance_seconds);
    }
    void operator()(const Move& m) const {
        out["product"] = m.product;
        out["lot"] = m.lot;
        put_text(out, "fund", m.fund);
        out["from"] = {{"place", m.from_place}};
        put_text(out["from"], "mark", m.from_mark);
        out["to"] = {{"place", m.to_place}};
        put_text(out["to"], "mark", m.to_mark);
        out["doses"] = m.doses.count();
    }
    void operator()(const Give& g) const {
        put_holding(out, g);
        out["doses"] = g.doses.count();
        out["patient"] = g.patient;
        if (!g.certain) out["certain"] = false;
    }
    void operator()(const Waste& w) const {
        put_holding(out, w);
        out["doses"] = w.doses.count();
        out["reason"] = w.reason;
    }
    void operator()(const Return& r) const {
        put_holding(out, r);
        out["doses"] = r.doses.count();
        out["reason"] = r.reason;
    }
    void operator()(const Transfer& t) const {
        put_holding(out, t);
        out["doses"] = t.doses.count();
        out["reason"] = t.reason;
        out["to"] = t.to;
    }
    void operator()(const Count& c) const {
        put_holding(out, c);
        out["doses"] = c.doses.count();
    }
    void operator()(const BeyondUse& b) const {
        put_holding(out, b);
        put(out, "event", b.event);
        if (b.use_by) out["use_by"] = std::visit([](const auto& v) { return v.text(); }, *b.use_by);
    }
    void operator()(const Hold& h) const {
        out["reason"] = h.reason;
        out["product"] = h.product;
        put(out, "lot", h.lot);
        put(out, "place", h.place);
        put(out, "mark", h.mark);
    }
    void operator()(const Guidance& g) const {
        out["product"] = g.product;
        out["lot"] = g.lot;
        put(out, "place", g.place);
        put(out, "mark", g.mark);
        if (g.since) out["since"] = g.since->text();
        out["through"] = g.through.text();
        out["verdict"] = verdict_name(g.verdict);
        if (g.use_by) out["use_by"] = g.use_by->text();
        out["issuer"] = g.issuer;
        out["reference"] = g.reference;
        if (g.told) {
            Json& told = out["told"] = Json::object();
            put_seconds(told, "out_of_range_s", g.told->out_of_range);
            put_seconds(told, "unmonitored_s", g.told->unmonitored);
            put(told, "points", g.told->points);
        }
    }
    void operator()(const Incident& i) const {
        out["incident"] = i.incident;
        out["step"] = incident_step_name(i.step);
        out["text"] = i.text;
        put(out, "place", i.place);
    }
    void operator()(const Plan& p) const { print_plan(out, p); }
    void operator()(const Trip& t) const {
        out["container"] = t.container;
        out["step"] = trip_step_name(t.step);
        put(out, "destination", t.destination);
        put(out, "reason", t.reason);
        put(out, "packed_by", t.packed_by);
        put(out, "approval", t.approval);
        put(out, "coolant", t.coolant);
        put(out, "conditioning", t.conditioning);
        put(out, "received_by", t.received_by);
    }
    void operator()(const Void& v) const {
        out["voids"] = v.voids;
        out["reason"] = v.reason;
    }
    void operator()(const ProgrammeRules& r) const { print_rules(out, r); }
    void operator()(const Maker& m) const { print_maker(out, m); }
    void operator()(const Report& r) const { print_report(out, r); }
    void operator()(const Loan& l) const { print_loan(out, l); }
    void operator()(const Repayment& r) const { print_repayment(out, r); }
    void operator()(const FollowUp& u) const { print_follow_up(out, u); }
    void operator()(const Training& t) const { print_training(out, t); }
};

}  // namespace

void print_plan(Json& out, const Plan& p) {
    const auto services = [&](const char* field, const std::vector<Plan::Service>& list) {
        if (list.empty()) return;
        out[field] = Json::array();
        for (const auto& s : list) {
            Json o{{"what", s.what}, {"phone", s.phone}};
            put(o, "name", s.name);
            out[field].push_back(std::move(o));
        }
    };
    if (!p.people.empty()) out["people"] = Json::array();
    for (const auto& x : p.people) {
        Json o{{"name", x.name}, {"role", x.role}};
        put(o, "office", x.office);
        put(o, "home", x.home);
        put(o, "mobile", x.mobile);
        put(o, "email", x.email);
        if (x.alternate) o["alternate"] = true;
        out["people"].push_back(std::move(o));
    }
    if (!p.backups.empty()) out["backups"] = Json::array();
    for (const auto& b : p.backups) {
        Json o{{"name", b.name}};
        put(o, "contact", b.contact);
        put(o, "phone", b.phone);
        put(o, "address", b.address);
        put(o, "agreement", b.agreement);
        if (b.agreed) o["agreed"] = b.agreed->text();
        if (b.agreed_until) o["agreed_until"] = b.agreed_until->text();
        put(o, "power", b.power);
        put(o, "distance", b.distance);
        put(o, "capacity", b.capacity);
        out["backups"].push_back(std::move(o));
    }
    services("services", p.services);
    services("notify", p.notify);
    put(out, "containers", p.containers);
    put(out, "packing", p.packing);
    put(out, "steps", p.steps);
    if (p.reviewed) out["reviewed"] = p.reviewed->text();
    put(out, "reviewed_by", p.reviewed_by);
    if (p.review_due) out["review_due"] = p.review_due->text();
    for (const auto& s : p.signatures) out["signatures"].push_back({{"name", s.name}, {"signed", s.date.text()}});
}

Json entry_json(const Entry& e) {
    Json out;
    if (e.number > 0) out["entry"] = e.number;
    if (e.recorded) out["recorded"] = e.recorded->text();
    out["kind"] = kind_of(e);
    if (e.at) out["at"] = e.at->text();
    out["by"] = e.by;
    std::visit(Printer{out}, e.fact);
    put(out, "note", e.note);
    return out;
}

}  // namespace entries

std::string to_json(const Entry& entry) {
    try {
        return entries::entry_json(entry).dump();
    } catch (const entries::Json::type_error&) {
        throw Error(Code::bad_text, "one of the entry's texts is not valid UTF-8");
    }
}

}  // namespace coldtally
