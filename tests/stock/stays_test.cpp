// Stays: where and when a lot had doses, from its movements alone. By hand: a stay begins with the entry after which
// there are doses and ends with that after which there are none.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "coldtally/error.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;

namespace {

const Instant now = at("2026-03-02T18:00:00Z");

const std::vector<std::string> site = {
    R"({"kind":"site","name":"Invented clinic","zone":"UTC"})",
    R"({"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"p","lot":"L","expiry":"2027-05"})",
    R"({"kind":"lot","product":"p","lot":"M","expiry":"2027-05"})",
    R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"place","place":"spare","name":"Spare","type":"refrigerator","range":{"low":{"C":"2"},)"
    R"("high":{"C":"8"}}})",
};

std::string told(const StaysAnswer& answer) {
    std::string out;
    for (const auto& s : answer.stays)
        out += s.holding.place + " " + s.holding.lot + " " + s.holding.fund + " " + s.from.text().substr(11, 8) +
               " to " + (s.until ? s.until->text().substr(11, 8) : "now") + ", " + std::to_string(s.most.count()) +
               "\n";
    return out;
}

std::string receive(const std::string& time, int doses, const std::string& lot = "L",
                    const std::string& place = "main") {
    return R"({"kind":"receive","at":"2026-03-02T)" + time + R"(Z","place":")" + place + R"(","product":"p","lot":")" +
           lot + R"(","fund":"f","doses":)" + std::to_string(doses) + "}";
}

std::string move(const std::string& time, int doses, const std::string& from, const std::string& to) {
    return R"({"kind":"move","at":"2026-03-02T)" + time + R"(Z","from":{"place":")" + from + R"("},"to":{"place":")" +
           to + R"("},"product":"p","lot":"L","fund":"f","doses":)" + std::to_string(doses) + "}";
}

std::string give(const std::string& time, int doses, const std::string& place) {
    return R"({"kind":"give","at":"2026-03-02T)" + time + R"(Z","place":")" + place +
           R"(","product":"p","lot":"L","fund":"f","doses":)" + std::to_string(doses) + R"(,"patient":"t"})";
}

}  // namespace

TEST_CASE("stays: from the first dose to the last, with the most there was, and again after a time without",
          "[answers][stays]") {
    Clinic clinic;
    clinic.post(site);
    clinic.post({receive("08:00:00", 1), receive("08:30:00", 3), receive("09:00:00", 5, "M"),
                 give("09:30:00", 3, "main"), give("10:00:00", 1, "main"), receive("11:00:00", 2)});
    // 1, then 4, then 1, then none from 10:00 to 11:00; the doses of lot M are not asked about
    CHECK(told(clinic.ledger.stays("p", "L", {}, now)) ==
          "main L f 08:00:00 to 10:00:00, 4\nmain L f 11:00:00 to now, 2\n");
    CHECK(told(clinic.ledger.stays("p", "M", {}, now)) == "main M f 09:00:00 to now, 5\n");
    // the instant asked about is inside: at 10:00 the last dose is gone, a second before it is there
    CHECK(told(clinic.ledger.stays("p", "L", {at("2026-03-02T10:00:00Z"), {}}, now)) ==
          "main L f 08:00:00 to 10:00:00, 4\n");
    CHECK(told(clinic.ledger.stays("p", "L", {at("2026-03-02T09:59:59Z"), {}}, now)) ==
          "main L f 08:00:00 to now, 4\n");
    CHECK(told(clinic.ledger.stays("p", "L", {at("2026-03-02T08:00:00Z"), {}}, now)) ==
          "main L f 08:00:00 to now, 1\n");
    CHECK(told(clinic.ledger.stays("p", "L", {at("2026-03-02T07:59:59Z"), {}}, now)).empty());
}

TEST_CASE("stays: doses that are moved leave one place and come to the other", "[answers][stays]") {
    Clinic clinic;
    clinic.post(site);
    clinic.post({receive("08:00:00", 6), move("09:00:00", 2, "main", "spare"), move("10:00:00", 4, "main", "spare"),
                 give("11:00:00", 6, "spare")});
    CHECK(told(clinic.ledger.stays("p", "L", {}, now)) ==
          "main L f 08:00:00 to 10:00:00, 6\nspare L f 09:00:00 to 11:00:00, 6\n");
    // those of one instant are in the order of the places, whichever came first
    Clinic other;
    other.post(site);
    other.post({receive("08:00:00", 1, "L", "spare"), receive("08:00:00", 2)});
    CHECK(told(other.ledger.stays("p", "L", {}, now)) == "main L f 08:00:00 to now, 2\nspare L f 08:00:00 to now, 1\n");
}

TEST_CASE("stays: doses that come and go in one second stayed nowhere", "[answers][stays]") {
    Clinic clinic;
    clinic.post(site);
    clinic.post({receive("08:00:00", 6), move("08:00:00", 6, "main", "spare"), give("08:00:01", 6, "spare")});
    CHECK(told(clinic.ledger.stays("p", "L", {}, now)) == "spare L f 08:00:00 to 08:00:01, 6\n");
}

TEST_CASE("stays: what is recorded later is not known, and a lot that is not known is refused", "[answers][stays]") {
    Clinic clinic;
    clinic.post(site, "2026-03-02T07:00:00Z");
    clinic.post({receive("08:00:00", 6)}, "2026-03-02T09:00:00Z");
    clinic.post({give("08:30:00", 6, "main"), R"({"kind":"lot","product":"p","lot":"N","expiry":"2027-05"})"},
                "2026-03-02T12:00:00Z");
    CHECK(told(clinic.ledger.stays("p", "L", {{}, at("2026-03-02T11:00:00Z")}, now)) ==
          "main L f 08:00:00 to now, 6\n");
    CHECK(told(clinic.ledger.stays("p", "L", {}, now)) == "main L f 08:00:00 to 08:30:00, 6\n");
    const auto refused = [&](const std::string& lot, const Question& question) {
        try {
            clinic.ledger.stays("p", lot, question, now);
        } catch (const Error& e) {
            return e.code() == Code::not_known &&
                   std::string(e.what()).find("no lot of this number is known for product \"p\"") != std::string::npos;
        }
        return false;
    };
    CHECK(refused("none", {}));
    CHECK_FALSE(refused("N", {}));
    CHECK(refused("N", {{}, at("2026-03-02T11:00:00Z")}));  // defined an hour later
}

TEST_CASE("stays: a count of none where there are none is no stay", "[answers][stays]") {
    Clinic clinic;
    clinic.post(site);
    clinic.post(
        {receive("08:00:00", 1), give("09:00:00", 1, "main"),
         R"({"kind":"count","at":"2026-03-02T10:00:00Z","place":"main","product":"p","lot":"L","fund":"f",)"
         R"("doses":0})"});
    CHECK(told(clinic.ledger.stays("p", "L", {}, now)) == "main L f 08:00:00 to 09:00:00, 1\n");
}
