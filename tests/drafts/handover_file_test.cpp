// What a receive takes in of a handover: it is of these doses, and what they are on hold for elsewhere they are on hold
// for here. All data invented. What is expected is a choice of ours: a store that hands doses over says whether they
// may be used, and the store that takes them in must not know less than the paper.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "said.hpp"
#include "coldtally/entry_work.hpp"
#include "coldtally/handover_work.hpp"

using namespace coldtally;
using coldtally::tests::at;
using coldtally::tests::Clinic;
using coldtally::tests::has_code;
using coldtally::tests::readings;
using coldtally::tests::says;
using nlohmann::json;

namespace {

const std::string range = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";
std::string product(const std::string& id) {
    return R"({"kind":"product","product":")" + id + R"(","name":"Invented","freeze_limit":{"C":"0"},)" + range + "}";
}
std::string lot(const std::string& id, const std::string& number, const std::string& expiry = "2026-12") {
    return R"({"kind":"lot","product":")" + id + R"(","lot":")" + number + R"(","expiry":")" + expiry + "\"}";
}
std::string place(const std::string& id) {
    return R"({"kind":"place","place":")" + id + R"(","name":"P","type":"refrigerator",)" + range + "}";
}
const char* const noon = "2026-06-01T12:00:00Z";

/// 20 doses in North from 08:00 on, measured and in range to 10:00 but for what `more` says (no temperature: without a
/// logger); 5 leave at 10:00 for South.
json sent(const std::vector<std::string>& more, const std::string& temperature = "5", const char* site_more = "") {
    Clinic c;
    c.post({std::string(R"({"kind":"site","name":"North","zone":"UTC")") + site_more + "}", product("elm"),
            lot("elm", "A1"), place("a"),
            R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":20})"},
           noon);
    if (!temperature.empty())
        c.post({R"({"kind":"probe","probe":"p","scale":"C"})",
                R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"a"})",
                readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, temperature}, {7200, "5"}})}, noon);
    if (!more.empty()) c.post(more, noon);
    const auto posted = post_transfer(
        c.ledger,
        c.ledger.draft(
            R"({"kind":"transfer","by":"QA","at":"2026-06-01T10:00:00Z","lot":"A1","doses":5,"to":"South",)"
            R"("reason":"r"})",
            at(noon)),
        std::nullopt, false, at(noon), false, TableStyle{Zone("UTC")});
    return json::parse(to_json(posted.handover));
}
const std::string held =
    R"({"kind":"hold","at":"2026-06-01T08:30:00Z","product":"elm","lot":"A1","reason":"dropped box"})";

struct There : Clinic {
    explicit There(const char* site_more = "") {
        post(
            {std::string(R"({"kind":"site","name":"South","zone":"UTC")") + site_more + "}", product("elm"),
             product("oak"), lot("elm", "A1"), lot("elm", "A2"), lot("oak", "A1"), place("b"),
             R"({"kind":"place","place":"freezer","name":"F","type":"freezer","range":{"low":{"C":"-50"},)"
             R"("high":{"C":"-15"}}})"},
            noon);
    }
    Drafted draft(const json& handover, const json& with = json::object()) const {
        json fields = {{"kind", "receive"}, {"by", "cd"},   {"at", "2026-06-01T10:30:00Z"}, {"place", "b"},
                       {"product", "elm"},  {"lot", "A1"},  {"doses", 5},                   {"handover", handover}};
        fields.update(with);
        return ledger.draft(fields.dump(), at(noon));
    }
    Drafted receive(const json& handover, const json& with = json::object()) {
        Drafted out = draft(handover, with);
        ledger.post(out, at(noon));
        return out;
    }
    /// What stands of the doses on the lists at 10:30.
    std::vector<Reason> reasons() const {
        const auto rows = ledger.lists({at("2026-06-01T10:30:00Z"), std::nullopt}, at(noon)).holdings;
        REQUIRE(rows.size() == 1);
        CHECK((rows.front().list == List::keep) == rows.front().reasons.empty());
        return rows.front().reasons;
    }
};

std::string refused(const There& there, Code code, const json& handover, const json& with = json::object()) {
    try {
        there.draft(handover, with);
    } catch (const Error& e) {
        CHECK(e.code() == code);
        return e.what();
    }
    FAIL("was taken");
    return {};
}
json changed(json form, const char* field, const json& value) {
    form[field] = value;
    return form;
}

}  // namespace

TEST_CASE("doses that are on hold where they come from are on hold where they are received", "[handover]") {
    const json file = sent({held});
    CHECK(file["handover"]["held_by"].empty());  // an entry's number means nothing elsewhere
    CHECK(file["to_hold"] == json({"dropped box"}));
    There there;
    const Drafted got = there.receive(file, {{"mark", "from North"}, {"note", "by van"}});
    CHECK(got.warnings.front().code() == "sent-held");
    CHECK(english().say(got.warnings.front()).starts_with(
        "DO NOT USE: the doses are put on hold here, too, since they were held at North: dropped box. "));
    REQUIRE(got.entries.size() == 2);
    const std::string way = "; the way: 30 min from 2026-06-01 10:00, of which nothing is known";
    CHECK(got.entries[0].note == "by van; handover of North, transfer " + file["transfer"].dump() + way);
    const auto& hold = std::get<Hold>(got.entries[1].fact);
    CHECK(hold.reason == "held at North: dropped box");
    CHECK(hold.product == "elm");
    CHECK(hold.lot == "A1");
    CHECK(hold.place == "b");
    CHECK(hold.mark == "from North");
    CHECK(there.reasons() == std::vector<Reason>{Reason::held});
    const auto give = there.ledger.draft(
        R"({"kind":"give","by":"cd","at":"2026-06-01T10:31:00Z","lot":"A1","product":"elm","patient":"t-1"})",
        at(noon));
    CHECK(says(give.warnings, "NOT ON KEEP"));
}

TEST_CASE("doses in doubt of an open incident where they come from are on hold where they are received", "[handover]") {
    const json file = sent(
        {R"({"kind":"incident","at":"2026-06-01T09:20:00Z","incident":"i1","step":"noticed","place":"a",)"
         R"("text":"dark display"})"});
    CHECK(file["list"] == "keep");
    There there;
    const Drafted got = there.receive(file);
    REQUIRE(got.entries.size() == 2);
    CHECK(std::get<Hold>(got.entries[1].fact).reason ==
          "held at North: in doubt: incident i1 is open, and they stood in a");
    CHECK(there.reasons() == std::vector<Reason>{Reason::held});
}

TEST_CASE("a reason that the history shows here needs no hold, and one that it does not show does", "[handover]") {
    There warm;
    const Drafted shown = warm.receive(sent({}, "12"));
    CHECK(shown.entries.size() == 1);
    CHECK(std::ranges::count(warm.reasons(), Reason::warm) == 1);
    // not known for two hours, and this site lets three pass
    const json dark = sent({}, "", R"(,"unmonitored_limit_s":0)");
    REQUIRE(dark["reasons"] == json({"unmonitored"}));
    There there(R"(,"unmonitored_limit_s":10800)");
    const Drafted got = there.receive(dark);
    REQUIRE(got.entries.size() == 2);
    CHECK(std::get<Hold>(got.entries[1].fact).reason == "held at North: unmonitored");
    CHECK(there.reasons() == std::vector<Reason>{Reason::held});
}

TEST_CASE("doses are left off hold only with a reason, which is kept", "[handover]") {
    const json file = sent({held});
    There there;
    const Drafted got = there.receive(file, {{"no_hold", "North lifted it by telephone"}});
    REQUIRE(got.entries.size() == 1);
    CHECK(english().say(got.warnings.front()) ==
          "NOT PUT ON HOLD, because: North lifted it by telephone. They were held at North: dropped box");
    CHECK(*got.entries[0].note == "not put on hold: North lifted it by telephone; handover of North, transfer " +
                                      file["transfer"].dump() +
                                      "; the way: 30 min from 2026-06-01 10:00, of which nothing is known");
    CHECK(there.reasons().empty());
    refused(there, Code::bad_value, file, {{"no_hold", " "}});
    refused(there, Code::contradiction, sent({}), {{"no_hold", "why"}});
}

TEST_CASE("a handover is taken for the doses it was written for, and no others", "[handover]") {
    const json file = sent({});
    There there;
    CHECK(refused(there, Code::handover_differs, file, {{"product", "oak"}})
              .find(R"(product: must be "oak", which is received; it states "elm")") != std::string::npos);
    CHECK(refused(there, Code::handover_differs, file, {{"lot", "A2"}})
              .find(R"(lot: must be "A2", which is received; it states "A1")") != std::string::npos);
    CHECK(refused(there, Code::handover_differs, file, {{"doses", 6}}).find("6 are received; it states 5") !=
          std::string::npos);
    CHECK(refused(there, Code::contradiction, changed(file, "handover", nullptr)).find("discard") != std::string::npos);
    CHECK(refused(there, Code::contradiction, changed(file, "reasons", {"condemned"})).find("discard") !=
          std::string::npos);
    for (const char* field : {"ledger", "transfer", "left", "to", "product", "lot", "doses", "expiry", "reasons",
                              "to_hold"}) {
        CAPTURE(field);
        json without = file;
        without.erase(field);
        CHECK(refused(there, Code::missing_field, without).find(field) != std::string::npos);
        CHECK(refused(there, Code::bad_value, changed(file, field, 0.5)).find(field) != std::string::npos);
    }
    // the later of two days is not taken without a word
    CHECK(refused(there, Code::missing_field, changed(file, "expiry", "2026-11-30"))
              .find(R"(the sender states 2026-11-30 for lot "A1", this ledger 2026-12-31)") != std::string::npos);
    CHECK(says(there.draft(changed(file, "expiry", "2026-11-30"), {{"note", "label: December"}}).warnings,
               R"(EXPIRY DIFFERS: the sender states 2026-11-30 for lot "A1", this ledger 2026-12-31)"));
    CHECK(says(there.draft(changed(file, "expiry", "2027-01-31")).warnings, "EXPIRY DIFFERS"));
    CHECK(says(there.draft(file, {{"at", "2026-06-01T09:00:00Z"}}).warnings, "LEFT LATER"));
    const Drafted some = there.draft(file, {{"doses", 4}});
    CHECK_FALSE(says(some.warnings, "EXPIRY DIFFERS"));
    CHECK_FALSE(says(some.warnings, "LEFT LATER"));
    CHECK(says(some.warnings, "FEWER THAN WERE SENT: 1 of the 5 are not received with this"));
    CHECK_FALSE(says(there.draft(file).warnings, "FEWER THAN WERE SENT"));
    CHECK_FALSE(says(some.warnings, "FOR ANOTHER SITE?"));
    CHECK_FALSE(says(there.draft(changed(file, "to", "the clinic in south street")).warnings, "FOR ANOTHER SITE?"));
    CHECK(says(there.draft(changed(file, "to", "East")).warnings,
               R"(FOR ANOTHER SITE? By the handover the doses were sent to "East", and this ledger is of "South")"));
    CHECK_FALSE(says(some.warnings, "NOTHING BINDS"));
    CHECK(says(some.filled, "of 5 doses to South that left at 2026-06-01 10:00"));
    CHECK(says(there.draft(file["handover"]).warnings, "NOTHING BINDS this history to these doses"));
}

TEST_CASE("what a handover says beside its figures is said on by its code", "[handover]") {
    const There there;
    json file = sent({});
    REQUIRE(file["beside"].size() == 1);  // where the history ends, which is said as the way
    CHECK(file["beside_codes"][0]["code"] == "history-ends");
    CHECK_FALSE(has_code(there.draft(file).warnings, "the-sender-says"));
    // whatever the words are: the sender's may be of another language
    for (const char* code : {"learnt-after-guidance", "display-showed", "handover-held"}) {
        file["beside"].push_back(std::string("invented, ") + code);
        file["beside_codes"].push_back({{"code", code}, {"fields", json::object()}});
    }
    const auto warnings = there.draft(file).warnings;
    CHECK(says(warnings, "THE SENDER SAYS, and no figure here holds it: invented, learnt-after-guidance"));
    CHECK(says(warnings, "THE SENDER SAYS, and no figure here holds it: invented, display-showed"));
    CHECK_FALSE(says(warnings, "invented, handover-held"));  // is on hold here, too, which is said
    // what cannot be told apart is all said
    json bare = file;
    bare.erase("beside_codes");
    CHECK(says(there.draft(bare).warnings, "invented, handover-held"));
    bare["beside_codes"] = json::array();
    CHECK(says(there.draft(bare).warnings, "invented, handover-held"));
}

TEST_CASE("a use-by of a handover that is after the expiry shortens nothing", "[handover]") {
    const There there;
    json file = sent({});
    file["handover"]["use_by"] = "2027-07-02T00:00:00Z";  // the lot expires at the end of 2026
    const auto late = there.draft(file).warnings;
    CHECK_FALSE(has_code(late, "use-is-shortened"));
    CHECK(says(late, "by the handover they are usable through 2027-07-01, which is after the expiry, 2026-12-31: THE "
                     "EXPIRY STAYS THE LAST DAY"));
    file["handover"]["use_by"] = "2026-12-31T00:00:00Z";
    const auto early = there.draft(file).warnings;
    CHECK(says(early, "THEIR USE IS SHORTENED: by the handover they are usable through 2026-12-30"));
    CHECK_FALSE(has_code(early, "handover-use-by-late"));
    file["handover"]["use_by"] = "2027-01-01T00:00:00Z";  // the expiry itself
    CHECK_FALSE(has_code(there.draft(file).warnings, "use-is-shortened"));
    CHECK_FALSE(has_code(there.draft(file).warnings, "handover-use-by-late"));

    // and the sheet that goes with them says it, too
    const HandoverAnswer sheet = [] {
        Clinic c;
        const auto all = c.post(
            {R"({"kind":"site","name":"North","zone":"UTC"})", product("elm"), lot("elm", "A1"), place("a"),
             R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":9})",
             R"({"kind":"hold","at":"2026-06-01T08:10:00Z","product":"elm","lot":"A1","place":"a","reason":"r"})",
             R"({"kind":"guidance","at":"2026-06-01T09:00:00Z","product":"elm","lot":"A1","verdict":"use-by",)"
             R"("use_by":"2027-07-01","through":"2026-06-01T09:00:00Z","issuer":"maker","reference":"r"})",
             R"({"kind":"transfer","at":"2026-06-01T10:00:00Z","place":"a","product":"elm","lot":"A1","doses":5,)"
             R"("to":"South","reason":"r"})"},
            noon);
        return c.ledger.handover(all.back(), {}, at(noon));
    }();
    TableStyle style{Zone("UTC")};
    style.columns = 400;
    CHECK(to_table(sheet, style).find("through 2027-07-01, after the expiry: the expiry decides") !=
          std::string::npos);
}

TEST_CASE("what a sender said beside its figures stays with the doses, and goes on with them", "[handover]") {
    There south;
    json file = sent({});
    const std::string learnt = "LEARNT AFTER GUIDANCE: \"frozen\"; the way: long";  // as awkward as text may be
    file["beside"].push_back(learnt);
    file["beside_codes"].push_back({{"code", "learnt-after-guidance"}, {"fields", json::object()}});
    south.receive(file);
    const auto row = south.ledger.lists({at("2026-06-01T10:30:00Z"), std::nullopt}, at(noon)).holdings.at(0);
    REQUIRE(has_code(row.beside, "sender-forbids"));
    CHECK(says(row.beside, learnt));
    CHECK(do_not_use(row.list, row.in_doubt, row.beside));
    CHECK(has_code(row.beside, "way-in-no-figure"));  // the note still tells the way
    CHECK_FALSE(says(row.beside, "THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry 14): long"));
    CHECK(has_code(south.draft(file).warnings, "received-more"));  // and whose transfer it was

    south.post({R"({"kind":"give","at":"2026-06-01T10:40:00Z","place":"b","product":"elm","lot":"A1",)"
                R"("patient":"t-1"})"},
               noon);
    CHECK(has_code(south.ledger.review({}, at(noon), true).doses.at(0).beside, "sender-forbids"));
    const auto sent_on = post_transfer(
        south.ledger,
        south.ledger.draft(R"({"kind":"transfer","by":"QA","at":"2026-06-01T11:00:00Z","lot":"A1","doses":2,)"
                           R"("to":"West","reason":"r"})",
                           at(noon)),
        std::nullopt, false, at(noon), false, TableStyle{Zone("UTC")});
    CHECK(has_code(sent_on.posted.what.warnings, "sender-forbids"));
    CHECK(says(sent_on.handover.beside, learnt));
    There west;
    west.receive(json::parse(to_json(sent_on.handover)),
                 {{"at", "2026-06-01T11:10:00Z"}, {"note", "cool box"}, {"doses", 2}});
    const auto third = west.ledger.lists({at("2026-06-01T11:10:00Z"), std::nullopt}, at(noon)).holdings.at(0);
    CHECK(has_code(third.beside, "sender-forbids"));
    CHECK(says(third.beside, learnt));

    // an answer that was posted here afterwards answers for it
    south.post({R"({"kind":"guidance","at":"2026-06-01T11:30:00Z","product":"elm","lot":"A1","verdict":"use",)"
                R"("through":"2026-06-01T11:30:00Z","issuer":"maker","reference":"r"})"},
               noon);
    CHECK_FALSE(has_code(south.ledger.lists({at("2026-06-01T11:30:00Z"), std::nullopt}, at(noon)).holdings.at(0).beside,
                         "sender-forbids"));
}

TEST_CASE("what a sender said is cut where a note cannot hold it", "[handover]") {
    There south;
    json file = sent({});
    for (int i = 0; i < 3; ++i) {
        file["beside"].push_back(std::string(2500, static_cast<char>('a' + i)));
        file["beside_codes"].push_back({{"code", "display-showed"}, {"fields", json::object()}});
    }
    south.receive(file);
    const auto row = south.ledger.lists({at("2026-06-01T10:30:00Z"), std::nullopt}, at(noon)).holdings.at(0);
    CHECK(has_code(row.beside, "sender-said"));
    CHECK_FALSE(has_code(row.beside, "sender-forbids"));
    CHECK(says(row.beside, std::string(2500, 'a')));
    CHECK(says(row.beside, "bbbb"));
    CHECK(has_code(row.beside, "way-in-no-figure"));
}

TEST_CASE("a handover that was received already is told, until that is taken back", "[handover]") {
    const json file = sent({});
    There there;
    CHECK_FALSE(says(there.draft(file).warnings, "RECEIVED ALREADY"));
    const EntryNumber first = there.receive(file, {{"doses", 3}}).entries.front().number;
    CHECK(says(there.draft(file, {{"doses", 2}}).warnings,
               "was received by entry " + std::to_string(first) + ": with this, 5 of its 5 doses. "));
    CHECK(says(there.draft(file).warnings, "with this, 8 of its 5 doses, MORE THAN WERE SENT"));
    const json other = changed(file, "transfer", file["transfer"].get<int>() * 10);
    CHECK_FALSE(says(there.draft(other).warnings, "RECEIVED ALREADY"));
    CHECK_FALSE(says(there.draft(changed(file, "ledger", "Other North")).warnings, "RECEIVED ALREADY"));
    there.post({R"({"kind":"void","at":"2026-06-01T11:00:00Z","voids":)" + std::to_string(first) + R"(,"reason":"x"})"},
               noon);
    CHECK_FALSE(says(there.draft(file).warnings, "RECEIVED ALREADY"));
}

TEST_CASE("what a handover adds to the note is not the note that must be written", "[handover]") {
    There there;
    CHECK(refused(there, Code::missing_field, sent({}), {{"place", "freezer"}}).find("note: must say why") !=
          std::string::npos);
}

TEST_CASE("a handover stated anew reaches what came by the older one, and what was given of it", "[handover]") {
    const json file = sent({});
    const std::string left = file["transfer"].dump();
    const json worse = sent({}, "13");  // the sender's logger was read later; the same transfer
    REQUIRE(worse["transfer"] == file["transfer"]);
    There there;
    const auto first = there.receive(file, {{"at", "2026-06-01T10:00:00Z"}}).entries.front().number;
    const std::string given =
        R"({"kind":"give","at":"2026-06-01T10:20:00Z","place":"b","product":"elm","lot":"A1","patient":"t-1"})";
    const auto give = there.post({given}, noon).front();
    const auto entry = [](EntryNumber n) { return "entry " + std::to_string(n); };

    // later, as another delivery: asked, and how to put it right
    const Drafted later = there.draft(worse);
    CHECK(says(later.warnings, "ANOTHER HISTORY: the handover of North, transfer " + left + ", was received by " +
                                   entry(first) + ", which states: nothing out of range. This one states: too warm"));
    CHECK(says(later.warnings, "To put it right: receive it at 2026-06-01 10:00 into b, as " + entry(first) + " did"));
    CHECK_FALSE(says(later.warnings, "take one back"));
    const DefinitionDraft asked = entry_draft(there.ledger, later, at(noon));
    CHECK(says(asked.loosens, "Meanwhile: 1 dose given (" + entry(give) +
                                  "). Receive them at 2026-06-01 10:00 into b instead"));
    // the same paper once more is no other history
    CHECK(entry_draft(there.ledger, there.draft(file), at(noon)).loosens.empty());

    // posted all the same: doses and give say so
    Drafted posted = later;
    there.ledger.post(posted, at(noon));
    const auto newer = posted.entries.front().number;
    const std::string since = "came by " + entry(first) + ", and by " + entry(newer) + " the sender states another";
    CHECK(says(there.ledger.review({}, at(noon)).not_listed, "1 dose given (" + entry(give) + ") " + since));
    // the newer one is the one not to be taken back
    const auto gone = definition_draft(
        there.ledger, R"({"kind":"void","by":"cd","reason":"same doses","voids":)" + std::to_string(newer) + "}",
        at(noon));
    CHECK(says(gone.loosens, entry(newer) + " states of doses of the same transfer: too warm"));

    // as it says: at the instant of the first, which then goes; the give is on the review list
    There right;
    const auto old = right.receive(file, {{"at", "2026-06-01T10:00:00Z"}}).entries.front().number;
    right.post({given}, noon);
    const Drafted anew = right.receive(worse, {{"at", "2026-06-01T10:00:00Z"}});
    CHECK(entry_draft(right.ledger, right.draft(worse, {{"at", "2026-06-01T10:00:00Z"}}), at(noon)).loosens.empty());
    REQUIRE(has_code(anew.next_steps, "take-back-the-older"));
    CHECK(says(anew.next_steps, "Take back " + entry(old) + " now"));
    right.post({R"({"kind":"void","at":"2026-06-01T11:00:00Z","reason":"anew","voids":)" + std::to_string(old) + "}"},
               noon);
    const auto review = right.ledger.review({}, at(noon));
    REQUIRE(review.doses.size() == 1);
    CHECK(review.doses.front().finding == Finding::pending_guidance);
    CHECK(review.not_listed.empty());
}
