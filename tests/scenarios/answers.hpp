// Answers as a table states them.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "coldtally/ledger.hpp"
#include "rows.hpp"

namespace scenarios {

using namespace coldtally;

/// The short form of a time: what is 2026, or 2026-03-02, is not said.
inline std::string short_time(Instant t) {
    std::string text = t.text();
    text.pop_back();
    std::string day = text.substr(0, 10), clock = text.substr(11);
    if (clock.substr(5) == ":00") clock.resize(5);
    if (day == "2026-03-02") return clock;
    if (day.substr(0, 5) == "2026-") day = day.substr(5);
    return day + "T" + clock;
}

/// "08:02:30+1/7"
inline std::string short_time(const Rational& seconds) {
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

inline std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& p : parts) out += (out.empty() ? "" : ", ") + p;
    return out;
}

inline std::string with_reasons(std::string_view what, const std::vector<Reason>& reasons) {
    std::vector<std::string> names;
    for (const Reason reason : reasons) names.emplace_back(reason_name(reason));
    return std::string(what) + (names.empty() ? "" : ": " + joined(names));
}

}  // namespace scenarios
