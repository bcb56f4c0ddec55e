// Dates, loans between funds, accountability.
#include <catch2/catch.hpp>

#include <map>
#include <random>

#include <nlohmann/json.hpp>

#include "clinic.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::vector<std::string> definitions = {
    R"({"kind":"site","name":"Mill Lane","zone":"America/Chicago","unmonitored_limit_s":1000000000})",
    R"({"kind":"product","product":"mrna","name":"Test mRNA","range":{"low":{"C":"-25"},"high":{"C":"8"}},)"
    R"("beyond_use":{"thaw":2592000,"first puncture":21600}})",
    R"({"kind":"product","product":"flu","name":"Test flu","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"mrna","lot":"M1","expiry":"2026-09-30"})",
    R"({"kind":"lot","product":"flu","lot":"F1","expiry":"2026-06-30"})",
    R"({"kind":"lot","product":"flu","lot":"F2","expiry":"2026-06"})",
    R"({"kind":"lot","product":"flu","lot":"F3","expiry":"2026-12-31"})",
    R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"place","place":"freezer","name":"Freezer","type":"freezer","range":{"high":{"C":"-15"}}})",
    R"({"kind":"place","place":"box","name":"Box","type":"transport container","range":{"low":{"C":"2"},)"
    R"("high":{"C":"8"}}})",
    R"({"kind":"probe","probe":"p","scale":"C"})",
    R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"box"})",
};

std::string entry(const std::string& kind, const std::string& when, const std::string& rest) {
    return R"({"kind":")" + kind + R"(","at":")" + when + "\"," + rest + "}";
}
std::string in(const std::string& place, const std::string& product, const std::string& lot, int doses,
               const std::string& fund = "") {
    return R"("place":")" + place + R"(","product":")" + product + R"(","lot":")" + lot + R"(","fund":")" + fund +
           R"(","doses":)" + std::to_string(doses);
}
std::string moved(const std::string& product, const std::string& lot, const std::string& from, const std::string& to,
                  const std::string& mark, int doses) {
    return R"("product":")" + product + R"(","lot":")" + lot + R"(","from":{"place":")" + from +
           R"("},"to":{"place":")" + to + R"(","mark":")" + mark + R"("},"doses":)" + std::to_string(doses);
}

const Instant now = at("2026-12-01T00:00:00Z");
Question asked(const std::string& when) { return {at(when), std::nullopt}; }

const DatesAnswer::Row& row(const DatesAnswer& a, const std::string& lot, const std::string& place,
                            const std::string& mark = "") {
    for (const auto& r : a.holdings)
        if (r.holding.lot == lot && r.holding.place == place && r.holding.mark == mark) return r;
    throw std::runtime_error("no such holding");
}

}  // namespace

TEST_CASE("stewardship: of three dates the earliest binds, and it is said which") {
    // The case is on record: one product with three dates (frozen expiry, 30 days in the cold, 6 h after puncture) was
    // given past one of them. Institute for Safe Medication Practices Canada, Safety Bulletin 23-6, 2023 (figures from
    // memory).
    Clinic c;
    c.post(definitions);
    c.post({entry("receive", "2026-03-01T00:00:00Z", in("freezer", "mrna", "M1", 30)),
            entry("move", "2026-06-01T12:00:00Z", moved("mrna", "M1", "freezer", "main", "", 20)),
            entry("beyond-use", "2026-06-01T12:00:00Z", R"("place":"main","product":"mrna","lot":"M1","event":"thaw")"),
            entry("move", "2026-06-10T13:00:00Z", moved("mrna", "M1", "main", "main", "open", 10)),
            entry("beyond-use", "2026-06-10T13:00:00Z",
                  R"("place":"main","product":"mrna","lot":"M1","mark":"open","event":"first puncture")")});
    const auto a = c.ledger.dates(asked("2026-06-10T14:00:00Z"), now);
    const auto& frozen = row(a, "M1", "freezer");
    CHECK(frozen.limits.front().what == UseLimitKind::expiry);
    CHECK(frozen.limits.front().until == at("2026-10-01T05:00:00Z"));  // the end of 30 September in Chicago, UTC-5
    const auto& thawed = row(a, "M1", "main");
    REQUIRE(thawed.limits.size() == 2);
    CHECK(thawed.limits.front().what == UseLimitKind::beyond_use);
    CHECK(thawed.limits.front().until == at("2026-07-01T12:00:00Z"));
    const auto& open = row(a, "M1", "main", "open");
    REQUIRE(open.limits.size() == 3);
    CHECK(open.limits[0].until == at("2026-06-10T19:00:00Z"));
    CHECK(open.limits[1].until == thawed.limits.front().until);  // the thaw went along
    CHECK(open.limits[2].what == UseLimitKind::expiry);
    CHECK(open.order == 1);
    CHECK(thawed.order == 2);
    CHECK(frozen.order == 3);

    // what binds is what the lists go by
    const auto lists = c.ledger.lists(asked("2026-06-10T14:00:00Z"), now);
    for (const auto& held : lists.holdings) {
        const auto& r = row(a, held.holding.lot, held.holding.place, held.holding.mark);
        const Instant expired = Zone("America/Chicago").end_of_day(held.expiry);
        CHECK(r.limits.front().until == (held.history.use_by ? std::min(*held.history.use_by, expired) : expired));
    }
    // at the first instant past it the puncture has run out; guidance shortens, too
    c.post({entry(
        "guidance", "2026-06-10T20:00:00Z",
        R"("product":"mrna","lot":"M1","place":"freezer","through":"2026-06-10T19:00:00Z","verdict":"use-by",)"
        R"("use_by":"2026-06-20","issuer":"maker","reference":"case 1")")});
    const auto later = c.ledger.dates(asked("2026-06-10T19:00:00Z"), now);
    CHECK(row(later, "M1", "main", "open").list == List::discard);
    CHECK_FALSE(row(later, "M1", "main", "open").order);
    CHECK(row(later, "M1", "freezer").limits.front().what == UseLimitKind::guidance);
    CHECK(row(later, "M1", "freezer").limits.front().until == at("2026-06-21T05:00:00Z"));
}

TEST_CASE("stewardship: first what expires first, of equal dates the more exposed") {
    Clinic c;
    auto lines = definitions;
    lines[2] =
        R"({"kind":"product","product":"flu","name":"Test flu","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
        R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":86400,"source":"test"}]})";
    c.post(lines);
    c.post({entry("receive", "2026-05-01T00:00:00Z", in("main", "flu", "F1", 10)),
            entry("receive", "2026-05-01T00:00:00Z", in("main", "flu", "F3", 10)),
            entry("receive", "2026-05-01T00:00:00Z", in("box", "flu", "F2", 10)),
            readings("2026-05-02T00:00:00Z", {{0, "10"}, {600, "10"}})});
    auto a = c.ledger.dates(asked("2026-05-03T00:00:00Z"), now);
    CHECK(row(a, "F2", "box").out_of_range_s == Rational(600));
    CHECK(row(a, "F2", "box").order == 1);   // expires on the last day of its month, the day of F1
    CHECK(row(a, "F1", "main").order == 2);
    CHECK(row(a, "F3", "main").order == 3);

    // on 1 July by the clock of the site, what ended with June is still on the shelf
    a = c.ledger.dates(asked("2026-07-01T05:00:00Z"), now);
    CHECK(row(a, "F1", "main").list == List::discard);
    CHECK(row(a, "F2", "box").list == List::discard);
    CHECK(row(a, "F3", "main").order == 1);
    CHECK(row(c.ledger.dates(asked("2026-07-01T04:59:59Z"), now), "F1", "main").list == List::keep);
}

TEST_CASE("stewardship: what will be left over at the rate of the last 90 days") {
    Clinic c;
    c.post(definitions);
    std::vector<std::string> lines = {entry("receive", "2026-01-01T00:00:00Z", in("main", "flu", "F1", 100)),
                                      entry("receive", "2026-01-01T00:00:00Z", in("main", "flu", "F3", 100))};
    // 45 in 90 days, one every other day; one before them, that no longer counts
    lines.push_back(entry("give", "2026-02-28T12:00:00Z", in("main", "flu", "F3", 1) + R"(,"patient":"x")"));
    for (int i = 0; i < 45; ++i)
        lines.push_back(entry("give", (at("2026-03-02T06:00:00Z") + Duration(i * 2 * 86400)).text(),
                              in("main", "flu", "F3", 1) + R"(,"patient":"x")"));
    c.post(lines);
    const auto a = c.ledger.dates(asked("2026-05-30T05:00:00Z"), now);
    REQUIRE(a.use.size() == 1);
    CHECK(a.use[0].given == Doses(45));
    // F1: 32 days to the end of June, at 1/2 a day 16 doses of 100. F3: 216 days and 1 h (winter time) are 108 doses,
    // 16 of them gone to F1
    CHECK(row(a, "F1", "main").left_over == Doses(84));
    CHECK(row(a, "F3", "main").doses == Doses(54));
    CHECK(row(a, "F3", "main").left_over == Doses(0));
    CHECK(a.use[0].left_over == Doses(84));
}

TEST_CASE("stewardship: the table of loans says since when one is overdue, by the site's clock") {
    // how loans age and are repaid: tests/scenarios/loans_test.cpp
    Clinic c;
    c.post(definitions);
    c.post({entry("receive", "2026-03-01T00:00:00Z", in("main", "flu", "F3", 10, "state"))});
    const auto give =
        c.post({entry("give", "2026-03-02T15:00:00Z", in("main", "flu", "F3", 2, "state") + R"(,"patient":"t1")")})
            .front();
    c.post({entry("loan", "2026-03-02T16:00:00Z",
                  R"("give":)" + std::to_string(give) + R"(,"eligible":"private","reason":"order delayed")"),
            R"({"kind":"rules","programme":"Invented programme","source":"test","dated":"2026-01-01",)"
            R"("repay_loans_within_days":30})"});
    TableStyle wide{Zone("America/Chicago")};
    wide.columns = 200;
    CHECK(to_table(c.ledger.loans(asked("2026-04-02T05:00:00Z"), now), wide).find("OVERDUE since 2026-04-02 00:00") !=
          std::string::npos);
    CHECK(c.ledger.verify().findings.empty());
}

TEST_CASE("stewardship: accountability of a month, missing doses kept apart from waste") {
    Clinic c;
    c.post(definitions);
    c.post({entry("receive", "2026-02-01T00:00:00Z", in("main", "flu", "F3", 50, "state")),
            entry("give", "2026-02-10T00:00:00Z", in("main", "flu", "F3", 5, "state") + R"(,"patient":"x")")});
    History h;
    const std::string handover = to_json(h, {});
    c.post(
        {entry("receive", "2026-03-01T06:00:00Z", in("main", "flu", "F3", 20, "state") + R"(,"handover":)" + handover),
         entry("waste", "2026-03-03T00:00:00Z", in("main", "flu", "F3", 3, "state") + R"(,"reason":"dropped")"),
         entry("count", "2026-03-04T00:00:00Z", in("main", "flu", "F3", 60, "state")),
         entry("count", "2026-03-05T00:00:00Z", in("main", "flu", "F3", 61, "state")),
         entry("return", "2026-03-06T00:00:00Z", in("main", "flu", "F3", 4, "state") + R"(,"reason":"r")"),
         entry("transfer", "2026-03-07T00:00:00Z",
               in("main", "flu", "F3", 7, "state") + R"(,"reason":"r","to":"Hill Road")"),
         entry("move", "2026-03-08T00:00:00Z", R"("fund":"state",)" + moved("flu", "F3", "main", "box", "", 10))});
    const auto give =
        c.post({entry("give", "2026-03-09T00:00:00Z", in("box", "flu", "F3", 6, "state") + R"(,"patient":"x")"),
                entry("give", "2026-04-01T05:00:00Z", in("main", "flu", "F3", 1, "state") + R"(,"patient":"x")")})
            .front();
    c.post({entry("loan", "2026-03-09T00:00:00Z",
                  R"("give":)" + std::to_string(give) + R"(,"eligible":"private","reason":"r")")});
    const auto a =
        c.ledger.accountability(at("2026-03-01T06:00:00Z"), at("2026-04-01T05:00:00Z"), {}, now);  // March in Chicago
    REQUIRE(a.lots.size() == 1);
    const auto& f = a.lots[0].figures;
    CHECK(f.start == 45);
    CHECK(f.received == 0);
    CHECK(f.transferred_in == 20);
    CHECK(f.found == 1);
    CHECK(f.given == 6);
    CHECK(f.given_on_loan == 6);
    CHECK(f.wasted == 3);
    CHECK(f.returned == 4);
    CHECK(f.transferred_out == 7);
    CHECK(f.lost == 2);
    CHECK(f.end == 44);
    CHECK(f.adds_up());
    CHECK(a.lots[0].fund == "state");
    const auto json = nlohmann::json::parse(to_json(a));
    CHECK(json["total"]["lost"] == 2);
    CHECK(json["funds"][0]["end"] == 44);
    REQUIRE(a.losses.size() == 2);  // by reason: "dropped" before "r"
    CHECK((a.losses[0].reason == "dropped" && a.losses[0].wasted == 3 && a.losses[0].returned == 0));
    CHECK((a.losses[1].reason == "r" && a.losses[1].wasted == 0 && a.losses[1].returned == 4));
    CHECK((a.losses[1].product == "flu" && a.losses[1].fund == "state"));
    CHECK_THROWS_AS(c.ledger.accountability(at("2026-04-01T00:00:00Z"), at("2026-03-01T00:00:00Z"), {}, now), Error);
}

namespace {

/// Movements at six-hour steps of forty: late entries and equal instants among them.
class RandomMovements {
public:
    static Instant when(std::int64_t step) { return at("2026-01-01T00:00:00Z") + Duration(step * 6 * 3600); }
    int any(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }

    /// None where it is a void of movements that are not there.
    std::optional<std::string> next(const std::vector<EntryNumber>& movements) {
        static const char* const funds[] = {"", "state", "private"};
        static const char* const lots[] = {"F1", "F3"};
        static const char* const places[] = {"main", "box"};
        const std::string instant = when(any(40)).text();
        const std::string fund = funds[any(3)], lot = lots[any(2)], place = places[any(2)];
        std::string line;
        switch (any(9)) {
            case 0:
            case 1: line = entry("receive", instant, in(place, "flu", lot, 1 + any(40), fund)); break;
            case 2:
                line = entry("receive", instant,
                             in(place, "flu", lot, 1 + any(9), fund) + R"(,"handover":)" + to_json(History(), {}));
                break;
            case 3:
                line = entry("give", instant, in(place, "flu", lot, 1 + any(4), fund) + R"(,"patient":"x")");
                break;
            case 4:
                line = entry(any(2) ? "waste" : "return", instant,
                             in(place, "flu", lot, 1 + any(5), fund) + R"(,"reason":"r")");
                break;
            case 5:
                line =
                    entry("transfer", instant, in(place, "flu", lot, 1 + any(9), fund) + R"(,"reason":"r","to":"x")");
                break;
            case 6: line = entry("count", instant, in(place, "flu", lot, any(30), fund)); break;
            case 7:
                line = entry("move", instant,
                             R"("fund":")" + fund + "\"," +
                                 moved("flu", lot, place, place == "main" ? "box" : "main", "", 1 + any(6)));
                break;
            default:
                if (movements.empty()) return std::nullopt;
                line = entry("void", "2026-03-01T00:00:00Z",
                             R"("voids":)" +
                                 std::to_string(
                                     movements[static_cast<std::size_t>(any(static_cast<int>(movements.size())))]) +
                                 R"(,"reason":"r")");
        }
        return line;
    }

private:
    std::mt19937 random_{20261125};
};

/// Of [a, b), [b, d) and [a, d): how many products, lots and funds were looked at.
std::int64_t check_adjoining(const Ledger& ledger, Instant a, Instant b, Instant d) {
    std::int64_t checked = 0;
    const auto first = ledger.accountability(a, b, {}, now), second = ledger.accountability(b, d, {}, now);
    const auto both = ledger.accountability(a, d, {}, now);
    std::map<std::pair<std::string, std::string>, AccountabilityAnswer::Figures> one, two;
    for (const auto& r : first.lots) one[{r.lot, r.fund}] = r.figures;
    for (const auto& r : second.lots) two[{r.lot, r.fund}] = r.figures;
    const auto stock = ledger.stock({d - Duration(1), std::nullopt}, now);
    for (const auto& r : both.lots) {
        auto& x = one[{r.lot, r.fund}];
        auto& y = two[{r.lot, r.fund}];
        CHECK(x.adds_up());
        CHECK(y.adds_up());
        CHECK(r.figures.adds_up());
        CHECK(x.end == y.start);
        CHECK(r.figures.start == x.start);
        CHECK(r.figures.end == y.end);
        CHECK(r.figures.given == x.given + y.given);
        CHECK(r.figures.lost - r.figures.found == x.lost - x.found + y.lost - y.found);
        std::int64_t there = 0;
        for (const auto& h : stock.holdings)
            if (h.holding.lot == r.lot && h.holding.fund == r.fund) there += h.doses.count();
        CHECK(r.figures.end == there);
        ++checked;
    }
    CHECK(both.total.adds_up());
    return checked;
}

}  // namespace

TEST_CASE("stewardship: accountability adds up for every period, and a period's end is the next one's start") {
    // Property, on random ledgers: for every product, lot and fund both sides are equal; the end is what stock says of
    // the instant before; two periods that adjoin add up to the one of both.
    RandomMovements random;
    std::int64_t refused = 0, posted = 0, checked = 0;
    for (int round = 0; round < 12; ++round) {
        Clinic c;
        c.post(definitions);
        std::vector<EntryNumber> movements;
        for (int i = 0; i < 80; ++i) {
            const auto line = random.next(movements);
            if (!line) continue;
            try {
                movements.push_back(c.post({*line}).front());
                ++posted;
            } catch (const Error&) {
                ++refused;  // not enough doses, a count of nothing, void already
            }
        }
        for (int k = 0; k < 6; ++k) {
            std::int64_t a = random.any(40), b = random.any(41), d = random.any(42);
            if (a > b) std::swap(a, b);
            if (b > d) std::swap(b, d);
            if (a > b) std::swap(a, b);
            checked += check_adjoining(c.ledger, random.when(a), random.when(b), random.when(d));
        }
    }
    CHECK(posted > 300);
    CHECK(refused > 50);
    CHECK(checked > 100);
}
