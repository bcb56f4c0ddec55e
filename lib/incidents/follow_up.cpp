#include "incidents/follow_up.hpp"

#include <algorithm>
#include <map>

#include "coldtally/error.hpp"
#include "incidents/given_in_doubt.hpp"
#include "stock/departed.hpp"
#include "stock/loans.hpp"
#include "stock/review.hpp"
#include "stock/which.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

constexpr Standing all_standings[] = {Standing::none_yet, Standing::decided,  Standing::told,   Standing::no_answer,
                                      Standing::answered, Standing::repeated, Standing::tested, Standing::not_needed};

}  // namespace

std::span<const Standing> follow_up_standings() noexcept { return all_standings; }

std::string_view standing_name(Standing standing) noexcept {
    constexpr std::string_view names[] = {"none yet", "decided",  "told",   "no answer",
                                          "answered", "repeated", "tested", "not needed"};
    return names[static_cast<int>(standing)];
}

namespace answers {

namespace {

using Dose = FollowUpAnswer::Dose;
using Steps = std::map<EntryNumber, std::vector<FollowUpAnswer::Step>>;

/// Of an entry's step, which is one of them.
Standing standing_of(std::string_view step) {
    const auto all = follow_up_standings();
    return *std::ranges::find(all, step, standing_name);
}

Steps steps_by_give(World& w) {
    Steps out;
    for (const auto& e : duties(w, FollowUp::kind)) {
        const auto& u = std::get<FollowUp>(e.fact);
        out[u.give].push_back({e.number, *e.at, e.by, standing_of(u.step), u.text});
    }
    return out;
}

void set_steps(Dose& dose, std::vector<FollowUpAnswer::Step> steps) {
    if (!steps.empty()) dose.standing = steps.back().step;
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
    out.finding = !w.known.is_known(number)  ? Finding::taken_back
                  : out.given > w.head.at ? Finding::given_later
                                          : Finding::clear;
    return out;
}

ledger::Store::LotRow named(const World& w, const std::string& number, const std::optional<std::string>& product) {
    const auto found = w.lots_of(number, product);
    if (found.empty())
        throw Error(Code::not_defined, "lot: " + text::quoted(number) +
                                           (product ? " of " + text::quoted(*product) : "") + ": no such lot is known");
    if (found.size() > 1) which_product(w, found);
    return found.front();
}

void count(FollowUpAnswer::Count& c, const Dose& d) {
    ++c.gives;
    c.doses = c.doses + d.doses;
}

void set_counts(FollowUpAnswer& out) {
    for (const Standing of : follow_up_standings()) {
        FollowUpAnswer::Count standing{of, 0, Doses()}, ever{of, 0, Doses()};
        for (const auto& d : out.doses) {
            if (d.standing == of) count(standing, d);
            if (std::any_of(d.steps.begin(), d.steps.end(), [&](const auto& s) { return s.step == of; }))
                count(ever, d);
        }
        out.standings.push_back(standing);
        if (of != Standing::none_yet) out.ever.push_back(ever);
    }
    for (const auto& d : out.doses) count(out.whole, d);
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
                     [](const Dose& a, const Dose& b) { return a.standing < b.standing; });
    set_counts(out);
    return out;
}

}  // namespace answers

}  // namespace coldtally
