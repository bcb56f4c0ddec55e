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

/// Writes the book of a number of quarters of the whole record.
class BookMaker {
public:
    explicit BookMaker(int quarters) : quarters_(quarters), end_(end_of(quarters)) {}

    Book make(int gives) {
        define("\"kind\":\"site\",\"name\":\"Benchmark (invented)\",\"zone\":\"America/Chicago\"");
        for (int p = 0; p < 8; ++p) define_product(p);
        for (int i = 0; i < places; ++i) define_place(i);
        for (int i = 0; i < places; ++i) check_twice_a_day(i);
        const int lots = 1000 * quarters_;
        for (int n = 0; n < lots; ++n) life_of_lot(n, std::max(14, gives / lots));
        std::stable_sort(events_.begin(), events_.end(),
                         [](const auto& x, const auto& y) { return x.first < y.first; });
        Lines happen(book_.events);
        for (const auto& [t, fields] : events_) happen.add(fields);
        return std::move(book_);
    }

private:
    void define(const std::string& fields) { Lines(book_.definitions).add(fields); }

    void define_product(int p) {
        const bool fz = p % 4 == 3;
        define("\"kind\":\"product\"," + text("product", name("product-", p)) + "," +
               text("name", name("Invented ", p)) +
               (fz ? ",\"range\":{\"low\":{\"C\":\"-50\"},\"high\":{\"C\":\"-15\"}}"
                   : ",\"range\":{\"low\":{\"C\":\"2\"},\"high\":{\"C\":\"8\"}},\"freeze_limit\":{\"C\":\"-0.5\"}") +
               ",\"allowances\":[{\"band\":{\"low\":{\"C\":\"" + (fz ? "-15" : "8") + "\"},\"high\":{\"C\":\"" +
               (fz ? "8" : "25") + "\"}},\"seconds\":1209600,\"source\":\"invented\"}]");
    }

    /// With its probe, and a certificate every two years.
    void define_place(int i) {
        define("\"kind\":\"place\"," + text("place", name("unit-", i)) + "," + text("name", name("Unit ", i)) +
               (is_freezer(i) ? ",\"type\":\"freezer\",\"range\":{\"low\":{\"C\":\"-50\"},\"high\":{\"C\":\"-15\"}}"
                              : ",\"type\":\"refrigerator\",\"range\":{\"low\":{\"C\":\"2\"},\"high\":{\"C\":\"8\"}}"));
        define("\"kind\":\"probe\"," + text("probe", name("probe-", i)) + ",\"scale\":\"C\"");
        define("\"kind\":\"assign\"," + at(first_at) + "," + text("probe", name("probe-", i)) + "," +
               text("place", name("unit-", i)));
        for (std::int64_t t = first_at; t < end_; t += 730 * 86400)
            define("\"kind\":\"certificate\"," + at(t) + "," + text("probe", name("probe-", i)) +
                   ",\"expires\":\"2030-01-01\",\"tolerance\":\"0.2\"");
    }

    void check_twice_a_day(int i) {
        const int middle = is_freezer(i) ? -21 : 4;
        for (std::int64_t day = first_at; day < end_; day += 86400)
            for (const std::int64_t hour : {14, 22})
                events_.emplace_back(
                    day + hour * 3600,
                    "\"kind\":\"check\"," + at(day + hour * 3600) + "," + text("place", name("unit-", i)) +
                        ",\"scale\":\"C\",\"temperature\":" + std::to_string(middle) +
                        ",\"min\":" + std::to_string(middle - 1) + ",\"max\":" + std::to_string(middle + 2));
    }

    int some_place(bool freezer) {
        return freezer ? static_cast<int>(r_.between(0, 4)) * 4 + 3
                       : static_cast<int>(r_.between(0, 4)) * 4 + static_cast<int>(r_.between(0, 2));
    }
    void add(std::int64_t t, const std::string& fields) {
        if (t < end_) events_.emplace_back(t, fields);
    }
    void give(const std::string& who, int place, std::int64_t from, std::int64_t until, int count) {
        for (int g = 0; g < count; ++g) {
            const std::int64_t t = from + 60 + (until - from - 120) * g / count;
            add(t, "\"kind\":\"give\"," + at(t) + "," + text("place", name("unit-", place)) + "," + who + "," +
                       text("patient", name("p", patient_++)));
        }
    }
    void move(const std::string& who, std::int64_t t, int from, int to, int doses) {
        add(t, "\"kind\":\"move\"," + at(t) + "," + who + ",\"from\":{" + text("place", name("unit-", from)) +
                   "},\"to\":{" + text("place", name("unit-", to)) + "},\"doses\":" + std::to_string(doses));
    }
    void stay(int place, std::int64_t from, std::int64_t until) {
        if (from < end_) book_.stays.push_back({place, from, std::min(until, end_)});
    }

    /// Received in one place, half moved to a second, some back again (a join), given from both until none is left.
    void life_of_lot(int n, int gives) {
        const int product = static_cast<int>(r_.between(0, 7));
        const bool fz = product % 4 == 3;
        const int a = some_place(fz);
        int b = some_place(fz);
        if (b == a) b = (a + 4) % places;
        const std::int64_t life = r_.between(40, 140) * 86400;
        const std::int64_t t0 = first_at + r_.between(0, (end_ - first_at - life / 2) / 60) * 60;
        const std::int64_t t1 = t0 + life / 5 / 60 * 60, t2 = t0 + life / 2 / 60 * 60, t3 = t0 + life * 4 / 5 / 60 * 60,
                           t4 = t0 + life / 60 * 60;
        const std::string who = text("product", name("product-", product)) + "," + text("lot", name("L", n));
        define("\"kind\":\"lot\"," + who + ",\"expiry\":\"2031-12\"");
        const int each = gives * 2 / 7;
        const auto in = [&](int place) { return text("place", name("unit-", place)) + "," + who; };
        add(t0, "\"kind\":\"receive\"," + at(t0) + "," + in(a) + ",\"doses\":" + std::to_string(4 * each));
        give(who, a, t0, t1, each);
        move(who, t1, a, b, 2 * each);
        give(who, b, t1, t2, each);
        move(who, t2, b, a, each / 2);
        give(who, a, t2, t3, each);
        give(who, b, t2, t4 - 600, each / 2 - 1);
        for (const int place : {a, b}) add(t4, "\"kind\":\"count\"," + at(t4) + "," + in(place) + ",\"doses\":0");
        stay(a, t0, t1);
        stay(a, t1, t2);
        stay(b, t1, t2);
        stay(a, t2, t4);
        stay(b, t2, t4);
    }

    int quarters_;
    std::int64_t end_;
    Book book_;
    std::vector<std::pair<std::int64_t, std::string>> events_;  // each with its instant
    Random r_{99};
    int patient_ = 0;
};

}  // namespace

Book book_of(int quarters, int gives) { return BookMaker(quarters).make(gives); }

}  // namespace bench
