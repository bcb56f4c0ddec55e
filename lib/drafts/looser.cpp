#include "drafts/looser.hpp"

#include <map>
#include <optional>
#include <type_traits>
#include <variant>

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

}  // namespace coldtally::answers
