#include "faults/clinic.hpp"

#include "coldtally/forms.hpp"

namespace faults {

using namespace coldtally;

namespace {

const Zone& utc() {
    static const Zone zone("UTC");
    return zone;
}
Instant at(const std::string& text) { return parse_instant(text, utc()); }

const char* const range_C = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";

/// Lines without `by`, which they get.
std::string lines(const std::vector<std::string>& all) {
    std::string out;
    for (const auto& line : all) out += line.substr(0, line.size() - 1) + R"(,"by":"QA"})" + "\n";
    return out;
}

/// Half-hourly readings of a probe from an instant on.
std::string readings(const char* probe, const char* scale, const std::string& from, int rows, int high_from,
                     int high_until) {
    std::string out =
        std::string(R"({"kind":"readings","probe":")") + probe + R"(","scale":")" + scale + R"(","rows":[)";
    const bool F = *scale == 'F';
    for (int i = 0; i < rows; ++i) {
        const bool high = i >= high_from && i < high_until;
        const int tenths = high ? (F ? 510 + i % 3 : 95 + i % 3) : (F ? 400 + i % 5 : 40 + i % 7);
        out += (i ? ",[\"" : "[\"") + (at(from) + Duration(1800 * i)).text() + "\",\"" + std::to_string(tenths / 10) +
               "." + std::to_string(tenths % 10) + "\"]";
    }
    return out + "]}";
}

std::string holding(const char* place, const char* product, const char* lot, const char* fund = "",
                    const char* mark = "") {
    return std::string(R"("place":")") + place + R"(","product":")" + product + R"(","lot":")" + lot + R"(","fund":")" +
           fund + R"(","mark":")" + mark + "\"";
}

const char* const handover =
    R"({"warm":{"at_least_s":"0","estimate_s":"60","at_most_s":"120","degree_Cs":"30","open_s":"60"},)"
    R"("cold":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("frozen":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("allowances":[{"seconds":14400,"used_s":"60","open_s":"60"}],)"
    R"("beyond":{"warm_s":"0","warm_open_s":"0","cold_s":"0","cold_open_s":"0"},"points":0,"points_open":0,)"
    R"("coverage":{"logged_s":"7200","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0",)"
    R"("unmonitored_s":"0",)"
    R"("unmonitored_open_s":"0"},"lowest_C":"3","highest_C":"9","places":["north/fridge"],"condemned_by":[],)"
    R"("held_by":[],)"
    R"("use_by":null})";

std::string give(const std::string& when, const std::string& held, const char* patient, const char* more = "") {
    return R"({"kind":"give","at":")" + when + R"(",)" + held + R"(,"patient":")" + patient + "\"" + more + "}";
}

std::vector<std::string> definitions_and_rules() {
    const std::string range = range_C;
    return {
        R"({"kind":"site","name":"Otter Quay Clinic, invented","zone":"America/Chicago","unmonitored_limit_s":3600})",
        R"({"kind":"product","product":"demo-oak","name":"Oak, invented",)" + range +
            R"(,"freeze_limit":{"C":"0","F":"32"},"allowances":[{"band":{"low":{"C":"8","F":"46"},)"
            R"("high":{"C":"15","F":"59"}},)"
            R"("seconds":14400,"source":"invented insert 7"}],"beyond_use":{"first puncture":2419200},"cvx":"140",)"
            R"("gtin":["09521234543213"],"doses_per_vial":10})",
        R"({"kind":"product","product":"demo-yew","name":"Yew, invented",)" + range + R"(,"freeze_limit":{"C":"0"}})",
        R"({"kind":"lot","product":"demo-oak","lot":"O-1","expiry":"2027-05"})",
        R"({"kind":"lot","product":"demo-oak","lot":"O-2","expiry":"2026-03-20"})",
        R"({"kind":"lot","product":"demo-yew","lot":"Y-1","expiry":"2026-12-31"})",
        R"({"kind":"place","place":"main","name":"Main, invented","type":"refrigerator",)" + range +
            R"(,"max_gap_s":3600})",
        R"({"kind":"place","place":"annex","name":"Annex, invented","type":"refrigerator",)" + range + "}",
        R"({"kind":"place","place":"box","name":"Box, invented","type":"transport container",)" + range + "}",
        R"({"kind":"probe","probe":"bath","scale":"C","serial":"invented 1"})",
        R"({"kind":"probe","probe":"door","scale":"F"})",
        R"({"kind":"certificate","at":"2026-01-02T09:00:00Z","probe":"bath","expires":"2026-03-15",)"
        R"("number":"invented 2",)"
        R"("tolerance":"0.5","correction":[["0","0.2"],["10","-0.1"]]})",
        R"({"kind":"certificate","at":"2026-01-02T09:00:00Z","probe":"door","expires":"2027-01-02",)"
        R"("tolerance":"0.9"})",
        R"({"kind":"assign","at":"2026-03-02T06:00:00Z","probe":"bath","place":"main"})",
        R"({"kind":"assign","at":"2026-03-02T06:00:00Z","probe":"door","place":"annex"})",
        R"({"kind":"maker","product":"demo-oak","name":"Oak Works, invented","contact":"desk","phone":"555-0100"})",
        R"({"kind":"rules","programme":"Programme, invented","source":"Handbook, invented, 4",)"
        R"("dated":"2025-11-01","report":[)"
        R"({"rule":"warm run","text":"an hour above 8 C","form":"run","temperature":{"is":"above",)"
        R"("limit":{"C":"8","F":"46"}},)"
        R"("at_least_s":3600,"places":["refrigerator"]},{"rule":"again","form":"pattern","at_least":3,)"
        R"("within_s":1209600}],)"
        R"("duties":[{"step":"supervisor told","within_s":3600},{"step":"answer","within_s":172800}],)"
        R"("retention":[{"records":"temperature logs","years":3}],"checks":[{"places":["refrigerator"],)"
        R"("weekdays":["Monday"],)"
        R"("per_day":2,"by":["09:00","17:00"],"min_max":true}],"longest_trip_s":28800,"repay_loans_within_days":60,)"
        R"("every_days":{"plan review":365,"training":365}})",
    };
}

std::vector<std::string> deliveries_and_warm_hours() {
    return {
        R"({"kind":"receive","at":"2026-03-02T08:00:00Z",)" + holding("main", "demo-oak", "O-1", "state") +
            R"(,"doses":60})",
        R"({"kind":"receive","at":"2026-03-02T08:05:00Z",)" + holding("main", "demo-oak", "O-2", "own") +
            R"(,"doses":20,"handover":)" + handover + "}",
        R"({"kind":"receive","at":"2026-03-02T08:10:00Z",)" + holding("annex", "demo-yew", "Y-1") + R"(,"doses":30})",
        readings("bath", "C", "2026-03-02T07:30:00Z", 60, 20, 29),
        readings("door", "F", "2026-03-02T07:30:00Z", 60, 40, 43),
        R"({"kind":"check","at":"2026-03-02T09:00:00Z","place":"annex","scale":"F","temperature":"40",)"
        R"("probe":"door"})",
        R"({"kind":"check","at":"2026-03-03T09:00:00Z","place":"annex","scale":"F","temperature":"41",)"
        R"("min":"38","max":"47"})",
        R"({"kind":"check","at":"2026-03-03T10:00:00Z","place":"box","scale":"C","temperature":"5.25"})",
        R"({"kind":"move","at":"2026-03-03T10:30:00Z","product":"demo-oak","lot":"O-1","fund":"state",)"
        R"("from":{"place":"main"},)"
        R"("to":{"place":"main","mark":"vial 1"},"doses":10})",
        R"({"kind":"beyond-use","at":"2026-03-03T10:30:00Z",)" +
            holding("main", "demo-oak", "O-1", "state", "vial 1") + R"(,"event":"first puncture"})",
        give("2026-03-03T11:00:00Z", holding("main", "demo-oak", "O-1", "state", "vial 1"), "tok-41"),
        give("2026-03-03T11:30:00Z", holding("annex", "demo-yew", "Y-1"), "tok-42", R"(,"certain":false)"),
        R"({"kind":"waste","at":"2026-03-03T12:00:00Z",)" + holding("main", "demo-oak", "O-1", "state", "vial 1") +
            R"(,"doses":1,"reason":"dropped"})",
    };
}

std::vector<std::string> journey_and_incident() {
    return {
        R"({"kind":"trip","at":"2026-03-05T08:00:00Z","container":"box","step":"departure",)"
        R"("destination":"School, invented",)"
        R"("reason":"off-site clinic","packed_by":"QA","coolant":"bottles"})",
        R"({"kind":"move","at":"2026-03-05T08:00:00Z","product":"demo-yew","lot":"Y-1","from":{"place":"annex"},)"
        R"("to":{"place":"box"},"doses":12})",
        R"({"kind":"check","at":"2026-03-05T08:05:00Z","place":"box","scale":"C","temperature":"4"})",
        give("2026-03-05T10:00:00Z", holding("box", "demo-yew", "Y-1"), "tok-43"),
        R"({"kind":"check","at":"2026-03-05T15:00:00Z","place":"box","scale":"C","temperature":"6","min":"3",)"
        R"("max":"9.5"})",
        R"({"kind":"move","at":"2026-03-05T15:30:00Z","product":"demo-yew","lot":"Y-1","from":{"place":"box"},)"
        R"("to":{"place":"annex","mark":"off-site"},"doses":11})",
        R"({"kind":"trip","at":"2026-03-05T15:30:00Z","container":"box","step":"arrival","received_by":"QA"})",
        R"({"kind":"incident","at":"2026-03-05T16:00:00Z","incident":"i1","step":"noticed",)"
        R"("text":"Warm night.","place":"main"})",
        R"({"kind":"incident","at":"2026-03-05T16:10:00Z","incident":"i1","step":"supervisor told",)"
        R"("text":"By telephone."})",
        R"({"kind":"hold","at":"2026-03-05T16:15:00Z","reason":"warm night, maker is asked",)"
        R"("product":"demo-oak","lot":"O-1",)"
        R"("place":"main"})",
        R"({"kind":"report","at":"2026-03-05T17:00:00Z","incident":"i1","to":"manufacturer",)"
        R"("recipient":"Oak Works, invented",)"
        R"("through":"2026-03-05T17:00:00Z","counted":true,"told":[{"place":"main","product":"demo-oak","lot":"O-1",)"
        R"("fund":"state","doses":49,"out_of_range_s":16200,"unmonitored_s":0,"points":0}]})",
        R"({"kind":"guidance","at":"2026-03-06T09:00:00Z","product":"demo-oak","lot":"O-1",)"
        R"("through":"2026-03-05T17:00:00Z",)"
        R"("verdict":"use-by","use_by":"2026-12-31","issuer":"Oak Works, invented","reference":"case 5",)"
        R"("told":{"out_of_range_s":20000,"unmonitored_s":90000,"points":3}})",
        R"({"kind":"guidance","at":"2026-03-06T09:05:00Z","product":"demo-oak","lot":"O-2",)"
        R"("through":"2026-03-06T09:00:00Z",)"
        R"("verdict":"discard","issuer":"Oak Works, invented","reference":"case 6"})",
        R"({"kind":"incident","at":"2026-03-06T10:00:00Z","incident":"i1","step":"cause","text":"Door."})",
    };
}

std::vector<std::string> records_and_corrections() {
    return {
        R"({"kind":"plan","at":"2026-03-07T09:00:00Z","people":[{"name":"Invented One","role":"coordinator",)"
        R"("mobile":"555-0101"}],)"
        R"("backups":[{"name":"annex","phone":"555-0102","agreed":"2026-01-02"}],"services":[{"what":"power",)"
        R"("phone":"555-0103"}],)"
        R"("steps":"Keep doors shut.","reviewed":"2026-02-01","reviewed_by":"QA"})",
        R"({"kind":"loan","at":"2026-03-07T10:00:00Z","give":28,"eligible":"own","reason":"out of stock"})",
        R"({"kind":"repayment","at":"2026-03-08T10:00:00Z","loan":46,"doses":1})",
        R"({"kind":"follow-up","at":"2026-03-08T11:00:00Z","give":29,"step":"decided",)"
        R"("text":"asked the department"})",
        R"({"kind":"training","at":"2026-03-08T12:00:00Z","person":"Invented One","topic":"storage",)"
        R"("due":"2027-03-08"})",
        R"({"kind":"transfer","at":"2026-03-08T13:00:00Z",)" + holding("annex", "demo-yew", "Y-1") +
            R"(,"doses":5,"reason":"needed there","to":"Quarry, invented"})",
        R"({"kind":"return","at":"2026-03-08T13:30:00Z",)" + holding("annex", "demo-yew", "Y-1") +
            R"(,"doses":2,"reason":"recalled"})",
        R"({"kind":"count","at":"2026-03-08T14:00:00Z",)" + holding("annex", "demo-yew", "Y-1") + R"(,"doses":9})",
        R"({"kind":"lot","product":"demo-yew","lot":"Y-1","expiry":"2026-11-30"})",
        R"({"kind":"waste","at":"2026-03-08T15:00:00Z",)" + holding("annex", "demo-yew", "Y-1") +
            R"(,"doses":1,"reason":"typed wrong"})",
        R"({"kind":"void","at":"2026-03-08T15:05:00Z","voids":54,"reason":"typed wrong"})",
        R"({"kind":"incident","at":"2026-03-09T09:00:00Z","incident":"i2","step":"noticed",)"
        R"("text":"Carrier warm.","place":"box"})",
    };
}

/// What is recorded on a day, by when.
std::vector<std::pair<std::string, std::vector<std::string>>> days() {
    return {{"2026-03-02T07:00:00Z", definitions_and_rules()},
            {"2026-03-04T20:00:00Z", deliveries_and_warm_hours()},
            {"2026-03-06T20:00:00Z", journey_and_incident()},
            {"2026-03-09T20:00:00Z", records_and_corrections()}};
}

TableStyle style() { return TableStyle{Zone("America/Chicago"), Scale::C, 100, false}; }

}  // namespace

Instant asked_at() { return at("2026-03-12T18:00:00Z"); }

LoggerFile logger_file(int day, int rows) {
    std::string text = "instant;degrees\n";
    const Instant from = at("2026-03-04T00:00:00Z") + Duration(86400 * day);
    for (int i = 0; i < rows; ++i) {
        const int tenths = i % 200 > 180 ? 86 + i % 9 : 42 + (i * 7) % 13;
        text += (from + Duration(300 * i)).text() + ";" + std::to_string(tenths / 10) + "." +
                std::to_string(tenths % 10) + "\n";
    }
    return {"bath-" + std::to_string(day) + ".csv", text};
}

namespace {

/// Readings that come late loosen what was not known before, and this site has looked at that.
void look_at_what_loosens([[maybe_unused]] auto& request) {
    if constexpr (requires { request.loosen; }) request.loosen = true;
}

}  // namespace

ImportRequest logger_request() {
    ImportRequest request;
    look_at_what_loosens(request);
    request.probe = "bath";
    request.by = "QA";
    request.layout =
        LoggerLayout::parse(R"({"delimiter":";","decimal":".","skip_lines":1,"columns":{"instant":1,"temperature":2},)"
                            R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})");
    return request;
}

std::string definitions() {
    return lines({R"({"kind":"site","name":"New, invented","zone":"UTC"})",
                  R"({"kind":"product","product":"demo-oak","name":"Oak, invented",)" + std::string(range_C) + "}",
                  R"({"kind":"lot","product":"demo-oak","lot":"O-1","expiry":"2027-05"})",
                  R"({"kind":"place","place":"main","name":"Main, invented","type":"refrigerator",)" +
                      std::string(range_C) + "}"});
}

std::string batch(int serial, int count) {
    std::vector<std::string> all;
    for (int i = 0; i < count; ++i)
        all.push_back(R"({"kind":"check","at":")" + (at("2026-03-09T21:00:00Z") + Duration(serial * 100 + i)).text() +
                      R"(","place":"annex","scale":"F","temperature":"4)" + std::to_string((serial + i) % 10) + "\"}");
    all.push_back(R"({"kind":"give","at":"2026-03-09T20:30:00Z",)" + holding("main", "demo-oak", "O-1", "state") +
                  R"(,"patient":"tok-)" + std::to_string(1000 + serial) + "\"}");
    return lines(all);
}

void make_clinic(const std::string& path) {
    Ledger ledger(path, Ledger::Mode::create);
    for (const auto& [recorded, all] : days()) ledger.post(lines(all), at(recorded));
    ledger.import_readings(logger_request(), {logger_file(0, 700), logger_file(4, 40)}, at("2026-03-10T08:00:00Z"));
}

namespace {

Instant window_from() { return at("2026-03-02T00:00:00Z"); }
Instant window_until() { return at("2026-03-12T00:00:00Z"); }

std::string both(const auto& answer) { return to_json(answer) + to_table(answer, style()); }

std::vector<Question> questions_of_doses() {
    const Instant now = asked_at();
    const Instant from = window_from(), until = window_until();
    return {
        {"stock", [=](Ledger& l) { return both(l.stock({}, now)); }},
        {"stock known on",
         [=](Ledger& l) {
             return both(l.stock({at("2026-03-05T12:00:00Z"), at("2026-03-06T21:00:00Z")}, now));
         }},
        {"lists", [=](Ledger& l) { return both(l.lists({}, now)); }},
        {"lists at",
         [=](Ledger& l) {
             return both(l.lists({at("2026-03-05T16:30:00Z"), std::nullopt}, now));
         }},
        {"review", [=](Ledger& l) { return both(l.review({}, now, true)); }},
        {"immunizations",
         [=](Ledger& l) {
             const auto a = l.immunizations({}, std::nullopt, now);
             return to_json(a) + to_ndjson(a);
         }},
        {"explain",
         [=](Ledger& l) {
             return both(l.explain({"main", "demo-oak", "O-1", "state", ""}, {}, now));
         }},
        {"explain the annex",
         [=](Ledger& l) {
             return both(l.explain({"annex", "demo-yew", "Y-1", "", "off-site"}, {}, now));
         }},
        {"scan", [=](Ledger& l) { return both(l.scan("(01)09521234543213(17)270531(10)O-1", {}, now)); }},
        {"dates", [=](Ledger& l) { return both(l.dates({}, now)); }},
        {"loans", [=](Ledger& l) { return both(l.loans({}, now, true)); }},
        {"accountability", [=](Ledger& l) { return both(l.accountability(from, until, {}, now)); }},
        {"follow-up", [=](Ledger& l) { return both(l.follow_up("Y-1", std::nullopt, {}, now)); }},
        {"handover",
         [=](Ledger& l) {
             const auto a = l.handover(50, {}, now);
             return both(a) + handover_json(a);
         }},
        {"stays",
         [=](Ledger& l) {
             return to_json(l.stays("demo-oak", "O-1", {}, now)) + to_json(l.stays("demo-yew", "Y-1", {}, now));
         }},
    };
}

std::vector<Question> questions_of_places() {
    const Instant now = asked_at();
    const Instant from = window_from(), until = window_until();
    return {
        {"excursions", [=](Ledger& l) { return both(l.excursions("main", from, until, {}, now)); }},
        {"excursions of the annex", [=](Ledger& l) { return both(l.excursions("annex", from, until, {}, now)); }},
        {"conditions", [=](Ledger& l) { return both(l.conditions("main", from, until, {}, now)); }},
        {"conditions of the annex", [=](Ledger& l) { return both(l.conditions("annex", from, until, {}, now)); }},
        {"unit", [=](Ledger& l) { return both(l.unit("main", std::nullopt, std::nullopt, {}, now)); }},
        {"readings", [=](Ledger& l) { return to_json(l.readings("bath", from, until, {}, now)); }},
        {"readings of the door", [=](Ledger& l) { return to_json(l.readings("door", from, until, {}, now)); }},
        {"trace", [=](Ledger& l) { return to_json(l.trace("main", from, until, {}, now)); }},
        {"trace of the box", [=](Ledger& l) { return to_json(l.trace("box", from, until, {}, now)); }},
        {"move list", [=](Ledger& l) { return both(l.move_list("main", "box", {}, now)); }},
        {"trip", [=](Ledger& l) { return both(l.trip("box", std::nullopt, {}, now)); }},
    };
}

std::vector<Question> questions_of_duties() {
    const Instant now = asked_at();
    const Instant from = window_from(), until = window_until();
    return {
        {"today", [=](Ledger& l) { return both(l.today({}, now)); }},
        {"readiness", [=](Ledger& l) { return both(l.readiness(std::nullopt, {}, now)); }},
        {"incidents", [=](Ledger& l) { return both(l.incidents(std::nullopt, std::nullopt, from, until, {}, now)); }},
        {"incident", [=](Ledger& l) { return both(l.incident("i1", std::nullopt, {}, now)); }},
        {"incident of a maker", [=](Ledger& l) { return both(l.incident("i1", "Oak Works, invented", {}, now)); }},
        {"rules", [=](Ledger& l) { return both(l.rules(std::nullopt, from, until, {}, now)); }},
        {"plan", [=](Ledger& l) { return both(l.plan({}, now)); }},
        {"training", [=](Ledger& l) { return both(l.training({}, now)); }},
    };
}

std::vector<Question> questions_of_the_file() {
    const Instant now = asked_at();
    return {
        {"export",
         [=](Ledger& l) {
             std::string out;
             l.for_each_entry([&](const Entry& e) { out += to_json(e) + english().say(entry_words(e, utc())) + "\n"; });
             return out;
         }},
        {"zone and sheet",
         [=](Ledger& l) { return l.zone().name() + scale_letter(l.sheet_scale()); }},
        {"draft",
         [=](Ledger& l) {
             Posted p;
             p.what = l.draft(
                 R"({"kind":"give","product":"demo-oak","place":"main","fund":"state","mark":"",)"
                 R"("patient":"tok-77","by":"QA"})",
                 now);
             return both(p);
         }},
    };
}

}  // namespace

const std::vector<Question>& questions() {
    static const std::vector<Question> all = [] {
        std::vector<Question> out;
        for (const auto group : {questions_of_doses, questions_of_places, questions_of_duties, questions_of_the_file})
            for (Question& one : group()) out.push_back(std::move(one));
        return out;
    }();
    return all;
}

}  // namespace faults
