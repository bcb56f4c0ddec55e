// Scan: a code in place of a lot's number, and what is known of the box. All data invented; the GTINs are of GS1's own
// examples.
#include <catch2/catch.hpp>

#include <algorithm>

#include "clinic.hpp"
#include "said.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;
using tests::says;

namespace {

const std::string code = "]d2010952123454321317270531" "10K-1";

struct ScanSite : Clinic {
    ScanSite() {
        post(
            {R"({"kind":"site","name":"Scan, invented","zone":"UTC"})",
             R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
             R"("high":{"C":"8"}}})",
             R"({"kind":"product","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
             R"("gtin":["9521234543213"]})",
             R"({"kind":"product","product":"fir","name":"Fir, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
             R"({"kind":"lot","product":"fir","lot":"F1","expiry":"2027-05-31"})",
             R"({"kind":"receive","at":"2026-05-01T08:00:00Z","place":"main","product":"fir","lot":"F1","doses":3})"},
            "2026-05-01T09:00:00Z");
    }
    Instant now = at("2026-05-02T08:00:00Z");
    Drafted draft(const std::string& kind, const std::string& lot, const std::string& more = "") {
        const bool delivery = kind == "receive";
        return ledger.draft(R"({"kind":")" + kind + R"(","by":"QA","lot":")" + lot + R"(")" +
                                (delivery ? R"(,"doses":20)" : R"(,"patient":"t-1")") + more + "}",
                            now);
    }
    std::string refusal(Code with, const std::string& kind, const std::string& lot, const std::string& more = "") {
        try {
            draft(kind, lot, more);
        } catch (const Error& e) {
            CHECK(e.code() == with);
            return e.what();
        }
        FAIL("accepted");
        return {};
    }
    void take_in() { ledger.post(draft("receive", code).entries, now); }
};

}  // namespace

TEST_CASE("scan: the code of a delivery states product, lot and expiry", "[scan]") {
    ScanSite site;
    const Drafted made = site.draft("receive", code);
    REQUIRE(made.entries.size() == 2);
    const Lot& lot = std::get<Lot>(made.entries[0].fact);
    CHECK((lot.product == "elm" && lot.lot == "K-1" && lot.expiry == "2027-05-31"));
    CHECK(std::get<Receive>(made.entries[1].fact).lot == "K-1");
    CHECK(says(made.filled, "expiry 2027-05-31, from the code"));
    CHECK(made.warnings.empty());
}

TEST_CASE("scan: what code and draft, or code and ledger, state differently is refused", "[scan]") {
    ScanSite site;
    CHECK(site.refusal(Code::contradiction, "receive", code, R"(,"expiry":"2027-05-30")")
              .find("the code says \"2027-05-31\"") != std::string::npos);
    CHECK(site.refusal(Code::contradiction, "receive", code, R"(,"product":"fir")").find("is that of \"elm\"") !=
          std::string::npos);
    CHECK(site.draft("receive", code, R"(,"expiry":"2027-05")").entries.size() == 2);  // the same day
    site.take_in();
    CHECK(std::get<Give>(site.draft("give", code).entries.at(0).fact).product == "elm");
    CHECK(says(
        site.draft("give", "(01)09521234543213(17)270630(10)K-1").warnings,
        "EXPIRY DIFFERS: the code says \"2027-06-30\", the ledger \"2027-05-31\" of product \"elm\", lot \"K-1\""));
    CHECK(site.refusal(Code::contradiction, "receive", "(01)09521234543213(17)270630(10)K-1")
              .find("keep the box apart") != std::string::npos);
    CHECK(site.refusal(Code::missing_field, "give", "(01)09521234543213(17)270531").find("the code states none") !=
          std::string::npos);
    CHECK(site.refusal(Code::bad_value, "give", "]d2010952123454321417270531").find("check digit") !=
          std::string::npos);
    CHECK(site.refusal(Code::not_defined, "give", "(01)09521234543213(10)K-2").find("no lot of this number") !=
          std::string::npos);
}

TEST_CASE("scan: a GTIN that no product has, or two have", "[scan]") {
    ScanSite site;
    const std::string unknown = "(01)00614141123452(10)F1";
    CHECK(says(site.draft("give", unknown).warnings, "GTIN 00614141123452 is of no product known here"));
    CHECK(std::get<Give>(site.draft("give", unknown).entries.at(0).fact).product == "fir");
    site.post(
        {R"({"kind":"product","product":"fir","name":"Fir, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
         R"("gtin":["09521234543213"]})"},
        "2026-05-01T10:00:00Z");
    CHECK(site.refusal(Code::ambiguous, "receive", code).find("is that of \"elm\" and \"fir\"; state the product") !=
          std::string::npos);
    CHECK(site.draft("receive", code, R"(,"product":"fir")").entries.size() == 2);
    CHECK(says(site.ledger.scan(code, {}, site.now).remarks, "only the box says which"));
}

TEST_CASE("scan: a lot whose number reads like a code is that lot", "[scan]") {
    ScanSite site;
    site.post(
        {R"({"kind":"lot","product":"fir","lot":"]A1","expiry":"2027-05-31"})",
         R"({"kind":"receive","at":"2026-05-01T08:00:00Z","place":"main","product":"fir","lot":"]A1","doses":3})"},
        "2026-05-01T10:00:00Z");
    CHECK(std::get<Give>(site.draft("give", "]A1").entries.at(0).fact).lot == "]A1");
}

TEST_CASE("scan: what is known of a box: its lot on its list, and where code and ledger differ", "[scan]") {
    ScanSite site;
    CHECK(says(site.ledger.scan(code, {}, site.now).remarks, "lot \"K-1\" of \"elm\" is not known"));
    site.take_in();
    const ScanAnswer there = site.ledger.scan(code, {}, site.now);
    CHECK(there.product == "elm");
    CHECK(there.expiry == Date{2027, 5, 31});
    CHECK(there.remarks.empty());
    REQUIRE(there.holdings.size() == 1);
    CHECK((there.holdings[0].doses.count() == 20 && there.holdings[0].list == List::keep));
    CHECK(site.ledger.scan(code, {at("2028-01-01T00:00:00Z"), std::nullopt}, at("2028-01-01T00:00:00Z"))
              .holdings.at(0)
              .list == List::discard);
    CHECK(says(site.ledger.scan("(01)09521234543213(17)270500(10)K-1", {}, site.now).remarks, "EXPIRY") == false);
    CHECK(says(site.ledger.scan("(01)09521234543213(17)270530(10)K-1", {}, site.now).remarks,
               "EXPIRY DIFFERS: the code says 2027-05-30, the ledger 2027-05-31"));
    CHECK(says(site.ledger.scan("(10)K-1", {}, site.now).remarks, "states no GTIN"));
    CHECK(tests::has_code(site.ledger.scan("(10)K-1", {}, site.now).remarks, "code-without-gtin"));
    CHECK(site.ledger.scan("(10)K-1", {}, site.now).product == "elm");
    CHECK(says(site.ledger.scan("(01)09521234543213", {}, site.now).remarks, "states no lot"));
    CHECK(to_table(there, TableStyle{Zone("UTC")}).find("Exposure alone never decides") != std::string::npos);
}

TEST_CASE("scan: the century is that of the instant asked about", "[scan]") {
    ScanSite site;
    CHECK(site.ledger.scan("(17)760101", {at("2026-07-01T00:00:00Z"), std::nullopt}, site.now).scan.expiry ==
          "2076-01-01");
    CHECK(site.ledger.scan("(17)770101", {at("2026-07-01T00:00:00Z"), std::nullopt}, site.now).scan.expiry ==
          "1977-01-01");
}

TEST_CASE("scan: a product's GTIN that cannot be scanned is warned of", "[scan]") {
    ScanSite site;
    CHECK(says(
        site.ledger
            .draft(
                R"({"kind":"product","by":"QA","product":"oak","name":"Oak","note":"no lower limit is known",)"
                R"("range":{"high":{"C":"8"}},"gtin":["9521234543214"]})",
                site.now)
            .warnings,
        "with a right check digit"));
}

TEST_CASE("scan: of several lots of one number only those that may be meant are compared", "[scan]") {
    ScanSite site;
    site.take_in();
    site.post({R"({"kind":"lot","product":"fir","lot":"K-1","expiry":"2027-06-30"})"}, "2026-05-03T10:00:00Z");
    site.now = at("2026-05-03T11:00:00Z");
    CHECK_FALSE(says(site.draft("give", "(17)270630(10)K-1", R"(,"product":"elm","place":"main")").warnings, "fir"));
    CHECK(says(site.draft("give", "(17)270630(10)K-1", R"(,"product":"elm")").warnings, "EXPIRY DIFFERS"));
    CHECK_FALSE(says(site.draft("give", "(17)270630(10)K-1", R"(,"place":"main")").warnings, "EXPIRY DIFFERS"));
}

TEST_CASE(
    "scan: doubts are said: a lost separator, an hour of expiry, a code that says it is none, the GTIN of another",
    "[scan]") {
    ScanSite site;
    CHECK(says(site.draft("receive",
                          "]d20109521234543213172705311"
                          "0K-22171S-1")
                   .warnings,
               "the code may say K-2 (21)71S-1"));
    CHECK(says(site.draft("receive", "(01)09521234543213(17)270531(7003)2705311200(10)K-1").warnings,
               "an hour of expiry"));
    CHECK(says(
        site.draft("receive", "17270531010952123454321310K-2", R"(,"product":"elm","expiry":"2027-05-31")").warnings,
        "reads like the code on a box"));
    CHECK(says(site.draft("receive", "9521234543213", R"(,"product":"elm","expiry":"2027-05-31")").warnings,
               "reads like the code on a box"));
    site.take_in();
    CHECK(says(site.draft("give", "(01)00614141123452(10)K-1").warnings,
               "is none of product \"elm\", which has 9521234543213"));
    CHECK(says(site.ledger.scan("(01)00614141123452(10)K-1", {}, site.now).remarks, "told by the lot's number alone"));
    CHECK(
        says(site.ledger.scan("(01)09521234543213(7003)2705311200(10)K-1", {}, site.now).remarks, "an hour of expiry"));
}
