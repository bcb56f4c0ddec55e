#include <algorithm>

#include "incidents/investigation.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

namespace {

using ToTell = IncidentAnswer::ToTell;

ToTell row(const HoldingKey& k) { return {{k.place, k.product, k.lot, k.fund, k.mark, Doses(0), {}}, 0, {}, {}, {}}; }

bool any(const Report::Figures& f) {
    return f.out_of_range > Duration(0) || f.unmonitored > Duration(0) || f.points > 0;
}

bool any_more(const Report::Figures& a, const Report::Figures& b) {
    return a.out_of_range > b.out_of_range || a.unmonitored > b.unmonitored || a.points > b.points;
}

/// Allowances of which more is used than they permit, some of it open.
std::vector<ToTell::Over> over(const World& w, const std::string& product, const History& h) {
    std::vector<ToTell::Over> out;
    const auto bands = w.known.product(product)->allowances.value_or(std::vector<Allowance>());
    for (std::size_t i = 0; i < bands.size() && i < h.open.allowances.size(); ++i)
        if (const Rational more = h.total.allowances[i] - Rational(bands[i].seconds.seconds());
            more.sign() > 0 && h.open.allowances[i].sign() > 0)
            out.push_back({i, bands[i].seconds, more, bands[i].source});
    return out;
}

void keep_most(std::vector<ToTell::Over>& into, const std::vector<ToTell::Over>& other) {
    for (const auto& one : other) {
        const auto it = std::ranges::find(into, one.allowance, &ToTell::Over::allowance);
        if (it == into.end())
            into.push_back(one);
        else
            it->over_s = std::max(it->over_s, one.over_s);
    }
}

/// What is open of a history: that is what guidance has to cover. Rounded up: nobody is told less than it was. With
/// what the row has already the most of both.
void keep_most(const World& w, const History& h, ToTell& t) {
    auto& f = t.figures;
    f.out_of_range = std::max(f.out_of_range, Duration((h.open.warm + h.open.cold).ceil()));
    f.unmonitored = std::max(f.unmonitored, Duration(h.open.unmonitored.ceil()));
    f.points = std::max(f.points, h.open.points);
    t.beyond_s = std::max(t.beyond_s, h.open.beyond_warm + h.open.beyond_cold);
    t.at_most_s = std::max(t.at_most_s, h.total.warm.at_most + h.total.cold.at_most);
    t.checked_s = std::max(t.checked_s, seconds_of(h.total, Class::checked));
    keep_most(t.over, over(w, t.product, h));
}

/// Doses that were given are told of by what they had been through when they were, as far as nothing covers it, and
/// never as if those that are there had been: with these where they had been through no less, else apart.
void join(std::map<HoldingKey, ToTell>& there, std::map<HoldingKey, ToTell>& gone) {
    for (auto& [key, t] : gone) {
        const auto with = there.find(key);
        if (with == there.end() || any_more(t.figures, with->second.figures)) continue;
        with->second.given = t.given;
        with->second.at_most_s = std::max(with->second.at_most_s, t.at_most_s);
        with->second.checked_s = std::max(with->second.checked_s, t.checked_s);
        keep_most(with->second.over, t.over);
        t.given = 0;
    }
}

}  // namespace

void add_figures(Investigation& i) {
    for (const auto& u : i.out.units)
        i.out.unread_s = std::max(i.out.unread_s, seconds_of(u.exposure, Class::awaiting));
    std::map<HoldingKey, ToTell> there, gone;
    for (const auto& r : i.out.now) {
        i.out.unread_s = std::max(i.out.unread_s, awaited(i.w, r));
        ToTell t = row(r.holding);
        t.doses = r.doses;
        keep_most(i.w, r.history, t);
        if (any(t.figures)) there.emplace(r.holding, std::move(t));
    }
    for (const auto& r : i.out.given) {
        if (r.guidance || r.reasons.empty()) continue;
        ToTell& t = gone.try_emplace(r.holding, row(r.holding)).first->second;
        t.given += r.doses.count();
        keep_most(i.w, r.history, t);
    }
    join(there, gone);
    for (auto& [key, t] : there) i.out.told.push_back(std::move(t));
    for (auto& [key, t] : gone)
        if (t.given > 0) i.out.told.push_back(std::move(t));
    std::ranges::stable_sort(i.out.told, {}, [](const ToTell& t) {
        return HoldingKey{t.place, t.product, t.lot, t.fund, t.mark};
    });
}

}  // namespace coldtally::answers
