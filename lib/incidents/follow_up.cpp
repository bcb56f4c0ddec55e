#include "incidents/follow_up.hpp"

#include <algorithm>
#include <map>

#include "coldtally/error.hpp"
#include "incidents/given_in_doubt.hpp"
#include "stock/departed.hpp"
#include "stock/loans.hpp"
#include "stock/review.hpp"
#include "text/json_text.hpp"

namespace coldtally {

const std::vector<std::string>& follow_up_standings() {
    static const std::vector<std::string> names{"none yet", "decided",  "told",   "no answer",
                                                "answered", "repeated", "tested", "not needed"};
    return names;
}

namespace answers {

namespace {

using Dose = FollowUpAnswer::Dose;
using Steps = std::map<EntryNumber, std::vector<FollowUpAnswer::Step>>;

Steps steps_by_give(World& w) {
    Steps out;
    for (const auto& e : duties(w, FollowUp::kind)) {
        const auto& u = std::get<FollowUp>(e.fact);
        out[u.give].push_back({e.number, *e.at, e.by, u.step, u.text});
    }
    return out;
}

std::size_t standing_of(const Dose& d) {
    const auto& names = follow_up_standings();
    return static_cast<std::size_t>(std::find(names.begin(), names.end(), d.standing) - names.begin());
}

void set_steps(Dose& dose, std::vector<FollowUpAnswer::Step> steps) {
    dose.standing = steps.empty() ? follow_up_standings().front() : steps.back().step;
    dose.steps = std::move(steps);
}

Dose dose_of(const ReviewAnswer::Row& r) {
    Dose out;
    out.give = r.entry;
    out.given = r.at;
    out.patient = r.patient;
    out.holding = r.holding;
    out.doses = r.doses;
    out.certain = r.certain;
    out.finding = r.finding;
    return out;
}

Dose dose_of(const World& w, EntryNumber number) {
    const Entry e = w.store.named_entry(number);
    const auto& g = std::get<Give>(e.fact);
    Dose out;
    out.give = number;
    out.given = *e.at;
    out.patient = g.patient;
    out.holding = {g.place, g.product, g.lot, g.fund, g.mark};
    out.doses = g.doses;
    out.certain = g.certain;
    out.finding = !w.known.is_known(number) ? "void" : out.given > w.head.at ? "given later" : "clear";
    return out;
}

ledger::Store::LotRow named(const World& w, const std::string& number, const std::optional<std::string>& product) {
    const auto found = w.lots_of(number, product);
    if (found.empty())
        throw Error(Code::not_defined, "lot: " + text::quoted(number) +
                                           (product ? " of " + text::quoted(*product) : "") + ": no such lot is known");
    if (found.size() > 1) {
        std::string products;
        for (const auto& lot : found) products += (products.empty() ? "" : " and of ") + text::quoted(lot.product);
        throw Error(Code::ambiguous,
                    "lot: " + text::quoted(number) + ": is a lot of " + products + "; state the product");
    }
    return found.front();
}

void count(FollowUpAnswer::Count& c, const Dose& d) {
    ++c.gives;
    c.doses = c.doses + d.doses;
}

}  // namespace

FollowUpAnswer follow_up(World& w, const std::optional<std::string>& lot, const std::optional<std::string>& product) {
    if (product && !lot)
        throw Error(Code::missing_field,
                    "lot: must be stated with the product " + text::quoted(*product) + ": a recall is of a lot");
    FollowUpAnswer out;
    out.head = w.head;
    std::vector<ReviewAnswer::Row> rows;
    if (lot) {
        const auto of = named(w, *lot, product);
        out.lot = of.number;
        out.product = of.product;
        rows = review_lot(w, of, true);
        out.left = departed(w, of);
        for (auto& d : out.left) d.news = learnt_since(w, d);
    } else {
        out.left = with_news(w);
        ReviewAnswer reviewed = review(w, false);
        add_in_doubt(w, reviewed, false);
        rows = std::move(reviewed.doses);
        out.not_listed = std::move(reviewed.not_listed);
    }
    Steps steps = steps_by_give(w);
    for (const auto& row : rows) {
        Dose dose = dose_of(row);
        const auto done = steps.extract(row.entry);
        set_steps(dose, done ? done.mapped() : std::vector<FollowUpAnswer::Step>());
        out.doses.push_back(std::move(dose));
    }
    for (auto& [give, done] : steps) {
        Dose dose = dose_of(w, give);
        if (out.lot && (dose.holding.lot != *out.lot || dose.holding.product != *out.product)) continue;
        set_steps(dose, std::move(done));
        out.apart.push_back(std::move(dose));
    }
    const auto by_give = [](const Dose& a, const Dose& b) {
        return std::pair(a.given, a.give) < std::pair(b.given, b.give);
    };
    std::sort(out.apart.begin(), out.apart.end(), by_give);
    std::sort(out.doses.begin(), out.doses.end(), by_give);
    std::stable_sort(out.doses.begin(), out.doses.end(),
                     [](const Dose& a, const Dose& b) { return standing_of(a) < standing_of(b); });

    for (const auto& name : follow_up_standings()) {
        FollowUpAnswer::Count standing{name, 0, Doses()}, ever{name, 0, Doses()};
        for (const auto& d : out.doses) {
            if (d.standing == name) count(standing, d);
            if (std::any_of(d.steps.begin(), d.steps.end(), [&](const auto& s) { return s.step == name; }))
                count(ever, d);
        }
        out.standings.push_back(standing);
        if (name != follow_up_standings().front()) out.ever.push_back(ever);
    }
    out.whole.name = "whole";
    for (const auto& d : out.doses) count(out.whole, d);
    return out;
}

}  // namespace answers

}  // namespace coldtally
