#include "questions.hpp"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <utility>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "conditions/kinetic.hpp"

using namespace coldtally;
using Json = nlohmann::ordered_json;

namespace published {

namespace {

const Instant start = parse_instant("2026-03-02T00:00:00Z", Zone("UTC"));
const Instant posted = parse_instant("2198-01-01T00:00:00Z", Zone("UTC"));

/// A ledger in a file of its own, with one site in UTC.
class Clinic {
public:
    Clinic() : path_(folder() / ("coldtally-published-" + std::to_string(getpid()))) {
        remove();
        ledger_.emplace(path_.string(), Ledger::Mode::create);
        post({{"kind", "site"}, {"name", "Cases"}, {"zone", "UTC"}, {"stale_after_s", 0}});
    }
    ~Clinic() {
        ledger_.reset();
        remove();
    }
    Clinic(const Clinic&) = delete;
    Clinic& operator=(const Clinic&) = delete;

    void post(Json entry) {
        entry["by"] = "PV";
        entries_ += entry.dump() + "\n";
    }
    /// With all that was posted, in one batch.
    const Ledger& ledger() {
        if (!entries_.empty()) ledger_->post(std::exchange(entries_, ""), posted);
        return *ledger_;
    }

    void place(const Json& range, std::int64_t max_gap_s = 100'000'000) {
        post({{"kind", "place"},
              {"place", "unit"},
              {"name", "Unit"},
              {"type", "refrigerator"},
              {"range", range},
              {"max_gap_s", max_gap_s},
              {"near_s", 0}});
    }
    void probe(const std::string& scale) {
        post({{"kind", "probe"}, {"probe", "p"}, {"scale", scale}});
        post({{"kind", "assign"}, {"at", (start - Duration(3600)).text()}, {"probe", "p"}, {"place", "unit"}});
        scale_ = scale;
    }
    /// The product with one lot of which ten doses are in the unit from the start on.
    void stock(Json product, const std::string& expiry = "2199-12-31") {
        product["kind"] = "product";
        product["product"] = "v";
        product["name"] = "V";
        post(product);
        post({{"kind", "lot"}, {"product", "v"}, {"lot", "1"}, {"expiry", expiry}});
        post({{"kind", "receive"},
              {"at", start.text()},
              {"place", "unit"},
              {"product", "v"},
              {"lot", "1"},
              {"doses", 10}});
    }
    void readings(const std::vector<std::pair<Instant, std::string>>& rows) {
        Json list = Json::array();
        for (const auto& [at, temperature] : rows) list.push_back({at.text(), temperature});
        post({{"kind", "readings"}, {"probe", "p"}, {"scale", scale_}, {"rows", list}});
    }
    ListsAnswer::Row listed(Instant at) { return ledger().lists({at, std::nullopt}, posted).holdings.at(0); }

private:
    /// In memory where the system has such a place: nothing here needs to survive.
    static std::filesystem::path folder() {
        return access("/dev/shm", W_OK) == 0 ? std::filesystem::path("/dev/shm")
                                             : std::filesystem::temp_directory_path();
    }
    void remove() {
        for (const char* tail : {"", "-wal", "-shm", "-journal"}) std::filesystem::remove(path_.string() + tail);
    }
    std::filesystem::path path_;
    std::optional<Ledger> ledger_;
    std::string entries_;
    std::string scale_;
};

/// Words of a case, read one by one.
class Words {
public:
    explicit Words(const std::string& text) : text_(text) {
        std::istringstream in(text);
        for (std::string w; in >> w;) words_.push_back(w);
    }
    bool done() const { return next_ == words_.size(); }
    std::string word() {
        if (done()) throw std::invalid_argument("'" + text_ + "' ends too early");
        return words_[next_++];
    }
    bool take(const std::string& w) {
        if (done() || words_[next_] != w) return false;
        ++next_;
        return true;
    }
    void expect(const std::string& w) {
        if (!take(w)) throw std::invalid_argument("'" + text_ + "': no '" + w + "' where it should be");
    }
    std::int64_t number() { return std::stoll(word()); }
    /// "60 min"
    Duration duration() {
        const std::int64_t n = number();
        const std::map<std::string, std::int64_t> units = {{"s", 1}, {"min", 60}, {"h", 3600}, {"d", 86400}};
        return Duration(n * units.at(word()));
    }

private:
    std::string text_;
    std::vector<std::string> words_;
    std::size_t next_ = 0;
};

std::vector<std::string> split(const std::string& text, char separator) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string s; std::getline(in, s, separator);) {
        const auto from = s.find_first_not_of(' ');
        if (from != std::string::npos) out.push_back(s.substr(from, s.find_last_not_of(' ') - from + 1));
    }
    return out;
}

/// "C 2 8 F 36 46": a range stated in one scale or in both; "-" leaves a side open.
Json range(Words& w) {
    Json out;
    while (!w.done()) {
        const std::string scale = w.take("C") ? "C" : w.take("F") ? "F" : "";
        if (scale.empty()) break;
        for (const char* side : {"low", "high"})
            if (const auto t = w.word(); t != "-") out[side][scale] = t;
    }
    return out;
}

std::string moved(const std::string& temperature, std::int32_t thousandths) {
    return Temperature(Scale::C, Temperature::parse(temperature, Scale::C).thousandths() + thousandths).text();
}

struct Profile {
    std::vector<std::pair<Instant, std::string>> rows;
    Instant end;
};

/// "60 min at 45, 30 min from 6 to 10": one stretch after the other, one second for the change between two.
Profile profile(const std::string& text) {
    Profile out;
    Instant t = start;
    for (const auto& stretch : split(text, ',')) {
        Words w(stretch);
        const Duration length = w.duration();
        const bool level = w.take("at");
        if (!level) w.expect("from");
        const std::string first = w.word();
        if (!level) w.expect("to");
        const std::string last = level ? first : w.word();
        if (!out.rows.empty()) t = t + Duration(1);
        out.rows.emplace_back(t, first);
        t = t + length;
        out.rows.emplace_back(t, last);
    }
    out.end = t;
    return out;
}

std::string decimal(const Rational& r) {
    const Rational thousandths = r * Rational(1000);
    return thousandths.is_whole() ? Temperature(Scale::C, static_cast<std::int32_t>(thousandths.floor())).text()
                                  : r.text();
}

// ---- the questions

/// given: a range; input: "35.9 F". On which side of the range is a reading?
std::string side_of_a_reading(const std::string& given, const std::string& input) {
    Words g(given), w(input);
    Clinic clinic;
    clinic.place(range(g));
    const std::string temperature = w.word();
    clinic.probe(w.word());
    clinic.readings({{start, temperature}});
    const auto found =
        clinic.ledger().excursions("unit", start, start + Duration(1), {start + Duration(1), std::nullopt}, posted);
    if (found.excursions.empty()) return "inside";
    return std::string(side_name(found.excursions.at(0).side));
}

/// input: an expiry as printed. The last day on which the doses are not on the list of what is expired.
std::string last_usable_day(const std::string&, const std::string& input) {
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    clinic.post({{"kind", "product"}, {"product", "v"}, {"name", "V"}, {"range", {{"high", {{"C", "8"}}}}}});
    clinic.post({{"kind", "lot"}, {"product", "v"}, {"lot", "1"}, {"expiry", input}});
    try {
        clinic.ledger();
    } catch (const Error&) {
        return "refused";
    }
    clinic.post({{"kind", "receive"},
                 {"at", "1970-01-01T00:00:00Z"},
                 {"place", "unit"},
                 {"product", "v"},
                 {"lot", "1"},
                 {"doses", 1}});
    const auto far = parse_instant("2197-12-31T00:00:00Z", Zone("UTC"));
    const std::string day = clinic.ledger().stock({far, std::nullopt}, posted).holdings.at(0).expiry.text();
    const Instant last_second = parse_instant(day + "T23:59:59Z", Zone("UTC"));
    const bool usable = clinic.listed(last_second).list != List::discard,
               expired = clinic.listed(last_second + Duration(1)).list == List::discard;
    return usable && expired ? day : day + ", but not to its last second";
}

/// input: "expiry 2026-12-31, 28 d from 2026-03-02T10:00:00Z". The first instant at which the doses are on the discard
/// list.
std::string first_unusable_instant(const std::string&, const std::string& input) {
    const auto parts = split(input, ',');
    Words expiry(parts.at(0));
    expiry.expect("expiry");
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    Json product = {{"range", {{"high", {{"C", "8"}}}}}};
    std::string opened;
    if (parts.size() > 1) {
        Words period(parts[1]);
        product["beyond_use"] = {{"first use", period.duration().seconds()}};
        period.expect("from");
        opened = period.word();
    }
    clinic.stock(product, expiry.word());
    if (!opened.empty())
        clinic.post({{"kind", "beyond-use"},
                     {"at", opened},
                     {"place", "unit"},
                     {"product", "v"},
                     {"lot", "1"},
                     {"event", "first use"}});
    Instant usable = start, unusable = parse_instant("2190-01-01T00:00:00Z", Zone("UTC"));
    while (unusable - usable > Duration(1)) {
        const Instant middle = usable + Duration((unusable - usable).seconds() / 2);
        (clinic.listed(middle).list == List::discard ? unusable : usable) = middle;
    }
    return unusable.text();
}

/// given: ">= 45 C single >= 60 min" or "> 8 C cumulative > 600 min"; input: a profile. Does it alarm?
/// A strict bound is a limit of the normal range; one that itself alarms is a band (above) or a freeze limit (below),
/// since bands and the freeze limit include their ends.
std::string alarm(const std::string& given, const std::string& input) {
    Words g(given);
    const std::string relation = g.word(), bound = g.word(), scale = g.word(), kind = g.word(), than = g.word();
    const Duration length = g.duration();
    const auto limit = [&](const std::string& t) { return Json{{scale, t}}; };
    const std::string hottest = scale == "C" ? "1000" : "1832";
    Json place_range, product;
    std::function<Rational(const Exposure&)> time;
    if (relation == ">") {
        place_range = product["range"] = {{"high", limit(bound)}};
        time = [](const Exposure& e) { return e.warm.estimate; };
    } else if (relation == ">=") {
        place_range = product["range"] = {{"high", limit(moved(bound, -1))}};
        product["allowances"] = {
            {{"band", {{"low", limit(bound)}, {"high", limit(hottest)}}}, {"seconds", 1}, {"source", "the alarm"}}};
        time = [](const Exposure& e) { return e.allowances.at(0); };
    } else if (relation == "<") {
        place_range = product["range"] = {{"low", limit(bound)}};
        time = [](const Exposure& e) { return e.cold.estimate; };
    } else if (relation == "<=") {
        place_range = {{"low", limit(moved(bound, 1))}};
        product["range"] = {{"high", limit(hottest)}};
        product["freeze_limit"] = limit(bound);
        time = [](const Exposure& e) { return e.frozen.estimate; };
    } else {
        throw std::invalid_argument(relation);
    }
    const Profile p = profile(input);
    Clinic clinic;
    clinic.place(place_range);
    clinic.probe(scale);
    clinic.stock(product);
    clinic.readings(p.rows);
    Rational longest;
    if (kind == "cumulative") {
        longest = time(clinic.listed(p.end).history.total);
    } else if (kind == "single") {
        for (const auto& e : clinic.ledger().excursions("unit", start, p.end, {p.end, std::nullopt}, posted).excursions)
            for (const auto& inside : e.holdings) longest = std::max(longest, time(inside.exposure));
    } else {
        throw std::invalid_argument(kind);
    }
    const Rational needed(length.seconds());
    return (than == ">=" ? longest >= needed : longest > needed) ? "yes" : "no";
}

/// given: "a 10000", or "E 83.144 R 0.0083144" (kJ/mol, kJ/(K mol)), whose quotient is taken in whole kelvin; input:
/// temperatures of equal weight, or "18 h at 5, 6 h at 14"; hours need not be whole.
std::string mean_kinetic(const std::string& given, const std::string& input) {
    Words g(given);
    std::int64_t a = 0;
    if (g.take("E")) {
        const double energy = std::stod(g.word());
        g.expect("R");
        a = std::llround(energy / std::stod(g.word()));
    } else {
        g.expect("a");
        a = g.number();
    }
    std::vector<std::pair<Rational, std::string>> weighted;
    bool whole = true;
    for (const auto& part : split(input, ',')) {
        Words w(part);
        const std::string first = w.word();
        if (w.done()) {
            weighted.emplace_back(1, first);
            continue;
        }
        const auto point = first.find('.');
        const std::string digits = point == std::string::npos ? "" : first.substr(point + 1);
        std::int64_t scale = 1;
        for (std::size_t i = 0; i < digits.size(); ++i) scale *= 10;
        const Rational weight(std::stoll(first.substr(0, point) + digits), scale);
        w.expect("h");
        w.expect("at");
        weighted.emplace_back(weight, w.word());
        whole = whole && weight.is_whole();
    }
    std::map<Rational, Rational> weights;
    for (const auto& [weight, t] : weighted) weights[Temperature::parse(t, Scale::C).celsius()] += weight;
    const std::string direct = answers::mean_kinetic_C(weights, a);
    if (!whole) return direct;
    // the same through readings an hour apart that end as they began: every temperature then has two half hours at each
    // of its readings, whatever its neighbours are
    std::vector<std::pair<Instant, std::string>> rows;
    Instant t = start;
    for (const auto& [weight, temperature] : weighted)
        for (std::int64_t i = 0; i < weight.floor(); ++i, t = t + Duration(3600)) rows.emplace_back(t, temperature);
    rows.emplace_back(t, rows.front().second);
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    clinic.probe("C");
    clinic.readings(rows);
    const std::string by_ledger =
        clinic.ledger().conditions("unit", start, t, {t, std::nullopt}, posted, a).mean_kinetic_C.value();
    return by_ledger == direct ? direct : direct + " and " + by_ledger;
}

/// given: "C 20 25, allowance C 15 30 24 h, freeze -0.5"; input: a profile. The list, with its reasons.
std::string list_and_reasons(const std::string& given, const std::string& input) {
    Json product;
    for (const auto& part : split(given, ',')) {
        Words w(part);
        if (w.take("allowance")) {
            const Json band = range(w);
            product["allowances"].push_back(
                {{"band", band}, {"seconds", w.duration().seconds()}, {"source", "the table"}});
        } else if (w.take("freeze")) {
            product["freeze_limit"] = {{"C", w.word()}};
        } else {
            product["range"] = range(w);
        }
    }
    const Profile p = profile(input);
    Clinic clinic;
    clinic.place(product["range"]);
    clinic.probe("C");
    clinic.stock(product);
    clinic.readings(p.rows);
    const auto row = clinic.listed(p.end);
    std::string out(list_name(row.list));
    for (const auto& reason : row.reasons)
        out.append(&reason == &row.reasons.front() ? ": " : ", ").append(reason_name(reason));
    return out;
}

/// given: a correction table "21.521 -0.171, ..."; input: the indicated temperature. The corrected one.
std::string corrected_reading(const std::string& given, const std::string& input) {
    Json correction = Json::array();
    for (const auto& part : split(given, ',')) {
        Words w(part);
        const std::string indicated = w.word();
        correction.push_back({indicated, w.word()});
    }
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    clinic.probe("C");
    clinic.post({{"kind", "certificate"},
                 {"at", (start - Duration(60)).text()},
                 {"probe", "p"},
                 {"expires", "2030-01-01"},
                 {"correction", correction}});
    clinic.readings({{start, input}});
    const auto c = clinic.ledger().conditions("unit", start, start, {start, std::nullopt}, posted);
    return decimal(c.lowest_C.value());
}

/// given: "C 2 8 U 0.5"; input: a temperature. What the three readings of an hour at it (at least, estimate, at most)
/// say.
std::string conformity(const std::string& given, const std::string& input) {
    const auto at = given.find(" U ");
    Words g(given.substr(0, at));
    const Json limits = range(g);
    Clinic clinic;
    clinic.place(limits);
    clinic.probe(given.substr(0, 1));
    clinic.post({{"kind", "certificate"},
                 {"at", (start - Duration(60)).text()},
                 {"probe", "p"},
                 {"expires", "2030-01-01"},
                 {"tolerance", given.substr(at + 3)}});
    clinic.stock({{"range", limits}});
    const Instant end = start + Duration(3600);
    clinic.readings({{start, input}, {end, input}});
    const Exposure e = clinic.listed(end).history.total;
    const auto any = [&](Rational SideExposure::*of) { return (e.warm.*of + e.cold.*of).sign() > 0; };
    if (any(&SideExposure::at_least)) return "fail";
    if (any(&SideExposure::estimate)) return "conditional fail";
    return any(&SideExposure::at_most) ? "conditional pass" : "pass";
}

/// input: "36 F" or "2 C". The same in °C, as the answers print it.
std::string celsius(const std::string&, const std::string& input) {
    Words w(input);
    const std::string temperature = w.word(), scale = w.word();
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    clinic.probe(scale);
    clinic.readings({{start, temperature}});
    return clinic.ledger().conditions("unit", start, start, {start, std::nullopt}, posted).lowest_C.value().text();
}

/// input: "flu AAJN11K 2015-02-15, ...": product, lot, expiry. What the stock says of them.
std::string lots(const std::string&, const std::string& input) {
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    for (const auto& part : split(input, ',')) {
        Words w(part);
        const std::string product = w.word(), lot = w.word(), expiry = w.word();
        clinic.post(
            {{"kind", "product"}, {"product", product}, {"name", product}, {"range", {{"high", {{"C", "8"}}}}}});
        clinic.post({{"kind", "lot"}, {"product", product}, {"lot", lot}, {"expiry", expiry}});
        clinic.post({{"kind", "receive"},
                     {"at", "2010-01-01T00:00:00Z"},
                     {"place", "unit"},
                     {"product", product},
                     {"lot", lot},
                     {"doses", 1}});
    }
    std::string out;
    for (const auto& row : clinic.ledger().stock({start, std::nullopt}, posted).holdings)
        out += (out.empty() ? "" : ", ") + row.holding.product + " " + row.holding.lot + " " + row.expiry.text();
    return out;
}

/// input: a CVX code. The code that the ledger keeps.
std::string cvx(const std::string&, const std::string& input) {
    Clinic clinic;
    clinic.post(
        {{"kind", "product"}, {"product", "v"}, {"name", "V"}, {"range", {{"high", {{"C", "8"}}}}}, {"cvx", input}});
    std::string kept = "none";
    clinic.ledger().for_each_entry([&](const Entry& e) {
        if (const auto* p = std::get_if<Product>(&e.fact)) kept = p->cvx.value();
    });
    return kept;
}

/// given: "max gap 1800 s"; input: "1800 s" between two readings. The class of the time between them.
std::string class_between(const std::string& given, const std::string& input) {
    Words g(given), w(input);
    g.expect("max");
    g.expect("gap");
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}}, g.duration().seconds());
    clinic.probe("C");
    const Instant end = start + w.duration();
    clinic.readings({{start, "5"}, {end, "5"}});
    const auto c = clinic.ledger().conditions("unit", start, end, {end, std::nullopt}, posted);
    std::string out;
    for (int i = 0; i < class_count; ++i)
        if (c.seconds[static_cast<std::size_t>(i)].sign() > 0)
            out += (out.empty() ? "" : ", ") + std::string(class_name(static_cast<Class>(i)));
    return out;
}

ScanAnswer scanned(std::string code, int year) {
    for (std::size_t at = code.find("{GS}"); at != std::string::npos; at = code.find("{GS}"))
        code.replace(at, 4, "\x1D");
    Clinic clinic;
    return clinic.ledger().scan(
        code, {parse_instant(std::to_string(year) + "-07-01T00:00:00Z", Zone("UTC")), std::nullopt}, posted);
}

/// input: a number without its check digit; the one digit that is taken after it.
std::string gs1_check_digit(const std::string&, const std::string& input) {
    std::string out;
    for (char digit = '0'; digit <= '9'; ++digit) {
        const std::string whole = input + digit;
        if (whole.size() != 18 && !gtin_14(whole)) continue;
        const std::string code =
            whole.size() == 18 ? "(00)" + whole : "(01)" + std::string(14 - whole.size(), '0') + whole;
        try {
            scanned(code, 2026);
            out += digit;
        } catch (const Error&) {
        }
    }
    return out;
}

std::string gs1_elements(const std::string&, const std::string& input) {
    try {
        std::string out;
        for (const auto& e : scanned(input, 2026).scan.elements)
            out += (out.empty() ? "(" : " (") + e.ai + ")" + e.value;
        return out;
    } catch (const Error&) {
        return "refused";
    }
}

/// given: the year it is; input: what (17) holds.
std::string gs1_expiry(const std::string& given, const std::string& input) {
    try {
        return Date::parse_expiry(scanned("(17)" + input, std::stoi(given)).scan.expiry.value()).text();
    } catch (const Error&) {
        return "refused";
    }
}

std::string contents(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::invalid_argument("'" + path + "' cannot be read");
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string fhir_example(const std::string& name) {
    return contents(std::string(COLDTALLY_FHIR) + "/Immunization-" + name + ".json");
}

std::string concept_words(const Immunization::Concept& c) {
    std::string out;
    for (const auto& code : c.codes) out += (out.empty() ? "" : ", ") + code.system + " " + code.code;
    return out.empty() ? "none" : out;
}

std::string or_none(const std::optional<std::string>& value) { return value.value_or("none"); }

/// given: an official example; input: a field. What is read of it.
std::string fhir_field(const std::string& given, const std::string& input) {
    const Immunization r = parse_immunizations(fhir_example(given)).records.at(0).record;
    std::string reasons;
    for (const auto& reason : r.subpotent_reasons) reasons += concept_words(reason);
    const std::string quantity =
        r.dose_quantity ? or_none(r.dose_quantity->value) + " " + or_none(r.dose_quantity->code) : "none";
    const std::map<std::string, std::string> fields = {
        {"status", r.status},
        {"statusReason", r.status_reason ? concept_words(*r.status_reason) : "none"},
        {"vaccineCode", concept_words(r.vaccine)},
        {"occurrenceDateTime", or_none(r.occurrence_date_time)},
        {"occurrenceString", or_none(r.occurrence_text)},
        {"lotNumber", or_none(r.lot)},
        {"expirationDate", or_none(r.expiration)},
        {"doseQuantity", quantity},
        {"isSubpotent", !r.subpotent ? "none" : *r.subpotent ? "true" : "false"},
        {"subpotentReason", reasons.empty() ? "none" : reasons},
        {"primarySource", !r.primary_source ? "none" : *r.primary_source ? "true" : "false"},
    };
    return fields.at(input);
}

/// given: an official example; input: what is taken out of it. Is it still a record?
std::string fhir_without(const std::string& given, const std::string& input) {
    Json record = Json::parse(fhir_example(given));
    Words w(input);
    while (!w.done())
        if (record.erase(w.word()) == 0) throw std::invalid_argument("'" + input + "' is not in it");
    try {
        return parse_immunizations(record.dump()).records.size() == 1 ? "read" : "none";
    } catch (const Error& e) {
        return e.code() == Code::missing_field ? "refused" : e.what();
    }
}

/// input: the ends of lines. How many records of two are read.
std::string fhir_lines(const std::string&, const std::string& input) {
    const std::string end = input == "LF"      ? "\n"
                            : input == "CR LF" ? "\r\n"
                                               : throw std::invalid_argument("'" + input + "' is no line end");
    std::string text;
    for (const char* name : {"protocol", "historical"}) text += Json::parse(fhir_example(name)).dump() + end;
    return std::to_string(parse_immunizations(text).records.size());
}

/// What the ledger writes of a dose given of a product with a CVX code.
Json fhir_written(const std::string& code) {
    Clinic clinic;
    clinic.place({{"high", {{"C", "8"}}}});
    clinic.stock({{"range", {{"high", {{"C", "8"}}}}}, {"cvx", code}});
    clinic.post(
        {{"kind", "give"}, {"at", start.text()}, {"place", "unit"}, {"product", "v"}, {"lot", "1"}, {"patient", "t"}});
    clinic.post(
        {{"kind", "give"}, {"at", start.text()}, {"place", "unit"}, {"product", "v"}, {"lot", "1"}, {"patient", "u"}});
    const std::string lines =
        to_ndjson(clinic.ledger().immunizations({start + Duration(1), std::nullopt}, std::nullopt, posted));
    if (std::count(lines.begin(), lines.end(), '\n') != 2 || lines.find('\r') != std::string::npos ||
        lines.back() != '\n')
        return Json();
    return Json::parse(lines.substr(0, lines.find('\n')));
}

/// input: a CVX code of a product. System and code of what is written; of what is written is read again.
std::string fhir_cvx(const std::string&, const std::string& input) {
    const Json record = fhir_written(input);
    const auto again = parse_immunizations(record.dump()).records.at(0).record.vaccine;
    const std::string written = record["vaccineCode"]["coding"][0]["system"].get<std::string>() + " " +
                                record["vaccineCode"]["coding"][0]["code"].get<std::string>();
    return concept_words(again) == written ? written : "read again: " + concept_words(again);
}

/// input: a field. Is it in what is written?
std::string fhir_has(const std::string&, const std::string& input) {
    const Json record = fhir_written("03");
    return record.contains(input) ? "written" : "not written";
}

}  // namespace

std::string answer(const std::string& question, const std::string& given, const std::string& input) {
    const std::map<std::string, std::string (*)(const std::string&, const std::string&)> questions = {
        {"side of a reading", side_of_a_reading},
        {"last usable day", last_usable_day},
        {"first unusable instant", first_unusable_instant},
        {"alarm", alarm},
        {"mean kinetic temperature", mean_kinetic},
        {"list and reasons", list_and_reasons},
        {"corrected reading", corrected_reading},
        {"statement of conformity", conformity},
        {"temperature in °C", celsius},
        {"lots in stock", lots},
        {"CVX code kept", cvx},
        {"class between readings", class_between},
        {"FHIR field", fhir_field},
        {"FHIR record without a field", fhir_without},
        {"FHIR records of two lines", fhir_lines},
        {"FHIR coding of a CVX code", fhir_cvx},
        {"FHIR field of a dose given", fhir_has},
        {"GS1 check digit", gs1_check_digit},
        {"GS1 elements", gs1_elements},
        {"GS1 expiry", gs1_expiry},
    };
    const auto it = questions.find(question);
    if (it == questions.end()) throw std::invalid_argument("'" + question + "' is not a question");
    return it->second(given, input);
}

}  // namespace published
