#include "drafts/looser.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <type_traits>
#include <variant>

#include "conditions/rule_times.hpp"
#include "drafts/read_back.hpp"

namespace coldtally::answers {

namespace {

using Words = std::vector<std::string>;

constexpr Scale scales[] = {Scale::C, Scale::F};

std::string limit_words(const std::optional<Limit>& l) { return l ? both_scales(*l) : "none"; }

/// Does a reach beyond b, for readings of either scale?
bool above(const Limit& a, const Limit& b) {
    for (const Scale s : scales)
        if (a.in(s) > b.in(s)) return true;
    return false;
}

void add(Words& out, const std::string& name, const std::string& before, const std::string& after) {
    out.push_back(name + " " + before + " -> " + after);
}

void sides(Words& out, const Range& before, const Range& after) {
    if (before.low && (!after.low || above(*before.low, *after.low)))
        add(out, "low", limit_words(before.low), limit_words(after.low));
    if (before.high && (!after.high || above(*after.high, *before.high)))
        add(out, "high", limit_words(before.high), limit_words(after.high));
}

void longer(Words& out, const std::string& name, Duration before, Duration after) {
    if (after > before) add(out, name, whole_duration_words(before), whole_duration_words(after));
}

bool same_band(const Allowance& a, const Allowance& b) {
    for (const Scale s : scales)
        if (a.low.in(s) != b.low.in(s) || a.high.in(s) != b.high.in(s)) return false;
    return true;
}
bool holds(const Allowance& outer, const Allowance& inner) {
    return !above(outer.low, inner.low) && !above(inner.high, outer.high);
}
bool meet(const Allowance& a, const Allowance& b) {
    for (const Scale s : scales)
        if (a.low.in(s) <= b.high.in(s) && b.low.in(s) <= a.high.in(s)) return true;
    return false;
}

std::string allowance_words(const Allowance& a) {
    return whole_duration_words(a.seconds) + " from " + both_scales(Range{a.low, a.high});
}

/// Allowances are asked in their order: the first whose band holds a temperature takes its time.
class Allowances {
public:
    Allowances(const Product& before, const Product& after)
        : old_(before.allowances.value_or(std::vector<Allowance>())),
          new_(after.allowances.value_or(std::vector<Allowance>())),
          of_old_(old_.size()),
          of_new_(new_.size()) {
        pair(same_band);
        pair(holds);
        pair(meet);
    }

    void compare(Words& out) const {
        for (std::size_t n = 0; n < new_.size(); ++n) {
            const Allowance* was = of_new_[n] ? &old_[*of_new_[n]] : nullptr;
            if (!was || new_[n].seconds > was->seconds || !holds(*was, new_[n]))
                add(out, "allowance", was ? allowance_words(*was) : "none", allowance_words(new_[n]));
        }
        for (std::size_t o = 0; o < old_.size(); ++o)
            for (std::size_t n = 0; n < new_.size(); ++n)
                if (takes(n, o))
                    add(out, "allowance", allowance_words(old_[o]),
                        of_old_[o] ? allowance_words(new_[*of_old_[o]]) + ", where " + allowance_words(new_[n]) +
                                         " counts first or alone"
                                   : "none, where " + allowance_words(new_[n]) + " counts");
    }

private:
    template <class Fits>
    void pair(Fits fits) {
        for (std::size_t n = 0; n < new_.size(); ++n)
            for (std::size_t o = 0; o < old_.size() && !of_new_[n]; ++o)
                if (!of_old_[o] && fits(old_[o], new_[n])) {
                    of_new_[n] = o;
                    of_old_[o] = n;
                }
    }

    /// Does a longer allowance that was known take temperatures that the older one o took?
    bool takes(std::size_t n, std::size_t o) const {
        if (!of_new_[n] || *of_new_[n] == o || !(new_[n].seconds > old_[o].seconds) || !meet(new_[n], old_[o]))
            return false;
        if (*of_new_[n] < o) return false;  // came before it already
        return !of_old_[o] || !holds(new_[*of_old_[o]], old_[o]) || n < *of_old_[o];
    }

    const std::vector<Allowance> old_, new_;
    std::vector<std::optional<std::size_t>> of_old_, of_new_;  ///< the other one of each
};

Words of(const Product& before, const Product& after) {
    Words out;
    sides(out, before.range, after.range);
    if (before.freeze_limit && (!after.freeze_limit || above(*before.freeze_limit, *after.freeze_limit)))
        add(out, "freeze limit", limit_words(before.freeze_limit), limit_words(after.freeze_limit));
    Allowances(before, after).compare(out);
    // an opened vial is asked for by it
    const auto in_vial = [](const Product& p) { return p.doses_per_vial ? p.doses_per_vial->count() : 1; };
    if (in_vial(before) > 1 && in_vial(after) < in_vial(before))
        add(out, "doses in a vial", std::to_string(in_vial(before)),
            after.doses_per_vial ? std::to_string(in_vial(after)) : "none");
    const std::map<std::string, Duration> none;
    const auto& periods = after.beyond_use ? *after.beyond_use : none;
    for (const auto& [event, period] : before.beyond_use ? *before.beyond_use : none) {
        const std::string name = "beyond-use after \"" + event + "\"";
        const auto it = periods.find(event);
        if (it == periods.end())
            add(out, name, whole_duration_words(period), "none");
        else
            longer(out, name, period, it->second);
    }
    return out;
}

Words of(const Lot& before, const Lot& after) {
    Words out;
    const Date was = Date::parse_expiry(before.expiry), is = Date::parse_expiry(after.expiry);
    if (is > was) add(out, "expiry", was.text(), is.text());
    return out;
}

Words of(const Place& before, const Place& after) {
    Words out;
    sides(out, before.range, after.range);
    longer(out, "longest step between two readings", before.max_gap.value_or(Place::usual_max_gap),
           after.max_gap.value_or(Place::usual_max_gap));
    longer(out, "longest step between two checks", before.max_check_gap.value_or(Place::usual_max_check_gap),
           after.max_check_gap.value_or(Place::usual_max_check_gap));
    longer(out, "a reading speaks for the time around it up to", before.near.value_or(Place::usual_near),
           after.near.value_or(Place::usual_near));
    return out;
}

Words of(const Site& before, const Site& after) {
    constexpr Duration day(86400);
    Words out;
    longer(out, "time not known without quarantine", before.unmonitored_limit.value_or(Duration(0)),
           after.unmonitored_limit.value_or(Duration(0)));
    longer(out, "data that have not come count as not known after", before.stale_after.value_or(day),
           after.stale_after.value_or(day));
    return out;
}

using Reportable = ProgrammeRules::Reportable;
using Is = ProgrammeRules::Temperatures::Is;

constexpr PlaceType all_types[] = {PlaceType::refrigerator, PlaceType::freezer, PlaceType::ultra_cold_freezer,
                                   PlaceType::transport_container, PlaceType::room};

std::string threshold_words(const Reportable& r) {
    const bool seconds = r.form == Reportable::Form::run || r.form == Reportable::Form::sum;
    return std::string(r.more_than ? "more than " : "at least ") +
           (seconds ? whole_duration_words(Duration(r.threshold)) : std::to_string(r.threshold));
}

std::string temperature_words(const Reportable& r) {
    constexpr const char* names[] = {"above", "at or above", "below", "at or below"};
    if (!r.temperature) return "out of the place's own range";
    return std::string(names[static_cast<int>(r.temperature->is)]) + " " +
           (r.temperature->limit ? both_scales(*r.temperature->limit) : "the place's own limit");
}

bool same_limit_of(const std::optional<Limit>& a, const std::optional<Limit>& b) {
    return a.has_value() == b.has_value() && (!a || (!above(*a, *b) && !above(*b, *a)));
}

/// Fewer temperatures count; where one cannot say which of the two are more, they are others.
bool fewer_temperatures(const Reportable& before, const Reportable& after) {
    if (!before.temperature || !after.temperature) return before.temperature || after.temperature;
    const auto &a = *before.temperature, &b = *after.temperature;
    const auto high = [](Is is) { return is == Is::above || is == Is::at_or_above; };
    const auto inclusive = [](Is is) { return is == Is::at_or_above || is == Is::at_or_below; };
    if (high(a.is) != high(b.is) || a.limit.has_value() != b.limit.has_value()) return true;
    if (same_limit_of(a.limit, b.limit)) return inclusive(a.is) && !inclusive(b.is);
    return high(a.is) ? above(*b.limit, *a.limit) : above(*a.limit, *b.limit);
}

/// Of a condition under the same name: what it would no longer be met by.
void condition(Words& out, const Reportable& before, const Reportable& after) {
    const std::string name = "condition \"" + before.rule + "\"";
    if (before.form != after.form) return add(out, name, "as it is", "of another form");
    if (fewer_temperatures(before, after)) add(out, name, temperature_words(before), temperature_words(after));
    if (std::pair(after.threshold, after.more_than) > std::pair(before.threshold, before.more_than))
        add(out, name, threshold_words(before), threshold_words(after));
    const auto within = [](const Reportable& r) {
        return r.within ? "within " + whole_duration_words(*r.within) : std::string("within any time");
    };
    if (after.within && (!before.within || *after.within < *before.within))
        add(out, name, within(before), within(after));
    std::string types;
    for (const PlaceType type : all_types)
        if (is_for(before.places, type) && !is_for(after.places, type))
            types += (types.empty() ? "" : ", ") + std::string(place_type_name(type));
    if (!types.empty()) add(out, name, "also of a " + types, "no longer");
    std::string products;
    for (const auto& p : before.products)
        if (!after.products.empty() && std::ranges::find(after.products, p) == after.products.end())
            products += (products.empty() ? "" : ", ") + p;
    if (before.products.empty() && !after.products.empty()) products = "all products";
    if (!products.empty()) add(out, name, "also of " + products, "no longer");
}

Words of(const ProgrammeRules& before, const ProgrammeRules& after) {
    Words out;
    for (const auto& was : before.report) {
        const auto is = std::ranges::find(after.report, was.rule, &Reportable::rule);
        if (is == after.report.end())
            add(out, "condition \"" + was.rule + "\"", temperature_words(was), "none of this name");
        else
            condition(out, was, *is);
    }
    for (const auto& was : before.duties) {
        const auto is = std::ranges::find(after.duties, was.step, &ProgrammeRules::Duty::step);
        const std::string name = was.step + ": due";
        if (is == after.duties.end()) {
            add(out, name, "within " + whole_duration_words(was.within), "never");
            continue;
        }
        longer(out, name + " within", was.within, is->within);
        if (is->if_reportable && !was.if_reportable) add(out, name, "always", "where a condition is met");
    }
    for (const auto& [what, days] : before.every_days) {
        const auto is = after.every_days.find(what);
        if (is == after.every_days.end() || is->second > days)
            add(out, what, "every " + std::to_string(days) + " days",
                is == after.every_days.end() ? "never" : "every " + std::to_string(is->second) + " days");
    }
    if (before.longest_trip && (!after.longest_trip || *after.longest_trip > *before.longest_trip))
        add(out, "longest trip", whole_duration_words(*before.longest_trip),
            after.longest_trip ? whole_duration_words(*after.longest_trip) : "of any length");
    if (!before.checks.empty() && after.checks.empty()) add(out, "checks", "as often as stated", "never");
    return out;
}

template <class Other>
Words of(const Other&, const Other&) {
    return {};
}

}  // namespace

std::vector<std::string> looser(const Fact& before, const Fact& after) {
    return std::visit(
        [&](const auto& now) {
            using Kind = std::decay_t<decltype(now)>;
            const auto* was = std::get_if<Kind>(&before);
            return was ? of(*was, now) : Words();
        },
        after);
}

std::vector<std::string> looser_by_type(const ProgrammeRules& rules, const Fact& before, const Fact& after) {
    const auto *was = std::get_if<Place>(&before), *is = std::get_if<Place>(&after);
    if (!was || !is || was->type == is->type) return {};
    Words lost;
    for (const auto& r : rules.report)
        if (is_for(r.places, was->type) && !is_for(r.places, is->type)) lost.push_back("condition \"" + r.rule + "\"");
    for (const auto& c : rules.checks)
        if (is_for(c.places, was->type) && !is_for(c.places, is->type))
            lost.push_back(std::to_string(c.per_day) + (c.per_day == 1 ? " check a day" : " checks a day"));
    if (lost.empty()) return {};
    std::string all;
    for (const auto& one : lost) all += (all.empty() ? "" : ", ") + one;
    return {"type " + std::string(place_type_name(was->type)) + " -> " + std::string(place_type_name(is->type)) +
            ", of which the programme no longer asks: " + all};
}

}  // namespace coldtally::answers
