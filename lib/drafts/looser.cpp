#include "drafts/looser.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>

#include "conditions/rule_times.hpp"
#include "drafts/read_back.hpp"
#include "question/said.hpp"
#include "text/json_text.hpp"
#include "words/definitions.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"
#include "words/upkeep.hpp"

namespace coldtally::answers {

namespace {

using Remarks = std::vector<Remark>;

constexpr Scale scales[] = {Scale::C, Scale::F};

Field limit_words(const std::optional<Limit>& l) { return l ? Field(both_scales(*l)) : words::none(); }

/// Does a reach beyond b, for readings of either scale?
bool above(const Limit& a, const Limit& b) {
    for (const Scale s : scales)
        if (a.in(s) > b.in(s)) return true;
    return false;
}

void add(Remarks& out, const Field& what, Field before, Field after) {
    out.push_back(words::loosened(what, std::move(before), std::move(after)));
}

void sides(Remarks& out, const Range& before, const Range& after) {
    if (before.low && (!after.low || above(*before.low, *after.low)))
        add(out, words::stated_low(), limit_words(before.low), limit_words(after.low));
    if (before.high && (!after.high || above(*after.high, *before.high)))
        add(out, words::stated_high(), limit_words(before.high), limit_words(after.high));
}

void longer(Remarks& out, const Remark& name, Duration before, Duration after) {
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

Remark allowance_words(const Allowance& a) {
    return words::allowance_of(whole_duration_words(a.seconds), both_scales(Range{a.low, a.high}));
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

    void compare(Remarks& out) const {
        for (std::size_t n = 0; n < new_.size(); ++n) {
            const Allowance* was = of_new_[n] ? &old_[*of_new_[n]] : nullptr;
            if (!was || new_[n].seconds > was->seconds || !holds(*was, new_[n]))
                add(out, words::stated_allowance(), was ? allowance_words(*was) : words::none(),
                    allowance_words(new_[n]));
        }
        for (std::size_t o = 0; o < old_.size(); ++o)
            for (std::size_t n = 0; n < new_.size(); ++n)
                if (takes(n, o))
                    add(out, words::stated_allowance(), allowance_words(old_[o]),
                        of_old_[o] ? words::where_other_counts(allowance_words(new_[*of_old_[o]]),
                                                               allowance_words(new_[n]))
                                   : words::gone_where_other_counts(allowance_words(new_[n])));
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

Remarks of(const Product& before, const Product& after) {
    Remarks out;
    sides(out, before.range, after.range);
    if (before.freeze_limit && (!after.freeze_limit || above(*before.freeze_limit, *after.freeze_limit)))
        add(out, words::stated_freeze_limit(), limit_words(before.freeze_limit), limit_words(after.freeze_limit));
    Allowances(before, after).compare(out);
    // an opened vial is asked for by it
    const auto in_vial = [](const Product& p) { return p.doses_per_vial ? p.doses_per_vial->count() : 1; };
    if (in_vial(before) > 1 && in_vial(after) < in_vial(before))
        add(out, words::stated_doses_per_vial(), in_vial(before),
            after.doses_per_vial ? Field(in_vial(after)) : words::none());
    const std::map<std::string, Duration> none;
    const auto& periods = after.beyond_use ? *after.beyond_use : none;
    for (const auto& [event, period] : before.beyond_use ? *before.beyond_use : none) {
        const Remark name = words::stated_period(text::quoted(event));
        const auto it = periods.find(event);
        if (it == periods.end())
            add(out, name, whole_duration_words(period), words::none());
        else
            longer(out, name, period, it->second);
    }
    return out;
}

Remarks of(const Lot& before, const Lot& after) {
    Remarks out;
    const Date was = Date::parse_expiry(before.expiry), is = Date::parse_expiry(after.expiry);
    if (is > was) add(out, words::name_expiry(), was.text(), is.text());
    return out;
}

Remarks of(const Place& before, const Place& after) {
    Remarks out;
    sides(out, before.range, after.range);
    longer(out, words::stated_max_gap, before.max_gap.value_or(Place::usual_max_gap),
           after.max_gap.value_or(Place::usual_max_gap));
    longer(out, words::stated_max_check_gap, before.max_check_gap.value_or(Place::usual_max_check_gap),
           after.max_check_gap.value_or(Place::usual_max_check_gap));
    longer(out, words::reading_speaks, before.near.value_or(Place::usual_near),
           after.near.value_or(Place::usual_near));
    return out;
}

Remarks of(const Site& before, const Site& after) {
    constexpr Duration day(86400);
    Remarks out;
    longer(out, words::unknown_without_quarantine, before.unmonitored_limit.value_or(Duration(0)),
           after.unmonitored_limit.value_or(Duration(0)));
    longer(out, words::stated_stale_after, before.stale_after.value_or(day),
           after.stale_after.value_or(day));
    return out;
}

using Reportable = ProgrammeRules::Reportable;
using Is = ProgrammeRules::Temperatures::Is;

constexpr PlaceType all_types[] = {PlaceType::refrigerator, PlaceType::freezer, PlaceType::ultra_cold_freezer,
                                   PlaceType::transport_container, PlaceType::room};

Remark threshold_words(const Reportable& r) {
    const bool seconds = r.form == Reportable::Form::run || r.form == Reportable::Form::sum;
    const Field threshold = seconds ? Field(whole_duration_words(Duration(r.threshold))) : Field(r.threshold);
    return r.more_than ? words::more_than(threshold) : words::at_least(threshold);
}

Remark temperature_words(const Reportable& r) {
    if (!r.temperature) return words::out_of_own_range;
    const Field limit =
        r.temperature->limit ? Field(both_scales(*r.temperature->limit)) : words::the_places_limit();
    switch (r.temperature->is) {
        case Is::above: return words::above(limit);
        case Is::at_or_above: return words::at_or_above(limit);
        case Is::below: return words::below(limit);
        case Is::at_or_below: break;
    }
    return words::at_or_below(limit);
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

Remark named(const Reportable& r) { return words::condition_named(text::quoted(r.rule)); }

Remark within_words(const Reportable& r) {
    return r.within ? words::within_time(whole_duration_words(*r.within)) : words::within_any_time();
}

/// Of a condition under the same name: what it would no longer be met by.
void condition(Remarks& out, const Reportable& before, const Reportable& after) {
    const Remark name = named(before);
    if (before.form != after.form) return add(out, name, words::as_it_is(), words::of_another_form());
    if (fewer_temperatures(before, after)) add(out, name, temperature_words(before), temperature_words(after));
    if (std::pair(after.threshold, after.more_than) > std::pair(before.threshold, before.more_than))
        add(out, name, threshold_words(before), threshold_words(after));
    if (after.within && (!before.within || *after.within < *before.within))
        add(out, name, within_words(before), within_words(after));
    std::vector<Field> types, products;
    for (const PlaceType type : all_types)
        if (is_for(before.places, type) && !is_for(after.places, type))
            types.emplace_back(said::place_type_words(type));
    if (!types.empty()) add(out, name, words::also_of_a(words::listed(types)), words::no_longer());
    for (const auto& p : before.products)
        if (!after.products.empty() && std::ranges::find(after.products, p) == after.products.end())
            products.emplace_back(p);
    if (before.products.empty() && !after.products.empty()) products = {words::every_product()};
    if (!products.empty()) add(out, name, words::also_of(words::listed(products)), words::no_longer());
}

void duties(Remarks& out, const ProgrammeRules& before, const ProgrammeRules& after) {
    for (const auto& was : before.duties) {
        const auto is = std::ranges::find(after.duties, was.step, &ProgrammeRules::Duty::step);
        const Remark step = said::duty_words(was.step), due = words::step_due(step);
        if (is == after.duties.end()) {
            add(out, due, words::within_time(whole_duration_words(was.within)), words::never());
            continue;
        }
        longer(out, words::step_due_within(step), was.within, is->within);
        if (is->if_reportable && !was.if_reportable)
            add(out, due, words::always(), words::where_condition_met());
    }
}

Remarks of(const ProgrammeRules& before, const ProgrammeRules& after) {
    Remarks out;
    for (const auto& was : before.report) {
        const auto is = std::ranges::find(after.report, was.rule, &Reportable::rule);
        if (is == after.report.end())
            add(out, named(was), temperature_words(was), words::none_of_this_name());
        else
            condition(out, was, *is);
    }
    duties(out, before, after);
    for (const auto& [what, days] : before.every_days) {
        const auto is = after.every_days.find(what);
        if (is == after.every_days.end() || is->second > days)
            add(out, what, words::every_so_many_days(days),
                is == after.every_days.end() ? words::never() : words::every_so_many_days(is->second));
    }
    if (before.longest_trip && (!after.longest_trip || *after.longest_trip > *before.longest_trip))
        add(out, words::longest_trip(), whole_duration_words(*before.longest_trip),
            after.longest_trip ? Field(whole_duration_words(*after.longest_trip)) : words::of_any_length());
    if (!before.checks.empty() && after.checks.empty())
        add(out, words::matter_checks(), words::as_often_as_stated(), words::never());
    return out;
}

template <class Other>
Remarks of(const Other&, const Other&) {
    return {};
}

}  // namespace

std::vector<Remark> looser(const Fact& before, const Fact& after) {
    return std::visit(
        [&](const auto& now) {
            using Kind = std::decay_t<decltype(now)>;
            const auto* was = std::get_if<Kind>(&before);
            return was ? of(*was, now) : Remarks();
        },
        after);
}

std::vector<Remark> looser_by_type(const ProgrammeRules& rules, const Fact& before, const Fact& after) {
    const auto *was = std::get_if<Place>(&before), *is = std::get_if<Place>(&after);
    if (!was || !is || was->type == is->type) return {};
    std::vector<Field> lost;
    for (const auto& r : rules.report)
        if (is_for(r.places, was->type) && !is_for(r.places, is->type)) lost.emplace_back(named(r));
    for (const auto& c : rules.checks)
        if (is_for(c.places, was->type) && !is_for(c.places, is->type))
            lost.emplace_back(words::checks_a_day(c.per_day));
    if (lost.empty()) return {};
    return {words::type_asks_less(said::place_type_words(was->type), said::place_type_words(is->type),
                                  words::listed(lost))};
}

std::vector<Remark> looser_than(const ledger::Known& known, const Redefined& both) {
    auto out = looser(both.before, both.after);
    if (const auto* rules = known.rules())
        for (auto& one : looser_by_type(rules->fact, both.before, both.after)) out.push_back(std::move(one));
    return out;
}

}  // namespace coldtally::answers
