// Answers about quantities, one a line of standard input, for the checks against other libraries: too many for the
// command line.
//   resolve ZONE YYYY-MM-DD HH MM SS   the instants at which the zone's clock shows it
//   offset ZONE SECONDS                seconds to add to UTC
//   end ZONE YYYY-MM-DD                end of the day
//   instant TEXT                       an instant with its offset
//   expiry TEXT, next YYYY-MM-DD       dates
//   add|sub|mul|div|cmp N N            rationals
//   sum N/D ...                        an exposure sum
//   gs1 YEAR HEX                       elements of a scanned code (its bytes in hex), lengths before the values, and
//                                      its expiry
#include <iostream>
#include <map>
#include <sstream>

#include "coldtally/error.hpp"
#include "coldtally/gs1.hpp"
#include "coldtally/quantities.hpp"
#include "exposure/sum.hpp"

using namespace coldtally;

namespace {

const Zone& zone(const std::string& name) {
    static std::map<std::string, Zone> zones;
    auto it = zones.find(name);
    if (it == zones.end()) it = zones.emplace(name, Zone(name)).first;
    return it->second;
}

void answer(std::istream& in, std::ostream& out) {
    std::string what, a, b;
    in >> what;
    if (what == "resolve") {
        int h = 0, m = 0, s = 0;
        in >> a >> b >> h >> m >> s;
        const auto c = zone(a).candidates(Date::parse(b), h, m, s);
        if (c.count > 0) out << c.first.seconds_since_1970();
        if (c.count > 1) out << ' ' << c.second.seconds_since_1970();
    } else if (what == "offset") {
        std::int64_t t = 0;
        in >> a >> t;
        out << zone(a).offset_at(Instant(t)).seconds();
    } else if (what == "end") {
        in >> a >> b;
        out << zone(a).end_of_day(Date::parse(b)).seconds_since_1970();
    } else if (what == "instant") {
        in >> a;
        out << parse_instant(a, zone("UTC")).seconds_since_1970();
    } else if (what == "expiry") {
        in >> a;
        out << Date::parse_expiry(a).text();
    } else if (what == "next") {
        in >> a;
        out << Date::parse(a).next().text();
    } else if (what == "gs1") {
        int year = 0;
        in >> year >> a;
        std::string code;
        for (std::size_t i = 0; i + 1 < a.size(); i += 2)
            code += static_cast<char>(std::stoi(a.substr(i, 2), nullptr, 16));
        const Gs1Scan scan = parse_gs1_scan(code, year);
        for (const auto& e : scan.elements) out << '(' << e.ai << ')' << e.value.size() << ':' << e.value << ' ';
        out << (scan.expiry ? Date::parse_expiry(*scan.expiry).text() : "none");
    } else if (what == "sum") {
        exposure::Sum sum;
        std::int64_t n = 0, d = 0;
        for (char slash; in >> n >> slash >> d;) sum.add(Wide(n), Wide(d));
        out << sum.total().text();
    } else {
        in >> a >> b;
        const Rational x = Rational::parse(a), y = Rational::parse(b);
        if (what == "add") out << (x + y).text();
        if (what == "sub") out << (x - y).text();
        if (what == "mul") out << (x * y).text();
        if (what == "div") out << (x / y).text();
        if (what == "cmp") out << (x < y ? -1 : x > y ? 1 : 0);
    }
}

}  // namespace

int main() {
    std::ios::sync_with_stdio(false);
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream in(line);
        std::ostringstream out;
        try {
            answer(in, out);
        } catch (const Error&) {
            out.str("refused");
        }
        std::cout << out.str() << '\n';
    }
}
