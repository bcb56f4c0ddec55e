#include "entries/programme.hpp"

#include <algorithm>

#include "entries/fields.hpp"
#include "entries/names.hpp"
#include "entries/print.hpp"

namespace coldtally::entries {

using Out = nlohmann::ordered_json;
using Rules = ProgrammeRules;
using Form = Rules::Reportable::Form;
using Is = Rules::Temperatures::Is;

namespace {

constexpr const char* place_types[] = {"refrigerator", "freezer", "ultra-cold freezer", "transport container", "room"};
constexpr const char* forms[] = {"run", "sum", "reading", "pattern"};
constexpr const char* comparisons[] = {"above", "at or above", "below", "at or below"};
constexpr const char* weekdays[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
constexpr const char* recurring[] = {"plan review", "backup agreement", "training", "count",     "logger reading",
                                     "log review",  "certificate",      "service",  "self-audit"};

template <std::size_t n>
std::size_t named(Fields& f, const std::string& field, const Json& value, const char* const (&names)[n]) {
    if (value.is_string())
        for (std::size_t i = 0; i < n; ++i)
            if (value.get_ref<const std::string&>() == names[i]) return i;
    f.refuse_value(field, value, "must be " + names_of(names));
}

template <std::size_t n>
std::size_t named(Fields& f, const char* field, const char* const (&names)[n]) {
    return named(f, field, f.value(field), names);
}

/// Calls read(item, fields) for each object of an optional array.
template <class Read>
void each(Fields& f, const char* field, Read read) {
    if (!f.has(field)) return;
    const Json& list = f.array(field);
    for (std::size_t i = 0; i < list.size(); ++i) {
        Fields item = f.within(list[i], f.name_of(std::string(field) + "[" + std::to_string(i) + "]"));
        read(item);
        item.done();
    }
}

void refuse_empty(Fields& f, const char* field) {
    if (f.array(field).empty()) f.refuse_value(field, f.value(field), "must not be empty; leave it out for all");
}

std::vector<PlaceType> place_list(Fields& f) {
    std::vector<PlaceType> out;
    if (!f.has("places")) return out;
    refuse_empty(f, "places");
    for (const Json& p : f.array("places")) out.push_back(PlaceType(named(f, "places", p, place_types)));
    return out;
}

std::vector<std::string> product_list(Fields& f) {
    std::vector<std::string> out;
    if (!f.has("products")) return out;
    refuse_empty(f, "products");
    for (const Json& p : f.array("products")) {
        if (!p.is_string()) f.refuse_value("products", p, "must be text");
        f.check_id(p.get<std::string>(), "products", false, true);
        out.push_back(p.get<std::string>());
    }
    return out;
}

/// Exactly one of the two fields: at least this, or more than it.
void threshold(Fields& f, const char* at_least, const char* more_than, Rules::Reportable& out) {
    if (f.has(at_least) == f.has(more_than))
        f.refuse(Code::contradiction, at_least, std::string("must be given, or ") + more_than + ", and not both");
    out.more_than = f.has(more_than);
    out.threshold = f.whole(out.more_than ? more_than : at_least, out.more_than ? 0 : 1, 1'000'000'000);
}

Rules::Reportable reportable(Fields& f) {
    Rules::Reportable out;
    out.rule = f.id("rule");
    if (f.has("text")) out.text = f.free_text("text");
    out.form = Form(named(f, "form", forms));
    if (out.form != Form::pattern || f.has("temperature")) {
        Fields t = f.object("temperature");
        out.temperature = Rules::Temperatures{};
        out.temperature->is = Is(named(t, "is", comparisons));
        if (t.has("limit")) out.temperature->limit = t.limit("limit");
        t.done();
    }
    if (out.form == Form::run || out.form == Form::sum) threshold(f, "at_least_s", "more_than_s", out);
    if (out.form == Form::pattern) threshold(f, "at_least", "more_than", out);
    if (out.form == Form::sum || (out.form == Form::pattern && f.has("within_s")))
        out.within = f.seconds("within_s", 1);
    out.places = place_list(f);
    out.products = product_list(f);
    return out;
}

/// "08:05", as seconds since midnight.
int time_of_day(Fields& f, const Json& v) {
    const auto bad = [&] { f.refuse_value("by", v, "must be a local time as \"16:30\""); };
    if (!v.is_string()) bad();
    const auto& s = v.get_ref<const std::string&>();
    if (s.size() != 5 || s[2] != ':') bad();
    for (const int i : {0, 1, 3, 4})
        if (s[static_cast<std::size_t>(i)] < '0' || s[static_cast<std::size_t>(i)] > '9') bad();
    const int hour = (s[0] - '0') * 10 + (s[1] - '0'), minute = (s[3] - '0') * 10 + (s[4] - '0');
    if (hour > 23 || minute > 59) bad();
    return hour * 3600 + minute * 60;
}

std::string time_text(int second_of_day) {
    const auto two = [](int n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
    return two(second_of_day / 3600) + ":" + two(second_of_day / 60 % 60);
}

Rules::Checks checks(Fields& f) {
    Rules::Checks out;
    out.places = place_list(f);
    for (const Json& d : f.array("weekdays"))
        out.weekdays.push_back(static_cast<int>(named(f, "weekdays", d, weekdays)) + 1);
    std::sort(out.weekdays.begin(), out.weekdays.end());
    if (out.weekdays.empty()) f.refuse_value("weekdays", f.value("weekdays"), "must name at least one day of the week");
    if (std::adjacent_find(out.weekdays.begin(), out.weekdays.end()) != out.weekdays.end())
        f.refuse_value("weekdays", f.value("weekdays"), "must name a day of the week once");
    out.per_day = f.whole("per_day", 1, 96);
    if (f.has("by")) {
        for (const Json& t : f.array("by")) out.by.push_back(time_of_day(f, t));
        if (static_cast<std::int64_t>(out.by.size()) != out.per_day)
            f.refuse_value("by", f.value("by"), "must be as many times as per_day");
        if (std::adjacent_find(out.by.begin(), out.by.end(), [](int a, int b) { return a >= b; }) != out.by.end())
            f.refuse_value("by", f.value("by"), "must increase");
    }
    if (f.has("min_max")) out.min_max = f.truth("min_max");
    return out;
}

/// Refuses a name that an item before has.
template <class List, class Name>
void refuse_repeated(Fields& f, const char* field, const List& list, Name name) {
    for (auto a = list.begin(); a != list.end(); ++a)
        for (auto b = list.begin(); b != a; ++b)
            if (name(*a) == name(*b))
                f.refuse(Code::contradiction, field, shown(Json(name(*a))) + ": must be there once");
}

std::optional<std::string> maybe_text(Fields& f, const char* field) {
    if (!f.has(field)) return std::nullopt;
    return f.free_text(field);
}

}  // namespace

Rules read_rules(Fields& f) {
    Rules out;
    out.programme = f.free_text("programme");
    out.source = f.free_text("source");
    out.dated = f.date("dated");
    each(f, "report", [&](Fields& i) { out.report.push_back(reportable(i)); });
    refuse_repeated(f, "report", out.report, [](const auto& r) { return r.rule; });
    each(f, "duties", [&](Fields& i) {
        Rules::Duty d;
        d.step = DutyStep(named(i, "step", duty_steps));
        d.within = i.seconds("within_s");
        if (i.has("if_reportable")) d.if_reportable = i.truth("if_reportable");
        out.duties.push_back(std::move(d));
    });
    refuse_repeated(f, "duties", out.duties, [](const auto& d) { return std::string(duty_step_name(d.step)); });
    each(f, "retention", [&](Fields& i) {
        out.retention.push_back({i.free_text("records"), i.whole("years", 1, 1000)});
    });
    refuse_repeated(f, "retention", out.retention, [](const auto& r) { return r.records; });
    each(f, "checks", [&](Fields& i) { out.checks.push_back(checks(i)); });
    if (f.has("longest_trip_s")) out.longest_trip = f.seconds("longest_trip_s", 1);
    if (f.has("repay_loans_within_days")) out.repay_loans_within_days = f.whole("repay_loans_within_days", 0, 10'000);
    if (f.has("every_days")) {
        Fields every = f.object("every_days");
        for (const auto& [what, unused] : f.value("every_days").items()) {
            named(f, "every_days", Json(what), recurring);
            out.every_days[what] = every.whole(what.c_str(), 1, 10'000);
        }
    }
    return out;
}

Maker read_maker(Fields& f) {
    Maker out{f.id("product"), f.free_text("name"), maybe_text(f, "contact"), maybe_text(f, "phone"),
              maybe_text(f, "email")};
    if (out.name.empty()) f.refuse_value("name", f.value("name"), "must not be empty");
    return out;
}

Report read_report(Fields& f, const Zone& zone) {
    Report out;
    out.incident = f.id("incident");
    out.to = Recipient(named(f, "to", recipients));
    out.recipient = f.free_text("recipient");
    out.through = f.instant("through", zone);
    out.counted = f.truth("counted");
    out.reference = maybe_text(f, "reference");
    out.text = maybe_text(f, "text");
    each(f, "told", [&](Fields& i) {
        Report::Told t{i.place_id("place"),      i.id("product"),     i.id("lot"), i.optional_label("fund"),
                       i.optional_label("mark"), i.doses("doses", 0), {}};
        t.figures = {i.seconds("out_of_range_s"), i.seconds("unmonitored_s"), i.whole("points", 0, 1'000'000'000)};
        out.told.push_back(std::move(t));
    });
    refuse_repeated(f, "told", out.told, [](const auto& t) {
        return t.place + "/" + Json(Json::array({t.product, t.lot, t.fund, t.mark})).dump();
    });
    return out;
}

namespace {

void put_places(Out& out, const std::vector<PlaceType>& places) {
    if (places.empty()) return;
    out["places"] = Out::array();
    for (const auto type : places) out["places"].push_back(place_type_name(type));
}

Out reportable_json(const Rules::Reportable& r) {
    Out out{{"rule", r.rule}};
    if (!r.text.empty()) out["text"] = r.text;
    out["form"] = forms[static_cast<int>(r.form)];
    if (r.temperature) {
        out["temperature"] = {{"is", comparisons[static_cast<int>(r.temperature->is)]}};
        if (r.temperature->limit) out["temperature"]["limit"] = limit_json(*r.temperature->limit);
    }
    if (r.form == Form::run || r.form == Form::sum) out[r.more_than ? "more_than_s" : "at_least_s"] = r.threshold;
    if (r.form == Form::pattern) out[r.more_than ? "more_than" : "at_least"] = r.threshold;
    if (r.within) out["within_s"] = r.within->seconds();
    put_places(out, r.places);
    if (!r.products.empty()) out["products"] = r.products;
    return out;
}

template <class List, class Make>
void put_list(Out& out, const char* field, const List& list, Make make) {
    if (list.empty()) return;
    out[field] = Out::array();
    for (const auto& item : list) out[field].push_back(make(item));
}

void put(Out& out, const char* field, const std::optional<std::string>& value) {
    if (value) out[field] = *value;
}

}  // namespace

void print_rules(Out& out, const Rules& r) {
    out["programme"] = r.programme;
    out["source"] = r.source;
    out["dated"] = r.dated.text();
    put_list(out, "report", r.report, reportable_json);
    put_list(out, "duties", r.duties, [](const auto& d) {
        Out o{{"step", duty_step_name(d.step)}, {"within_s", d.within.seconds()}};
        if (d.if_reportable) o["if_reportable"] = true;
        return o;
    });
    put_list(out, "retention", r.retention, [](const auto& x) {
        return Out{{"records", x.records}, {"years", x.years}};
    });
    put_list(out, "checks", r.checks, [](const auto& c) {
        Out o = Out::object();
        put_places(o, c.places);
        o["weekdays"] = Out::array();
        for (const int d : c.weekdays) o["weekdays"].push_back(weekdays[d - 1]);
        o["per_day"] = c.per_day;
        if (!c.by.empty()) {
            o["by"] = Out::array();
            for (const int t : c.by) o["by"].push_back(time_text(t));
        }
        if (c.min_max) o["min_max"] = true;
        return o;
    });
    if (r.longest_trip) out["longest_trip_s"] = r.longest_trip->seconds();
    if (r.repay_loans_within_days) out["repay_loans_within_days"] = *r.repay_loans_within_days;
    if (!r.every_days.empty()) {
        out["every_days"] = Out::object();
        for (const auto& [what, days] : r.every_days) out["every_days"][what] = days;
    }
}

void print_maker(Out& out, const Maker& m) {
    out["product"] = m.product;
    out["name"] = m.name;
    put(out, "contact", m.contact);
    put(out, "phone", m.phone);
    put(out, "email", m.email);
}

void print_report(Out& out, const Report& r) {
    out["incident"] = r.incident;
    out["to"] = recipient_name(r.to);
    out["recipient"] = r.recipient;
    out["through"] = r.through.text();
    out["counted"] = r.counted;
    put(out, "reference", r.reference);
    put(out, "text", r.text);
    put_list(out, "told", r.told, [](const auto& t) {
        Out o{{"place", t.place}, {"product", t.product}, {"lot", t.lot}};
        if (!t.fund.empty()) o["fund"] = t.fund;
        if (!t.mark.empty()) o["mark"] = t.mark;
        o["doses"] = t.doses.count();
        o["out_of_range_s"] = t.figures.out_of_range.seconds();
        o["unmonitored_s"] = t.figures.unmonitored.seconds();
        o["points"] = t.figures.points;
        return o;
    });
}

}  // namespace coldtally::entries
