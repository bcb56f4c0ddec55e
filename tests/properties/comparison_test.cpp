// The library against the second implementation, on random sites: every listed number of a history, every excursion,
// every condition, to the last digit.
#include <catch2/catch.hpp>

#include "coldtally/ledger.hpp"
#include "evidence.hpp"
#include "random_site.hpp"
#include "second/excursions.hpp"
#include "temporary.hpp"

using namespace coldtally;
using properties::Random;
using properties::RandomSite;

namespace {

const Instant recorded(properties::start + 10 * 86400);

std::string text(const Rational& r) { return r.text(); }
std::string text(const second::Rational& r) { return second::text(r); }
template <class R>
std::string text(const std::optional<R>& r) { return r ? text(*r) : "null"; }
template <class Side>
std::string degrees(const Side& s) {
    if constexpr (requires { s.degree_s; }) return text(s.degree_s);
    else return text(s.degree_seconds);
}
template <class Side>
std::string side(const char* name, const Side& s) {
    return std::string(name) + " " + text(s.at_least) + " " + text(s.estimate) + " " + text(s.at_most) + " " +
           degrees(s);
}
template <class Set>
std::string set(const Set& all) {
    std::string out = "{";
    for (const auto& x : all) {
        if constexpr (std::is_same_v<typename Set::value_type, std::string>) out += x + " ";
        else out += std::to_string(x) + " ";
    }
    return out + "}";
}

std::string told(const HoldingKey& k, std::int64_t doses, const History& h) {
    const Exposure& t = h.total;
    const OpenExposure& o = h.open;
    std::string out = k.place + "|" + k.fund + "|" + k.mark + ": " + std::to_string(doses) + "\n" +
                      side("warm", t.warm) + " " + text(o.warm) + "\n" + side("cold", t.cold) + " " + text(o.cold) +
                      "\n" + side("frozen", t.frozen) + " " + text(o.frozen) + "\nallowances";
    for (std::size_t i = 0; i < t.allowances.size(); ++i)
        out += " " + text(t.allowances[i]) + " " + text(o.allowances.at(i));
    out += "\nbeyond " + text(t.beyond_warm) + " " + text(o.beyond_warm) + " " + text(t.beyond_cold) + " " +
           text(o.beyond_cold) + "\npoints " + std::to_string(t.points) + " " + std::to_string(o.points) + "\ncoverage";
    for (const auto& s : t.seconds) out += " " + text(s);
    return out + " " + text(o.unmonitored) + "\n" + text(t.lowest_C) + " " + text(t.highest_C) + "\n" + set(h.places) +
           set(h.condemned_by) + set(h.held_by) + (h.use_by ? std::to_string(h.use_by->seconds_since_1970()) : "none") +
           "\n";
}

std::string told(const second::Key& k, std::int64_t doses, const second::History& h) {
    std::string out = k.place + "|" + k.fund + "|" + k.mark + ": " + std::to_string(doses) + "\n" +
                      side("warm", h.warm.total) + " " + text(h.warm.open) + "\n" + side("cold", h.cold.total) + " " +
                      text(h.cold.open) + "\n" + side("frozen", h.frozen.total) + " " + text(h.frozen.open) +
                      "\nallowances";
    for (const auto& a : h.allowances) out += " " + text(a.used) + " " + text(a.open);
    const auto& c = h.coverage;
    return out + "\nbeyond " + text(h.beyond_warm) + " " + text(h.beyond_warm_open) + " " + text(h.beyond_cold) + " " +
           text(h.beyond_cold_open) + "\npoints " + std::to_string(h.points) + " " + std::to_string(h.points_open) +
           "\ncoverage " + text(c.logged) + " " + text(c.bounded) + " " + text(c.checked) + " " + text(c.near) + " " +
           text(c.awaiting) + " " + text(c.unmonitored) + " " + text(h.unmonitored_open) + "\n" + text(h.lowest) + " " +
           text(h.highest) + "\n" + set(h.places) + set(h.condemned_by) + set(h.held_by) +
           (h.use_by ? std::to_string(*h.use_by) : "none") + "\n";
}

std::string words(const std::vector<Reason>& reasons) {
    std::string out;
    for (const Reason one : reasons) out.append(reason_name(one)).append(" ");
    return out + "\n";
}

std::string words(const std::vector<std::string>& a, const std::vector<std::string>& b = {}) {
    std::string out;
    for (const auto& w : a) out += w + " ";
    for (const auto& w : b) out += w + " ";
    return out + "\n";
}

std::string lists_of(const Ledger& ledger, Instant A) {
    std::string out;
    for (const auto& row : ledger.lists({A, recorded}, recorded).holdings)
        out += told(row.holding, row.doses.count(), row.history) + words(row.reasons);
    return out;
}

std::string gives_of(const Ledger& ledger, Instant A) {
    std::string out;
    for (const auto& row : ledger.review({A, recorded}, recorded, true).doses) {
        const HoldingKey none;
        out += std::to_string(row.entry) + told(none, 0, row.history) + words(row.reasons) +
               std::string(finding_name(row.finding)) + "\n";
    }
    return out;
}

std::string excursions_of(const Ledger& ledger, const std::string& place, std::int64_t from, std::int64_t until,
                          Instant A) {
    std::string out;
    for (const auto& e : ledger.excursions(place, Instant(from), Instant(until), {A, recorded}, recorded).excursions)
        out += std::string(side_name(e.side)) + " " + std::string(excursion_kind_name(e.kind)) + " " + text(e.from_s) +
               " " + text(e.until_s) + " " + text(e.duration_s) + " " + text(e.degree_s) + " " + text(e.peak_C) +
               (e.open ? " open\n" : "\n");
    return out;
}

std::string excursions_of(const second::Trace& trace, const second::Range& range, std::int64_t from,
                          std::int64_t until) {
    static constexpr const char* kinds[] = {"bounded", "line", "point"};
    std::string out;
    for (const auto& e : second::excursions(trace, range, {second::Rational(from), second::Rational(until)}))
        out += std::string(e.side == second::ExcursionSide::warm ? "warm" : "cold") + " " +
               kinds[static_cast<int>(e.kind)] + " " + text(e.from) + " " + text(e.until) + " " + text(e.duration) +
               " " + text(e.degree_seconds) + " " + text(e.peak) + (e.open ? " open\n" : "\n");
    return out;
}

std::string conditions_of(const Ledger& ledger, const std::string& place, std::int64_t from, std::int64_t until,
                          Instant A) {
    const auto c = ledger.conditions(place, Instant(from), Instant(until), {A, recorded}, recorded);
    std::string out;
    for (const auto& s : c.seconds) out += text(s) + " ";
    return out + text(c.lowest_C) + " " + text(c.highest_C) + " " + text(c.mean_C) + " " + std::to_string(c.excursions);
}

std::string conditions_of(const second::Trace& trace, const second::Range& range, std::int64_t from,
                          std::int64_t until) {
    const auto c = second::conditions(trace, range, {second::Rational(from), second::Rational(until)});
    return text(c.coverage.logged) + " " + text(c.coverage.bounded) + " " + text(c.coverage.checked) + " " +
           text(c.coverage.near) + " " + text(c.coverage.awaiting) + " " + text(c.coverage.unmonitored) + " " +
           text(c.lowest) + " " + text(c.highest) + " " + text(c.mean) + " " + std::to_string(c.excursions);
}

}  // namespace

TEST_CASE("random sites: lists, review, excursions and conditions equal those of the second implementation",
          "[properties]") {
    int holdings = 0, gives = 0, windows = 0, out_of_range = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        const RandomSite site(seed);
        const tests::TemporaryFile file;
        Ledger ledger(file.path(), Ledger::Mode::create);
        INFO("seed " << seed << "\n" << site.text());
        ledger.post(site.text(), recorded);
        Random random(seed + 1000000);
        for (int question = 0; question < 2; ++question) {
            const std::int64_t A =
                properties::start + (random.one_in(2) ? random.from(0, properties::length / 300) * 300
                                                      : random.from(0, 2 * properties::length));
            INFO("at " << Instant(A).text());
            const auto state = second::histories(site.records, site.places, site.lot, site.unmonitored_limit_s, A);
            std::string expected;
            for (const auto& h : state.holdings)
                expected += told(h.key, h.doses, h.history) + words(h.discard, h.quarantine);
            REQUIRE(lists_of(ledger, Instant(A)) == expected);
            holdings += static_cast<int>(state.holdings.size());
            gives += static_cast<int>(state.gives.size());
            expected.clear();
            for (const auto& g : state.gives)
                expected += std::to_string(g.entry) + told(second::Key(), 0, g.history) + words(g.quarantine) +
                            g.finding + "\n";
            REQUIRE(gives_of(ledger, Instant(A)) == expected);
            for (const auto& place : site.places) {
                const std::int64_t from = properties::start + random.from(-100, properties::length),
                                   until = random.one_in(6) ? from : from + random.from(0, properties::length);
                INFO(place.place << " from " << Instant(from).text() << " until " << Instant(until).text());
                const auto trace = second::trace_of(site.records, place, A);
                const std::string found = excursions_of(trace, place.range, from, until);
                REQUIRE(excursions_of(ledger, place.place, from, until, Instant(A)) == found);
                REQUIRE(conditions_of(ledger, place.place, from, until, Instant(A)) ==
                        conditions_of(trace, place.range, from, until));
                ++windows;
                out_of_range += !found.empty();
            }
        }
    }
    // the sites are not all empty
    CHECK(holdings > 300);
    CHECK(out_of_range > 300);
    const auto line = [](const char* what, int cases) {
        return nlohmann::ordered_json{
            {"part", "second"}, {"what", what}, {"against", "second implementation"}, {"cases", cases}, {"largest", 0}};
    };
    tests::report("second", {line("histories of holdings, with their reasons", holdings),
                             line("histories at a dose given, with their reasons and finding", gives),
                             line("excursions and conditions of a place in a window", windows),
                             line("of these, windows that hold an excursion", out_of_range)});
}
