// What people and programs read: hand-made answers, and the JSON and tables they become.
#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include <nlohmann/json.hpp>

#include "coldtally/forms.hpp"
#include "forms/table_layout.hpp"
#include "forms/words.hpp"
#include "words/conditions.hpp"
#include "words/file.hpp"
#include "words/general.hpp"
#include "words/logger.hpp"
#include "words/stock.hpp"

using namespace coldtally;

namespace {

Rational R(const char* text) { return Rational::parse(text); }
Instant at(const char* text) { return parse_instant(text, Zone("UTC")); }

AnswerHead head() { return {"Harbour Street", at("2026-03-02T08:05:00Z"), at("2026-03-02T09:00:00Z"), 57, {}}; }

TableStyle style(Scale scale = Scale::C) {
    TableStyle out{Zone("UTC")};
    out.scale = scale;
    out.why = true;
    return out;
}

// Warm by 16200/7 s of which none is cleared, one reading out of range, half a day on record.
History warm_history() {
    History h;
    h.total.warm = {R("0"), R("16200/7"), R("3600"), R("30")};
    h.total.allowances = {R("0")};
    h.total.beyond_warm = R("16200/7");
    h.total.points = 1;
    h.total.seconds = {R("40000"), R("0"), R("3200"), R("0"), R("60"), R("0")};
    h.total.lowest_C = R("5/2");
    h.total.highest_C = R("9");
    h.open.warm = R("16200/7");
    h.open.allowances = {R("0")};
    h.open.beyond_warm = R("16200/7");
    h.open.points = 1;
    h.places = {"main"};
    return h;
}

History calm_history() {
    History h;
    h.total.allowances = {R("0")};
    h.open.allowances = {R("0")};
    h.total.seconds[static_cast<int>(Class::logged)] = R("7200");
    h.total.lowest_C = R("3");
    h.total.highest_C = R("5");
    h.places = {"main"};
    return h;
}

constexpr const char* warm_json =
    R"({"warm":{"at_least_s":"0","estimate_s":"16200/7","at_most_s":"3600","degree_Cs":"30","open_s":"16200/7"},)"
    R"("cold":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("frozen":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("allowances":[{"seconds":259200,"used_s":"0","open_s":"0"}],)"
    R"("beyond":{"warm_s":"16200/7","warm_open_s":"16200/7","cold_s":"0","cold_open_s":"0"},)"
    R"("points":1,"points_open":1,)"
    R"("coverage":{"logged_s":"40000","bounded_s":"0","checked_s":"3200","near_s":"0","awaiting_s":"60",)"
    R"("unmonitored_s":"0","unmonitored_open_s":"0"},)"
    R"("lowest_C":"5/2","highest_C":"9","places":["main"],"condemned_by":[],"held_by":[],"use_by":null})";

constexpr const char* head_json =
    R"({"ledger":"Harbour Street","at":"2026-03-02T08:05:00Z","known_on":"2026-03-02T09:00:00Z","last_entry":57,)";

/// Of an expiry on 31 May 2027, where days end with UTC.
const LastUse by_expiry{at("2027-06-01T00:00:00Z"), Date{2027, 5, 31}, true, UseLimitKind::expiry, std::nullopt};
constexpr const char* by_expiry_json =
    R"("last_use":{"day":"2027-05-31","whole_day":true,"until":"2027-06-01T00:00:00Z","set_by":"expiry","entry":null})";

const std::vector<Duration> three_days = {Duration(259200)};

ListsAnswer::Row listed(HoldingKey key, std::int64_t doses, List list, std::vector<Reason> reasons,
                        History history) {
    ListsAnswer::Row row;
    row.holding = std::move(key);
    row.doses = Doses(doses);
    row.expiry = Date{2027, 5, 31};
    row.last_use = by_expiry;
    row.list = list;
    row.reasons = std::move(reasons);
    row.history = std::move(history);
    row.allowance_seconds = three_days;
    return row;
}

std::string degrees(const Rational& celsius, Scale scale, Rounding rounding) {
    return english().say(temperature_words(celsius, scale, rounding));
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Sense, not line ends.
std::string flowing(const std::string& text) {
    std::string out;
    for (const char c : text)
        if (c != '\n' && c != ' ')
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    return out;
}

int widest(const std::string& text) {
    int out = 0;
    for (const auto& line : lines_of(text)) out = std::max(out, forms::display_width(line));
    return out;
}

// An id of 64 characters, as long as they come; the wide ones take 2 cells each.
std::string repeated(const char* character, int times) {
    std::string out;
    for (int i = 0; i < times; ++i) out += character;
    return out;
}

ListsAnswer three_lists() {
    ListsAnswer answer;
    answer.head = head();
    History condemned = calm_history();
    condemned.condemned_by = {12};
    History held = warm_history();
    held.held_by = {40};
    // In the order of places, which is not that of urgency.
    answer.holdings = {listed({"a", "mmr", "K1", "", ""}, 10, List::keep, {}, calm_history()),
                       listed({"b", "mmr", "K1", "state", ""}, 1, List::quarantine,
                              {Reason::warm, Reason::point, Reason::held}, held),
                       listed({"c", "mmr", "K2", "", "bin 2"}, 4, List::discard, {Reason::condemned}, condemned)};
    return answer;
}

}  // namespace

TEST_CASE("durations are said as people say them", "[forms]") {
    struct Row {
        const char* seconds;
        const char* down;
        const char* up;
    };
    const Row rows[] = {
        {"0", "0 s", "0 s"},
        {"1/1000", "0 s", "1 s"},  // never nothing where there was something
        {"45", "45 s", "45 s"},
        {"119/2", "59 s", "1 min"},
        {"320", "5 min 20 s", "5 min 20 s"},
        {"7199/2", "59 min 59 s", "1 h"},
        {"3600", "1 h", "1 h"},
        {"3601", "1 h", "1 h 1 min"},
        {"12000", "3 h 20 min", "3 h 20 min"},
        {"172799", "47 h 59 min", "2 d"},
        {"172800", "2 d", "2 d"},
        {"187200", "2 d 4 h", "2 d 4 h"},
        {"173100", "2 d 5 min", "2 d 5 min"},
        {"259201", "3 d", "3 d 1 min"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.seconds);
        CHECK(duration_words(R(row.seconds), false) == row.down);
        CHECK(duration_words(R(row.seconds), true) == row.up);
    }
}

TEST_CASE("a duration from elsewhere may be of any size", "[forms]") {
    const Rational huge = R("123456789012345678901234567890");
    CHECK(duration_words(huge, true) == "more than 1000 years");
    CHECK(duration_words(huge, false) == "more than 1000 years");
    CHECK(degrees(huge, Scale::C, Rounding::up) == "above 1000000 °C");
    CHECK(degrees(-huge, Scale::F, Rounding::down) == "below -1000000 °F");
}

TEST_CASE("temperatures are rounded away from comfort", "[forms]") {
    CHECK(degrees(R("8"), Scale::C, Rounding::up) == "8.0 °C");
    CHECK(degrees(R("8001/1000"), Scale::C, Rounding::up) == "8.1 °C");
    CHECK(degrees(R("1999/1000"), Scale::C, Rounding::down) == "1.9 °C");
    CHECK(degrees(R("-1/100"), Scale::C, Rounding::up) == "0.0 °C");  // no "-0.0"
    CHECK(degrees(R("-1/100"), Scale::C, Rounding::down) == "-0.1 °C");
    CHECK(degrees(R("-15"), Scale::C, Rounding::up) == "-15.0 °C");
    CHECK(degrees(R("81/20"), Scale::C, Rounding::nearest) == "4.1 °C");    // 4.05, halves away from zero
    CHECK(degrees(R("-81/20"), Scale::C, Rounding::nearest) == "-4.1 °C");
    // 8 °C is 46.4 °F and -40 is the same in both: by the definition of the scales
    CHECK(degrees(R("8"), Scale::F, Rounding::up) == "46.4 °F");
    CHECK(degrees(R("-40"), Scale::F, Rounding::down) == "-40.0 °F");
    CHECK(degrees(R("70/9"), Scale::F, Rounding::up) == "46.0 °F");
    CHECK(degrees(R("70/9"), Scale::C, Rounding::up) == "7.8 °C");
}

TEST_CASE("text is as wide as its characters are shown", "[forms]") {
    // Widths: Unicode Standard Annex 11, East Asian Width (W: two cells), combining marks none; from memory
    CHECK(forms::display_width("abc") == 3);
    CHECK(forms::display_width("Zürich") == 6);
    CHECK(forms::display_width("Zu\xCC\x88rich") == 6);  // u and a combining diaeresis
    CHECK(forms::display_width("冷蔵庫") == 6);
}

TEST_CASE("text is wrapped without a loss", "[forms]") {
    CHECK(forms::wrap("", 10) == std::vector<std::string>{""});
    CHECK(forms::wrap("one two three", 7) == std::vector<std::string>{"one two", "three"});
    CHECK(forms::wrap("too warm for 3 h 20 min", 14) == std::vector<std::string>{"too warm for", "3 h 20 min"});
    CHECK(forms::wrap("at 12:30:14  entry 7 ", 80) == std::vector<std::string>{"at 12:30:14 entry 7"});
    CHECK(forms::wrap("ABCDEFG", 3) == std::vector<std::string>{"ABC", "DEF", "G"});
    CHECK(forms::wrap("冷蔵庫", 3) == std::vector<std::string>{"冷", "蔵", "庫"});
    CHECK(forms::wrap("au\xCC\x88o", 2) ==
          std::vector<std::string>{"au\xCC\x88", "o"});                   // not between a letter and its mark
    CHECK(forms::wrap("a🇩🇪", 2) == std::vector<std::string>{"a", "🇩🇪"});  // two code points, one flag
    CHECK(forms::wrap("first rest of it", 6, 12) == std::vector<std::string>{"first rest", "of it"});
}

TEST_CASE("text cannot steer a terminal", "[forms]") {
    const std::string replaced = "\xEF\xBF\xBD";
    CHECK(forms::printable("a\x1b[2Jb") == "a" + replaced + "[2Jb");
    CHECK(forms::printable("a\nb\tc") == "a b c");
    CHECK(forms::printable("a\xE2\x80\xAE" "b") == "a" + replaced + "b");  // U+202E turns what follows
    CHECK(forms::printable("a\xFF" "b") == "a" + replaced + "b");
    CHECK(forms::printable("Zürich 冷蔵庫") == "Zürich 冷蔵庫");
}

TEST_CASE("JSON of a history", "[forms]") {
    CHECK(to_json(warm_history(), three_days) == warm_json);

    History h = warm_history();
    h.places = {"b", "a", "Z/a"};
    h.condemned_by = {30, 12};
    h.held_by = {7};
    h.use_by = at("2026-03-09T05:00:00Z");
    const auto json = nlohmann::json::parse(to_json(h, three_days));
    CHECK(json["places"] == nlohmann::json::array({"Z/a", "a", "b"}));
    CHECK(json["condemned_by"] == nlohmann::json::array({12, 30}));
    CHECK(json["held_by"] == nlohmann::json::array({7}));
    CHECK(json["use_by"] == "2026-03-09T05:00:00Z");
}

TEST_CASE("JSON of stock", "[forms]") {
    StockAnswer answer;
    answer.head = head();
    answer.holdings = {
        {{"main", "mmr", "K1", "state", ""}, Doses(9), Date{2027, 5, 31}, by_expiry, List::keep, {}, {}}};
    answer.accounts = {-10, 1, 0, 0, 0, 0, 9};
    CHECK(
        to_json(answer) ==
        std::string(head_json) +
            R"("holdings":[{"place":"main","product":"mmr","lot":"K1","fund":"state","mark":"","doses":9,)"
            R"("expiry":"2027-05-31",)" +
            by_expiry_json +
            R"(,"list":"keep","do_not_use":false,"in_doubt":[],"beside":[],"beside_codes":[]}],)"
            R"("accounts":{"supplier":-10,"patient":1,"wasted":0,"returned":0,"transferred":0,"variance":0,)"
            R"("on_hand":9},)"
            R"("caution":"On hand does not mean fit for use: the lists say what must not be used. )" +
            caution + "\"}\n");
}

TEST_CASE("JSON of lists", "[forms]") {
    ListsAnswer answer;
    answer.head = head();
    answer.holdings = {listed({"Kühlschrank", "mmr", "K1", "", ""}, 9, List::quarantine,
                              {Reason::warm, Reason::point}, warm_history())};
    answer.holdings[0].notes = {words::expires_on("2027-05-31")};
    CHECK(to_json(answer) ==
          std::string(head_json) +
              R"("holdings":[{"place":"Kühlschrank","product":"mmr","lot":"K1","fund":"","mark":"","doses":9,)"
              R"("expiry":"2027-05-31",)" +
              by_expiry_json +
              R"(,"list":"quarantine-pending-guidance","do_not_use":true,"reasons":["warm","point"],)"
              R"("notes":["expires on 2027-05-31"],)"
              R"("notes_codes":[{"code":"expires-on","fields":{"day":"2027-05-31"}}],"in_doubt":[],"history":)" +
              warm_json + R"(}],"caution":")" + caution + "\"}\n");
}

TEST_CASE("JSON of a review", "[forms]") {
    ReviewAnswer answer;
    answer.head = head();
    ReviewAnswer::Row row;
    row.entry = 31;
    row.at = at("2026-03-01T10:00:00Z");
    row.patient = "t-88";
    row.holding = {"main", "mmr", "K1", "", ""};
    row.doses = Doses(1);
    row.certain = false;
    row.finding = Finding::pending_guidance;
    row.reasons = {Reason::warm};
    row.history = warm_history();
    row.allowance_seconds = three_days;
    answer.doses = {row};
    const std::string tail = std::string(R"(],"not_listed":[],"not_listed_codes":[],"caution":")") + caution + " " +
                             review_caution + "\"}\n";
    CHECK(
        to_json(answer) ==
        std::string(head_json) +
            R"("doses":[{"entry":31,"at":"2026-03-01T10:00:00Z","patient":"t-88","place":"main","product":"mmr",)"
            R"("lot":"K1",)"
            R"("fund":"","mark":"","doses":1,"certain":false,"finding":"pending guidance","reasons":["warm"],)"
            R"("guidance":null,"history":)" +
            warm_json + R"(,"beside":[],"beside_codes":[]})" + tail);
    answer.doses[0].guidance = 44;
    CHECK(nlohmann::json::parse(to_json(answer))["doses"][0]["guidance"] == 44);
}

TEST_CASE("JSON of excursions", "[forms]") {
    ExcursionsAnswer answer;
    answer.head = head();
    answer.place = "main";
    answer.from = at("2026-03-01T00:00:00Z");
    answer.until = at("2026-03-02T00:00:00Z");
    ExcursionsAnswer::Row row;
    row.side = Side::warm;
    row.kind = ExcursionKind::line;
    row.from_s = R("3544700401/2");  // 2026-03-01T10:56:40.5Z
    row.until_s = R("5317051204/3");  // 2026-03-01T11:03:21 1/3 s
    row.duration_s = row.until_s - row.from_s;
    row.degree_s = R("30");
    row.peak_C = R("9");
    row.checked_s = R("60");
    ExcursionsAnswer::Inside inside;
    inside.holding = {"main", "mmr", "K1", "", ""};
    inside.doses = Doses(9);
    inside.exposure = warm_history().total;
    inside.allowance_seconds = three_days;
    row.holdings = {inside};
    row.marks = {words::marked("by hand")};
    answer.excursions = {row};
    answer.head.window = window_words(answer.from, answer.until, answer.until, Zone("UTC"));
    answer.seconds[static_cast<int>(Class::logged)] = R("86400");
    CHECK(
        to_json(answer) ==
        std::string(head_json) +
            R"("place":"main","from":"2026-03-01T00:00:00Z","until":"2026-03-02T00:00:00Z",)"
            R"("window":"from 2026-03-01 00:00 through the end of 2026-03-01",)"
            R"("window_code":{"code":"window-through","fields":{"from":"2026-03-01 00:00","day":"2026-03-01"}},)"
            R"("coverage":{"logged_s":"86400","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0",)"
            R"("unmonitored_s":"0"},)"
            R"("not_seen":"Only what has been recorded shows here: time between checks and without data may hide )"
            R"(excursions.",)"
            R"("excursions":[{"side":"warm","kind":"line",)"
            R"("from":")" +
            Instant(1772350201).text() + R"(","from_s":"3544700401/2","until":")" + Instant(1772350401).text() +
            R"(","until_s":"5317051204/3","duration_s":"1205/6","degree_Cs":"30","peak_C":"9","checked_s":"60",)"
            R"("open":false,"marks":["Marked: by hand"],"marks_codes":[{"code":"marked","fields":{"mark":"by hand"}}],)"
            R"("holdings":[{"product":"mmr","lot":"K1","fund":"","mark":"","doses":9,"exposure":{)"
            R"("warm":{"at_least_s":"0","estimate_s":"16200/7","at_most_s":"3600","degree_Cs":"30"},)"
            R"("cold":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0"},)"
            R"("frozen":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0"},)"
            R"("allowances":[{"seconds":259200,"used_s":"0"}],"beyond":{"warm_s":"16200/7","cold_s":"0"},"points":1,)"
            R"("coverage":{"logged_s":"40000","bounded_s":"0","checked_s":"3200","near_s":"0","awaiting_s":"60",)"
            R"("unmonitored_s":"0"},)"
            R"("lowest_C":"5/2","highest_C":"9"}}]}],"beside":[],"beside_codes":[],"caution":")" +
            caution + "\"}\n");
}

TEST_CASE("JSON of conditions", "[forms]") {
    ConditionsAnswer answer;
    answer.head = head();
    answer.place = "main";
    answer.from = at("2026-03-01T00:00:00Z");
    answer.until = at("2026-03-02T00:00:00Z");
    const std::string start =
        std::string(head_json) +
        R"("place":"main","from":"2026-03-01T00:00:00Z","until":"2026-03-02T00:00:00Z",)"
        R"("window":"from 2026-03-01 00:00 through the end of 2026-03-01",)"
        R"("window_code":{"code":"window-through","fields":{"from":"2026-03-01 00:00","day":"2026-03-01"}},)";
    answer.head.window = window_words(answer.from, answer.until, answer.until, Zone("UTC"));
    const std::string end =
        R"(,"marks":[],"marks_codes":[],"beside":[],"beside_codes":[],)"
        R"("caution":"A mean hides excursions and excuses none. )" +
        std::string(caution) + "\"}\n";
    CHECK(
        to_json(answer) ==
        start +
            R"("coverage":{"logged_s":"0","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0",)"
            R"("unmonitored_s":"0"},)"
            R"("lowest_C":null,"highest_C":null,"mean_C":null,"mean_kinetic_C":null,"excursions":0)" +
            end);
    answer.seconds[static_cast<int>(Class::unmonitored)] = R("86400");
    answer.lowest_C = R("11/3");
    answer.highest_C = R("9");
    answer.mean_C = R("5");
    answer.mean_kinetic_C = "5.012300";
    answer.excursions = 2;
    CHECK(
        to_json(answer) ==
        start +
            R"("coverage":{"logged_s":"0","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0",)"
            R"("unmonitored_s":"86400"},)"
            R"("lowest_C":"11/3","highest_C":"9","mean_C":"5","mean_kinetic_C":"5.012300","excursions":2)" +
            end);
}

TEST_CASE("JSON of an explanation and of a verification", "[forms]") {
    Explanation explanation{head(), {"main", "mmr", "K1", "", "bin 2"}, {}};
    explanation.lines.push_back({0, words::as_said("received 10")});
    explanation.lines.push_back({4, words::too_warm()});
    CHECK(to_json(explanation) ==
          std::string(head_json) +
              R"("holding":{"place":"main","product":"mmr","lot":"K1","fund":"","mark":"bin 2"},)"
              R"("lines":["received 10","    too warm"],)"
              R"("lines_codes":[{"indent":0,"code":"as-said","fields":{"text":"received 10"}},)"
              R"({"indent":4,"code":"too-warm","fields":{}}],"caution":")" +
              caution + "\"}\n");
    Verification found{12, 300, "00ff", {}};
    CHECK(to_json(found) ==
          R"({"entries":12,"readings":300,"chain":"00ff","to_note":"12:00ff","findings":[],"findings_codes":[],)"
          R"("findings_in_all":0})"
          "\n");
    found.findings = {words::recorded_before(3)};
    found.findings_in_all = 1;
    CHECK(to_json(found) ==
          R"({"entries":12,"readings":300,"chain":"00ff","to_note":null,)"
          R"("findings":["entry 3: recorded before the entry before it"],)"
          R"("findings_codes":[{"code":"recorded-before","fields":{"entry":"3"}}],"findings_in_all":1})"
          "\n");
}

TEST_CASE("JSON of an import report", "[forms]") {
    ImportedFile file;
    file.name = "march.csv";
    file.sha256 = "00ff";
    file.layout.skip_lines = 1;
    file.guesses = {words::decimal_is("\".\"")};
    file.rows_read = 3;
    file.rows_kept = 2;
    file.rows_repeated = 1;
    file.rows_ignored = 1;
    file.from = at("2026-03-01T00:00:00Z");
    file.until = at("2026-03-01T01:00:00Z");
    file.longest_step = Duration(1800);
    file.entries = {58};
    CHECK(
        to_json(ImportReport{{file}, {}}) ==
        R"({"dry_run":false,"files":[{"name":"march.csv","sha256":"00ff","known_already":false,)"
        R"("layout":{"skip_lines":1},)"
        R"("guesses":["decimal: \".\""],"guesses_codes":[{"code":"decimal-is","fields":{"sign":"\".\""}}],)"
        R"("ambiguous":[],"ambiguous_codes":[],)"
        R"("rows_read":3,"rows_kept":2,"rows_repeated":1,)"
        R"("rows_refused":0,)"
        R"("rows_without_reading":0,"rows_ignored":1,"rows_rounded":0,"largest_change":null,)"
        R"("remarks":[],"remarks_codes":[],)"
        R"("from":"2026-03-01T00:00:00Z","until":"2026-03-01T01:00:00Z",)"
        R"("longest_step_s":1800,"entries":[58]}],"warnings":[],"warnings_codes":[],"caution":")" +
            std::string(caution) +
            R"("})"
            "\n");
    file.name = "m\xE4rz.csv";  // Latin-1: a file's name may be any bytes, JSON may not
    file.from.reset();
    file.longest_step.reset();
    const auto json = nlohmann::json::parse(to_json(ImportReport{{file}, {}}));
    CHECK(json["files"][0]["name"] == "m\xEF\xBF\xBDrz.csv");
    CHECK(json["files"][0]["from"].is_null());
    CHECK(json["files"][0]["longest_step_s"].is_null());
}

TEST_CASE("a dry run does not claim to have posted", "[forms]") {
    ImportedFile file;
    file.name = "march.csv";
    file.entries = {58, 59};
    const ImportReport report{{file}, {}};
    CHECK(has(to_table(report, style()), "  Posted as entries 58, 59\n"));
    CHECK_FALSE(has(to_table(report, style()), "DRY RUN"));
    const std::string dry = to_table(report, style(), true);
    CHECK(has(dry, "DRY RUN: nothing has been written."));
    CHECK(has(dry, "Would be posted as entries 58, 59\n"));
    CHECK_FALSE(has(dry, "Posted as"));
    CHECK(nlohmann::json::parse(to_json(report, true))["dry_run"] == true);
}

TEST_CASE("the lists begin with what must not be used", "[forms]") {
    const std::string table = to_table(three_lists(), style());
    const auto discard = table.find("DO NOT USE - discard: 4 doses in 1 holding\n");
    const auto quarantine = table.find("DO NOT USE - quarantined, waiting for guidance: 1 dose in 1 holding\n");
    const auto keep = table.find("Nothing found against use; read the notes: 10 doses in 1 holding\n");
    REQUIRE(discard != std::string::npos);
    REQUIRE(quarantine != std::string::npos);
    REQUIRE(keep != std::string::npos);
    CHECK(discard < quarantine);
    CHECK(quarantine < keep);
    // each holding under its own heading
    CHECK(table.find("bin 2") > discard);
    CHECK(table.find("bin 2") < quarantine);
    CHECK(table.find("state") > quarantine);
    CHECK(table.find("state") < keep);
}

TEST_CASE("the lists say why, and what it rests on", "[forms]") {
    const std::string table = flowing(to_table(three_lists(), style(Scale::F)));
    CHECK(has(table, "Why: condemned: guidance says discard (entry 12)"));
    CHECK(has(table, "Why: warm: too warm for 38 min 35 s that no allowance covers"));  // 16200/7 s is 38 min 34.3 s
    CHECK(has(table, "Why: point: 1 reading or check out of range"));
    CHECK(has(table, "Why: held: held back (entry 40)"));
    CHECK(has(table, "too warm 38 min 35 s (at least 0 s, at most 1 h)"));
    CHECK(has(table,
              "measured by a logger 11 h 6 min; between plain checks, nothing known between them 53 min 20 s; AWAITING "
              "DATA 1 min"));
    CHECK(has(table, "Allowance 1 of 3 d: 0 s used, 3 d left"));
    CHECK(has(table, "Lowest 36.5 °F, highest 48.2 °F"));  // 5/2 °C and 9 °C
}

TEST_CASE("notes stand under the holding, once", "[forms]") {
    ListsAnswer answer = three_lists();
    answer.holdings[1].notes = {words::allowance_left(1, "0 s", "3 d"), words::no_readings_yet("1 min"),
                                words::expires_on("2027-05-31")};
    const std::string table = flowing(to_table(answer, style()));
    CHECK(has(table, "Note: expires on 2027-05-31"));
    CHECK_FALSE(has(table, "Note: allowance"));  // a line of the history says so
    CHECK(has(table, "Allowance 1 of 3 d: 0 s used, 3 d left"));
    CHECK_FALSE(has(table, "Note: no readings"));
    CHECK(has(table, "AWAITING DATA 1 min"));
}

TEST_CASE("missing data is never said to be in range", "[forms]") {
    ListsAnswer answer;
    answer.head = head();
    History unknown = calm_history();
    unknown.total.seconds[static_cast<int>(Class::unmonitored)] = R("7201");
    unknown.open.unmonitored = R("7201");
    answer.holdings = {listed({"main", "mmr", "K1", "", ""}, 10, List::quarantine, {Reason::unmonitored}, unknown)};
    const std::string table = flowing(to_table(answer, style()));
    CHECK(has(table, "Out of range: none seen; not every hour is known"));
    CHECK(has(table, "NOT KNOWN 2 h 1 min"));
    CHECK(has(table, "Why: unmonitored: the temperature is not known for 2 h 1 min"));

    unknown.total.seconds[static_cast<int>(Class::logged)] = R("0");
    unknown.total.lowest_C.reset();
    unknown.total.highest_C.reset();
    answer.holdings = {listed({"main", "mmr", "K1", "", ""}, 10, List::keep, {}, unknown)};
    CHECK(has(to_table(answer, style()), "Out of range: not known, there is no record\n"));
    CHECK_FALSE(has(to_table(answer, style()), "none seen"));

    History nothing;
    nothing.total.allowances = nothing.open.allowances = {R("0")};
    answer.holdings = {listed({"main", "mmr", "K1", "", ""}, 10, List::keep, {}, nothing)};
    CHECK(has(to_table(answer, style()), "no temperature known"));
}

TEST_CASE("an allowance: used is rounded up, left is rounded down", "[forms]") {
    History h = calm_history();
    h.total.warm = {R("3601"), R("3601"), R("3601"), R("1")};
    h.open.warm = R("3601");
    h.total.allowances = h.open.allowances = {R("3601")};
    const auto history_lines = [&] {
        return english().say(forms::history_lines(h, three_days, Zone("UTC"), Scale::C));
    };
    auto lines = history_lines();
    CHECK(std::count(lines.begin(), lines.end(), "Allowance 1 of 3 d: 1 h 1 min used, 2 d 22 h 59 min left") == 1);

    h.total.allowances = h.open.allowances = {R("259201")};
    lines = history_lines();
    CHECK(std::count(lines.begin(), lines.end(), "Allowance 1 of 3 d: 3 d 1 min used, nothing left") == 1);
    const auto why =
        forms::reason_lines({Reason::over_allowance}, {h, three_days, Zone("UTC"), head().at, std::nullopt});
    CHECK(english().say(why) ==
          std::vector<std::string>{"over-allowance: allowance 1 (3 d) is used up: 3 d 1 min used"});
}

TEST_CASE("exposure stays on record after guidance, and what came after is told apart", "[forms]") {
    History h = warm_history();
    h.open = OpenExposure{};
    h.open.allowances = {R("0")};
    auto lines = english().say(forms::history_lines(h, three_days, Zone("UTC"), Scale::C));
    CHECK(std::count(lines.begin(), lines.end(), "All of this was before guidance that cleared it") == 1);
    CHECK(has(lines[0], "too warm 38 min 35 s"));
    h.open.warm = R("60");
    lines = english().say(forms::history_lines(h, three_days, Zone("UTC"), Scale::C));
    CHECK(std::count(lines.begin(), lines.end(), "Since guidance cleared it: out of range 1 min") == 1);
}

TEST_CASE("what may have been within the probe's tolerance is said", "[forms]") {
    const auto said = [](const Exposure& e) { return english().say(*forms::out_of_range_words(e)); };
    Exposure e;
    e.cold.at_most = R("600");
    CHECK(said(e) == "perhaps too cold, at most 10 min");
    e.warm = {R("3599/2"), R("3599"), R("7201"), R("0")};
    CHECK(said(e) ==
          "too warm 59 min 59 s (at least 29 min 59 s, at most 2 h 1 min); perhaps too cold, at most 10 min");
    e.warm = SideExposure{};
    e.frozen = {R("300"), R("300"), R("300"), R("0")};
    CHECK(said(e) == "perhaps too cold, at most 10 min; at or below the freeze limit 5 min");
    CHECK_FALSE(forms::out_of_range_words(Exposure{}));
}

TEST_CASE("expired says which date", "[forms]") {
    History h;
    const Zone zone("America/Chicago");
    const std::vector<Duration> none;
    // the last local day ends at 05:00 UTC in summer time
    const Instant end = at("2027-06-01T05:00:00Z");
    const Date expiry{2027, 5, 31};
    const auto said = [&](Instant t) {
        return english().say(forms::reason_lines({Reason::expired}, {h, none, zone, t, expiry}));
    };
    CHECK(said(end) ==
          std::vector<std::string>{"expired: past the lot's expiry, 2027-05-31"});
    h.use_by = at("2027-05-01T12:00:00Z");
    CHECK(said(*h.use_by) ==
          std::vector<std::string>{"expired: past its use-by, 2027-05-01 07:00"});
}

TEST_CASE("every answer about doses ends with the caution", "[forms]") {
    const std::string said = flowing(std::string(caution) + "\n");
    const auto ends = [&](const std::string& table) {
        const std::string text = flowing(table);
        return text.size() >= said.size() && text.substr(text.size() - said.size()) == said;
    };
    StockAnswer stock;
    ReviewAnswer review;
    ExcursionsAnswer excursions;
    ConditionsAnswer conditions;
    Explanation explanation;
    stock.head = review.head = excursions.head = conditions.head = explanation.head = head();
    CHECK(ends(to_table(stock, style())));
    CHECK(ends(to_table(three_lists(), style())));
    CHECK(ends(to_table(review, style())));
    CHECK(ends(to_table(excursions, style())));
    CHECK(ends(to_table(conditions, style())));
    CHECK(ends(to_table(explanation, style())));
    CHECK(has(flowing(to_table(review, style())), review_caution));
}

TEST_CASE("colour only where it is asked for, and it says nothing of its own", "[forms]") {
    TableStyle colored = style();
    colored.color = true;
    const std::string plain = to_table(three_lists(), style());
    const std::string painted = to_table(three_lists(), colored);
    CHECK_FALSE(has(plain, "\x1b"));
    CHECK(has(painted, "\x1b["));
    std::string bare;
    for (std::size_t i = 0; i < painted.size(); ++i) {
        if (painted[i] == '\x1b')
            i = painted.find('m', i);
        else
            bare += painted[i];
    }
    CHECK(bare == plain);
}

TEST_CASE("tables fit their width whatever the names", "[forms]") {
    const std::string latin = repeated("X", 64), wide = repeated("冷", 64), marked = repeated("u\xCC\x88", 32);
    const HoldingKey key{wide, latin, latin, marked, wide};
    History h = warm_history();
    h.use_by = at("2026-03-09T05:00:07Z");
    const LastUse shortened{*h.use_by, Date{2026, 3, 9}, false, UseLimitKind::beyond_use, 1'000'000};
    for (const int columns : {100, 60}) {
        CAPTURE(columns);
        TableStyle narrow = style();
        narrow.columns = columns;

        StockAnswer stock;
        stock.head = head();
        stock.head.ledger = wide;
        stock.holdings = {{key, Doses(1'000'000'000), Date{2027, 5, 31}, shortened, List::keep, {}, {}}};
        CHECK(widest(to_table(stock, narrow)) <= columns);

        ListsAnswer lists;
        lists.head = stock.head;
        lists.holdings = {listed(key, 1'000'000'000, List::quarantine, {Reason::warm, Reason::point}, h)};
        lists.holdings[0].notes = {words::expires_on(repeated("note ", 60) + wide)};
        lists.holdings[0].last_use = shortened;
        const std::string listed_table = to_table(lists, narrow);
        CHECK(widest(listed_table) <= columns);
        // nothing is cut off: every character of the lot is there
        CHECK(std::count(listed_table.begin(), listed_table.end(), 'X') == 128);

        ReviewAnswer review;
        review.head = stock.head;
        ReviewAnswer::Row given;
        given.entry = 1'000'000;
        given.patient = latin;
        given.holding = key;
        given.doses = Doses(1'000'000'000);
        given.certain = false;
        given.finding = Finding::pending_guidance;
        given.history = h;
        review.doses = {given};
        CHECK(widest(to_table(review, narrow)) <= columns);

        ExcursionsAnswer excursions;
        excursions.head = stock.head;
        excursions.place = wide;
        ExcursionsAnswer::Row row;
        row.kind = ExcursionKind::bounded;
        row.until_s = R("100000/7");
        row.duration_s = R("100000/7");
        row.holdings = {{key, Doses(1'000'000'000), h.total, three_days}};
        excursions.excursions = {row};
        CHECK(widest(to_table(excursions, narrow)) <= columns);

        ConditionsAnswer conditions;
        conditions.head = stock.head;
        conditions.place = latin;
        CHECK(widest(to_table(conditions, narrow)) <= columns);

        Explanation explanation{stock.head, key, {{0, words::as_said(repeated("word ", 50) + latin + latin)}}};
        CHECK(widest(to_table(explanation, narrow)) <= columns);

        ImportedFile file;
        file.name = latin + latin;
        file.sha256 = repeated("0f", 32);
        file.remarks = {words::as_said(repeated("row 12 ", 40))};
        CHECK(widest(to_table(ImportReport{{file}, {}}, narrow)) <= columns);

        const Verification found{1, 2, repeated("0f", 32), {words::as_said(latin + latin)}};
        CHECK(widest(to_table(found, narrow)) <= columns);
    }
}

TEST_CASE("accounts that do not add up are not passed over", "[forms]") {
    StockAnswer answer;
    answer.head = head();
    answer.accounts = {-10, 1, 0, 0, 0, 0, 9};
    CHECK(has(to_table(answer, style()), "They add up to 0, as they must."));
    answer.accounts.on_hand = 8;
    CHECK(has(to_table(answer, style()), "THEY ADD UP TO -1, NOT TO 0"));
}

TEST_CASE("columns stand under each other", "[forms]") {
    StockAnswer answer;
    answer.head = head();
    answer.holdings = {
        {{"Kühlschrank", "mmr", "K1", "", ""}, Doses(9), Date{2027, 5, 31}, by_expiry, List::keep, {}, {}},
        {{"冷蔵庫", "dtap", "K20", "", ""},
         Doses(120),
         Date{2027, 5, 31},
         {at("2026-12-01T14:00:00Z"), Date{2026, 12, 1}, false, UseLimitKind::beyond_use, 44},
         List::quarantine,
         {},
         {}}};
    const auto lines = lines_of(to_table(answer, style()));
    const auto title =
        std::find(lines.begin(), lines.end(), "  Place        Product  Lot  Doses  Last day                List");
    REQUIRE(title != lines.end());  // fund and mark are left out: nobody uses them
    CHECK(*(title + 1) == "  Kühlschrank  mmr      K1       9  2027-05-31              keep");
    CHECK(*(title + 2) == "  冷蔵庫       dtap     K20    120  until 2026-12-01 14:00  DO NOT USE (quarantine)");
    CHECK(*(title + 3) == "      Last day set by beyond-use (entry 44); expiry of the lot: 2027-05-31");
}

TEST_CASE("no column breaks a word while another can give way at its blanks", "[forms]") {
    ListsAnswer answer;
    answer.head = head();
    ListsAnswer::Row row;
    row.holding = {"annex-refrigerator", "demo-alder", "AL-2608D", "state",
                   "DO NOT USE, outreach of 14 May, second bag"};
    row.doses = Doses(7);
    row.expiry = Date{2027, 8, 31};
    row.last_use = {at("2027-09-01T00:00:00Z"), row.expiry, true, UseLimitKind::expiry, {}};
    row.list = List::quarantine;
    answer.holdings = {row};
    TableStyle narrow = style();
    narrow.columns = 90;
    const std::string table = to_table(answer, narrow);
    for (const char* word : {"annex-refrigerator", "demo-alder", "AL-2608D", "outreach", "2027-08-31"})
        CHECK(has(table, word));
    for (const auto& line : lines_of(table)) CHECK(forms::display_width(line) <= 90);
}

TEST_CASE("an explanation keeps the steps of its lines", "[forms]") {
    const Explanation answer{
        head(),
        {"main", "mmr", "K1", "", ""},
        {{0, words::as_said("received 10 doses")}, {2, words::as_said("logged 2 h")},
         {0, words::as_said(repeated("long ", 30))}}};
    const auto lines = lines_of(to_table(answer, style()));
    const auto first = std::find(lines.begin(), lines.end(), "received 10 doses");
    REQUIRE(first != lines.end());
    CHECK(*(first + 1) == "  logged 2 h");
    CHECK((first + 3)->starts_with("    long"));
}

TEST_CASE("a review counts the doses of each finding and says what is not certain", "[forms]") {
    ReviewAnswer answer;
    answer.head = head();
    ReviewAnswer::Row row;
    row.entry = 31;
    row.at = at("2026-03-01T10:00:00Z");
    row.patient = "t-88";
    row.holding = {"main", "mmr", "K1", "", ""};
    row.doses = Doses(2);
    row.finding = Finding::pending_guidance;
    row.reasons = {Reason::warm};
    row.history = warm_history();
    row.allowance_seconds = three_days;
    answer.doses = {row, row};
    answer.doses[1].certain = false;
    answer.doses[1].finding = Finding::cleared;
    answer.doses[1].guidance = 44;
    const std::string table = to_table(answer, style());
    CHECK(has(table, "  waiting for guidance: 2 doses\n"));
    CHECK(has(table, "  cleared by guidance: 2 doses\n"));
    CHECK(has(table, "Guidance that covers it: none yet"));
    CHECK(has(table, "Guidance that covers it: entry 44"));
    // under the second row, which says so, alone
    CHECK(table.find("Not certain: the chart names the lot") > table.rfind("2026-03-01 10:00"));
    CHECK(table.find("Not certain") == table.rfind("Not certain"));
    CHECK(has(table, "2026-03-01 10:00"));
    CHECK_FALSE(has(table, "revaccinate"));
}

TEST_CASE("an excursion says how its length is known", "[forms]") {
    ExcursionsAnswer answer;
    answer.head = head();
    answer.place = "main";
    answer.from = at("2026-03-01T00:00:00Z");
    answer.until = at("2026-03-05T00:00:00Z");
    ExcursionsAnswer::Row line, bounded, point;
    line.from_s = Rational(at("2026-03-01T10:00:00Z").seconds_since_1970()) + R("1/2");
    line.until_s = Rational(at("2026-03-01T12:00:00Z").seconds_since_1970()) - R("1/2");
    line.duration_s = R("7199");
    line.peak_C = R("9001/1000");
    line.open = true;
    bounded.kind = ExcursionKind::bounded;
    bounded.side = Side::cold;
    bounded.duration_s = R("86400");
    bounded.peak_C = R("19/100");
    point.kind = ExcursionKind::point;
    point.peak_C = R("12");
    ExcursionsAnswer::Inside inside;
    inside.holding = {"main", "mmr", "K1", "", ""};
    inside.doses = Doses(9);
    inside.exposure = warm_history().total;
    inside.exposure.allowances = {R("61")};
    inside.allowance_seconds = three_days;
    line.holdings = {inside};
    answer.excursions = {line, bounded, point};
    const std::string table = flowing(to_table(answer, style()));
    CHECK(has(table, "seen up to 2026-03-02 08:05"));  // the window ends after the instant asked about
    CHECK(has(
        table,
        "1. too warm, 2026-03-01 10:00 to 2026-03-01 12:00: 2 h by readings, STILL OUT when they end; highest 9.1 °C"));
    CHECK(has(table, "2. too cold"));
    CHECK(has(table, "some time in 24 h (min and max only; all of it is counted); lowest 0.1 °C"));
    CHECK(has(table, "one reading; how long is not known; highest 12.0 °C"));
    CHECK(has(table, "Inside: 9 doses in 1 holding"));
    CHECK(has(table, "No doses were inside."));
    // what the holding went through, in a column of its own
    ExcursionsAnswer one = answer;
    one.excursions = {line};
    CHECK(has(flowing(to_table(one, style())), "in allowance 1"));
}

TEST_CASE("conditions never make known time more, nor unknown time less", "[forms]") {
    ConditionsAnswer answer;
    answer.head = head();
    answer.place = "main";
    answer.from = at("2026-03-01T00:00:00Z");
    answer.until = at("2026-03-02T00:00:00Z");
    answer.seconds = {R("86399"), R("0"), R("0"), R("0"), R("0"), R("1")};
    answer.lowest_C = R("199/100");
    answer.highest_C = R("801/100");
    answer.mean_kinetic_C = "-0.050000";
    const std::string table = to_table(answer, style());
    CHECK(has(flowing(table), "measured by a logger 23 h 59 min 99.9 %"));
    CHECK(has(flowing(table), "NOT KNOWN 1 s 0.1 %"));
    CHECK(has(flowing(table), "lowest known 1.9 °C"));
    CHECK(has(flowing(table), "highest known 8.1 °C"));
    CHECK(has(flowing(table), "mean of the logged and checked time not known"));
    CHECK(has(table, "-0.1 °C"));  // halves away from zero
}
