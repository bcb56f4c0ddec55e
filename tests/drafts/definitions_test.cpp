// Definitions in everyday work: read back whole, changed without losing the rest, asked about where they may be wrong
// or loosen anything. All data invented. Published ranges are those of tests/published/storage-ranges.txt; conversions
// by hand (F = C * 9/5 + 32).
#include <catch2/catch.hpp>

#include "coldtally/definition_work.hpp"
#include "coldtally/forms.hpp"
#include "drafts/limit_doubts.hpp"
#include "drafts/read_back.hpp"
#include "drafts/token_doubts.hpp"
#include "said.hpp"
#include "temporary.hpp"
#include "words/lists.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const char* const site_line = R"({"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich"})";

Instant local(const char* text) { return parse_instant(text, Zone("Europe/Zurich")); }

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = local("2026-06-30T10:00:00");

    Clinic() { json(site_line); }
    std::vector<Remark> json(const std::string& lines) {
        std::vector<Remark> warnings;
        ledger.post(lines, now, false, &warnings);
        return warnings;
    }
    DefinitionDraft draft(const std::string& fields) {
        return definition_draft(ledger, R"({"by":"ab",)" + fields + "}", now);
    }
    Entry define(const std::string& fields) {
        DefinitionDraft d = draft(fields);
        ledger.post(d.drafted, now);
        return d.drafted.entries.back();
    }
    Product product(const std::string& fields) {
        return std::get<Product>(define(R"("kind":"product",)" + fields).fact);
    }
    std::string refusal(const std::string& fields, Code code) {
        try {
            draft(fields);
        } catch (const Error& e) {
            CHECK(e.code() == code);
            return e.what();
        }
        FAIL("accepted: " + fields);
        return {};
    }
    List list_of(const std::string& lot) {
        for (const auto& row : ledger.lists({}, now).holdings)
            if (row.holding.lot == lot) return row.list;
        FAIL("no doses of " + lot);
        return List::discard;
    }
};

std::string joined(const std::vector<Remark>& all) {
    const auto one = words::semicolons(all);
    return one ? english().say(*one) : std::string();
}

const char* const elm =
    R"("product":"elm","name":"Elm, invented","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}},)"
    R"("freeze_limit":{"C":"0","F":"32"},
 "allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":259200,"source":"leaflet, invented"}],)"
    R"("beyond_use":{"first puncture":2419200,"mixed":5400},"cvx":"999","gtin":["9521234543213"],)"
    R"("doses_per_vial":10)";

}  // namespace

TEST_CASE("a definition is read back whole, in both scales, with durations in words", "[definitions]") {
    Clinic c;
    CHECK(english().say(c.draft(std::string(R"("kind":"product",)") + elm).drafted.read_back) ==
          std::vector<std::string>{"name: Elm, invented", "range: 2 °C (36 °F) to 8 °C (46 °F)",
                                   "freeze limit: frozen at or below 0 °C (32 °F)",
                                   "allowance 1: 3 d in all from 8 °C (46 °F) to 25 °C (= 77 °F), by leaflet, invented",
                                   "beyond-use after \"first puncture\": 28 d",
                                   "beyond-use after \"mixed\": 1 h 30 min", "CVX: 999", "GTIN: 9521234543213",
                                   "doses in a vial: 10"});
    const auto bare =
        c.draft(R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"F":"36"},"high":{"C":"8"}})")
            .drafted.read_back;
    CHECK(says(bare, "range: 36 °F (= 2 2/9 °C) to 8 °C (= 46.4 °F)"));
    CHECK(says(bare, "freeze limit: none"));
    CHECK(says(bare, "allowances: none: all time out of range waits for guidance"));
    CHECK(says(bare, "beyond-use: not stated, no period after any event: nothing would say how long an opened"));
    const auto place =
        c.draft(
             R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
             R"("high":{"C":"8"}},"max_gap_s":900)")
            .drafted.read_back;
    CHECK(says(place, "type: refrigerator"));
    CHECK(says(place, "longest step between two readings: 15 min"));
    CHECK(says(place, "longest step between two checks: 18 h, the usual, since none is stated"));
    CHECK(says(place, "speaks for the time around it up to: 30 min, the usual"));
    c.define(R"("kind":"probe","probe":"p","scale":"F","serial":"4411")");
    const auto certificate =
        c.draft(
             R"("kind":"certificate","at":"09:00","probe":"p","expires":"2027-01-31","tolerance":"0.9",)"
             R"("correction":[["32","-0.2"]])")
            .drafted.read_back;
    CHECK(english().say(certificate) ==
          std::vector<std::string>{"valid through: 2027-01-31", "tolerance: ±0.9 °F (= 0.5 °C)",
                                   "corrections: at 32 °F add -0.2 °F (= -1/9 °C)"});
    REQUIRE(certificate.front().fields.size() == 2);  // a name and a value
    CHECK(certificate.front().fields.front().remark.at(0).code() == "stated-last-day");
    CHECK(says(c.draft(R"("kind":"site","stale_after_s":3600)").drafted.read_back,
               "data that have not come count as not known after: 1 h"));
    CHECK(
        says(c.draft(R"("kind":"assign","at":"09:00","probe":"p")").drafted.read_back, "place: none: it is taken out"));
    CHECK(says(c.draft(R"("kind":"lot","product":"elm","lot":"L1","expiry":"2027-05")").drafted.read_back,
               "expiry: may be used through 2027-05-31"));
    const Posted said{c.draft(std::string(R"("kind":"product",)") + elm).drafted, true};
    CHECK(to_table(said, TableStyle{Zone("UTC")}).find("  range: 2 °C (36 °F) to 8 °C (46 °F)\n") != std::string::npos);
    CHECK(to_json(said).find("\"read_back\":[\"name: Elm, invented\"") != std::string::npos);
}

TEST_CASE("a duration is read back to the second, a temperature exactly", "[definitions]") {
    using answers::exact_words;
    using answers::whole_duration_words;
    CHECK(whole_duration_words(Duration(0)) == "0 s");
    CHECK(whole_duration_words(Duration(3661)) == "1 h 1 min 1 s");
    CHECK(whole_duration_words(Duration(86400)) == "24 h");
    CHECK(whole_duration_words(Duration(172801)) == "2 d 1 s");
    CHECK(exact_words(Rational(232, 5)) == "46.4");
    CHECK(exact_words(Rational(-1, 2)) == "-0.5");
    CHECK(exact_words(Rational(70, 9)) == "7 7/9");
    CHECK(exact_words(Rational(-5, 9)) == "-5/9");
    CHECK(exact_words(Rational(-160, 9)) == "-17 7/9");
}

namespace {

std::string unit_of(const std::string& type, const std::string& limits) {
    return R"("kind":"place","place":"unit","name":"Unit","type":")" + type + R"(","range":{)" + limits + "}";
}

const std::pair<std::string, std::string> limits_in_doubt[] = {
    {unit_of("refrigerator", R"("low":{"C":"2","F":"36"},"high":{"C":"8","F":"48"})"),
     "8 °C and as 48 °F, which are not one temperature: 8 °C = 46.4 °F, 1.6 °F apart"},
    {unit_of("refrigerator", R"("low":{"C":"2","F":"2"},"high":{"C":"8","F":"46"})"),
     "the lower limit is stated as 2 °C and as 2 °F"},
    {unit_of("refrigerator", R"("low":{"C":"2"},"high":{"C":"18"})"),
     "its upper limit, 18 °C (= 64.4 °F), is far from that of a refrigerator, 2 to 8 °C (36 to 46 °F)"},
    {unit_of("refrigerator", R"("low":{"C":"0"},"high":{"C":"8"})"), "its lower limit, 0 °C (= 32 °F), is far"},
    {unit_of("refrigerator", R"("low":{"F":"36"},"high":{"F":"49"})"), "its upper limit, 49 °F"},
    {unit_of("refrigerator", R"("low":{"C":"2"})"), "no upper limit is stated: nothing in it is ever too warm"},
    {unit_of("room", R"("high":{"C":"25"})"), "no lower limit is stated: nothing in it is ever too cold"},
    {unit_of("freezer", R"("low":{"C":"-50"},"high":{"C":"-10"})"),
     "its upper limit, -10 °C (= 14 °F), is above that of a freezer, -50 to -15 °C (-58 to 5 °F)"},
    {unit_of("freezer", R"("low":{"F":"-58"},"high":{"F":"6"})"), "is above that of a freezer"},
    {unit_of("ultra-cold freezer", R"("low":{"C":"-90"},"high":{"C":"-50"})"),
     "above that of an ultra-cold freezer, -90 to -60 °C"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2","F":"36"}})",
     "no upper limit is stated"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
     R"("freeze_limit":{"C":"0","F":"0"})",
     "the freeze limit is stated as 0 °C and as 0 °F"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
     R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25","F":"70"}},"seconds":1,"source":"s"}])",
     "the upper limit of allowance 1"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
     R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":9000,"source":"s"},)"
     R"({"band":{"low":{"C":"8"},"high":{"C":"12"}},"seconds":90000,"source":"s"}])",
     "allowance 2 never counts: its band is inside that of allowance 1, which takes all of the time"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
     R"("freeze_limit":{"C":"3"})",
     "the freeze limit, 3 °C (= 37.4 °F), reaches into the range: doses in range would count as frozen"},
    {R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
     R"("freeze_limit":{"C":"2"})",
     "reaches into the range"},
};

// published ranges, and what is within a degree of them: 35 °F beside 2 °C is a published pair, too
const std::string limits_beyond_doubt[] = {
    unit_of("refrigerator", R"("low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"})"),
    unit_of("refrigerator", R"("low":{"C":"2","F":"35"},"high":{"C":"8","F":"46"})"),
    unit_of("refrigerator", R"("low":{"C":"3"},"high":{"C":"7"})"),
    unit_of("freezer", R"("low":{"C":"-50","F":"-58"},"high":{"C":"-15","F":"5"})"),
    unit_of("freezer", R"("low":{"C":"-25"},"high":{"C":"-15"})"),
    unit_of("ultra-cold freezer", R"("low":{"C":"-90","F":"-130"},"high":{"C":"-60","F":"-76"})"),
    unit_of("room", R"("low":{"C":"20","F":"68"},"high":{"C":"25","F":"77"})"),
    unit_of("transport container", R"("low":{"C":"2"},"high":{"C":"8"})"),
    std::string(R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"-50"},"high":{"C":"8"}})"),
    // a narrower band goes first, and what freezes is below the range
    std::string(
        R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
        R"("freeze_limit":{"C":"1.9"},"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"12"}},"seconds":90000,)"
        R"("source":"s"},{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":9000,"source":"s"}])")};

}  // namespace

TEST_CASE("limits that may have been typed wrong ask for a note", "[definitions]") {
    Clinic c;
    for (const auto& [fields, words] : limits_in_doubt) {
        CAPTURE(fields);
        const std::string message = c.refusal(fields, Code::missing_field);
        CHECK(message.find("note: must say why: ") == 0);
        CHECK(message.find(words) != std::string::npos);
        CHECK(says(c.draft(fields + R"(,"note":"so the letter of the health department")").drafted.warnings, words));
        // JSON means what it says, and is warned of, with its line
        std::vector<Remark> warnings;
        c.ledger.post(R"({"by":"ab",)" + fields + "}", c.now, true, &warnings);
        CHECK(says(warnings, words));
        CHECK(says(warnings, "line 1: "));
    }
    // a programme's rules, which come as JSON alone
    std::vector<Remark> rules;
    c.ledger.post(
        R"({"kind":"rules","by":"ab","programme":"p, invented","source":"s","dated":"2026-01-01",)"
        R"("report":[{"rule":"warm","text":"","form":"reading",)"
        R"("temperature":{"is":"above","limit":{"C":"8","F":"64"}}}]})",
        c.now, true, &rules);
    CHECK(says(rules,
               "line 1: the limit of rule \"warm\" is stated as 8 °C and as 64 °F, which are not one temperature"));
}

TEST_CASE("limits that are as published pass without a word, and those far from all of them do not", "[definitions]") {
    Clinic c;
    for (const auto& fields : limits_beyond_doubt) {
        CAPTURE(fields);
        CHECK(c.draft(fields).drafted.warnings.empty());
    }
    CHECK(says(c.draft(R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"0"},"high":{"C":"10"}})")
                   .drafted.warnings,
               "is none of the published ones"));
    CHECK(c.refusal(R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"18"}})",
                    Code::missing_field)
              .find("note: must say why: the range 2 °C (= 35.6 °F) to 18 °C (= 64.4 °F) is far from every "
                    "published") ==
          0);
    for (const auto* limits : {R"("low":{"C":"2","F":"36"},"high":{"C":"9","F":"48"})",
                               R"("low":{"C":"1","F":"34"},"high":{"C":"8","F":"46"})"})
        CHECK(says(c.draft(unit_of("refrigerator", limits)).drafted.warnings,
                   "is none of the published ones: it reaches beyond that of a refrigerator, 2 to 8 °C (36 to 46 °F)"));
    for (const auto* source : {"", "  "})
        CHECK(c.refusal(R"("kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
                        R"("freeze_limit":{"C":"0"},"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"12"}},)"
                        R"("seconds":9000,"source":")" +
                            std::string(source) + R"("}])",
                        Code::missing_field)
                  .find("allowance 1 names no source") != std::string::npos);
    CHECK(says(c.draft(unit_of("transport container", R"("low":{"C":"2"},"high":{"C":"18"})")).drafted.warnings,
               "is none of the published ones"));
}

TEST_CASE("limits that were known so already are not asked about again, and new ones are", "[definitions]") {
    Clinic c;
    c.define(unit_of("freezer", R"("high":{"C":"-18"})") + R"(,"note":"as its plate says")");
    CHECK(c.draft(R"("kind":"place","place":"unit","name":"Unit 2")").drafted.entries.size() == 1);
    CHECK(c.refusal(R"("kind":"place","place":"unit","range":{"high":{"C":"-8"}})", Code::missing_field)
              .find("is above") != std::string::npos);
}

TEST_CASE("a definition changes what it states and keeps the rest", "[definitions]") {
    Clinic c;
    const Product first = c.product(elm);
    const Product named = c.product(R"("product":"elm","name":"Elm")");
    CHECK(named.name == "Elm");
    CHECK(named.range == first.range);
    CHECK(named.freeze_limit == first.freeze_limit);
    CHECK(named.beyond_use == first.beyond_use);
    CHECK(named.gtin == first.gtin);
    CHECK(named.cvx == "999");
    CHECK(named.doses_per_vial == Doses(10));
    REQUIRE(named.allowances->size() == 1);
    // the case that took an upper limit away
    const Product low = c.product(R"("product":"elm","range":{"low":{"C":"3","F":"37"}})");
    CHECK(low.range.high == first.range.high);
    CHECK(low.range.low->C == Temperature(Scale::C, 3000));
    // one event, one code, one band: each for itself
    const Product more = c.product(
        R"("product":"elm","beyond_use":{"mixed":3600},"gtin":["09521234543220"],)"
        R"("allowances":[{"band":{"low":{"C":"25"},"high":{"C":"30"}},"seconds":60,"source":"letter"}])");
    CHECK(*more.beyond_use ==
          std::map<std::string, Duration>{{"first puncture", Duration(2419200)}, {"mixed", Duration(3600)}});
    CHECK(*more.gtin == std::vector<std::string>{"9521234543213", "09521234543220"});
    REQUIRE(more.allowances->size() == 2);
    CHECK((*more.allowances)[0].seconds == Duration(259200));
    // the same band, stated in one scale: its time changes, and nothing else
    const Product longer = c.product(
        R"("product":"elm","allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":86400,)"
        R"("source":"letter"}])");
    REQUIRE(longer.allowances->size() == 2);
    CHECK((*longer.allowances)[0].seconds == Duration(86400));
    CHECK((*longer.allowances)[0].low == *first.range.high);
    // the same number in one scale of two is the limit as it is known; another number says both
    CHECK(c.product(R"("product":"elm","range":{"high":{"C":"8.0"}})").range.high == first.range.high);
    CHECK(c.refusal(R"("kind":"product","product":"elm","range":{"high":{"C":"9"}})", Code::missing_field)
              .find("high: must be stated in both scales, as it is known: 8 °C (46 °F)") == 0);

    const auto drafted = c.draft(R"("kind":"product","product":"elm","range":{"high":{"C":"7.5","F":"45.5"}})").drafted;
    CHECK(says(drafted.filled, "kept as it was: "));
    CHECK(says(drafted.warnings,
               "CHANGES the definition for all that was and will be asked: range: 3 °C (37 °F) to 8 °C (46 °F) -> 3 °C "
               "(37 °F) to 7.5 °C (45.5 °F)"));
    CHECK(says(c.draft(R"("kind":"product","product":"elm")").drafted.warnings,
               "says nothing that is not known already"));

    c.define(
        R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
        R"("high":{"C":"8"}},"max_gap_s":900,"max_check_gap_s":3600)");
    const Place place = std::get<Place>(c.define(R"("kind":"place","place":"main","max_gap_s":600)").fact);
    CHECK((place.name == "Main" && place.range.high && place.max_gap == Duration(600) &&
           place.max_check_gap == Duration(3600)));
    c.define(R"("kind":"probe","probe":"p","scale":"F","serial":"1")");
    CHECK(std::get<Probe>(c.define(R"("kind":"probe","probe":"p","serial":"2")").fact).scale == Scale::F);
    c.define(R"("kind":"site","unmonitored_limit_s":60,"stale_after_s":3600)");
    const Site site = std::get<Site>(c.define(R"("kind":"site","name":"Renamed")").fact);
    CHECK(
        (site.zone == "Europe/Zurich" && site.unmonitored_limit == Duration(60) && site.stale_after == Duration(3600)));
    c.define(R"("kind":"maker","product":"elm","name":"Works, invented","phone":"555-0100")");
    CHECK(std::get<Maker>(c.define(R"("kind":"maker","product":"elm","email":"a@works.example")").fact).phone ==
          "555-0100");
}

TEST_CASE("what is dropped of a definition is dropped by name", "[definitions]") {
    Clinic c;
    c.product(elm);
    const auto without = [&](const std::string& names, const std::string& more = "") {
        return c.draft(R"("kind":"product","product":"elm","note":"n","without":[)" + names + "]" + more).drafted;
    };
    const auto product = [](const Drafted& d) { return std::get<Product>(d.entries.at(0).fact); };
    CHECK_FALSE(product(without(R"("high")")).range.high);
    CHECK(
        says(without(R"("high")").warnings, "loses, for all that was and will be asked: the upper limit 8 °C (46 °F)"));
    CHECK_FALSE(product(without(R"("freeze-limit")")).freeze_limit);  // as the command line spells it
    CHECK_FALSE(product(without(R"("allowances")")).allowances);
    CHECK_FALSE(product(without(R"("allowance 1")")).allowances);
    CHECK(product(without(R"("beyond_use mixed")")).beyond_use->size() == 1);
    CHECK_FALSE(product(without(R"("beyond_use mixed","beyond-use first puncture")")).beyond_use);
    CHECK_FALSE(product(without(R"("gtin 9521234543213","cvx","doses_per_vial")")).gtin);
    CHECK(product(without(R"("high")", R"(,"range":{"high":{"C":"7"}})")).range.high ==
          Limit{Temperature(Scale::C, 7000), {}});

    const std::string begin = R"("kind":"product","product":"elm","without":[)";
    CHECK(c.refusal(begin + R"("higher"])", Code::bad_value)
              .find("without: \"higher\": must be one of low, high, freeze_limit") == 0);
    CHECK(c.refusal(begin + R"("allowance 2"])", Code::contradiction).find("states none") != std::string::npos);
    CHECK(c.refusal(begin + R"("gtin 1"])", Code::contradiction).find("states none") != std::string::npos);
    c.refusal(
        R"("kind":"product","product":"new","name":"New","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
        R"("without":["high"])",
        Code::not_defined);
    c.refusal(R"("kind":"product","product":"elm","without":"high")", Code::bad_value);
    c.refusal(begin + R"("low","high"],"note":"n")", Code::bad_value);  // a range has one side at least
    // JSON in the form of post says all that it means: nothing is kept, and what is lost is warned of
    std::vector<Remark> warnings;
    c.ledger.post(R"({"kind":"product","by":"ab","product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"}}})",
                  c.now, true, &warnings);
    CHECK(says(
        warnings,
        "loses, for all that was and will be asked: the upper limit 8 °C (46 °F), the freeze limit 0 °C (32 °F), the "
        "allowance of 3 d from 8 °C (46 °F) to 25 °C (= 77 °F), the period of beyond-use after \"first puncture\""));
}

TEST_CASE("a definition that takes doses off quarantine or a patient off the review list asks", "[definitions]") {
    Clinic c;
    c.now = local("2026-06-30T06:00:00");
    c.product(R"("product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})");
    c.define(
        R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
        R"("high":{"C":"8","F":"46"}})");
    c.now = local("2026-06-30T10:00:00");
    c.json(R"({"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"L1","doses":10}
{"kind":"check","by":"ab","at":"2026-06-30T08:00:00","place":"main","scale":"C","temperature":"4"}
{"kind":"check","by":"ab","at":"2026-06-30T08:30:00","place":"main","scale":"C","temperature":"17.5"}
{"kind":"give","by":"ab","at":"2026-06-30T09:00:00","place":"main","product":"elm","lot":"L1","patient":"t-1"}
{"kind":"check","by":"ab","at":"2026-06-30T09:30:00","place":"main","scale":"C","temperature":"4"}
{"kind":"check","by":"ab","at":"2026-06-30T10:00:00","place":"main","scale":"C","temperature":"4"})");
    CHECK(c.list_of("L1") == List::quarantine);
    // the range that the other words would have taken away is kept
    DefinitionDraft kept =
        c.draft(R"("kind":"product","product":"elm","name":"Elm II","range":{"low":{"C":"2","F":"36"}})");
    REQUIRE(kept.changes);
    CHECK(kept.changes->holdings.empty());
    CHECK(kept.loosens.empty());
    CHECK_NOTHROW(ask_before_loosening(kept, false));

    const DefinitionDraft loose = c.draft(R"("kind":"product","product":"elm","without":["high"],"note":"n")");
    REQUIRE(loose.changes->holdings.size() == 1);
    CHECK(loose.changes->holdings[0].after->list == List::keep);
    // above 8 by the lines from 08:08:53 1/3 to 09:12:13 1/3, 3800 s, of which 3066 2/3 s are before the give at 09:00
    CHECK(joined(loose.loosens) ==
          "LOOSER: high 8 °C (46 °F) -> none; LOOSENS: 9 doses would come off a list of what must not be used: \"elm\" "
          "lot \"L1\" in \"main\" (9, quarantine-pending-guidance -> keep); LOOSENS: less would have been out of "
          "range: \"elm\" lot \"L1\" in \"main\" (too warm 1 h 4 min, at most 1 h 30 min -> 0 s, at most 0 s); "
          "LOOSENS: 1 give would come off the review list: entry 8; LOOSENS: 1 give would have had less out of range "
          "before: entry 8 (too warm 51 min 7 s, at most 1 h -> 0 s, at most 0 s)");
    CHECK(says(loose.drafted.warnings, "LOOSENS: 9 doses"));
    CHECK_NOTHROW(ask_before_loosening(loose, true));
    try {
        ask_before_loosening(loose, false);
        FAIL("was not asked");
    } catch (const Error& e) {
        CHECK(e.code() == Code::missing_field);
        CHECK(std::string(e.what()).find("yes: must be stated: LOOSER: high") == 0);
    }
    CHECK(c.list_of("L1") == List::quarantine);  // nothing was written

    // the other way round nothing is asked, and what changes is shown
    const DefinitionDraft tight =
        c.draft(R"("kind":"product","product":"elm","freeze_limit":{"C":"5","F":"41"},"note":"n")");
    REQUIRE(tight.changes);
    CHECK(tight.loosens.empty());
    // the first definition of a thing changes nothing, and costs no comparison
    CHECK_FALSE(
        c.draft(R"("kind":"product","product":"fir","name":"Fir","range":{"low":{"C":"2"},"high":{"C":"8"}})").changes);
}

TEST_CASE("a name that is what could be dropped is refused, with what to write", "[definitions]") {
    Clinic c;
    c.product(elm);
    // --without low high: the second is taken for the name
    for (const char* more : {R"(,"without":["low"])", ""}) {
        const std::string message =
            c.refusal(R"("kind":"product","product":"elm","name":"high")" + std::string(more), Code::bad_value);
        CHECK(message.find("name: \"high\": is what can be dropped of a product, and no name") == 0);
        CHECK(message.find("once for each (--without high)") != std::string::npos);
    }
    for (const char* name : {"freeze-limit", "freeze_limit", "allowance 1", "gtin 9521234543213", "doses-per-vial"})
        c.refusal(R"("kind":"product","product":"elm","name":")" + std::string(name) + "\"", Code::bad_value);
    CHECK(c.product(R"("product":"elm","name":"High Street elm")").name == "High Street elm");
    c.refusal(R"("kind":"maker","product":"elm","name":"phone")", Code::bad_value);
    c.refusal(R"("kind":"place","place":"x","name":"near-s","type":"room","range":{"high":{"C":"8"}},"note":"n")",
              Code::bad_value);
    CHECK(c.draft(R"("kind":"maker","product":"elm","name":"Phones & Co")").drafted.entries.size() == 1);
}

TEST_CASE("of an allowance of which the time alone changes there is one warning", "[definitions]") {
    Clinic c;
    c.product(elm);
    const std::string shorter =
        R"("kind":"product","product":"elm","allowances":[{"band":{"low":{"C":"8","F":"46"},"high":{"C":"25"}},)"
        R"("seconds":172800,"source":"leaflet 2, invented"}])";
    const auto of_allowance = [](const std::vector<Remark>& all) {
        return std::ranges::count_if(english().say(all),
                                     [](const auto& w) { return w.find("allowance") != std::string::npos; });
    };
    const auto warnings = c.draft(shorter).drafted.warnings;
    CAPTURE(english().say(warnings));
    CHECK(of_allowance(warnings) == 1);
    CHECK(says(warnings, "CHANGES the definition for all that was and will be asked: allowance 1: 3 d in all from "));
    // posted as JSON nothing says what changes line by line, so it is said here, with what it becomes
    std::vector<Remark> posted;
    c.ledger.post(
        R"({"by":"ab","kind":"product","product":"elm","name":"Elm, invented","range":{"low":{"C":"2","F":"36"},)"
        R"("high":{"C":"8","F":"46"}},"freeze_limit":{"C":"0","F":"32"},)"
        R"("allowances":[{"band":{"low":{"C":"8","F":"46"},"high":{"C":"25"}},"seconds":172800,)"
        R"("source":"leaflet 2, invented"}],)"
        R"("beyond_use":{"first puncture":2419200,"mixed":5400},"cvx":"999","gtin":["9521234543213"],)"
        R"("doses_per_vial":10})",
        c.now, true, &posted);
    CHECK(says(posted, "loses, for all that was and will be asked: the allowance of 3 d from 8 °C (46 °F) to 25 °C "
                       "(= 77 °F) (now 2 d)"));
    // what is dropped is said as before
    CHECK(says(c.draft(R"("kind":"product","product":"elm","without":["allowance 1"])").drafted.warnings,
               "loses, for all that was and will be asked: the allowance of 3 d"));
}

TEST_CASE("what is taken back asks where doses come off quarantine or a patient off the review list", "[definitions]") {
    Clinic c;
    c.now = local("2026-06-30T06:00:00");
    c.product(R"("product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})");
    c.define(
        R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
        R"("high":{"C":"8","F":"46"}})");
    c.now = local("2026-06-30T10:00:00");
    c.json(R"({"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"L1","doses":10}
{"kind":"check","by":"ab","at":"2026-06-30T08:00:00","place":"main","scale":"C","temperature":"4"}
{"kind":"check","by":"ab","at":"2026-06-30T08:30:00","place":"main","scale":"C","temperature":"17.5"}
{"kind":"give","by":"ab","at":"2026-06-30T09:00:00","place":"main","product":"elm","lot":"L1","patient":"t-1"}
{"kind":"check","by":"ab","at":"2026-06-30T09:30:00","place":"main","scale":"C","temperature":"4"}
{"kind":"check","by":"ab","at":"2026-06-30T10:00:00","place":"main","scale":"C","temperature":"4"})");
    const auto undo = [&](EntryNumber entry) {
        return c.draft(R"("kind":"void","reason":"read the wrong display","voids":)" + std::to_string(entry));
    };
    const DefinitionDraft hot = undo(7);
    REQUIRE(hot.changes);
    CHECK(joined(hot.loosens) ==
          "LOOSENS: 9 doses would come off a list of what must not be used: \"elm\" lot \"L1\" in \"main\" (9, "
          "quarantine-pending-guidance -> keep); LOOSENS: less would have been out of range: \"elm\" lot \"L1\" in "
          "\"main\" (too warm 1 h 4 min, at most 1 h 30 min -> 0 s, at most 0 s; highest 17.5 °C (63.5 °F) -> 4 °C "
          "(39.2 °F)); LOOSENS: 1 give would come off the review list: entry 8; LOOSENS: 1 give would have had less "
          "out of range before: entry 8 (too warm 51 min 7 s, at most 1 h -> 0 s, at most 0 s; highest 17.5 °C (63.5 "
          "°F) -> 4 °C (39.2 °F)); LOOSENS: of 1 excursion recorded in \"main\" 1 vanishes and 0 are "
          "shortened");
    CHECK(says(hot.drafted.warnings, "LOOSENS: 9 doses"));
    CHECK_NOTHROW(ask_before_loosening(hot, true));
    try {
        ask_before_loosening(hot, false);
        FAIL("was not asked");
    } catch (const Error& e) {
        CHECK(e.code() == Code::missing_field);
        CHECK(std::string(e.what()).find("yes: must be stated: LOOSENS: 9 doses") == 0);
    }
    CHECK(c.list_of("L1") == List::quarantine);  // nothing was written
    // a give taken back is off the review list, too
    CHECK(joined(undo(8).loosens) == "LOOSENS: 1 give would come off the review list: entry 8");
    // what loosens nothing is not asked about, and its changes are there all the same
    const DefinitionDraft last = undo(10);
    REQUIRE(last.changes);
    CHECK(last.loosens.empty());
    CHECK_NOTHROW(ask_before_loosening(last, false));
    CHECK(to_table(Posted{last.drafted, true}, *last.changes, TableStyle{Zone("UTC")}).find("what it changes") !=
          std::string::npos);
}

TEST_CASE("where a history alone changes, what differs is said, and never two equal sides", "[definitions]") {
    Clinic c;
    c.now = local("2026-06-30T06:00:00");
    c.product(elm);
    c.define(
        R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
        R"("high":{"C":"8","F":"46"}})");
    c.now = local("2026-06-30T10:00:00");
    c.json(R"({"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"L1","doses":10}
{"kind":"check","by":"ab","at":"2026-06-30T08:00:00","place":"main","scale":"C","temperature":"4"}
{"kind":"check","by":"ab","at":"2026-06-30T10:00:00","place":"main","scale":"C","temperature":"4"})");
    const auto changes = [&](const std::string& fields) {
        return c.ledger.changes(c.ledger.draft(R"({"by":"ab",)" + fields + "}", c.now).entries, c.now);
    };
    // an hour up to 12 °C and an hour down: above 8 °C for half an hour each way, as its allowance permits
    const Changes warm =
        changes(R"("kind":"check","at":"2026-06-30T09:00:00","place":"main","scale":"C","temperature":"12")");
    REQUIRE(warm.holdings.size() == 1);
    CHECK(warm.holdings[0].after->list == List::keep);
    const std::string table = to_table(warm, TableStyle{Zone("UTC"), Scale::C, 300});
    CAPTURE(table);
    CHECK(table.find("elm lot L1 in main: 10 doses, keep as before; out of range: nothing -> too warm 1 h") !=
          std::string::npos);
    CHECK(table.find("allowance 1: nothing -> 1 h used") != std::string::npos);
    CHECK(table.find("lowest to highest: 4.0 °C to 4.0 °C -> 4.0 °C to 12.0 °C") != std::string::npos);
    CHECK(table.find("10 doses, keep -> 10 doses, keep") == std::string::npos);
    CHECK(to_json(warm).find(R"("differs":["history"])") != std::string::npos);
    // where the sides differ, they stand there
    const Changes given = changes(
        R"("kind":"give","at":"2026-06-30T09:30:00","place":"main","product":"elm","lot":"L1","patient":"t-1")");
    CHECK(to_table(given, TableStyle{Zone("UTC"), Scale::C, 300}).find("10 doses, keep -> 9 doses, keep") !=
          std::string::npos);
    CHECK(to_json(given).find(R"("differs":["doses"])") != std::string::npos);
}

TEST_CASE("an allowance begins where the range ends, in both scales as the range has them", "[definitions]") {
    // 46.2 °F is above 46 °F and below 8 °C = 46.4 °F
    const auto at_46_2 = [](bool everyday) {
        Clinic c;
        c.now = local("2026-06-30T06:00:00");
        const std::string fields =
            R"("kind":"product","product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8",)"
            R"("F":"46"}},"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":259200,)"
            R"("source":"leaflet, invented"}])";
        if (everyday) {
            const auto d = c.draft(fields).drafted;
            CHECK(says(d.filled, "the allowance begins where the range ends, at 8 °C (46 °F)"));
            CHECK_FALSE(says(d.warnings, "HOLE"));
            c.define(fields);
        } else {
            const auto warnings = c.json(R"({"by":"ab",)" + fields + "}");
            CHECK(english().say(warnings) ==
                  std::vector<std::string>{
                      "line 1: HOLE between the limits of product \"elm\": in °F readings above 46 °F and below 46.4 "
                      "°F (7 7/9 and 8 °C) are out of range and in no allowance"});
        }
        c.define(
            R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
            R"("high":{"C":"8","F":"46"}})");
        c.define(R"("kind":"probe","probe":"p","scale":"F")");
        c.now = local("2026-06-30T10:00:00");
        c.json(R"({"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"}
{"kind":"assign","by":"ab","at":"2026-06-30T07:00:00","probe":"p","place":"main"}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"L1","doses":10}
{"kind":"readings","by":"ab","probe":"p","scale":"F","rows":[["2026-06-30T08:00:00","40"],["2026-06-30T08:30:00",)"
               R"("46.2"],["2026-06-30T09:00:00","40"],["2026-06-30T09:30:00","40"],["2026-06-30T10:00:00","40"]]})");
        return c.list_of("L1");
    };
    CHECK(at_46_2(false) == List::quarantine);  // in no allowance, as the entry says
    CHECK(at_46_2(true) == List::keep);
}

TEST_CASE("holes between the limits are said exactly, in both scales", "[definitions]") {
    const auto limit = [](const char* C, const char* F) {
        Limit l;
        if (C) l.C = Temperature::parse(C, Scale::C);
        if (F) l.F = Temperature::parse(F, Scale::F);
        return l;
    };
    Product p;
    p.range = {limit("2", "36"), limit("8", "46")};
    const auto band = [&](Limit low, Limit high) { return Allowance{low, high, Duration(3600), "s"}; };
    const auto holes = [&](std::vector<Allowance> all) {
        p.allowances = std::move(all);
        return answers::holes(p);
    };
    CHECK(holes({}).empty());
    CHECK(holes({band(limit("8", "46"), limit("25", "77"))}).empty());
    CHECK(holes({band(limit("8", "46"), limit("15", nullptr)), band(limit(nullptr, "59"), limit("25", nullptr))})
              .empty());  // 15 °C is 59 °F
    CHECK(english().say(holes({band(limit("8", "46"), limit("15", "59")),
                               band(limit("16", nullptr), limit("25", nullptr))})) ==
          std::vector<std::string>{"readings above 15 °C and below 16 °C, and above 59 °F and below 60.8 °F, are out "
                                   "of range and in no allowance"});
    // below the range: it ends at 36 °F, and a band of °C reaches to 2 °C = 35.6 °F
    CHECK(english().say(holes({band(limit("0", nullptr), limit("2", nullptr))})) ==
          std::vector<std::string>{
              "in °F readings above 35.6 °F and below 36 °F (2 and 2 2/9 °C) are out of range and in no allowance"});
    // the bands meet where the everyday command takes them
    Allowance warm = band(limit("8", nullptr), limit("25", nullptr)),
              cold = band(limit(nullptr, "32"), limit(nullptr, "36"));
    std::vector<Remark> said;
    answers::meet_limits(warm, p.range, {}, said);
    answers::meet_limits(cold, p.range, {}, said);
    CHECK((warm.low == *p.range.high && cold.high == *p.range.low && said.size() == 2));
    Allowance next = band(limit(nullptr, "77"), limit(nullptr, "86"));
    answers::meet_limits(next, p.range, {band(limit("8", "46"), limit("25", "77"))}, said);
    CHECK(next.low == limit("25", "77"));
    CHECK(holes({warm, cold}).empty());
}

namespace {

// which forms these are is a choice of ours
const std::pair<const char*, const char*> tokens_that_tell[] = {
    {"Smith", "a name"},
    {"o'brien", "a name"},
    {"Garcia,Maria", "a name"},
    {"j.smith", "a name"},
    {"JohnSmith", "a name"},
    {"smith1960", "a name"},
    {"john.smith82", "a name"},
    {"Müller", "a name"},
    {"1960-04-12", "a date of birth"},
    {"12/4/1960", "a date of birth"},
    {"12.04.60", "a date of birth"},
    {"19600412", "a date of birth"},
    {"04121960", "a date of birth"},
    {"x-1960-04-12", "a date of birth"},
    {"555-0101", "a telephone number"},
    {"+15550101", "a telephone number"},
    {"(555)010-1234", "a telephone number"},
    {"5550101234", "a telephone number"},
    {"123456", "a record number"},
    {"MRN-0042", "a record number"},
    {"mrn42", "a record number"},
    {"chart-17", "a record number"},
    {"#1234", "a record number"},
    {"123-45-6789", "a record number"},
    {"anna berger", "a name"},
    {"berger/anna", "a name"},
    {"Berger/Anna/1980", "a name"},
    {"anna berger 1980", "a name"},
    {"p-Berger-1980", "a name"},
    {"Berger-80", "a name"},
    {"p.Berger1980", "a name"},
    {"1980-Berger", "a name"},
    {"BERGER-1980", "a name"},
    {"BERGER-M-1980", "a name"},
    {"JohnSmith-1980", "a name"},
    {"berger84", "a name"},
    {"aberger84", "a name"},
    {"aberger1984", "a name"},
    {"AB1984", "a name"},
    {"MJ-1984", "a name"},
    {"B.J.", "a name"},
    {"b.j", "a name"},
    {"ann2", "a name"},
    {"Joe17", "a name"},
    {"kv-04-83", "a date of birth"},
    {"BERGERA840312", "a date of birth"},
    {"84-03-12", "a date of birth"},
    {"a.berger@example.org", "an e-mail address"},
    {"ab7@example.org", "an e-mail address"},
    {"3apr80", "a date of birth"},
    {"3Apr1980", "a date of birth"},
    {"03-april-1980", "a date of birth"},
    {"Sept-3-80", "a date of birth"},
    {"BA030480", "a date of birth"},
    {"BA-030480", "a date of birth"},
    {"ba800403", "a date of birth"},
    {"p19800403", "a date of birth"},
    {"03041980", "a date of birth"},
    {"1/30/1980", "a date of birth"},
    {"+41 44 555 01 01", "a telephone number"},
    {"044/555 01 01", "a telephone number"},
    {"+1-555-010-1234", "a telephone number"},
    {"555.010.1234", "a telephone number"},
    {"756.1234.5678.97", "a telephone number"},
    {"MRN12345678", "a record number"},
    {"x-MRN-0042", "a record number"},
    {"A123456789", "a record number"},
    {"XJ-4831975", "a record number"},
    {"insurance/80756", "a record number"},
    {"80756001234567890", "a record number"},
};

const char* const tokens_that_tell_nothing[] = {
    "t-1", "t1", "P-7", "demo-1060", "demo-1985", "12", "a3f9-bcde-1234", "3f2b9c1e-77aa-4d0e-9b1c-0a1b2c3d4e5f",
    "kx7-q2m", "x", "Patient/123", "wren-street-b7q", "demo-0101", "demo-2020", "demo-80", "Demo-1985",
    "Patient-80", "t-483197", "wren-0042", "Q7", "B7-0042", "mark-12", "may-7", "marker12-80", "kx-4831", "7f3a",
    "ab-12-cd-34", "patient84", "demo840312", "99-13-12", "a1984", "wxt42",
    "pt-2024", "tok2", "kv-13-83", "k-04-83", "v1.2"};

}  // namespace

TEST_CASE("a token that looks like what a person is known by is warned of, and not repeated", "[definitions]") {
    for (const auto& [token, what] : tokens_that_tell) {
        CAPTURE(token);
        CHECK(says(answers::token_looks_like(token), what));
        const auto doubt = answers::token_doubt(token);
        REQUIRE(doubt);
        CHECK(doubt->code() == "token-looks-like");
        CHECK(english().say(*doubt).starts_with("patient: the token looks like "));
        CHECK(english().say(*doubt).find(token) == std::string::npos);
    }
    for (const char* token : tokens_that_tell_nothing) {
        CAPTURE(token);
        CHECK(answers::token_looks_like(token).empty());
    }
}

namespace {

const std::string of_lot = R"("product":"elm","lot":"L1")";
const std::string receive = R"("kind":"receive","place":"main","doses":5,)" + of_lot;
const std::string holding = R"("place":"main","fund":"state",)" + of_lot;

/// A refrigerator, a product and a lot; and whether an entry is warned of, posted as JSON and drafted.
struct Practice : Clinic {
    Practice() {
        now = local("2026-06-30T06:00:00");
        product(R"("product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})");
        define(R"("kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
               R"("high":{"C":"8","F":"46"}})");
        define(R"("kind":"lot","product":"elm","lot":"L1","expiry":"2026-07")");
        now = local("2026-06-30T10:00:00");
    }
    void warned(const std::string& fields, const std::string& words) {
        CAPTURE(fields);
        std::vector<Remark> warnings;
        ledger.post(R"({"by":"ab","at":"2026-06-30T09:00:00","note":"x",)" + fields + "}", now, true, &warnings);
        CHECK(says(warnings, words));
        CHECK(says(ledger.draft(R"({"by":"ab","at":"2026-06-30T09:00:00","note":"x",)" + fields + "}", now).warnings,
                   words));
    }
    void not_warned(const std::string& fields, const std::string& words) {
        CAPTURE(fields);
        std::vector<Remark> warnings;
        ledger.post(R"({"by":"ab","at":"2026-06-30T09:00:00","note":"x",)" + fields + "}", now, true, &warnings);
        CHECK_FALSE(says(warnings, words));
        CHECK_FALSE(says(
            ledger.draft(R"({"by":"ab","at":"2026-06-30T09:00:00","note":"x",)" + fields + "}", now).warnings, words));
    }
};

}  // namespace

TEST_CASE("a fund that was never used is warned of, posted or drafted", "[definitions]") {
    Practice c;
    // the first delivery has none to be compared with
    c.not_warned(receive + R"(,"fund":"state")", "has never been used here");
    c.json(R"({"by":"ab","at":"2026-06-30T08:00:00",)" + receive + R"(,"fund":"state"})");
    c.warned(receive + R"(,"fund":"stat")", R"(fund "stat" has never been used here; used are "state")");
    c.not_warned(receive + R"(,"fund":"state")", "has never been used here");
    const EntryNumber typo =
        c.ledger.post(R"({"by":"ab","at":"2026-06-30T08:00:00",)" + receive + R"(,"fund":"stat"})", c.now).back();
    c.not_warned(receive + R"(,"fund":"stat")", "has never been used here");
    c.json(R"({"kind":"void","by":"ab","at":"2026-06-30T09:00:00","voids":)" + std::to_string(typo) +
           R"(,"reason":"typed wrong"})");
    c.warned(receive + R"(,"fund":"stat")", "has never been used here");  // what was taken back is not used
    std::vector<Remark> batch;
    c.ledger.post(R"({"by":"ab","at":"2026-06-30T09:00:00","note":"x",)" + receive + R"(,"fund":"new"})" + "\n" +
                      R"({"by":"ab","at":"2026-06-30T09:01:00",)" + receive + R"(,"fund":"new"})",
                  c.now, true, &batch);
    CHECK(batch.size() == 1);  // once in a batch
}

TEST_CASE("a token like a name and a use-by after the expiry are warned of, posted or drafted", "[definitions]") {
    Practice c;
    c.json(R"({"by":"ab","at":"2026-06-30T08:00:00",)" + receive + R"(,"fund":"state"})");
    c.warned(R"("kind":"give","patient":"Smith",)" + holding, "the token looks like a name");
    c.not_warned(R"("kind":"give","patient":"t-1",)" + holding, "the token looks like");

    c.warned(R"("kind":"beyond-use","use_by":"2026-08-01",)" + holding,
             "the use-by, 2026-08-01, is after the expiry of lot \"L1\", 2026-07-31: the expiry stays the last day");
    c.warned(R"("kind":"beyond-use","use_by":"2026-08-01T00:00:01",)" + holding, "is after the expiry");
    c.not_warned(R"("kind":"beyond-use","use_by":"2026-07-31",)" + holding, "is after the expiry");
    c.not_warned(R"("kind":"beyond-use","use_by":"2026-08-01T00:00:00",)" + holding,
                 "is after the expiry");  // the end of the last day
    c.warned(
        R"("kind":"guidance","verdict":"use-by","use_by":"2026-08-15","through":"2026-06-30T09:00:00","issuer":"i",)"
        R"("reference":"r",)" +
            of_lot,
        "is after the expiry");
    c.not_warned(
        R"("kind":"guidance","verdict":"use-by","use_by":"2026-07-15","through":"2026-06-30T09:00:00","issuer":"i",)"
        R"("reference":"r",)" +
            of_lot,
        "is after the expiry");
}

TEST_CASE("doses called expired that are not are warned of, posted or drafted", "[definitions]") {
    Practice c;
    c.json(R"({"by":"ab","at":"2026-06-30T08:00:00",)" + receive + R"(,"fund":"state"})");
    for (const char* reason : {"expired", "Expired doses", "past its expiry", "out of date", "outdated",
                               "Expiry passed", "expiration date has passed", "passed their use-by"}) {
        c.warned(R"("kind":"return","doses":1,"reason":")" + std::string(reason) + R"(",)" + holding,
                 "the reason says expired, and lot \"L1\" may be used through 2026-07-31");
        c.warned(R"("kind":"waste","doses":1,"reason":")" + std::string(reason) + R"(",)" + holding,
                 "the reason says expired");
    }
    for (const char* reason :
         {"not expired, excess stock", "unexpired", "expires soon", "recall", "excess, past the flu season"})
        c.not_warned(R"("kind":"return","doses":1,"reason":")" + std::string(reason) + R"(",)" + holding,
                     "the reason says expired");
    // of doses that are past a use-by of their own the reason is right: the draft knows, and JSON says that it may be
    c.json(R"({"kind":"beyond-use","by":"ab","at":"2026-06-30T08:10:00","use_by":"2026-06-30T08:30:00",)" + holding +
           "}");
    CHECK_FALSE(
        says(c.ledger
                 .draft(R"({"by":"ab","at":"2026-06-30T09:00:00","kind":"return","doses":1,"reason":"expired",)" +
                            holding + "}",
                        c.now)
                 .warnings,
             "the reason says expired"));
    std::vector<Remark> posted;
    c.ledger.post(
        R"({"by":"ab","at":"2026-06-30T09:00:00","kind":"return","doses":1,"reason":"expired",)" + holding + "}", c.now,
        true, &posted);
    CHECK(says(posted, "unless these doses had a use-by of their own"));
    c.now = local("2026-08-01T00:00:00");
    std::vector<Remark> late;
    c.ledger.post(
        R"({"by":"ab","at":"2026-08-01T00:00:00","kind":"return","doses":1,"reason":"expired",)" + holding + "}", c.now,
        true, &late);
    CHECK(late.empty());
}

TEST_CASE("a second notice of one place is warned of, posted or drafted", "[definitions]") {
    Practice c;
    const auto notice = [](const char* name, const char* place) {
        return R"("kind":"incident","step":"noticed","text":"door","incident":")" + std::string(name) +
               R"(","place":")" + place + "\"";
    };
    c.not_warned(notice("2026-1", "main"), "is open since");
    c.json(R"({"by":"ab","at":"2026-06-30T08:30:00",)" + notice("2026-1", "main") + "}");
    c.warned(notice("2026-2", "main"), "incident 2026-1 of main is open since 2026-06-30 08:30");
    c.warned(notice("2026-1", "main"), "incident 2026-1 was noticed already, at 2026-06-30 08:30");
    c.define(R"("kind":"place","place":"annex","name":"Annex","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
             R"("high":{"C":"8","F":"46"}})");
    c.not_warned(notice("2026-2", "annex"), "is open since");
    c.json(R"({"by":"ab","at":"2026-06-30T08:40:00","kind":"incident","incident":"2026-1","step":"closed",)"
           R"("text":"shut"})");
    c.not_warned(notice("2026-2", "main"), "is open since");
    // noticed again after it was closed, it is open again
    c.json(R"({"by":"ab","at":"2026-06-30T08:50:00",)" + notice("2026-1", "main") + "}");
    c.warned(notice("2026-2", "main"), "incident 2026-1 of main is open since 2026-06-30 08:30");
    // and one that nobody noticed counts from its first step
    c.json(R"({"by":"ab","at":"2026-06-30T08:55:00","kind":"incident","incident":"w","step":"cause","text":"fuse",)"
           R"("place":"annex"})");
    c.warned(notice("2026-2", "annex"), "incident w of annex is open since 2026-06-30 08:55: a second notice");
}

TEST_CASE("times of a first definition that let much go by need a note", "[definitions]") {
    // 4 h, 3 d, 30 min and 90 d: choices of ours
    ::tests::TemporaryFile file;
    Ledger ledger(file.path(), Ledger::Mode::create);
    const Instant now = local("2026-06-30T10:00:00");
    const auto refusal = [&](const std::string& fields) {
        try {
            ledger.draft(R"({"by":"ab",)" + fields + "}", now);
            return std::string();
        } catch (const Error& e) {
            CHECK(e.code() == Code::missing_field);
            return std::string(e.what());
        }
    };
    ledger.post(site_line, now);
    const std::string range = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";
    const auto place = [&](const char* near) {
        return R"("kind":"place","place":"x","name":"X","type":"refrigerator",)" + range + R"(,"near_s":)" + near;
    };
    CHECK(refusal(place("1801")).find("would speak for 30 min 1 s before and after it") != std::string::npos);
    CHECK(refusal(place("1800")).empty());
    CHECK(refusal(place("1801") + R"(,"note":"as the programme has it")").empty());
    const auto product = [&](const char* seconds) {
        return R"("kind":"product","product":"y","name":"Y",)" + range +
               R"(,"allowances":[{"band":{"low":{"C":"8","F":"46"},"high":{"C":"25","F":"77"}},)"
               R"("source":"s","seconds":)" +
               seconds + "}]";
    };
    CHECK(refusal(product("7776001")).find("allowance 1 permits 90 d 1 s") != std::string::npos);
    CHECK(refusal(product("7776000")).empty());

    const std::string mild = R"("unmonitored_limit_s":14400,"stale_after_s":259200)";
    const std::string wide = R"("unmonitored_limit_s":14401,"stale_after_s":259201)";
    ::tests::TemporaryFile other;
    Ledger fresh(other.path(), Ledger::Mode::create);
    const std::string site = R"({"by":"ab","kind":"site","name":"N","zone":"UTC",)";
    std::vector<Remark> said;
    CHECK_NOTHROW(fresh.draft(site + mild + "}", now));
    CHECK_THROWS_AS(fresh.draft(site + wide + "}", now), Error);
    CHECK_NOTHROW(fresh.draft(site + wide + R"(,"note":"by the programme"})", now));
    fresh.post(site + mild + "}", now, true, &said);
    CHECK(said.empty());
    fresh.post(site + wide + "}", now, true, &said);
    CHECK(says(said, "not known for 4 h 1 s would keep no doses from use"));
    CHECK(says(said, "not come for 3 d 1 s would still be awaited"));
}

TEST_CASE("hours of which nothing is known are said, whatever the site lets pass", "[definitions]") {
    Clinic c;
    c.json(R"({"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich","unmonitored_limit_s":2592000,)"
           R"("stale_after_s":0}
{"kind":"product","by":"ab","product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}}}
{"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"}
{"kind":"place","by":"ab","place":"main","name":"M","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
           R"("high":{"C":"8","F":"46"}}}
{"kind":"check","by":"ab","at":"2026-06-20T08:00:00","place":"main","scale":"C","temperature":"5"}
{"kind":"receive","by":"ab","at":"2026-06-20T08:00:00","place":"main","product":"elm","lot":"L1","doses":9}
{"kind":"check","by":"ab","at":"2026-06-30T08:00:00","place":"main","scale":"C","temperature":"5"}
{"kind":"give","by":"ab","at":"2026-06-30T08:10:00","place":"main","product":"elm","lot":"L1","patient":"t-1"})");
    const auto rows = c.ledger.lists({}, c.now).holdings;
    REQUIRE(rows.size() == 1);
    CHECK(rows.front().list == List::keep);
    // ten days and two hours, but half an hour after the first check and on both sides of the second
    CHECK(says(rows.front().beside, "NOT KNOWN FOR 10 d 30 min, which the site's own limit of 30 d lets pass"));
    CHECK(says(c.ledger.review({}, c.now).not_listed, "NOT KNOWN, and not listed here: 1 dose given (entry 9)"));
}
