// What holds for every ledger, tried on random ones.
#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include <nlohmann/json.hpp>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "random_site.hpp"
#include "temporary.hpp"

using namespace coldtally;
using properties::Random;
using properties::RandomSite;

namespace {

constexpr std::uint64_t seeds = 40;
const Instant recorded(properties::start + 10 * 86400);

struct Filled {
    tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    explicit Filled(const std::string& entries) { ledger.post(entries, recorded); }
};

std::string exported(const Ledger& ledger) {
    std::string out;
    ledger.for_each_entry([&](const Entry& e) { out += to_json(e) + "\n"; });
    return out;
}

/// Every answer, as it is printed.
std::string answers(const Ledger& ledger, Instant A, Instant K) {
    const Question q{A, K};
    const Instant from(properties::start), until(properties::start + properties::length);
    std::string out = to_json(ledger.stock(q, K)) + to_json(ledger.lists(q, K)) + to_json(ledger.review(q, K, true));
    for (const char* place : {"a", "b"})
        out +=
            to_json(ledger.excursions(place, from, until, q, K)) + to_json(ledger.conditions(place, from, until, q, K));
    return out;
}

/// Without what names the last entry and the instant it is known on.
std::string without_head(const std::string& lines) {
    std::string out;
    std::istringstream in(lines);
    for (std::string line; std::getline(in, line);) {
        auto j = nlohmann::json::parse(line);
        j.erase("last_entry");
        j.erase("known_on");
        out += j.dump() + "\n";
    }
    return out;
}

/// Nor what is said beside the figures, which names entries by their numbers.
std::string without_numbers(const std::string& line) {
    auto j = nlohmann::json::parse(without_head(line));
    j.erase("beside");
    j.erase("beside_codes");
    return j.dump();
}

Instant some_instant(Random& random) { return Instant(properties::start + random.from(0, 2 * properties::length)); }

void ordered(const SideExposure& s, const Rational& open) {
    CHECK(Rational() <= s.at_least);
    CHECK(s.at_least <= s.estimate);
    CHECK(s.estimate <= s.at_most);
    CHECK(Rational() <= s.degree_s);
    CHECK(Rational() <= open);
    CHECK(open <= s.estimate);
}

}  // namespace

TEST_CASE("every ledger: accounts add up to 0, nothing is below 0, at least <= estimate <= at most", "[properties]") {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        Filled filled(site.text());
        INFO("seed " << seed);
        Random random(seed);
        for (int i = 0; i < 8; ++i) {
            const Question q{some_instant(random), recorded};
            INFO("at " << q.at->text());
            const auto stock = filled.ledger.stock(q, recorded);
            const auto& a = stock.accounts;
            CHECK(a.supplier + a.patient + a.wasted + a.returned + a.transferred + a.variance + a.on_hand == 0);
            std::int64_t held = 0;
            for (const auto& row : stock.holdings) {
                CHECK(row.doses.count() > 0);
                held += row.doses.count();
            }
            CHECK(held == a.on_hand);
            for (const auto& row : filled.ledger.lists(q, recorded).holdings) {
                const auto& t = row.history.total;
                const auto& o = row.history.open;
                ordered(t.warm, o.warm);
                ordered(t.cold, o.cold);
                ordered(t.frozen, o.frozen);
                CHECK(o.points <= t.points);
                CHECK(o.unmonitored <= t.seconds[static_cast<std::size_t>(Class::unmonitored)]);
                CHECK((!t.lowest_C || *t.lowest_C <= *t.highest_C));
                CHECK((row.list == List::keep) == row.reasons.empty());
                // found apart from the histories, and the same
                const Instant expired_from = Zone("UTC").end_of_day(row.expiry);
                CHECK(row.last_use.until ==
                      (row.history.use_by ? std::min(expired_from, *row.history.use_by) : expired_from));
                for (const auto& other : stock.holdings)
                    if (other.holding == row.holding) CHECK(other.last_use.until == row.last_use.until);
            }
        }
    }
}

TEST_CASE("every ledger: the exposure of two adjoining times adds up to that of both", "[properties]") {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        Filled filled(site.text());
        INFO("seed " << seed);
        Random random(seed + 500);
        const Instant A(properties::start + 2 * properties::length);
        std::array<std::int64_t, 3> cut{};
        for (auto& c : cut) c = properties::start + random.from(0, properties::length);
        std::sort(cut.begin(), cut.end());
        const auto conditions = [&](int i, int k) {
            return filled.ledger.conditions("a", Instant(cut[static_cast<std::size_t>(i)]),
                                            Instant(cut[static_cast<std::size_t>(k)]), {A, recorded}, recorded);
        };
        const auto first = conditions(0, 1), second = conditions(1, 2), both = conditions(0, 2);
        Rational all;
        for (std::size_t c = 0; c < class_count; ++c) {
            CHECK(first.seconds[c] + second.seconds[c] == both.seconds[c]);
            all += both.seconds[c];
        }
        CHECK(all == Rational(cut[2] - cut[0]));
        const auto sum = [&](int i, int k, Side side) {
            Rational duration, degrees;
            for (const auto& e : filled.ledger
                                     .excursions("a", Instant(cut[static_cast<std::size_t>(i)]),
                                                 Instant(cut[static_cast<std::size_t>(k)]), {A, recorded}, recorded)
                                     .excursions)
                if (e.side == side) duration += e.duration_s, degrees += e.degree_s;
            return std::pair(duration, degrees);
        };
        for (const Side side : {Side::warm, Side::cold}) {
            const auto x = sum(0, 1, side), y = sum(1, 2, side), z = sum(0, 2, side);
            CHECK(x.first + y.first == z.first);
            CHECK(x.second + y.second == z.second);
        }
    }
}

TEST_CASE("every ledger: export and replay give the same bytes, and the same question the same answer",
          "[properties]") {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        Filled filled(site.text());
        INFO("seed " << seed);
        const std::string entries = exported(filled.ledger);
        tests::TemporaryFile file;
        Ledger again(file.path(), Ledger::Mode::create);
        again.replay(entries);
        CHECK(exported(again) == entries);
        Random random(seed);
        const Instant A = some_instant(random);
        const std::string answer = answers(filled.ledger, A, recorded);
        CHECK(answers(again, A, recorded) == answer);
        CHECK(answers(filled.ledger, A, recorded) == answer);
        CHECK(again.verify().findings.empty());
        CHECK(again.verify().chain == filled.ledger.verify().chain);
    }
}

TEST_CASE("every ledger: a void restores what was", "[properties]") {
    int voided = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        Filled filled(site.text());
        Random random(seed);
        const Instant A = some_instant(random);
        const std::string before = without_head(answers(filled.ledger, A, recorded));
        for (
            const std::string& entry : std::vector<std::string>{
                R"({"kind":"check","at":"2026-03-02T03:00:07Z","by":"AB","place":"a","scale":"C","temperature":"19",)"
                R"("min":"-9","max":"30"})",
                R"({"kind":"readings","by":"AB","probe":"p","scale":"C","rows":[["2026-03-02T03:00:07Z","29.125"],)"
                R"(["2026-03-02T03:00:08Z","-9"]]})",
                R"({"kind":"receive","at":"2026-03-02T00:00:00Z","by":"AB","place":"b","product":"flu","lot":"A1",)"
                R"("doses":7})",
                R"({"kind":"hold","at":"2026-03-02T01:00:00Z","by":"AB","product":"flu","reason":"recall"})",
                R"({"kind":"guidance","at":"2026-03-02T11:00:00Z","by":"AB","product":"flu","lot":"A1",)"
                R"("through":"2026-03-02T11:00:00Z","verdict":"discard","issuer":"maker","reference":"M"})",
                R"({"kind":"product","by":"AB","product":"flu","name":"flu","range":{"low":{"C":"5"},)"
                R"("high":{"C":"6"}}})",
                R"({"kind":"assign","at":"2026-03-02T02:00:00Z","by":"AB","probe":"p","place":"b"})",
                R"({"kind":"certificate","at":"2026-03-02T02:00:00Z","by":"AB","probe":"p","expires":"2026-12-31",)"
                R"("tolerance":"0.7","correction":[["0","3"]]})"}) {
            INFO("seed " << seed << ": " << entry);
            std::vector<EntryNumber> numbers;
            try {
                numbers = filled.ledger.post(entry + "\n", recorded);
            } catch (const Error&) {
                continue;  // unequal to a random reading of that instant
            }
            filled.ledger.post(R"({"kind":"void","at":"2026-03-03T00:00:00Z","by":"AB","voids":)" +
                                   std::to_string(numbers.front()) + R"(,"reason":"mistaken"})" + "\n",
                               recorded);
            CHECK(without_head(answers(filled.ledger, A, recorded)) == before);
            ++voided;
        }
    }
    CHECK(voided > 7 * static_cast<int>(seeds));
}

TEST_CASE("every ledger: known on an instant it answers as one that was stopped there", "[properties]") {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        Random random(seed);
        tests::TemporaryFile whole_file, stopped_file;
        Ledger whole(whole_file.path(), Ledger::Mode::create), stopped(stopped_file.path(), Ledger::Mode::create);
        // what is posted in one batch is known at once
        const auto stop = static_cast<std::size_t>(random.from(9, static_cast<std::int64_t>(site.entries.size()) - 1));
        std::string first, rest;
        for (std::size_t i = 0; i < site.entries.size(); ++i) (i < stop ? first : rest) += site.entries[i] + "\n";
        whole.post(first, recorded);
        whole.post(rest, recorded + Duration(60));
        stopped.post(first, recorded);
        const Instant A = some_instant(random), K = recorded + Duration(59);
        INFO("seed " << seed << ", " << stop << " entries");
        CHECK(answers(whole, A, K) == answers(stopped, A, K));
    }
}

TEST_CASE("every ledger: the order of posting does not matter where instants and the order of numbers stay",
          "[properties]") {
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const RandomSite site(seed);
        // batches of readings have no order of their own; checks keep theirs
        std::string changed, readings;
        for (std::size_t i = 0; i < site.entries.size(); ++i) {
            if (site.is_measurement[i] && site.entries[i].find("\"readings\"") != std::string::npos)
                readings = site.entries[i] + "\n" + readings;
            else changed += site.entries[i] + "\n";
        }
        Filled as_posted(site.text()), late(changed + readings);
        Random random(seed);
        const Question q{some_instant(random), recorded};
        INFO("seed " << seed);
        auto a = as_posted.ledger.lists(q, recorded), b = late.ledger.lists(q, recorded);
        REQUIRE(a.holdings.size() == b.holdings.size());
        for (std::size_t i = 0; i < a.holdings.size(); ++i) {
            // entry numbers have changed, and nothing else
            CHECK(a.holdings[i].history.held_by.size() == b.holdings[i].history.held_by.size());
            CHECK(a.holdings[i].history.condemned_by.size() == b.holdings[i].history.condemned_by.size());
            for (auto* h : {&a.holdings[i].history, &b.holdings[i].history})
                h->held_by.clear(), h->condemned_by.clear();
            CHECK(a.holdings[i].history == b.holdings[i].history);
            CHECK(a.holdings[i].reasons == b.holdings[i].reasons);
        }
        const Instant from(properties::start), until(properties::start + properties::length);
        for (const char* place : {"a", "b"})
            CHECK(without_numbers(to_json(as_posted.ledger.excursions(place, from, until, q, recorded))) ==
                  without_numbers(to_json(late.ledger.excursions(place, from, until, q, recorded))));
    }
}
