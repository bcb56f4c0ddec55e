#include "site.hpp"

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace bench {

std::int64_t end_of(int quarters) { return first_at + 913 * std::int64_t{quarters} * 86400; }  // 4 quarters: 3652 days

std::string instant_text(std::int64_t t) {
    const std::time_t s = t;
    std::tm f{};
    gmtime_r(&s, &f);
    char out[96];
    std::snprintf(out, sizeof out, "%04d-%02d-%02dT%02d:%02d:%02dZ", f.tm_year + 1900, f.tm_mon + 1, f.tm_mday,
                  f.tm_hour, f.tm_min, f.tm_sec);
    return out;
}

std::string decimal_text(std::int32_t n, int digits) {
    const char* sign = n < 0 ? "-" : "";
    const std::int32_t a = n < 0 ? -n : n;
    char out[48];
    if (digits == 1)
        std::snprintf(out, sizeof out, "%s%d.%d", sign, a / 1000, a % 1000 / 100);
    else
        std::snprintf(out, sizeof out, "%s%d.%03d", sign, a / 1000, a % 1000);
    return out;
}

std::vector<Reading> readings_of(int place, int quarters, int digits) {
    Random r(static_cast<std::uint64_t>(place) + 1);
    const bool freezer = is_freezer(place);
    const std::int32_t middle = freezer ? -21000 : 4800;
    const std::int32_t swing = freezer ? 1800 : 900;  // of the compressor
    std::vector<Reading> out;
    out.reserve(static_cast<std::size_t>((end_of(quarters) - first_at) / step_s));
    std::int64_t drift = 0, warming = 0, cooling = 0;
    std::int64_t next_excursion = first_at + r.between(5, 25) * 86400, next_gap = first_at + r.between(20, 60) * 86400,
                 excursion_until = 0;
    int phase = 0;
    const int period = static_cast<int>(r.between(9, 15));
    for (std::int64_t t = first_at; t < end_of(quarters); t += step_s) {
        if (t >= next_gap) {  // a logger read out late, or without battery
            t += r.between(3, 200) * 1800;
            next_gap = t + r.between(20, 60) * 86400;
            if (t >= end_of(quarters)) break;
        }
        if (t >= next_excursion) {  // a door ajar, a power failure, or too cold
            const bool cold = !freezer && r.between(0, 39) == 0;
            excursion_until = t + r.between(4, 60) * step_s;
            (cold ? cooling : warming) = freezer ? r.between(150, 500) : r.between(60, 350);
            next_excursion = excursion_until + r.between(5, 25) * 86400;
        }
        if (t >= excursion_until) warming = cooling = 0;
        drift += warming - cooling;
        drift -= drift / 12;
        phase = (phase + 1) % period;
        const std::int32_t wave = static_cast<std::int32_t>(
            swing * (2 * phase < period ? 4 * phase - period : 3 * period - 4 * phase) / period);
        std::int32_t v =
            middle + wave + static_cast<std::int32_t>(drift) + static_cast<std::int32_t>(r.between(-150, 150));
        if (digits == 1) v = (v + (v < 0 ? -50 : 50)) / 100 * 100;
        out.push_back({t, v});
    }
    return out;
}

namespace {

class Lines {
public:
    explicit Lines(std::string& out) : out_(out) {}
    void add(const std::string& fields) { out_ += "{\"by\":\"bm\"," + fields + "}\n"; }

private:
    std::string& out_;
};

std::string name(const char* prefix, int n) { return std::string(prefix) + std::to_string(n); }
std::string text(const char* field, const std::string& value) {
    return "\"" + std::string(field) + "\":\"" + value + "\"";
}
std::string at(std::int64_t t) { return text("at", instant_text(t)); }

}  // namespace

Book book_of(int quarters, int gives) {
    Book book;
    Random r(99);
    Lines define(book.definitions);
    const std::int64_t end = end_of(quarters);
    define.add("\"kind\":\"site\",\"name\":\"Benchmark (invented)\",\"zone\":\"America/Chicago\"");
    for (int p = 0; p < 8; ++p) {
        const bool fz = p % 4 == 3;
        define.add(
            "\"kind\":\"product\"," + text("product", name("product-", p)) + "," + text("name", name("Invented ", p)) +
            (fz ? ",\"range\":{\"low\":{\"C\":\"-50\"},\"high\":{\"C\":\"-15\"}}"
                : ",\"range\":{\"low\":{\"C\":\"2\"},\"high\":{\"C\":\"8\"}},\"freeze_limit\":{\"C\":\"-0.5\"}") +
            ",\"allowances\":[{\"band\":{\"low\":{\"C\":\"" + (fz ? "-15" : "8") + "\"},\"high\":{\"C\":\"" +
            (fz ? "8" : "25") + "\"}},\"seconds\":1209600,\"source\":\"invented\"}]");
    }
    for (int i = 0; i < places; ++i) {
        define.add("\"kind\":\"place\"," + text("place", name("unit-", i)) + "," + text("name", name("Unit ", i)) +
                   (is_freezer(i)
                        ? ",\"type\":\"freezer\",\"range\":{\"low\":{\"C\":\"-50\"},\"high\":{\"C\":\"-15\"}}"
                        : ",\"type\":\"refrigerator\",\"range\":{\"low\":{\"C\":\"2\"},\"high\":{\"C\":\"8\"}}"));
        define.add("\"kind\":\"probe\"," + text("probe", name("probe-", i)) + ",\"scale\":\"C\"");
        define.add("\"kind\":\"assign\"," + at(first_at) + "," + text("probe", name("probe-", i)) + "," +
                   text("place", name("unit-", i)));
        for (std::int64_t t = first_at; t < end; t += 730 * 86400)
            define.add("\"kind\":\"certificate\"," + at(t) + "," + text("probe", name("probe-", i)) +
                       ",\"expires\":\"2030-01-01\",\"tolerance\":\"0.2\"");
    }

    // events in the order of time, each with its instant
    std::vector<std::pair<std::int64_t, std::string>> events;
    for (int i = 0; i < places; ++i) {
        const int middle = is_freezer(i) ? -21 : 4;
        for (std::int64_t day = first_at; day < end; day += 86400)
            for (const std::int64_t hour : {14, 22})
                events.emplace_back(
                    day + hour * 3600,
                    "\"kind\":\"check\"," + at(day + hour * 3600) + "," + text("place", name("unit-", i)) +
                        ",\"scale\":\"C\",\"temperature\":" + std::to_string(middle) +
                        ",\"min\":" + std::to_string(middle - 1) + ",\"max\":" + std::to_string(middle + 2));
    }
    // a lot: received in one place, half moved to a second, some back again (a join), given from both until none is
    // left
    const int lots = 1000 * quarters;
    const int gives_each = std::max(14, gives / lots);
    int patient = 0;
    for (int n = 0; n < lots; ++n) {
        const int product = static_cast<int>(r.between(0, 7));
        const bool fz = product % 4 == 3;
        const auto pick = [&] {
            return fz ? static_cast<int>(r.between(0, 4)) * 4 + 3
                      : static_cast<int>(r.between(0, 4)) * 4 + static_cast<int>(r.between(0, 2));
        };
        const int a = pick();
        int b = pick();
        if (b == a) b = (a + 4) % places;
        const std::int64_t life = r.between(40, 140) * 86400;
        std::int64_t t0 = first_at + r.between(0, (end - first_at - life / 2) / 60) * 60;
        const std::int64_t t1 = t0 + life / 5 / 60 * 60, t2 = t0 + life / 2 / 60 * 60, t3 = t0 + life * 4 / 5 / 60 * 60,
                           t4 = t0 + life / 60 * 60;
        const std::string lot = name("L", n);
        const std::string who = text("product", name("product-", product)) + "," + text("lot", lot);
        define.add("\"kind\":\"lot\"," + who + ",\"expiry\":\"2031-12\"");
        const int each = gives_each * 2 / 7;
        const auto in = [&](int place) { return text("place", name("unit-", place)) + "," + who; };
        const auto add = [&](std::int64_t t, const std::string& fields) {
            if (t < end) events.emplace_back(t, fields);
        };
        const auto give = [&](int place, std::int64_t from, std::int64_t until, int count) {
            for (int g = 0; g < count; ++g) {
                const std::int64_t t = from + 60 + (until - from - 120) * g / count;
                add(t, "\"kind\":\"give\"," + at(t) + "," + in(place) + "," + text("patient", name("p", patient++)));
            }
        };
        add(t0, "\"kind\":\"receive\"," + at(t0) + "," + in(a) + ",\"doses\":" + std::to_string(4 * each));
        give(a, t0, t1, each);
        add(t1, "\"kind\":\"move\"," + at(t1) + "," + who + ",\"from\":{" + text("place", name("unit-", a)) +
                    "},\"to\":{" + text("place", name("unit-", b)) + "},\"doses\":" + std::to_string(2 * each));
        give(b, t1, t2, each);
        add(t2, "\"kind\":\"move\"," + at(t2) + "," + who + ",\"from\":{" + text("place", name("unit-", b)) +
                    "},\"to\":{" + text("place", name("unit-", a)) + "},\"doses\":" + std::to_string(each / 2));
        give(a, t2, t3, each);
        give(b, t2, t4 - 600, each / 2 - 1);
        for (const int place : {a, b}) add(t4, "\"kind\":\"count\"," + at(t4) + "," + in(place) + ",\"doses\":0");
        const auto stay = [&](int place, std::int64_t from, std::int64_t until) {
            if (from < end) book.stays.push_back({place, from, std::min(until, end)});
        };
        stay(a, t0, t1);
        stay(a, t1, t2);
        stay(b, t1, t2);
        stay(a, t2, t4);
        stay(b, t2, t4);
    }
    std::stable_sort(events.begin(), events.end(), [](const auto& x, const auto& y) { return x.first < y.first; });
    Lines happen(book.events);
    for (const auto& [t, fields] : events) happen.add(fields);
    return book;
}

}  // namespace bench
