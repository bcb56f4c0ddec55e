#include "events.hpp"

#include <set>
#include <tuple>

namespace scenarios {

using coldtally::Duration;

namespace {

Json empty_history() {
    const Json side = {
        {"at_least_s", "0"}, {"estimate_s", "0"}, {"at_most_s", "0"}, {"degree_Cs", "0"}, {"open_s", "0"}};
    return {{"warm", side},
            {"cold", side},
            {"frozen", side},
            {"allowances", Json::array()},
            {"beyond", {{"warm_s", "0"}, {"warm_open_s", "0"}, {"cold_s", "0"}, {"cold_open_s", "0"}}},
            {"points", 0},
            {"points_open", 0},
            {"coverage",
             {{"logged_s", "0"},
              {"bounded_s", "0"},
              {"checked_s", "0"},
              {"near_s", "0"},
              {"awaiting_s", "0"},
              {"unmonitored_s", "0"},
              {"unmonitored_open_s", "0"}}},
            {"lowest_C", nullptr},
            {"highest_C", nullptr},
            {"places", {"clinic/fridge"}},
            {"condemned_by", Json::array()},
            {"held_by", Json::array()},
            {"use_by", nullptr}};
}

/// What `part` states, into the rest.
void state(Json& whole, const Json& part) {
    for (const auto& [key, value] : part.items())
        if (value.is_object() && whole.contains(key) && whole[key].is_object())
            state(whole[key], value);
        else
            whole[key] = value;
}

std::pair<std::string, std::string> split_temperature(const std::string& word) {
    if (word.back() == 'F') return {word.substr(0, word.size() - 1), "F"};
    return {word, "C"};
}

void put_site(Json& e, Words& w) {
    e["name"] = "Harbour Street";
    const std::string zone = w.option("zone"), unmonitored = w.option("unmonitored"), stale = w.option("stale");
    e["zone"] = zone.empty() ? "UTC" : zone;
    if (!unmonitored.empty()) e["unmonitored_limit_s"] = std::stoll(unmonitored);
    if (!stale.empty()) e["stale_after_s"] = std::stoll(stale);
}

void put_product(Json& e, Words& w) {
    e["product"] = w.next();
    e["name"] = e["product"];
    put_range(e, w);
    while (!w.empty()) {
        if (w.take("freeze")) {
            e["freeze_limit"] = limit(w.next());
        } else if (w.take("allow")) {
            const std::string low = w.next(), high = w.next();
            e["allowances"].push_back({{"band", {{"low", limit(low)}, {"high", limit(high)}}},
                                       {"seconds", w.number()},
                                       {"source", "leaflet"}});
        } else if (w.take("event")) {
            const std::string name = w.next();
            e["beyond_use"][name] = w.number();
        } else if (w.take("vial")) {
            e["doses_per_vial"] = w.number();
        } else {
            unreadable("product: " + w.rest());
        }
    }
}

void put_place_definition(Json& e, Words& w) {
    e["place"] = w.next();
    e["name"] = e["place"];
    const std::string type = w.option("type");
    e["type"] = type.empty() ? "refrigerator" : spoken(type);
    put_range(e, w);
    const std::string gap = w.option("gap"), check_gap = w.option("checkgap");
    if (!gap.empty()) e["max_gap_s"] = std::stoll(gap);
    if (!check_gap.empty()) e["max_check_gap_s"] = std::stoll(check_gap);
    if (const std::string near = w.option("near"); near.empty())
        e["near_s"] = 0;
    else if (near != "usual")
        e["near_s"] = std::stoll(near);
}

/// Whether the kind is one of these.
bool put_definition(const std::string& kind, Json& e, Words& w) {
    if (kind == "site") {
        put_site(e, w);
    } else if (kind == "product") {
        put_product(e, w);
    } else if (kind == "lot") {
        e["product"] = w.next();
        e["lot"] = w.next();
        e["expiry"] = w.next();
    } else if (kind == "place") {
        put_place_definition(e, w);
    } else if (kind == "probe") {
        e["probe"] = w.next();
        e["scale"] = w.next();
    } else if (kind == "maker") {
        e["product"] = w.next();
        e["name"] = w.next();
    } else {
        return false;
    }
    return true;
}

bool put_measured(const std::string& kind, const std::string& time, Json& e, Words& w) {
    if (kind == "certificate") {
        e["probe"] = w.next();
        e["expires"] = w.next();
        if (const std::string tolerance = w.option("tolerance"); !tolerance.empty()) e["tolerance"] = tolerance;
        if (w.take("correct"))
            while (!w.empty()) {
                const std::string row = w.next();
                const auto colon = row.find(':');
                e["correction"].push_back({row.substr(0, colon), row.substr(colon + 1)});
            }
    } else if (kind == "assign") {
        e["probe"] = w.next();
        if (const std::string place = w.next(); place != "-") e["place"] = place;
    } else if (kind == "log") {
        e["kind"] = "readings";
        e["probe"] = w.next();
        e["scale"] = e["probe"] == "f" ? "F" : "C";
        e["rows"] = Json::array();
        const Duration step(w.number());
        for (Instant t = instant(time); !w.empty(); t = t + step)
            if (const std::string value = w.next(); value != "-") e["rows"].push_back({t.text(), value});
    } else if (kind == "check") {
        e["place"] = w.next();
        std::tie(e["temperature"], e["scale"]) = split_temperature(w.next());
        const std::string min = w.option("min"), max = w.option("max"), probe = w.option("probe");
        if (!min.empty()) e["min"] = min;
        if (!max.empty()) e["max"] = max;
        if (!probe.empty()) e["probe"] = probe;
    } else {
        return false;
    }
    return true;
}

void put_guidance(const std::string& time, Json& e, Words& w) {
    e["issuer"] = "maker";
    e["reference"] = "M-1";
    e["product"] = w.next();
    e["lot"] = w.next();
    e["verdict"] = w.next();
    if (e["verdict"] == "use-by") e["use_by"] = w.next();
    const std::string through = w.option("through"), where = w.option("in");
    e["through"] = time_text(through.empty() ? time : through);
    if (!where.empty()) put_place(e, where);
    if (const std::string since = w.option("since"); !since.empty()) e["since"] = instant(since).text();
    if (w.take("told")) {
        for (const char* field : {"out_of_range_s", "unmonitored_s", "points"})
            if (!w.take("-")) e["told"][field] = w.number();
    }
}

bool put_judgement(const std::string& kind, const std::string& time, Json& e, Words& w, const Names& names) {
    if (kind == "hold") {
        e["reason"] = "recall";
        e["product"] = w.next();
        if (w.take("lot")) e["lot"] = w.next();
        if (w.take("in")) put_place(e, w.next());
    } else if (kind == "guidance") {
        put_guidance(time, e, w);
    } else if (kind == "void") {
        e["voids"] = numbered(names, w.next());
        e["reason"] = "mistaken";
    } else {
        return false;
    }
    return true;
}

void put_rules(Json& e, Words& w) {
    e["programme"] = "Programme";
    e["source"] = "handbook";
    e["dated"] = "2026-01-01";
    e["report"] = Json::array();
    e["duties"] = Json::array();
    while (!w.empty()) {
        if (w.take("warm")) {
            e["report"].push_back({{"rule", "warm"},
                                   {"text", "so long too warm"},
                                   {"form", "run"},
                                   {"temperature", {{"is", "above"}}},
                                   {"at_least_s", w.number()}});
        } else if (w.take("told")) {
            const std::string who = spoken(w.next());
            e["duties"].push_back({{"step", who + " told"}, {"within_s", w.number()}});
        } else if (w.take("answer")) {
            e["duties"].push_back({{"step", "answer"}, {"within_s", w.number()}});
        } else if (w.take("every")) {
            const std::string what = spoken(w.next());
            e["every_days"][what] = w.number();
        } else if (w.take("loans")) {
            e["repay_loans_within_days"] = w.number();
        } else if (w.take("checks")) {
            Json by = Json::array();
            std::istringstream times(w.next());
            for (std::string one; std::getline(times, one, ',');) by.push_back(one);
            e["checks"] = {{{"places", {"refrigerator"}},
                            {"weekdays", {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday"}},
                            {"per_day", by.size()},
                            {"by", by},
                            {"min_max", true}}};
        } else {
            unreadable("rules: " + w.rest());
        }
    }
}

bool put_duty(const std::string& kind, Json& e, Words& w, const Names& names) {
    if (kind == "rules") {
        put_rules(e, w);
    } else if (kind == "loan") {
        e["give"] = numbered(names, w.next());
        e["eligible"] = w.next();
        e["reason"] = w.next();
    } else if (kind == "repayment") {
        e["loan"] = numbered(names, w.next());
        e["doses"] = w.number();
        if (const std::string with = w.option("with"); !with.empty()) e["with"] = numbered(names, with);
    } else if (kind == "follow-up") {
        e["give"] = numbered(names, w.next());
        e["step"] = spoken(w.next());
    } else if (kind == "training") {
        e["person"] = w.next();
        e["topic"] = w.next();
        if (const std::string due = w.option("due"); !due.empty()) e["due"] = due;
    } else if (kind == "plan") {
        e["people"] = Json::array();
        while (!w.empty()) e["people"].push_back({{"name", w.next()}, {"role", "nurse"}, {"mobile", "555-0100"}});
    } else {
        return false;
    }
    return true;
}

void put_doses(const std::string& kind, Json& e, Words& w) {
    if (kind == "move") {
        e["product"] = w.next();
        e["lot"] = w.next();
        e["doses"] = w.number();
        e["from"] = Json::object();
        put_place(e["from"], w.next());
        if (!w.take(">")) unreadable("move: > is missing");
        e["to"] = Json::object();
        put_place(e["to"], w.next());
        return;
    }
    put_holding(e, w);
    if (kind == "beyond-use") {
        if (w.take("until")) {
            const std::string until = w.next();
            e["use_by"] = is_date(until) ? until : time_text(until);
        } else {
            e["event"] = w.next();
        }
    } else {
        e["doses"] = w.number();
    }
    if (kind == "give") {
        e["patient"] = w.next();
        if (w.take("uncertain")) e["certain"] = false;
    }
    if (kind == "waste" || kind == "return" || kind == "transfer") e["reason"] = "stated";
    if (kind == "transfer") e["to"] = "the other clinic";
    if (kind == "receive" && w.take("handover")) {
        e["handover"] = empty_history();
        state(e["handover"], Json::parse(w.rest()));
    }
}

}  // namespace

Json event(const std::string& time, Words& w, const Names& names) {
    const std::string kind = w.next();
    if (kind == "json") return Json::parse(w.rest());
    const std::string earlier = w.option("at"), when = earlier.empty() ? time : earlier;
    Json e = {{"kind", kind}, {"by", "AB"}};
    if (const std::string fund = w.option("fund"); !fund.empty()) e["fund"] = fund;
    static const std::set<std::string> timeless{"site", "product", "lot", "place", "probe", "maker", "rules", "log"};
    if (!timeless.contains(kind)) e["at"] = time_text(when);
    if (!put_definition(kind, e, w) && !put_measured(kind, when, e, w) && !put_judgement(kind, when, e, w, names) &&
        !put_duty(kind, e, w, names))
        put_doses(kind, e, w);
    if (!w.empty()) unreadable(kind + ": not understood: " + w.rest());
    return e;
}

Json stated(Words& w, const Names& names) {
    static const std::set<std::string> numbers{"doses", "vial_doses", "doses_per_vial"},
        entries{"give", "voids", "loan"}, times{"at", "opened", "through"};
    Json e = {{"kind", w.next()}, {"by", "AB"}};
    while (!w.empty()) {
        const std::string field = w.next();
        std::string value = w.next();
        if (value == "-") value.clear();
        if (numbers.contains(field)) {
            e[field] = std::stoll(value);
        } else if (entries.contains(field)) {
            e[field] = numbered(names, value);
        } else if (e["kind"] == "move" && (field == "from" || field == "to")) {
            e[field] = Json::object();
            put_place(e[field], value);
        } else if (field == "place") {
            put_place(e, value);
        } else if (times.contains(field) && value.find('T') != std::string::npos) {
            e[field] = time_text(value);
        } else {
            e[field] = value;
        }
    }
    return e;
}

}  // namespace scenarios
