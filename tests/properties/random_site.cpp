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

/// Posts what is random to the site, and keeps it in the second implementation's records.
class Maker {
public:
    Maker(RandomSite& site, std::uint64_t seed) : site_(site), random_(seed) {}

    void site() {
        site_.unmonitored_limit_s = random_.one_in(2) ? 0 : random_.from(1, 20000);
        site_.records.stale_after_s = random_.one_in(2) ? 86400 : random_.from(1, 20000);
        post({{"kind", "site"},
              {"name", "Random"},
              {"zone", "UTC"},
              {"unmonitored_limit_s", site_.unmonitored_limit_s},
              {"stale_after_s", site_.records.stale_after_s}});
    }
    void product_and_lot() {
        Json product = {{"kind", "product"}, {"product", "flu"}, {"name", "flu"}};
        some_range(random_, product["range"], site_.lot.product.range);
        if (random_.one_in(2)) {
            const auto l = some_limit(random_, random_.from(-20, 10));
            product["freeze_limit"] = l.json;
            site_.lot.product.freeze_limit = l.limit;
        }
        for (std::int64_t n = random_.from(0, 2); n > 0; --n) {
            const auto low = some_limit(random_, random_.from(-20, 80));
            const auto high = some_limit(random_, random_.from(95, 150));
            const std::int64_t seconds = random_.from(1, 9000);
            product["allowances"].push_back(
                {{"band", {{"low", low.json}, {"high", high.json}}}, {"seconds", seconds}, {"source", "leaflet"}});
            site_.lot.product.allowances.push_back({low.limit, high.limit, seconds});
        }
        post(product);
        post({{"kind", "lot"}, {"product", "flu"}, {"lot", "A1"}, {"expiry", "2026-03-02"}});
        site_.lot.expires = start + 86400;
    }
    void places() {
        for (const char* id : {"a", "b"}) {
            second::Place place{id,
                                {},
                                random_.from(1, 12) * 300,
                                random_.from(1, 40) * 900,
                                random_.one_in(3) ? 0 : random_.from(1, 12) * 300};
            Json e = {{"kind", "place"},
                      {"place", id},
                      {"name", id},
                      {"type", "refrigerator"},
                      {"max_gap_s", place.max_gap_s},
                      {"max_check_gap_s", place.max_check_gap_s},
                      {"near_s", place.near_s}};
            some_range(random_, e["range"], place.range);
            post(e);
            site_.places.push_back(place);
        }
    }
    void probes() {
        site_.records.probes = {{"p", second::Scale::C}, {"q", second::Scale::F}, {"r", second::Scale::C}};
        for (const auto& p : site_.records.probes)
            post({{"kind", "probe"}, {"probe", p.probe}, {"scale", letter(p.scale)}});
    }
    void certificates() {
        for (std::int64_t n = random_.from(0, 4); n > 0; --n) {
            second::Certificate c;
            c.probe = site_.records.probes[static_cast<std::size_t>(random_.from(0, 2))].probe;
            c.at = moment();
            Json e = {{"kind", "certificate"}, {"at", time(c.at)}, {"probe", c.probe}, {"expires", "2027-01-01"}};
            if (random_.one_in(2)) {
                const std::int64_t U = random_.from(0, 9) * 100;
                e["tolerance"] = degrees(U);
                c.tolerance = number(U);
            }
            if (random_.one_in(2)) {
                for (const std::int64_t at : {0, 7000, 45000})
                    if (at == 0 || !random_.one_in(3)) {
                        const std::int64_t by = random_.from(-500, 500);
                        e["correction"].push_back({degrees(at), degrees(by)});
                        c.correction.emplace_back(number(at), number(by));
                    }
            }
            c.entry = post(e);
            site_.records.certificates.push_back(c);
        }
    }
    void assignments() {
        for (std::int64_t n = random_.from(2, 8); n > 0; --n) {
            second::Assign a;
            a.probe = site_.records.probes[static_cast<std::size_t>(random_.from(0, 2))].probe;
            a.at = random_.one_in(2) ? start : moment();
            Json e = {{"kind", "assign"}, {"at", time(a.at)}, {"probe", a.probe}};
            if (!random_.one_in(5)) e["place"] = *(a.place = random_.one_in(2) ? "a" : "b");
            a.entry = post(e);
            site_.records.assigns.push_back(a);
        }
    }
    void readings() {
        for (const auto& p : site_.records.probes) {
            std::map<std::int64_t, std::int64_t> rows;
            const std::int64_t step = random_.from(1, 4) * 300;
            for (std::int64_t t = start; t <= start + length; t += random_.one_in(8) ? random_.from(1, 7000) : step)
                rows[t] = some_temperature(random_, p.scale);
            Json batch = Json::array(), again = Json::array();
            for (const auto& [t, v] : rows) {
                if (random_.one_in(2)) batch.push_back({time(t), degrees(v)});
                else again.push_back({time(t), degrees(v)});
                if (random_.one_in(9)) again.push_back({time(t), degrees(v)});
                site_.records.readings.push_back({p.probe, t, number(v)});
                if (batch.empty() || batch.back()[0] != time(t)) batch.push_back({time(t), degrees(v)});
            }
            post({{"kind", "readings"}, {"probe", p.probe}, {"scale", letter(p.scale)}, {"rows", batch}}, true);
            if (!again.empty())
                post({{"kind", "readings"}, {"probe", p.probe}, {"scale", letter(p.scale)}, {"rows", again}}, true);
        }
    }
    void checks() {
        for (std::int64_t n = random_.from(0, 14); n > 0; --n) {
            second::Check c;
            c.place = random_.one_in(2) ? "a" : "b";
            c.at = moment();
            c.scale = random_.one_in(3) ? second::Scale::F : second::Scale::C;
            if (random_.one_in(3)) c.probe = c.scale == second::Scale::C ? "p" : "q";
            const std::int64_t v = some_temperature(random_, c.scale);
            c.temperature = number(v);
            Json e = {{"kind", "check"},
                      {"at", time(c.at)},
                      {"place", c.place},
                      {"scale", letter(c.scale)},
                      {"temperature", degrees(v)}};
            if (c.probe) e["probe"] = *c.probe;
            if (!random_.one_in(3)) {
                const std::int64_t low = v - random_.from(0, 30) * 100, high = v + random_.from(0, 30) * 100;
                e["min"] = degrees(low);
                e["max"] = degrees(high);
                c.min = number(low);
                c.max = number(high);
            }
            c.entry = post(e, true);
            site_.records.checks.push_back(c);
        }
    }
    /// What happens to the doses, in the order of time, so that every movement is possible when it is posted.
    void events() {
        std::vector<std::int64_t> moments;
        for (std::int64_t n = random_.from(4, 16); n > 0; --n) moments.push_back(moment());
        std::sort(moments.begin(), moments.end());
        for (const std::int64_t t : moments) {
            t_ = t;
            std::vector<second::Key> there;
            for (const auto& [k, n] : stock_)
                if (n > 0) there.push_back(k);
            const std::int64_t what = there.empty() ? 0 : random_.from(0, 8);
            const auto k =
                there.empty()
                    ? some_key()
                    : there[static_cast<std::size_t>(random_.from(0, static_cast<std::int64_t>(there.size()) - 1))];
            if (what == 0) receive();
            else if (what <= 2) move(k);
            else if (what == 3) give(k);
            else if (what == 4) waste(k);
            else if (what == 5) count(k);
            else if (what == 6) beyond_use(k);
            else if (what == 7) hold();
            else guidance();
        }
    }

private:
    std::int64_t post(Json e, bool measurement = false) {
        e["by"] = "AB";
        site_.entries.push_back(e.dump());
        site_.is_measurement.push_back(measurement);
        return static_cast<std::int64_t>(site_.entries.size());
    }
    std::int64_t moment() {
        return start + random_.from(0, length / 300) * 300 + (random_.one_in(4) ? random_.from(0, 299) : 0);
    }
    second::Key some_key() {
        return {random_.one_in(2) ? "a" : "b", random_.one_in(5) ? "state" : "", random_.one_in(3) ? "bag" : ""};
    }

    // ---- an event at t_

    Json at_t(const char* kind, Json more = Json::object()) const {
        more["at"] = time(t_);
        more["kind"] = kind;
        return more;
    }
    Json of_holding(const second::Key& k, const char* kind, const Json& more = Json::object()) const {
        Json e = at_t(kind, more);
        e.update({{"place", k.place}, {"fund", k.fund}, {"mark", k.mark}, {"product", "flu"}, {"lot", "A1"}});
        return e;
    }
    void happens(const Json& e, decltype(second::Event::what) what) {
        site_.lot.events.push_back({post(e), t_, std::move(what)});
    }

    void receive() {
        const auto to = some_key();
        const std::int64_t n = random_.from(1, 20);
        stock_[to] += n;
        happens(of_holding(to, "receive", {{"doses", n}}), second::Receive{to, n, {}});
    }
    void move(const second::Key& k) {
        auto to = some_key();
        to.fund = k.fund;
        if (to == k) to.mark += "x";
        const std::int64_t n = random_.from(1, stock_[k]);
        stock_[k] -= n;
        stock_[to] += n;
        happens(at_t("move", {{"product", "flu"},
                              {"lot", "A1"},
                              {"fund", k.fund},
                              {"doses", n},
                              {"from", {{"place", k.place}, {"mark", k.mark}}},
                              {"to", {{"place", to.place}, {"mark", to.mark}}}}),
                second::Move{k, to, n});
    }
    void give(const second::Key& k) {
        const bool certain = !random_.one_in(3);
        stock_[k] -= 1;
        const std::string patient = "P" + std::to_string(site_.lot.events.size());
        happens(of_holding(k, "give", {{"doses", 1}, {"patient", patient}, {"certain", certain}}),
                second::Give{k, 1, certain});
    }
    void waste(const second::Key& k) {
        const std::int64_t n = random_.from(1, stock_[k]);
        stock_[k] -= n;
        happens(of_holding(k, "waste", {{"doses", n}, {"reason", "broken"}}), second::TakeOut{k, n});
    }
    void count(const second::Key& k) {
        const std::int64_t n = random_.from(0, stock_[k] + 2);
        stock_[k] = n;
        happens(of_holding(k, "count", {{"doses", n}}), second::Count{k, n});
    }
    void beyond_use(const second::Key& k) {
        const std::int64_t until = t_ + random_.from(0, 30000);
        happens(of_holding(k, "beyond-use", {{"use_by", time(until)}}), second::BeyondUse{k, until});
    }
    void hold() {
        second::Hold h;
        Json e = at_t("hold", {{"product", "flu"}, {"reason", "recall"}});
        if (random_.one_in(2)) e["lot"] = "A1";
        if (random_.one_in(2)) e["place"] = *(h.place = "a");
        if (random_.one_in(2)) e["mark"] = *(h.mark = random_.one_in(2) ? "bag" : "");
        happens(e, h);
    }
    void guidance() {
        second::Guidance g;
        Json e = at_t(
            "guidance",
            {{"product", "flu"}, {"lot", "A1"}, {"through", time(t_)}, {"issuer", "maker"}, {"reference", "M-1"}});
        const std::int64_t verdict = random_.from(0, 5);
        g.verdict = verdict == 0   ? second::Verdict::discard
                    : verdict == 1 ? second::Verdict::use_by
                                   : second::Verdict::use;
        e["verdict"] = verdict == 0 ? "discard" : verdict == 1 ? "use-by" : "use";
        if (verdict == 1) {
            e["use_by"] = "2026-03-02";
            g.use_by = start + 86400;
        }
        if (random_.one_in(3)) e["place"] = *(g.place = "a");
        if (random_.one_in(3)) e["mark"] = *(g.mark = random_.one_in(2) ? "bag" : "");
        if (random_.one_in(2)) {
            g.told.emplace();
            const std::int64_t parts = random_.from(1, 7);
            if (parts & 1) e["told"]["out_of_range_s"] = *(g.told->out_of_range_s = random_.from(0, 20000));
            if (parts & 2) e["told"]["unmonitored_s"] = *(g.told->unmonitored_s = random_.from(0, 20000));
            if (parts & 4) e["told"]["points"] = *(g.told->points = random_.from(0, 30));
        }
        if (random_.one_in(3)) e["since"] = time(*(g.since = t_ - random_.from(0, 40000)));
        happens(e, g);
    }

    RandomSite& site_;
    Random random_;
    std::map<second::Key, std::int64_t> stock_;
    std::int64_t t_ = 0;
};

}  // namespace

std::string RandomSite::text() const {
    std::string out;
    for (const auto& e : entries) out += e + "\n";
    return out;
}

RandomSite::RandomSite(std::uint64_t seed) {
    Maker maker(*this, seed);
    maker.site();
    maker.product_and_lot();
    maker.places();
    maker.probes();
    maker.certificates();
    maker.assignments();
    maker.readings();
    maker.checks();
    maker.events();
}

}  // namespace properties
