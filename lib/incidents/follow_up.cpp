#include "incidents/follow_up.hpp"

#include <algorithm>
#include <map>
#include <memory>

#include "coldtally/error.hpp"
#include "conditions/incidents.hpp"
#include "incidents/given_in_doubt.hpp"
#include "question/said.hpp"
#include "stock/departed.hpp"
#include "stock/loans.hpp"
#include "stock/recalls.hpp"
#include "stock/review.hpp"
#include "stock/which.hpp"
#include "text/json_text.hpp"
#include "words/follow_up.hpp"
#include "words/incidents.hpp"
#include "words/loosening.hpp"
#include "words/stock.hpp"

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

/// Doses as they were judged when steps were posted. Steps posted one after another knew the same.
class Judged {
public:
    explicit Judged(World& w) : w_(w), last_(before_steps(w.head.last_entry)) {}

    /// Null: nothing but steps was posted since, or the dose was not known then.
    const ReviewAnswer::Row* when_posted(const ReviewAnswer::Row& now, EntryNumber step) {
        const EntryNumber known = before_steps(step);
        if (known == last_ || known == 0) return nullptr;
        auto& then = all_[known];
        if (!then) then = std::make_unique<Then>(w_, known);
        auto& rows = then->rows[{now.holding.product, now.holding.lot}];
        if (!rows) {
            rows.emplace();
            for (const auto& lot : then->world.lots_of(now.holding.lot, now.holding.product))
                if (then->known.product(lot.product)) *rows = review_lot(then->world, lot, true);
        }
        const auto row = std::ranges::find(*rows, now.entry, &ReviewAnswer::Row::entry);
        return row == rows->end() ? nullptr : &*row;
    }

private:
    struct Then {
        /// As it was seen when the first step after it was posted: what was awaited was not yet what never came.
        Then(World& w, EntryNumber last)
            : known(ledger::Known::load(w.store, last)), world(w.store, head_of(w, last), known) {}
        static AnswerHead head_of(const World& w, EntryNumber last) {
            AnswerHead out = w.head;
            out.last_entry = last;
            out.at = std::min(out.at, w.store.recorded(last + 1));
            return out;
        }
        ledger::Known known;
        World world;
        std::map<std::pair<std::string, std::string>, std::optional<std::vector<ReviewAnswer::Row>>> rows;
    };

    EntryNumber before_steps(EntryNumber last) const {
        while (last > 0) {
            const auto entry = w_.store.entry(last, false);
            if (!entry || !std::holds_alternative<FollowUp>(entry->fact)) break;
            --last;
        }
        return last;
    }

    World& w_;
    const EntryNumber last_;
    std::map<EntryNumber, std::unique_ptr<Then>> all_;
};

/// How far out of range they were: what is worse, in words.
std::vector<Remark> more_exposed(const ReviewAnswer::Row& was, const ReviewAnswer::Row& is) {
    DepartedDoses before, after;
    before.history = was.history;
    after.history = is.history;
    return news_of(before, after);
}

/// What is known of doses now that have such steps, and was not when the last of them was posted.
class News {
public:
    explicit News(World& w) : w_(w), judged_(w) {
        for (const auto& s : incident_steps(w))
            if (s.fact.step == IncidentStep::noticed) {
                const auto [at, fresh] = noticed_.emplace(s.fact.incident, s.entry);
                if (!fresh) at->second = std::max(at->second, s.entry);
            }
    }

    std::vector<Remark> of(const Dose& dose, const ReviewAnswer::Row& is) {
        // one that was repeated has been replaced, whatever is learnt of it
        if (dose.steps.empty() || dose.standing == Standing::repeated) return {};
        EntryNumber step = 0;
        for (const auto& s : dose.steps) step = std::max(step, s.entry);
        std::vector<Remark> out;
        if (const auto* was = judged_.when_posted(is, step)) compare(*was, is, out);
        for (const auto& one : is.beside) {
            const bool doubt = one.is(words::given_in_doubt) || one.is(words::given_in_doubt_covered) ||
                               one.is(words::given_in_doubt_noticed_after) || one.is(words::given_in_doubt_closed);
            const auto notice = doubt ? noticed_.find(one.fields.front().text) : noticed_.end();
            if (notice != noticed_.end() && notice->second > step) out.push_back(one);
        }
        for (const auto& hold : recalls(w_, is.holding.product, is.holding.lot))
            if (hold.entry > step) out.push_back(words::recalled_since(recall_words(hold)));
        return out;
    }

private:
    static void compare(const ReviewAnswer::Row& was, const ReviewAnswer::Row& is, std::vector<Remark>& out) {
        if (is.finding < was.finding)  // they are in the order of their weight
            out.push_back(words::becomes(said::finding_name_words(was.finding),
                                         said::finding_name_words(is.finding)));
        std::vector<Reason> gained;
        for (const Reason reason : is.reasons)
            if (std::ranges::find(was.reasons, reason) == was.reasons.end()) gained.push_back(reason);
        if (!gained.empty()) out.push_back(words::reasons_new(said::reasons_words(gained)));
        for (auto& one : more_exposed(was, is)) out.push_back(std::move(one));
        for (const auto& one : is.beside)
            if (is_learnt(one) && std::ranges::find(was.beside, one) == was.beside.end()) out.push_back(one);
    }
    /// Of review; what open incidents say is looked at by when they were noticed.
    static bool is_learnt(const Remark& one) {
        return one.is(words::learnt_after_guidance) || one.is(words::held_after_guidance);
    }

    World& w_;
    Judged judged_;
    std::map<std::string, EntryNumber> noticed_;  ///< by incident, the last notice
};

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
    for (const auto& d : out.doses) {
        count(out.whole, d);
        if (!d.news.empty()) count(out.look_again, d);
    }
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
    News news(w);
    for (const auto& row : rows) {
        Dose dose = dose_of(row);
        const auto done = steps.extract(row.entry);
        set_steps(dose, done ? done.mapped() : std::vector<FollowUpAnswer::Step>());
        dose.news = news.of(dose, row);
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
