#include "random_site.hpp"

#include <map>

#include <nlohmann/json.hpp>

#include "coldtally/quantities.hpp"

namespace properties {

namespace {

using Json = nlohmann::json;

std::string time(std::int64_t t) { return coldtally::Instant(t).text(); }

/// Thousandths of a degree as text: "-4.25".
std::string degrees(std::int64_t thousandths) {
    return coldtally::TemperatureDifference(static_cast<std::int32_t>(thousandths)).text();
}
second::Rational number(std::int64_t thousandths) { return second::decimal(degrees(thousandths)); }

struct BothLimits {
    Json json = Json::object();
    second::Limit limit;
};

/// Around `tenths_C` tenths of a degree; the two scales need not agree.
BothLimits some_limit(Random& random, std::int64_t tenths_C) {
    BothLimits out;
    const std::int64_t which = random.from(1, 3);
    if ((which & 1) != 0) {
        out.json["C"] = degrees(tenths_C * 100);
        out.limit.C = number(tenths_C * 100);
    }
    if ((which & 2) != 0) {
        const std::int64_t F = (tenths_C * 18 / 100 + 32) * 1000;  // to a whole degree
        out.json["F"] = degrees(F);
        out.limit.F = number(F);
    }
    return out;
}

void some_range(Random& random, Json& json, second::Range& range) {
    json = Json::object();
    const bool no_low = random.one_in(8), no_high = !no_low && random.one_in(8);
    if (!no_low) {
        const auto l = some_limit(random, 20 + random.from(-5, 5));
        json["low"] = l.json;
        range.low = l.limit;
    }
    if (!no_high) {
        const auto l = some_limit(random, 80 + random.from(-10, 10));
        json["high"] = l.json;
        range.high = l.limit;
    }
}

/// Something near a refrigerator's range, often a limit itself; thousandths.
std::int64_t some_temperature(Random& random, second::Scale scale) {
    static constexpr std::int64_t edges_C[] = {2000, 8000, 0, -500, 10000};
    static constexpr std::int64_t edges_F[] = {36000, 46000, 32000, 31000, 50000};
    if (random.one_in(5)) return (scale == second::Scale::C ? edges_C : edges_F)[random.from(0, 4)];
    const std::int64_t C = random.from(-40, 130);
    return scale == second::Scale::C ? C * 100 : C * 180 + 32000;
}

const char* letter(second::Scale scale) { return scale == second::Scale::C ? "C" : "F"; }

}  // namespace

std::string RandomSite::text() const {
    std::string out;
    for (const auto& e : entries) out += e + "\n";
    return out;
}

RandomSite::RandomSite(std::uint64_t seed) {
    Random random(seed);
    const auto post = [&](Json e, bool measurement = false) {
        e["by"] = "AB";
        entries.push_back(e.dump());
        is_measurement.push_back(measurement);
        return static_cast<std::int64_t>(entries.size());
    };
    const auto moment = [&] {
        return start + random.from(0, length / 300) * 300 + (random.one_in(4) ? random.from(0, 299) : 0);
    };

    unmonitored_limit_s = random.one_in(2) ? 0 : random.from(1, 20000);
    records.stale_after_s = random.one_in(2) ? 86400 : random.from(1, 20000);
    post({{"kind", "site"},
          {"name", "Random"},
          {"zone", "UTC"},
          {"unmonitored_limit_s", unmonitored_limit_s},
          {"stale_after_s", records.stale_after_s}});

    Json product = {{"kind", "product"}, {"product", "flu"}, {"name", "flu"}};
    some_range(random, product["range"], lot.product.range);
    if (random.one_in(2)) {
        const auto l = some_limit(random, random.from(-20, 10));
        product["freeze_limit"] = l.json;
        lot.product.freeze_limit = l.limit;
    }
    for (std::int64_t n = random.from(0, 2); n > 0; --n) {
        const auto low = some_limit(random, random.from(-20, 80)), high = some_limit(random, random.from(95, 150));
        const std::int64_t seconds = random.from(1, 9000);
        product["allowances"].push_back(
            {{"band", {{"low", low.json}, {"high", high.json}}}, {"seconds", seconds}, {"source", "leaflet"}});
        lot.product.allowances.push_back({low.limit, high.limit, seconds});
    }
    post(product);
    post({{"kind", "lot"}, {"product", "flu"}, {"lot", "A1"}, {"expiry", "2026-03-02"}});
    lot.expires = start + 86400;

    for (const char* id : {"a", "b"}) {
        second::Place place{id,
                            {},
                            random.from(1, 12) * 300,
                            random.from(1, 40) * 900,
                            random.one_in(3) ? 0 : random.from(1, 12) * 300};
        Json e = {{"kind", "place"},
                  {"place", id},
                  {"name", id},
                  {"type", "refrigerator"},
                  {"max_gap_s", place.max_gap_s},
                  {"max_check_gap_s", place.max_check_gap_s},
                  {"near_s", place.near_s}};
        some_range(random, e["range"], place.range);
        post(e);
        places.push_back(place);
    }
    const std::vector<second::Probe> probes{{"p", second::Scale::C}, {"q", second::Scale::F}, {"r", second::Scale::C}};
    for (const auto& p : probes) post({{"kind", "probe"}, {"probe", p.probe}, {"scale", letter(p.scale)}});
    records.probes = probes;

    for (std::int64_t n = random.from(0, 4); n > 0; --n) {
        second::Certificate c;
        c.probe = probes[static_cast<std::size_t>(random.from(0, 2))].probe;
        c.at = moment();
        Json e = {{"kind", "certificate"}, {"at", time(c.at)}, {"probe", c.probe}, {"expires", "2027-01-01"}};
        if (random.one_in(2)) {
            const std::int64_t U = random.from(0, 9) * 100;
            e["tolerance"] = degrees(U);
            c.tolerance = number(U);
        }
        if (random.one_in(2)) {
            for (const std::int64_t at : {0, 7000, 45000})
                if (at == 0 || !random.one_in(3)) {
                    const std::int64_t by = random.from(-500, 500);
                    e["correction"].push_back({degrees(at), degrees(by)});
                    c.correction.emplace_back(number(at), number(by));
                }
        }
        c.entry = post(e);
        records.certificates.push_back(c);
    }
    for (std::int64_t n = random.from(2, 8); n > 0; --n) {
        second::Assign a;
        a.probe = probes[static_cast<std::size_t>(random.from(0, 2))].probe;
        a.at = random.one_in(2) ? start : moment();
        Json e = {{"kind", "assign"}, {"at", time(a.at)}, {"probe", a.probe}};
        if (!random.one_in(5)) e["place"] = *(a.place = random.one_in(2) ? "a" : "b");
        a.entry = post(e);
        records.assigns.push_back(a);
    }
    for (const auto& p : probes) {
        std::map<std::int64_t, std::int64_t> rows;
        const std::int64_t step = random.from(1, 4) * 300;
        for (std::int64_t t = start; t <= start + length; t += random.one_in(8) ? random.from(1, 7000) : step)
            rows[t] = some_temperature(random, p.scale);
        Json batch = Json::array(), again = Json::array();
        for (const auto& [t, v] : rows) {
            if (random.one_in(2)) batch.push_back({time(t), degrees(v)});
            else again.push_back({time(t), degrees(v)});
            if (random.one_in(9)) again.push_back({time(t), degrees(v)});
            records.readings.push_back({p.probe, t, number(v)});
            if (batch.empty() || batch.back()[0] != time(t)) batch.push_back({time(t), degrees(v)});
        }
        post({{"kind", "readings"}, {"probe", p.probe}, {"scale", letter(p.scale)}, {"rows", batch}}, true);
        if (!again.empty())
            post({{"kind", "readings"}, {"probe", p.probe}, {"scale", letter(p.scale)}, {"rows", again}}, true);
    }
    for (std::int64_t n = random.from(0, 14); n > 0; --n) {
        second::Check c;
        c.place = random.one_in(2) ? "a" : "b";
        c.at = moment();
        c.scale = random.one_in(3) ? second::Scale::F : second::Scale::C;
        if (random.one_in(3)) c.probe = c.scale == second::Scale::C ? "p" : "q";
        const std::int64_t v = some_temperature(random, c.scale);
        c.temperature = number(v);
        Json e = {{"kind", "check"},
                  {"at", time(c.at)},
                  {"place", c.place},
                  {"scale", letter(c.scale)},
                  {"temperature", degrees(v)}};
        if (c.probe) e["probe"] = *c.probe;
        if (!random.one_in(3)) {
            const std::int64_t low = v - random.from(0, 30) * 100, high = v + random.from(0, 30) * 100;
            e["min"] = degrees(low);
            e["max"] = degrees(high);
            c.min = number(low);
            c.max = number(high);
        }
        c.entry = post(e, true);
        records.checks.push_back(c);
    }

    // what happens to the doses, in the order of time, so that every movement is possible when it is posted
    std::vector<std::int64_t> moments;
    for (std::int64_t n = random.from(4, 16); n > 0; --n) moments.push_back(moment());
    std::sort(moments.begin(), moments.end());
    std::map<second::Key, std::int64_t> stock;
    const auto some_key = [&] {
        return second::Key{random.one_in(2) ? "a" : "b", random.one_in(5) ? "state" : "",
                           random.one_in(3) ? "bag" : ""};
    };
    const auto put = [](Json e, const second::Key& k) {
        e.update({{"place", k.place}, {"fund", k.fund}, {"mark", k.mark}, {"product", "flu"}, {"lot", "A1"}});
        return e;
    };
    const auto happens = [&](const Json& e, std::int64_t t, decltype(second::Event::what) what) {
        lot.events.push_back({post(e), t, std::move(what)});
    };
    for (const std::int64_t t : moments) {
        std::vector<second::Key> there;
        for (const auto& [k, n] : stock)
            if (n > 0) there.push_back(k);
        const Json at = {{"at", time(t)}};
        const auto with = [&](const char* kind, Json more = Json::object()) {
            more.update(at);
            more["kind"] = kind;
            return more;
        };
        const std::int64_t what = there.empty() ? 0 : random.from(0, 8);
        const auto k =
            there.empty()
                ? some_key()
                : there[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(there.size()) - 1))];
        if (what == 0) {
            const auto to = some_key();
            const std::int64_t n = random.from(1, 20);
            stock[to] += n;
            happens(put(with("receive", {{"doses", n}}), to), t, second::Receive{to, n, {}});
        } else if (what <= 2) {
            auto to = some_key();
            to.fund = k.fund;
            if (to == k) to.mark += "x";
            const std::int64_t n = random.from(1, stock[k]);
            stock[k] -= n;
            stock[to] += n;
            happens(with("move", {{"product", "flu"},
                                  {"lot", "A1"},
                                  {"fund", k.fund},
                                  {"doses", n},
                                  {"from", {{"place", k.place}, {"mark", k.mark}}},
                                  {"to", {{"place", to.place}, {"mark", to.mark}}}}),
                    t, second::Move{k, to, n});
        } else if (what == 3) {
            const bool certain = !random.one_in(3);
            stock[k] -= 1;
            happens(
                put(with("give",
                         {{"doses", 1}, {"patient", "P" + std::to_string(lot.events.size())}, {"certain", certain}}),
                    k),
                t, second::Give{k, 1, certain});
        } else if (what == 4) {
            const std::int64_t n = random.from(1, stock[k]);
            stock[k] -= n;
            happens(put(with("waste", {{"doses", n}, {"reason", "broken"}}), k), t, second::TakeOut{k, n});
        } else if (what == 5) {
            const std::int64_t n = random.from(0, stock[k] + 2);
            stock[k] = n;
            happens(put(with("count", {{"doses", n}}), k), t, second::Count{k, n});
        } else if (what == 6) {
            const std::int64_t until = t + random.from(0, 30000);
            happens(put(with("beyond-use", {{"use_by", time(until)}}), k), t, second::BeyondUse{k, until});
        } else if (what == 7) {
            second::Hold h;
            Json e = with("hold", {{"product", "flu"}, {"reason", "recall"}});
            if (random.one_in(2)) e["lot"] = "A1";
            if (random.one_in(2)) e["place"] = *(h.place = "a");
            if (random.one_in(2)) e["mark"] = *(h.mark = random.one_in(2) ? "bag" : "");
            happens(e, t, h);
        } else {
            second::Guidance g;
            Json e = with(
                "guidance",
                {{"product", "flu"}, {"lot", "A1"}, {"through", time(t)}, {"issuer", "maker"}, {"reference", "M-1"}});
            const std::int64_t verdict = random.from(0, 5);
            g.verdict = verdict == 0   ? second::Verdict::discard
                        : verdict == 1 ? second::Verdict::use_by
                                       : second::Verdict::use;
            e["verdict"] = verdict == 0 ? "discard" : verdict == 1 ? "use-by" : "use";
            if (verdict == 1) {
                e["use_by"] = "2026-03-02";
                g.use_by = start + 86400;
            }
            if (random.one_in(3)) e["place"] = *(g.place = "a");
            if (random.one_in(3)) e["mark"] = *(g.mark = random.one_in(2) ? "bag" : "");
            if (random.one_in(2)) {
                g.told.emplace();
                const std::int64_t parts = random.from(1, 7);
                if (parts & 1) e["told"]["out_of_range_s"] = *(g.told->out_of_range_s = random.from(0, 20000));
                if (parts & 2) e["told"]["unmonitored_s"] = *(g.told->unmonitored_s = random.from(0, 20000));
                if (parts & 4) e["told"]["points"] = *(g.told->points = random.from(0, 30));
            }
            if (random.one_in(3)) e["since"] = time(*(g.since = t - random.from(0, 40000)));
            happens(e, t, g);
        }
    }
}

}  // namespace properties
