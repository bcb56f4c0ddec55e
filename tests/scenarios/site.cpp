#include "site.hpp"

#include <catch2/catch.hpp>

#include <deque>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "coldtally/ledger.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace scenarios {

namespace {

using Json = nlohmann::json;

[[noreturn]] void unreadable(const std::string& what) { throw std::invalid_argument("cannot read the row: " + what); }

std::string trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) return "";
    return std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

// ---- what a row says

/// "08:00", "08:00:30", "03-04T08:00", "2027-03-04T08:00:30" -> RFC 3339
std::string time_text(const std::string& word) {
    std::string day = "2026-03-02", clock = word;
    if (const auto t = word.find('T'); t != std::string::npos) {
        day = (t == 5 ? "2026-" : "") + word.substr(0, t);
        clock = word.substr(t + 1);
    }
    if (clock.size() == 5) clock += ":00";
    if (day.size() != 10 || clock.size() != 8) unreadable("time " + word);
    return day + "T" + clock + "Z";
}

Instant instant(const std::string& word) { return parse_instant(time_text(word), Zone("UTC")); }

bool is_date(const std::string& word) { return word.size() == 10 && word.find('T') == std::string::npos; }

/// "8" and "8C" -> {"C":"8"}, "46F" -> {"F":"46"}, "8C/46F" -> both
Json limit(const std::string& word) {
    Json out = Json::object();
    std::istringstream in(word);
    for (std::string part; std::getline(in, part, '/');) {
        const bool letter = part.back() == 'C' || part.back() == 'F';
        out[letter ? part.substr(part.size() - 1) : "C"] = letter ? part.substr(0, part.size() - 1) : part;
    }
    return out;
}

class Words {
public:
    explicit Words(const std::string& text) {
        std::istringstream in(text);
        for (std::string w; in >> w;) words_.push_back(w);
    }
    bool empty() const { return words_.empty(); }
    std::string next() {
        if (words_.empty()) unreadable("a word is missing");
        std::string out = words_.front();
        words_.pop_front();
        return out;
    }
    std::int64_t number() { return std::stoll(next()); }
    bool take(const std::string& word) {
        if (words_.empty() || words_.front() != word) return false;
        words_.pop_front();
        return true;
    }
    /// A word and what follows it, wherever they stand: "fund state".
    std::string option(const std::string& name) {
        for (std::size_t i = 0; i + 1 < words_.size(); ++i)
            if (words_[i] == name) {
                std::string out = words_[i + 1];
                words_.erase(words_.begin() + static_cast<std::ptrdiff_t>(i),
                             words_.begin() + static_cast<std::ptrdiff_t>(i + 2));
                return out;
            }
        return "";
    }
    std::string rest() {
        std::string out;
        for (const auto& w : words_) out += (out.empty() ? "" : " ") + w;
        words_.clear();
        return out;
    }

private:
    std::deque<std::string> words_;
};

/// "main:bag" into a place and a mark; a mark only where there is a colon.
void put_place(Json& entry, const std::string& word) {
    const auto colon = word.find(':');
    if (colon != 0) entry["place"] = word.substr(0, colon);
    if (colon != std::string::npos) entry["mark"] = word.substr(colon + 1);
}

void put_range(Json& entry, Words& w) {
    Json range = Json::object();
    const std::string low = w.next(), high = w.next();
    if (low != "-") range["low"] = limit(low);
    if (high != "-") range["high"] = limit(high);
    entry["range"] = range;
}

void put_holding(Json& entry, Words& w) {
    put_place(entry, w.next());
    entry["product"] = w.next();
    entry["lot"] = w.next();
}

Json empty_history() {
    const Json side = {
        {"at_least_s", "0"}, {"estimate_s", "0"}, {"at_most_s", "0"}, {"degree_Cs", "0"}, {"open_s", "0"}};
    return {{"warm", side},
            {"cold", side},
            {"frozen", side},
            {"allowances", Json::array()},
            {"beyond", {{"warm_s", "0"}, {"warm_open_s", "0"}, {"cold_s", "0"}, {"cold_open_s", "0"}}},
            {"points", 0},
            {"points_open", 0},
            {"coverage",
             {{"logged_s", "0"},
              {"bounded_s", "0"},
              {"checked_s", "0"},
              {"near_s", "0"},
              {"awaiting_s", "0"},
              {"unmonitored_s", "0"},
              {"unmonitored_open_s", "0"}}},
            {"lowest_C", nullptr},
            {"highest_C", nullptr},
            {"places", {"clinic/fridge"}},
            {"condemned_by", Json::array()},
            {"held_by", Json::array()},
            {"use_by", nullptr}};
}

/// What `part` states, into the rest.
void state(Json& whole, const Json& part) {
    for (const auto& [key, value] : part.items())
        if (value.is_object() && whole.contains(key) && whole[key].is_object())
            state(whole[key], value);
        else
            whole[key] = value;
}

std::pair<std::string, std::string> split_temperature(const std::string& word) {
    if (word.back() == 'F') return {word.substr(0, word.size() - 1), "F"};
    return {word, "C"};
}

Json event(const std::string& time, Words& w, const std::map<std::string, EntryNumber>& names) {
    const std::string kind = w.next();
    if (kind == "json") return Json::parse(w.rest());
    Json e = {{"kind", kind}, {"by", "AB"}};
    if (const std::string fund = w.option("fund"); !fund.empty()) e["fund"] = fund;
    static const std::map<std::string, int> definitions{
        {"site", 0}, {"product", 0}, {"lot", 0}, {"place", 0}, {"probe", 0}};
    if (kind != "log" && !definitions.contains(kind)) e["at"] = time_text(time);

    if (kind == "site") {
        e["name"] = "Harbour Street";
        const std::string zone = w.option("zone"), unmonitored = w.option("unmonitored"), stale = w.option("stale");
        e["zone"] = zone.empty() ? "UTC" : zone;
        if (!unmonitored.empty()) e["unmonitored_limit_s"] = std::stoll(unmonitored);
        if (!stale.empty()) e["stale_after_s"] = std::stoll(stale);
    } else if (kind == "product") {
        e["product"] = w.next();
        e["name"] = e["product"];
        put_range(e, w);
        while (!w.empty()) {
            if (w.take("freeze")) {
                e["freeze_limit"] = limit(w.next());
            } else if (w.take("allow")) {
                const std::string low = w.next(), high = w.next();
                e["allowances"].push_back({{"band", {{"low", limit(low)}, {"high", limit(high)}}},
                                           {"seconds", w.number()},
                                           {"source", "leaflet"}});
            } else if (w.take("event")) {
                const std::string name = w.next();
                e["beyond_use"][name] = w.number();
            } else {
                unreadable("product: " + w.rest());
            }
        }
    } else if (kind == "lot") {
        e["product"] = w.next();
        e["lot"] = w.next();
        e["expiry"] = w.next();
    } else if (kind == "place") {
        e["place"] = w.next();
        e["name"] = e["place"];
        e["type"] = "refrigerator";
        put_range(e, w);
        const std::string gap = w.option("gap"), check_gap = w.option("checkgap");
        if (!gap.empty()) e["max_gap_s"] = std::stoll(gap);
        if (!check_gap.empty()) e["max_check_gap_s"] = std::stoll(check_gap);
        if (const std::string near = w.option("near"); near.empty())
            e["near_s"] = 0;
        else if (near != "usual")
            e["near_s"] = std::stoll(near);
    } else if (kind == "probe") {
        e["probe"] = w.next();
        e["scale"] = w.next();
    } else if (kind == "certificate") {
        e["probe"] = w.next();
        e["expires"] = w.next();
        if (const std::string tolerance = w.option("tolerance"); !tolerance.empty()) e["tolerance"] = tolerance;
        if (w.take("correct"))
            while (!w.empty()) {
                const std::string row = w.next();
                const auto colon = row.find(':');
                e["correction"].push_back({row.substr(0, colon), row.substr(colon + 1)});
            }
    } else if (kind == "assign") {
        e["probe"] = w.next();
        if (const std::string place = w.next(); place != "-") e["place"] = place;
    } else if (kind == "log") {
        e["kind"] = "readings";
        e["probe"] = w.next();
        e["scale"] = e["probe"] == "f" ? "F" : "C";
        e["rows"] = Json::array();
        const Duration step(w.number());
        for (Instant t = instant(time); !w.empty(); t = t + step)
            if (const std::string value = w.next(); value != "-") e["rows"].push_back({t.text(), value});
    } else if (kind == "check") {
        e["place"] = w.next();
        std::tie(e["temperature"], e["scale"]) = split_temperature(w.next());
        const std::string min = w.option("min"), max = w.option("max"), probe = w.option("probe");
        if (!min.empty()) e["min"] = min;
        if (!max.empty()) e["max"] = max;
        if (!probe.empty()) e["probe"] = probe;
    } else if (kind == "move") {
        e["product"] = w.next();
        e["lot"] = w.next();
        e["doses"] = w.number();
        e["from"] = Json::object();
        put_place(e["from"], w.next());
        if (!w.take(">")) unreadable("move: > is missing");
        e["to"] = Json::object();
        put_place(e["to"], w.next());
    } else if (kind == "hold") {
        e["reason"] = "recall";
        e["product"] = w.next();
        if (w.take("lot")) e["lot"] = w.next();
        if (w.take("in")) put_place(e, w.next());
    } else if (kind == "guidance") {
        e["issuer"] = "maker";
        e["reference"] = "M-1";
        e["product"] = w.next();
        e["lot"] = w.next();
        e["verdict"] = w.next();
        if (e["verdict"] == "use-by") e["use_by"] = w.next();
        const std::string through = w.option("through"), where = w.option("in");
        e["through"] = time_text(through.empty() ? time : through);
        if (!where.empty()) put_place(e, where);
        if (const std::string since = w.option("since"); !since.empty()) e["since"] = instant(since).text();
        if (w.take("told")) {
            for (const char* field : {"out_of_range_s", "unmonitored_s", "points"})
                if (!w.take("-")) e["told"][field] = w.number();
        }
    } else if (kind == "void") {
        const std::string name = w.next();
        e["voids"] = names.contains(name) ? names.at(name) : std::stoll(name);
        e["reason"] = "mistaken";
    } else {
        put_holding(e, w);
        if (kind == "beyond-use") {
            if (w.take("until")) {
                const std::string until = w.next();
                e["use_by"] = is_date(until) ? until : time_text(until);
            } else {
                e["event"] = w.next();
            }
        } else {
            e["doses"] = w.number();
        }
        if (kind == "give") {
            e["patient"] = w.next();
            if (w.take("uncertain")) e["certain"] = false;
        }
        if (kind == "waste" || kind == "return" || kind == "transfer") e["reason"] = "stated";
        if (kind == "transfer") e["to"] = "the other clinic";
        if (kind == "receive" && w.take("handover")) {
            e["handover"] = empty_history();
            state(e["handover"], Json::parse(w.rest()));
        }
    }
    if (!w.empty()) unreadable(kind + ": not understood: " + w.rest());
    return e;
}

// ---- what is answered

/// The short form of a time: what is 2026, or 2026-03-02, is not said.
std::string short_time(Instant t) {
    std::string text = t.text();
    text.pop_back();
    std::string day = text.substr(0, 10), clock = text.substr(11);
    if (clock.substr(5) == ":00") clock.resize(5);
    if (day == "2026-03-02") return clock;
    if (day.substr(0, 5) == "2026-") day = day.substr(5);
    return day + "T" + clock;
}

/// "08:02:30+1/7"
std::string short_time(const Rational& seconds) {
    const std::int64_t whole = seconds.floor();
    const Rational rest = seconds - Rational(whole);
    return short_time(Instant(whole)) + (rest.sign() == 0 ? "" : "+" + rest.text());
}

class Answers {
public:
    explicit Answers(const std::map<EntryNumber, std::string>& names) : names_(names) {}

    static std::string holding(const HoldingKey& k) {
        return k.place + (k.mark.empty() ? "" : ":" + k.mark) + " " + k.product + " " + k.lot +
               (k.fund.empty() ? "" : " fund " + k.fund);
    }
    std::string entry(EntryNumber n) const { return names_.contains(n) ? names_.at(n) : "#" + std::to_string(n); }
    std::string entries(const std::set<EntryNumber>& all) const {
        std::string out;
        for (const auto n : all) out += (out.empty() ? "" : " ") + entry(n);
        return out;
    }
    static std::string open(const Rational& r) { return ", open " + r.text(); }
    static std::string side(const SideExposure& s) {
        return s.at_least.text() + " " + s.estimate.text() + " " + s.at_most.text() + ", " + s.degree_s.text() + " Cs";
    }
    static std::string extremes(const Exposure& e) {
        if (!e.lowest_C && !e.highest_C) return "nothing known";
        return e.lowest_C.value().text() + " to " + e.highest_C.value().text();
    }
    static std::string coverage(const std::array<Rational, class_count>& seconds) {
        std::string out;
        for (int c = 0; c < class_count; ++c)
            if (const Rational& s = seconds[static_cast<std::size_t>(c)]; s.sign() != 0)
                out += (out.empty() ? "" : ", ") + std::string(class_name(Class(c))) + " " + s.text();
        return out.empty() ? "no time" : out;
    }

    /// One quantity of a history in full, or `history`: all that are not 0, empty or null.
    std::string part(const std::string& word, const History& h, const std::vector<Duration>& allowed) const {
        const Exposure& t = h.total;
        const OpenExposure& o = h.open;
        if (word == "warm") return side(t.warm) + open(o.warm);
        if (word == "cold") return side(t.cold) + open(o.cold);
        if (word == "frozen") return side(t.frozen) + open(o.frozen);
        if (word == "allowances") {
            std::string out;
            for (std::size_t i = 0; i < allowed.size(); ++i)
                out += (out.empty() ? "" : "; ") + t.allowances.at(i).text() + " of " +
                       std::to_string(allowed[i].seconds()) + open(o.allowances.at(i));
            return out;
        }
        if (word == "beyond")
            return "warm " + t.beyond_warm.text() + open(o.beyond_warm) + "; cold " + t.beyond_cold.text() +
                   open(o.beyond_cold);
        if (word == "points") return std::to_string(t.points) + ", open " + std::to_string(o.points);
        if (word == "coverage")
            return coverage(t.seconds) +
                   (t.seconds[static_cast<std::size_t>(Class::unmonitored)].sign() != 0 ? open(o.unmonitored) : "");
        if (word == "extremes") return extremes(t);
        if (word == "places") {
            std::string out;
            for (const auto& p : h.places) out += (out.empty() ? "" : " ") + p;
            return out;
        }
        if (word == "condemned") return h.condemned_by.empty() ? "no" : entries(h.condemned_by);
        if (word == "held") return h.held_by.empty() ? "no" : entries(h.held_by);
        if (word == "use-by") return h.use_by ? short_time(*h.use_by) : "none";
        if (word != "history") unreadable("question " + word);

        std::string out = part("coverage", h, allowed);
        const auto add = [&](const char* name, bool there, const char* what) {
            if (there) out += "; " + std::string(name) + " " + part(what, h, allowed);
        };
        add("warm", t.warm.at_most.sign() != 0 || o.warm.sign() != 0, "warm");
        add("cold", t.cold.at_most.sign() != 0 || o.cold.sign() != 0, "cold");
        add("frozen", t.frozen.at_most.sign() != 0 || o.frozen.sign() != 0, "frozen");
        add("allowances", !allowed.empty(), "allowances");
        add("beyond", t.beyond_warm.sign() != 0 || t.beyond_cold.sign() != 0, "beyond");
        add("points", t.points != 0, "points");
        out += "; " + extremes(t);
        add("in", true, "places");
        add("condemned", !h.condemned_by.empty(), "condemned");
        add("held", !h.held_by.empty(), "held");
        add("use-by", h.use_by.has_value(), "use-by");
        return out;
    }

    /// The same for what an excursion did.
    static std::string exposure(const Exposure& e, const std::vector<Duration>& allowed) {
        std::string out = coverage(e.seconds);
        if (e.warm.at_most.sign() != 0) out += "; warm " + side(e.warm);
        if (e.cold.at_most.sign() != 0) out += "; cold " + side(e.cold);
        if (e.frozen.at_most.sign() != 0) out += "; frozen " + side(e.frozen);
        for (std::size_t i = 0; i < allowed.size(); ++i)
            out += "; allowance " + e.allowances.at(i).text() + " of " + std::to_string(allowed[i].seconds());
        if (e.beyond_warm.sign() != 0) out += "; beyond warm " + e.beyond_warm.text();
        if (e.beyond_cold.sign() != 0) out += "; beyond cold " + e.beyond_cold.text();
        if (e.points != 0) out += "; points " + std::to_string(e.points);
        return out + "; " + extremes(e);
    }

private:
    const std::map<EntryNumber, std::string>& names_;
};

std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& p : parts) out += (out.empty() ? "" : ", ") + p;
    return out;
}

std::string with_reasons(std::string_view what, const std::vector<Reason>& reasons) {
    std::vector<std::string> names;
    for (const Reason reason : reasons) names.emplace_back(reason_name(reason));
    return std::string(what) + (names.empty() ? "" : ": " + joined(names));
}

/// A ledger on a temporary file, filled row by row.
class Site {
public:
    Site() {
        ledger_.emplace(file_.path(), Ledger::Mode::create);
        static constexpr const char* standard[] = {"site",
                                                   "product flu 2C/36F 8C/46F",
                                                   "lot flu A1 2026-12-31",
                                                   "lot flu B2 2026-12",
                                                   "place main 2C/36F 8C/46F",
                                                   "place spare 2C/36F 8C/46F",
                                                   "place counter 15C/59F 25C/77F",
                                                   "probe p C",
                                                   "probe q C",
                                                   "probe r C",
                                                   "probe f F",
                                                   "assign p main",
                                                   "assign q spare",
                                                   "assign r counter"};
        static_assert(std::size(standard) == standard_count);
        for (const char* row : standard) {
            Words w(row);
            add(event("01-01T00:00", w, names_));
        }
    }

    void post(const std::string& time, Words w) {
        if (w.take("recorded")) {
            if (posted_ > 0 || waiting_ > EntryNumber{standard_count}) flush();
            recorded_ = instant(time);
            return;
        }
        const std::string name = w.option("as");
        add(event(time, w, names_));
        if (name.empty()) return;
        names_[name] = posted_ + waiting_;
        named_[posted_ + waiting_] = name;
    }

    /// "code: message" where it was refused and the file is as before.
    std::string refused(const std::string& time, Words w) {
        flush();
        const std::string before = bytes();
        try {
            ledger_->post(event(time, w, names_).dump() + "\n", recorded_);
        } catch (const Error& e) {
            return bytes() != before ? "the file has changed" : std::string(code_name(e.code())) + ": " + e.what();
        }
        return "posted";
    }

    std::vector<std::string> answer(const std::string& time, Words w) {
        flush();
        Question question{instant(time), recorded_};
        if (w.take("known")) question.known_on = instant(w.next());
        try {
            return answered(question, w.next(), w);
        } catch (const Error& e) {
            return {"refused: " + std::string(code_name(e.code()))};
        }
    }

    void flush() {
        if (waiting_ == 0) return;
        posted_ = ledger_->post(lines_, recorded_).back();
        lines_.clear();
        waiting_ = 0;
    }

private:
    static constexpr std::size_t standard_count = 14;

    void add(const Json& entry) {
        lines_ += entry.dump() + "\n";
        ++waiting_;
    }

    std::string bytes() const {
        std::ifstream in(file_.path(), std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    }

    static HoldingKey key(Words& w) {
        Json e = Json::object();
        const std::string fund = w.option("fund");
        put_holding(e, w);
        return {e["place"], e["product"], e["lot"], fund, e.value("mark", "")};
    }

    std::vector<std::string> answered(const Question& q, const std::string& what, Words& w) {
        const Answers form(named_);
        std::vector<std::string> out;
        if (what == "stock") {
            const bool all = w.empty();
            const auto holding = all ? HoldingKey() : key(w);
            for (const auto& row : ledger_->stock(q, recorded_).holdings) {
                if (all)
                    out.push_back(Answers::holding(row.holding) + ": " + std::to_string(row.doses.count()) +
                                  ", expiry " + row.expiry.text());
                else if (row.holding == holding) out.push_back(std::to_string(row.doses.count()));
            }
        } else if (what == "accounts") {
            const auto a = ledger_->stock(q, recorded_).accounts;
            std::string line = "supplier " + std::to_string(a.supplier);
            const auto say = [&](const char* name, std::int64_t n) {
                if (n != 0) line += ", " + std::string(name) + " " + std::to_string(n);
            };
            say("patient", a.patient), say("wasted", a.wasted), say("returned", a.returned),
                say("transferred", a.transferred), say("variance", a.variance), say("on hand", a.on_hand);
            out.push_back(line);
        } else if (what == "review" || what == "given") {
            const bool all = what == "given" || w.take("all");
            const std::string token = what == "given" ? w.next() : "";
            const std::string word = what == "given" ? w.next() : "";
            for (const auto& row : ledger_->review(q, recorded_, all).doses) {
                if (what == "review")
                    out.push_back(row.patient + " " + with_reasons(finding_name(row.finding), row.reasons) +
                                  (row.guidance ? "; by " + form.entry(*row.guidance) : ""));
                else if (row.patient == token)
                    out.push_back(form.part(word, row.history, row.allowance_seconds));
            }
        } else if (what == "excursions" || what == "inside") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            for (const auto& row : ledger_->excursions(place, from, until, q, recorded_).excursions) {
                out.push_back(std::string(side_name(row.side)) + " " + std::string(excursion_kind_name(row.kind)) +
                              " " + short_time(row.from_s) + " to " + short_time(row.until_s) + ", " +
                              row.duration_s.text() + " s, " + row.degree_s.text() + " Cs, peak " + row.peak_C.text() +
                              (row.open ? ", open" : ""));
                if (what == "inside")
                    for (const auto& in : row.holdings)
                        out.push_back(Answers::holding(in.holding) + ", " + std::to_string(in.doses.count()) + ": " +
                                      Answers::exposure(in.exposure, in.allowance_seconds));
            }
        } else if (what == "marks") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            for (const auto& row : ledger_->excursions(place, from, until, q, recorded_).excursions) {
                std::string line = std::string(side_name(row.side)) + " " + std::string(excursion_kind_name(row.kind));
                for (const auto& mark : english().say(row.marks)) line += "; " + mark.substr(0, mark.find(':'));
                out.push_back(line);
            }
        } else if (what == "conditions") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            const auto c = ledger_->conditions(place, from, until, q, recorded_, w.empty() ? 10000 : w.number());
            std::string line = Answers::coverage(c.seconds);
            if (c.lowest_C) line += "; " + c.lowest_C->text() + " to " + c.highest_C.value().text();
            if (c.mean_C) line += "; mean " + c.mean_C->text();
            if (c.mean_kinetic_C) line += "; kinetic " + *c.mean_kinetic_C;
            out.push_back(line + "; excursions " + std::to_string(c.excursions));
        } else if (what == "explain") {
            for (const auto& line : ledger_->explain(key(w), q, recorded_).lines)
                out.push_back(std::string(static_cast<std::size_t>(line.indent), ' ') + english().say(line.text));
        } else {
            const bool all = w.empty();
            const auto holding = all ? HoldingKey() : key(w);
            for (const auto& row : ledger_->lists(q, recorded_).holdings) {
                if (!all && row.holding != holding) continue;
                if (what == "lists")
                    out.push_back((all ? Answers::holding(row.holding) + ": " : "") +
                                  with_reasons(list_name(row.list), row.reasons));
                else if (what == "notes")
                    for (const auto& note : english().say(row.notes)) out.push_back(note);
                else out.push_back(form.part(what, row.history, row.allowance_seconds));
            }
        }
        if (!w.empty()) unreadable(what + ": not understood: " + w.rest());
        if (out.empty()) out.push_back("none");
        return out;
    }

    tests::TemporaryFile file_;
    std::optional<Ledger> ledger_;
    std::string lines_;           // not posted yet
    EntryNumber waiting_ = 0, posted_ = 0;
    Instant recorded_ = instant("07-01T00:00");
    std::map<std::string, EntryNumber> names_;
    std::map<EntryNumber, std::string> named_;
};

}  // namespace

std::vector<Row> run(std::string_view table) {
    Site site;
    std::vector<Row> out;
    std::vector<std::string> answer;  // lines that no row has claimed
    const auto rest_of_answer = [&] {
        if (answer.empty()) return;
        out.push_back({"  (more is answered)", "", answer.front()});
        answer.clear();
    };
    std::istringstream in{std::string(table)};
    std::string begun;  // a row that goes on in the next line
    for (std::string line; std::getline(in, line);) {
        // a comment begins with # and a blank, so that an entry may be named by #12
        std::string text = begun + trimmed(line.substr(0, line.find("# ")));
        begun.clear();
        if (text.ends_with(" \\")) {
            begun = text.substr(0, text.size() - 1);
            continue;
        }
        if (text.empty()) continue;
        std::string expected;
        if (const auto equals = text.find("= "); equals != std::string::npos) {
            expected = trimmed(text.substr(equals + 2));
            text = trimmed(text.substr(0, equals));
        }
        if (text.empty()) {
            out.push_back({"  and", expected, answer.empty() ? "no more" : answer.front()});
            if (!answer.empty()) answer.erase(answer.begin());
            continue;
        }
        rest_of_answer();
        Words w(text);
        const std::string time = w.next();
        if (w.take("?")) {
            answer = site.answer(time, w);
            out.push_back({text, expected, answer.front()});
            answer.erase(answer.begin());
        } else if (w.take("!")) {
            const std::string refusal = site.refused(time, w);
            const auto colon = expected.find(": ");
            const bool as_expected =
                refusal.substr(0, refusal.find(": ")) == expected.substr(0, colon) &&
                (colon == std::string::npos || refusal.find(expected.substr(colon + 2)) != std::string::npos);
            out.push_back({text, expected, as_expected ? expected : refusal});
        } else if (!expected.empty()) {
            unreadable("an event with an answer: " + text);
        } else {
            site.post(time, w);
        }
    }
    if (!begun.empty()) unreadable("it goes on after the last line of the table: " + begun);
    rest_of_answer();
    site.flush();
    return out;
}

void scenario(std::string_view table) {
    INFO(table);
    const auto rows = run(table);
    REQUIRE(!rows.empty());
    for (const auto& row : rows) {
        INFO(row.text);
        CHECK(row.answer == row.expected);
    }
}

}  // namespace scenarios
