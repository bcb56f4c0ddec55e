// A line each: what lists, review, readiness and an incident say on their first screen, and what no width breaks.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <sstream>

#include "coldtally/forms.hpp"
#include "forms/in_short.hpp"
#include "forms/table_layout.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"
#include "words/stock.hpp"
#include "words/tables.hpp"

using namespace coldtally;
using forms::TableLayout;
using Kind = TableLayout::Column::Kind;

namespace {

Instant at(const char* text) { return parse_instant(text, Zone("UTC")); }

AnswerHead head() { return {"Harbour Street", at("2026-03-02T08:05:00Z"), at("2026-03-02T08:05:00Z"), 57, {}}; }

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}

std::set<std::string> words_of(const std::string& text) {
    std::istringstream in(text);
    std::set<std::string> out;
    for (std::string word; in >> word;) out.insert(word);
    return out;
}

/// Whatever line it goes on in.
bool has(const std::string& text, std::string_view what) {
    std::istringstream in(text);
    std::string flowing;
    for (std::string word; in >> word;) flowing += (flowing.empty() ? "" : " ") + word;
    return flowing.find(what) != std::string::npos;
}

TableStyle style(int columns, bool why = false) {
    TableStyle out{Zone("UTC")};
    out.columns = columns;
    out.why = why;
    return out;
}

ListsAnswer::Row listed(HoldingKey key, int doses, List list, std::vector<Reason> reasons = {}) {
    ListsAnswer::Row row;
    row.holding = std::move(key);
    row.doses = Doses(doses);
    row.expiry = Date{2027, 5, 31};
    row.last_use = {at("2027-06-01T00:00:00Z"), row.expiry, true, UseLimitKind::expiry, {}};
    row.list = list;
    row.reasons = std::move(reasons);
    return row;
}

ListsAnswer four_holdings() {
    ListsAnswer out;
    out.head = head();
    out.holdings = {
        listed({"main-fridge", "demo-birch", "B-1", "state", ""}, 4, List::discard, {Reason::expired}),
        listed({"main-fridge", "demo-birch", "B-2", "state", "warm box, use first of all"}, 5, List::quarantine,
               {Reason::warm, Reason::point, Reason::held}),
        listed({"annex-fridge", "demo-alder", "AL-2608D", "private", ""}, 6, List::keep),
        listed({"annex-fridge", "demo-alder", "AL-2608E", "private", ""}, 7, List::keep)};
    out.holdings[2].in_doubt = {"2026-1"};
    out.holdings[3].beside = {words::may_have_been_out(words::too_warm(), "25 min", "none")};
    out.holdings[3].notes = {out.holdings[3].beside.front(), words::expires_on("2027-05-31")};
    return out;
}

ReviewAnswer::Row given(EntryNumber entry, Finding finding) {
    ReviewAnswer::Row out;
    out.entry = entry;
    out.at = at("2026-03-01T10:00:00Z");
    out.patient = "t-" + std::to_string(entry);
    out.holding = {"main", "mmr", "K1", "", ""};
    out.doses = Doses(1);
    out.finding = finding;
    if (finding != Finding::clear) out.reasons = {Reason::warm};
    return out;
}

}  // namespace

TEST_CASE("lists are a line a holding, what must not be used first, with what must be known below", "[in-lines]") {
    const std::string table = to_table(four_holdings(), style(80));
    const auto lines = lines_of(table);
    const std::vector<std::string> want{
        "Harbour Street: what may be used and what must not",
        "As of 2026-03-02 08:05 (UTC), entries up to 57.",
        "",
        "DO NOT USE: 4 doses to discard, 5 in quarantine, 6 in doubt. On keep: 7 doses,",
        "  7 WITH A WARNING.",
        "",
        "  Place         Product     Lot       Fund     Doses  Last day    Why",
        "DO NOT USE - discard: 4 doses in 1 holding",
        "  main-fridge   demo-birch  B-1       state        4  2027-05-31  expired",
        "",
        "DO NOT USE - quarantined, waiting for guidance: 5 doses in 1 holding",
        "  main-fridge   demo-birch  B-2       state        5  2027-05-31  too warm",
        "      Mark: warm box, use first of all",
        "",
        "DO NOT USE YET - in doubt, an incident is open: 6 doses in 1 holding",
        "  IN DOUBT: incident 2026-1 is open",
        "  annex-fridge  demo-alder  AL-2608D  private      6  2027-05-31  IN DOUBT",
        "",
        "Nothing found against use; read the notes: 7 doses in 1 holding, 7 doses WITH A",
        "  WARNING",
        "  annex-fridge  demo-alder  AL-2608E  private      7  2027-05-31",
        "      MAY HAVE BEEN OUT OF RANGE: too warm for at most 25 min",
        "",
        "Left out here: 2 more reasons, 1 note, and what the doses have been through;",
        "  `--why` shows all of it."};
    REQUIRE(lines.size() > want.size());
    for (std::size_t i = 0; i < want.size(); ++i) CHECK(lines[i] == want[i]);
    CHECK(has(table, caution));  // whole
}

TEST_CASE("with why the lists have their paragraphs, and the counts as well", "[in-lines]") {
    const std::string whole = to_table(four_holdings(), style(100, true));
    CHECK(has(whole, "DO NOT USE: 4 doses to discard, 5 in quarantine, 6 in doubt."));
    CHECK(has(whole, "Why: point: "));
    CHECK(has(whole, "Note: expires on 2027-05-31"));
    CHECK(has(whole, "none by the estimate, which alone decides the list"));
    CHECK_FALSE(has(whole, "Left out here"));
}

TEST_CASE("the gravest reason stands in the line: what forbids use, then what cannot be undone", "[in-lines]") {
    const auto said = [&](std::vector<Reason> reasons) {
        const auto one = forms::gravest_words(reasons);
        return one ? english().say(*one) : "";
    };
    CHECK(said({}) == "");
    CHECK(said({Reason::expired, Reason::condemned, Reason::warm}) == "by guidance");
    CHECK(said({Reason::expired, Reason::frozen}) == "expired");
    CHECK(said({Reason::warm, Reason::frozen, Reason::held}) == "frozen");
    CHECK(said({Reason::warm, Reason::point}) == "too warm");
    CHECK(said({Reason::unmonitored, Reason::held}) == "unmonitored");
    CHECK(said({Reason::held}) == "held back");
}

TEST_CASE("what is said in short takes the fields of what it stands for, and keeps its warning", "[in-lines]") {
    std::set<const Phrase*> once;
    for (const auto& form : forms::short_forms()) {
        CAPTURE(form.of.code);
        CHECK(once.insert(&form.of).second);
        CHECK(field_names(form.says).size() == form.fields.size());
        for (const std::size_t i : form.fields) CHECK(i < field_names(form.of).size());
        // the words in capitals with which it begins are those of the whole, as far as both have them
        const std::string whole = form.of.english, brief = form.says.english;
        const auto capitals = [](const std::string& text) {
            return text.substr(0, std::min(text.find_first_of(",:;({abcdefghijklmnopqrstuvwxyz"), text.size()));
        };
        if (!capitals(whole).empty()) CHECK(capitals(brief).substr(0, 8) == capitals(whole).substr(0, 8));
        CHECK(brief.size() <= whole.size());
    }
    CHECK(once.size() > 20);
    CHECK(english().say(forms::shorter(words::does_not_suit("main", "2 to 8 °C", "ice", "-50 to -15 °C"))) ==
          "DOES NOT SUIT: ice must be at -50 to -15 °C, main is not");
    // what has no short form is said whole
    CHECK(forms::shorter(words::expires_on("2027-05-31")) == words::expires_on("2027-05-31"));
}

TEST_CASE("a review begins with what is not viable, and tells the cleared as a number", "[in-lines]") {
    ReviewAnswer answer;
    answer.head = head();
    answer.doses = {given(31, Finding::cleared), given(32, Finding::pending_guidance), given(33, Finding::expired),
                    given(34, Finding::not_viable), given(35, Finding::cleared)};
    answer.doses[4].beside = {words::learnt_after_guidance("too warm 1 h", "guidance of entry 9", "no figures")};
    const auto place = [](const std::string& table, const char* what) { return table.find(what); };
    const std::string table = to_table(answer, style(80));
    CHECK(place(table, "NOT VIABLE by guidance: 1 dose") < place(table, "given past expiry or use-by: 1 dose"));
    CHECK(place(table, "t-34") < place(table, "t-33"));
    CHECK(place(table, "t-33") < place(table, "t-32"));
    CHECK(place(table, "t-32") < place(table, "t-35"));  // cleared, and of it something must be known
    CHECK(has(table, "LEARNT AFTER GUIDANCE: too warm 1 h: ask its issuer again before use"));
    CHECK_FALSE(has(table, "t-31"));
    CHECK(has(table, "cleared by guidance: 2 doses"));
    CHECK(has(table, "Left out here: 1 dose cleared by guidance"));
    CHECK(has(table, "`--why`"));
    const std::string whole = to_table(answer, style(80, true));
    CHECK(place(whole, "t-34") < place(whole, "t-33"));
    CHECK(place(whole, "t-35") != std::string::npos);
    CHECK(has(whole, "t-31"));
    // whoever asks for those at which nothing was found sees the cleared, too
    answer.doses.push_back(given(36, Finding::clear));
    const std::string all = to_table(answer, style(80));
    CHECK(place(all, "t-31") < place(all, "t-36"));
}

TEST_CASE("an incident begins with what it is and what is to be done; its report has no list of that", "[in-lines]") {
    IncidentAnswer a;
    a.head = head();
    a.incident = "2026-1";
    a.noticed = at("2026-03-01T07:00:00Z");
    a.steps = {{9, *a.noticed, "ab", IncidentStep::noticed, "door ajar", {}, {}}};
    a.now = {listed({"main", "mmr", "K1", "", ""}, 8, List::quarantine, {Reason::held})};
    a.now.push_back(listed({"main", "mmr", "K2", "", ""}, 3, List::keep));
    a.now[1].in_doubt = {"2026-1"};
    DutyClock late, done;
    late.due = at("2026-03-01T08:00:00Z");
    late.state = DutyClock::State::overdue;
    done.step = DutyStep::cause;
    done.done = done.due = late.due;
    done.state = DutyClock::State::done;
    a.duties = {late, done};
    a.given = {given(31, Finding::pending_guidance), given(32, Finding::clear), given(33, Finding::clear)};
    for (auto& row : a.given) row.patient.clear();
    a.given[2].beside = {words::may_have_been_out(words::too_warm(), "25 min", "none")};
    a.patients = 3;

    const std::string table = to_table(a, style(80)), report = to_report(a, style(80));
    const auto place = [&](const char* what) { return table.find(what); };
    CHECK(has(table, "noticed 2026-03-01 07:00, open"));
    CHECK(has(table, "DO NOT USE, of its doses here: 8 doses in quarantine, 3 doses in doubt"));
    CHECK(place("DO NOT USE, of its doses") < place("To be done, overdue first"));
    CHECK(place("To be done, overdue first") < place("OVERDUE for"));
    CHECK(place("OVERDUE for") < place("What happened"));
    CHECK(has(table, "1 more is done."));
    CHECK_FALSE(has(table, "cause: done"));
    // one at which something was found has its line; the others are a number, with what must be known of them
    CHECK(has(table, "entry 31, 1 dose"));
    CHECK_FALSE(has(table, "entry 32"));
    CHECK(has(table, "2 doses of mmr lot K1: nothing found of them 1 dose from 2026-03-01 10:00: MAY HAVE BEEN OUT"));
    CHECK(has(table, "`coldtally incident 2026-1 --patients` lists each of them."));
    CHECK(has(report, "door ajar"));
    CHECK_FALSE(has(report, "To be done"));
    CHECK_FALSE(has(report, "OVERDUE for"));
    CHECK(has(report, caution));
    // where the patients were asked for, each has a line
    for (auto& row : a.given) row.patient = "t-" + std::to_string(row.entry);
    CHECK(has(to_table(a, style(80)), "entry 32, 1 dose to t-32"));
}

TEST_CASE("readiness says in its headline what endangers doses, and tells many of a matter as one", "[in-lines]") {
    ReadinessAnswer a;
    a.head = head();
    a.topics.push_back({ReadinessAnswer::Matter::counts, false, words::none(), {}});
    const auto add = [&](ReadinessAnswer::Matter topic, ReadinessAnswer::Urgency urgency, const char* where) {
        ReadinessAnswer::Finding f;
        f.topic = topic;
        f.urgency = urgency;
        f.where = where;
        f.text = words::expires_on("2027-05-31");
        f.since = at("2026-03-01T07:00:00Z");
        f.rule = words::none();
        f.details = {words::as_said("a detail")};
        a.findings.push_back(f);
    };
    using Matter = ReadinessAnswer::Matter;
    using Urgency = ReadinessAnswer::Urgency;
    for (const char* where : {"a", "b", "c", "d", "e"}) add(Matter::guidance, Urgency::act, where);
    add(Matter::incidents, Urgency::act, "2026-1");
    add(Matter::checks, Urgency::overdue, "main");
    add(Matter::checks, Urgency::overdue, "annex");
    const std::string table = to_table(a, style(80));
    CHECK(has(table, "6 findings where doses may be at stake now, 2 overdue, 0 due soon."));
    CHECK(has(table, "1 matter could NOT be judged: counts."));
    CHECK(has(table, "guidance: 5 findings (a, b, c and 2 more), the oldest since 2026-03-01 07:00."));
    CHECK(has(table, "incidents: 2026-1: expires on 2027-05-31. Since 2026-03-01 07:00."));
    CHECK(has(table, "checks: 2 findings (main, annex), the oldest since 2026-03-01 07:00."));
    CHECK_FALSE(has(table, "a detail"));
    CHECK(has(table, "`--why`"));
    const std::string whole = to_table(a, style(80, true));
    CHECK(has(whole, "guidance: e: expires on 2027-05-31."));
    CHECK(has(whole, "a detail"));
    CHECK(has(whole, "By what rule"));
}

TEST_CASE("columns that find no room go below their row in the order stated, and no word is broken", "[in-lines]") {
    const auto table = [](int width) {
        TableLayout out(english(), {{"Place"},
                                    {"Fund", Kind::fixed, 1},
                                    {"Mark", Kind::fixed, 2},
                                    {"Doses", Kind::number},
                                    {"List", Kind::text, 0, 12}});
        out.titles();
        out.row({"annex-refrigerator", "private", "warm box 4", 12, "DO NOT USE (quarantine)"});
        out.row({"main", "state", "", 3, "keep"});
        return out.render(width, false);
    };
    CHECK(table(80) ==
          "  Place               Fund     Mark        Doses  List\n"
          "  annex-refrigerator  private  warm box 4     12  DO NOT USE (quarantine)\n"
          "  main                state                    3  keep\n");
    CHECK(table(64) ==  // the list gives way at its blanks
          "  Place               Fund     Mark        Doses  List\n"
          "  annex-refrigerator  private  warm box 4     12  DO NOT USE\n"
          "                                                  (quarantine)\n"
          "  main                state                    3  keep\n");
    CHECK(table(60) ==  // then the mark goes below, where there is one
          "  Place               Fund     Doses  List\n"
          "  annex-refrigerator  private     12  DO NOT USE\n"
          "                                      (quarantine)\n"
          "      Mark: warm box 4\n"
          "  main                state        3  keep\n");
    CHECK(table(48) ==  // and the fund
          "  Place               Doses  List\n"
          "  annex-refrigerator     12  DO NOT USE\n"
          "                             (quarantine)\n"
          "      Fund: private; Mark: warm box 4\n"
          "  main                    3  keep\n"
          "      Fund: state\n");
    CHECK(table(30) ==  // at last rows are blocks
          "  Place               Doses\n"
          "  annex-refrigerator     12\n"
          "      Fund: private; Mark:\n"
          "        warm box 4; List: DO\n"
          "        NOT USE (quarantine)\n"
          "  main                    3\n"
          "      Fund: state; List: keep\n");
}

TEST_CASE("in no width is a word of the lists broken, but one longer than a line", "[in-lines]") {
    const ListsAnswer answer = four_holdings();
    for (const bool why : {false, true}) {
        const auto whole = words_of(to_table(answer, style(200, why)));
        for (int columns = 60; columns <= 160; ++columns) {
            CAPTURE(columns, why);
            const std::string table = to_table(answer, style(columns, why));
            for (const auto& line : lines_of(table)) CHECK(forms::display_width(line) <= columns);
            for (const auto& word : words_of(table))  // a title before what went below is one
                if (word.back() != ':')
                    CHECK((whole.contains(word) || whole.contains(word.substr(0, word.size() - 1))));
        }
    }
}
