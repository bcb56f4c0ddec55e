// Slips that would be read as "safe": limits that look mistyped, a vial that is opened anew with each dose, a way
// between two sites of which nothing is known. All data invented; instants by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "drafts/limit_doubts.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::string fridge = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";

struct Practice : Clinic {
    Practice() {
        post(
            {R"({"kind":"site","name":"Invented","zone":"UTC","unmonitored_limit_s":1000000000})",
             R"({"kind":"place","place":"main","name":"M","type":"refrigerator",)" + fridge + "}",
             R"({"kind":"product","product":"vial","name":"V","doses_per_vial":10,)"
             R"("beyond_use":{"first puncture":21600},)" +
                 fridge + "}",
             R"({"kind":"product","product":"elm","name":"Elm",)" + fridge + "}",
             R"({"kind":"lot","product":"vial","lot":"M1","expiry":"2027-06"})",
             R"({"kind":"lot","product":"elm","lot":"E1","expiry":"2027-06"})",
             R"({"kind":"receive","at":"2026-03-01T07:00:00Z","place":"main","product":"vial","lot":"M1",)"
             R"("doses":20})"});
    }
    /// At that instant, also where the ledger was posted to later: a clock that went back is not believed.
    Drafted draft(const std::string& fields, const std::string& when) const {
        const std::string now = "2026-03-" + when + ":00Z";
        const bool stated = fields.find("\"at\":") != std::string::npos;
        return ledger.draft(R"({"by":"ab",)" + (stated ? "" : R"("at":")" + now + "\",") + fields + "}", at(now));
    }
    void give(const std::string& when) {
        post({R"({"kind":"give","at":"2026-03-)" + when +
              R"(:00Z","place":"main","product":"vial","lot":"M1","patient":"t)" + std::to_string(++patients_) +
              "\"}"});
    }
    std::string refusal(const std::string& fields, Code code = Code::missing_field) const {
        try {
            draft(fields, "02T12:00");
        } catch (const Error& e) {
            CHECK(e.code() == code);
            return e.what();
        }
        return "accepted";
    }

private:
    int patients_ = 0;
};

std::vector<std::string> doubts(const std::string& product) {
    Clinic c;
    c.post({R"({"kind":"site","name":"Invented","zone":"UTC"})"});
    std::vector<std::string> out;
    try {
        c.ledger.draft(R"({"by":"ab","kind":"product","product":"px","name":"X",)" + product + "}",
                       at("2026-03-01T00:00:00Z"));
    } catch (const Error& e) {
        CHECK(e.code() == Code::missing_field);
        out.emplace_back(e.what());
    }
    return out;
}

}  // namespace

TEST_CASE("the first dose since the last whole vial decides how long a vial is good whose opening is not noted",
          "[opened][slips]") {
    Practice c;
    const std::string give = R"("kind":"give","lot":"M1","patient":"t-9")";
    Drafted d = c.draft(give, "01T09:00");  // the first of a vial
    CHECK(says(d.warnings, "Opened at 2026-03-01 09:00 it would be usable until 2026-03-01 15:00"));
    c.give("01T09:00");  // entry 8
    c.give("01T10:00");
    d = c.draft(give, "01T14:00");
    REQUIRE(d.opening);
    CHECK(d.opening->at == at("2026-03-01T09:00:00Z"));
    CHECK(says(d.warnings, "the first dose of this vial was taken 2026-03-01 09:00, entry 8: opened then it was usable "
                           "until 2026-03-01 15:00"));
    CHECK_FALSE(says(d.warnings, "PAST"));
    d = c.draft(give, "02T09:00");
    CHECK(d.opening->at == at("2026-03-01T09:00:00Z"));
    CHECK(says(d.warnings, "entry 8: opened then it was usable until 2026-03-01 15:00, by beyond-use: PAST"));
    CHECK_FALSE(says(d.warnings, "Opened at 2026-03-02"));
    // another mark for it now says that it may be the same vial
    d = c.draft(give + R"(,"vial":"v2","vial_doses":8)", "02T09:00");
    CHECK(says(d.warnings, "IS IT ANOTHER VIAL? By the book the first dose of this vial was taken 2026-03-01 09:00"));
    for (int i = 2; i < 10; ++i) c.give("02T10:0" + std::to_string(i));  // the tenth dose: the vial is used up
    d = c.draft(give, "02T11:00");
    CHECK(says(d.warnings, "Opened at 2026-03-02 11:00 it would be usable until 2026-03-02 17:00"));
}

TEST_CASE("a product without doses per vial or a period after opening is read back as that", "[opened][slips]") {
    Practice c;
    const auto lines = c.draft(R"("kind":"product","product":"one","name":"One",)" + fridge, "01T09:00").read_back;
    CHECK(says(lines, "doses in a vial: not stated: a vial of several doses would be taken as single doses"));
    CHECK(says(lines, "beyond-use: not stated, no period after any event"));
}

TEST_CASE("limits of a product that look mistyped ask for a note, as a place's do", "[slips]") {
    CHECK(says(doubts(R"("range":{"low":{"C":"2"},"high":{"C":"46"}})"), "is far from every published one"));
    CHECK(doubts(fridge).empty());
    CHECK(doubts(R"("range":{"low":{"C":"0"},"high":{"C":"10"}})").empty());  // unusual, and a warning alone
    CHECK(says(doubts(fridge +
                      R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"77"}},"seconds":259200,"source":"l"}])"),
               "allowance 1 reaches to 77 °C (= 170.6 °F), above 60 °C"));
    CHECK(says(doubts(fridge +
                      R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"30"}},"seconds":864001,"source":"l"}])"),
               "more than 10 d above 25 °C"));
    CHECK(
        doubts(fridge + R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"30"}},"seconds":864000,"source":"l"}])")
            .empty());
    CHECK(says(doubts(fridge + R"(,"freeze_limit":{"F":"0"})"), "is far below freezing, 0 °C (32 °F)"));
    CHECK(doubts(fridge + R"(,"freeze_limit":{"F":"32"})").empty());
    const std::string below =
        R"(,"allowances":[{"band":{"low":{"C":"-5"},"high":{"C":"2"}},"seconds":3600,"source":"l"}])";
    CHECK(says(doubts(fridge + below),
               "no freeze limit is stated: doses that froze would count as within the allowance"));
    CHECK(doubts(fridge + below + R"(,"freeze_limit":{"C":"-2"})").empty());
}

TEST_CASE("a new place that draws lines further than usual asks for a note", "[slips]") {
    Practice c;
    const std::string place = R"("kind":"place","place":"p2","name":"P","type":"refrigerator",)" + fridge;
    CHECK(c.refusal(place + R"(,"max_check_gap_s":864000)")
              .find("a line is drawn between plain checks up to 10 d apart") != std::string::npos);
    CHECK(c.refusal(place + R"(,"max_gap_s":86400)").find("a line is drawn between readings up to 24 h apart") !=
          std::string::npos);
    CHECK(c.refusal(place + R"(,"max_gap_s":1800,"max_check_gap_s":28800)") == "accepted");
    CHECK(c.refusal(place + R"(,"max_check_gap_s":864000,"note":"so says the programme")") == "accepted");
}

TEST_CASE("a lot's number that another product has, and a site without a name, are said", "[slips]") {
    Practice c;
    CHECK(says(c.draft(R"("kind":"receive","lot":"M1","product":"elm","expiry":"2027-05","doses":2,"place":"main")",
                       "02T12:00")
                   .warnings,
               "ANOTHER PRODUCT HAS A LOT OF THIS NUMBER: lot \"M1\" of product \"vial\" is known"));
    CHECK(c.refusal(R"("kind":"site","name":"","zone":"UTC")", Code::bad_value).find("name: must be the site's name") !=
          std::string::npos);
}

TEST_CASE("the way between two sites is said to be in no figure, and a long one asks for a note", "[slips]") {
    Practice a;
    a.post(
        {R"({"kind":"receive","at":"2026-03-01T07:00:00Z","place":"main","product":"elm","lot":"E1","doses":20})",
         R"({"kind":"transfer","at":"2026-03-01T22:00:00Z","place":"main","product":"elm","lot":"E1","doses":5,)"
         R"("to":"B","reason":"r"})"});
    const auto file = nlohmann::json::parse(
        to_json(a.ledger.handover(9, {std::nullopt, std::nullopt}, at("2030-01-01T00:00:00Z"))));
    Practice b;
    const auto receive = [&](const std::string& when, const std::string& more = "") {
        return R"("kind":"receive","lot":"E1","place":"main","at":"2026-03-)" + when +
               R"(:00Z","doses":5,"handover":)" + file.dump() + more;
    };
    const std::string asked = b.refusal(receive("02T11:00"));
    CHECK(asked.find(
              "note: must say what is known of the way: the way took 13 h, from 2026-03-01 22:00 to 2026-03-02 11:00: "
              "nothing is known of it") != std::string::npos);
    CHECK(says(b.draft(receive("01T22:30"), "02T12:00").warnings, "THE WAY: the way took 30 min"));  // near_s is 1800
    CHECK_FALSE(says(b.draft(receive("01T22:00"), "02T12:00").warnings, "THE WAY"));

    Drafted d = b.draft(receive("02T11:00", R"(,"note":"cooler, 4 °C on arrival")"), "02T12:00");
    b.ledger.post(d, at("2026-03-02T12:00:00Z"));
    const auto now = at("2026-03-02T12:00:00Z");
    for (const auto& row : b.ledger.lists({now, std::nullopt}, now).holdings)
        CHECK(says(row.notes,
                   "THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry 8): 13 h from 2026-03-01 22:00, of which "
                   "nothing is known") == (row.holding.lot == "E1"));
}

TEST_CASE("an opening that is dated back asks about gives past it, and review names them until they are of it",
          "[opened][slips]") {
    Practice c;
    c.give("01T09:00");  // entry 8: six hours are to 15:00
    c.give("01T16:10");  // entry 9
    const auto review = [&] {
        auto out = c.ledger.review({at("2026-03-02T12:00:00Z"), std::nullopt}, at("2026-03-02T12:00:00Z"));
        // nothing was read all day, which this site's limit lets pass
        std::erase_if(out.not_listed, [](const Remark& one) { return one.code() == "unknown-given-unlisted"; });
        return out;
    };
    REQUIRE(review().not_listed.size() == 1);
    CHECK(says(review().not_listed, "NOT SURE: 1 dose given (entry 9) out of doses of vial lot M1 in main of which no "
                                    "opening is noted: by the book the first dose of that vial was taken 2026-03-01 "
                                    "09:00, entry 8, and opened then it was usable until 2026-03-01 15:00: PAST"));
    const std::string opening =
        R"("kind":"beyond-use","lot":"M1","mark":"","event":"first puncture","vial":"v1","vial_doses":9,)"
        R"("at":"2026-03-01T09:00:00Z")";
    const std::string asked = c.refusal(opening);
    CHECK(asked.find("note: must say that it was of another vial: gives since 2026-03-01 09:00 out of the doses that "
                     "were not opened: entry 9 at 2026-03-01 16:10, past the use of this vial, until 2026-03-01 "
                     "15:00") == 0);
    CHECK(asked.find("entry 8") == std::string::npos);  // within its use
    CHECK(asked.find("give it out of mark \"v1\"") != std::string::npos);
    // a vial that is full in the book, though a dose within its use was given elsewhere
    Drafted d = c.draft(opening + R"(,"note":"t2 was of another box")", "02T12:00");
    CHECK_FALSE(says(d.warnings, "GIVEN SINCE THEN"));
    CHECK(says(c.draft(opening.substr(0, opening.find(R"("vial_doses":9)")) +
                           R"("vial_doses":10,"at":"2026-03-01T09:00:00Z","note":"n")",
                       "02T12:00")
                   .warnings,
               "GIVEN SINCE THEN out of the doses that were not opened: entry 8 at 2026-03-01 09:00"));
    c.ledger.post(d, at("2026-03-02T12:00:00Z"));  // entries 10 and 11
    INFO(said_as_one(review().not_listed));
    REQUIRE(review().not_listed.size() == 1);
    CHECK(says(review().not_listed,
               "NOT SURE: 1 dose given (entry 9) out of doses of vial lot M1 in main that were not opened, when the "
               "vial \"v1\" was past its use, until 2026-03-01 15:00; that it was opened 2026-03-01 09:00 was noted "
               "later (entry 10)"));
    // of that vial after all: the review finds it by itself
    c.post({R"({"kind":"void","at":"2026-03-02T12:00:00Z","voids":9,"reason":"of v1"})",
            R"({"kind":"give","at":"2026-03-01T16:10:00Z","place":"main","product":"vial","lot":"M1","mark":"v1",)"
            R"("patient":"t2"})"});
    CHECK(review().not_listed.empty());
    REQUIRE(review().doses.size() == 1);
    CHECK(review().doses[0].finding == Finding::expired);
}

TEST_CASE("stock says of a vial without a noted opening what the lists say", "[opened][slips]") {
    Practice c;
    const auto now = at("2026-03-01T10:00:00Z");
    CHECK(c.ledger.stock({now, std::nullopt}, now).holdings.at(0).beside.empty());  // whole vials
    c.give("01T09:00");
    CHECK(says(c.ledger.stock({now, std::nullopt}, now).holdings.at(0).beside,
               "19 doses are in no whole vials of 10, and no entry says when one was opened: its use-by is not known"));
}

TEST_CASE("a transfer out of a place of which nothing was read for half a day says so, as a give does", "[slips]") {
    Practice c;
    c.post({R"({"kind":"receive","at":"2026-03-01T07:00:00Z","place":"main","product":"elm","lot":"E1","doses":20})",
            R"({"kind":"check","at":"2026-03-01T08:00:00Z","place":"main","scale":"C","temperature":"5"})"});
    const std::string transfer = R"("kind":"transfer","lot":"E1","doses":5,"to":"B","reason":"r")";
    CHECK(says(c.draft(transfer, "02T06:00").warnings, "NOTHING WAS READ in \"main\" for 22 h"));
    CHECK_FALSE(says(c.draft(transfer, "01T20:00").warnings, "NOTHING WAS READ"));  // 12 h are no more than 12 h
}

// A certified logger is expected within 0.5 °C, or 1 °F (CDC toolkit, from memory); twice that is a choice of ours.
TEST_CASE("a correction that a certified thermometer is not expected to need asks for a note", "[slips]") {
    Practice c;
    c.post({R"({"kind":"probe","probe":"p","scale":"C"})", R"({"kind":"probe","probe":"f","scale":"F"})"});
    const auto certificate = [](const std::string& probe, const std::string& rows) {
        return R"("kind":"certificate","expires":"2027-12-31","probe":")" + probe + R"(","correction":)" + rows;
    };
    CHECK(c.refusal(certificate("p", R"([["11","-4"]])"))
              .find("note: must say that the certificate states it so: a reading of 11 °C counts as 7 °C, a correction "
                    "of more than 1 °C") == 0);
    CHECK(c.refusal(certificate("p", R"([["5","1"]])")) == "accepted");
    CHECK(c.refusal(certificate("p", R"([["5","1.001"]])")) != "accepted");
    CHECK(c.refusal(certificate("f", R"([["40","-2"]])")) == "accepted");
    CHECK(c.refusal(certificate("f", R"([["40","-2.1"]])")) != "accepted");
    CHECK(c.refusal(certificate("p", R"([["11","-4"]])") + R"(,"note":"so it says")") == "accepted");
    std::vector<Remark> warnings;  // JSON means what it says, and is warned of
    c.ledger.post("{" + certificate("p", R"([["11","-4"]])") + R"(,"by":"ab","at":"2026-03-02T12:00:00Z"})",
                  at("2026-03-02T12:00:00Z"), true, &warnings);
    CHECK(says(warnings, "counts as 7 °C"));
    const auto doubt = std::ranges::find_if(warnings, [](const Remark& w) {  // "line 1", and what is said of it
        return w.code() == "colon" && w.fields.at(1).remark.at(0).code() == "certificate-doubt";
    });
    REQUIRE(doubt != warnings.end());
    CHECK(doubt->fields.at(0).remark.at(0).code() == "line-named");
}
