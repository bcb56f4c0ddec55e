// Of loosening: doses given, and what guidance cleared already of what is known only now.
#include "drafts/comparison.hpp"
#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/loans.hpp"
#include "words/lists.hpp"
#include "words/incidents.hpp"
#include "words/loosening.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

using Give = ReviewAnswer::Row;
using Gives = std::map<EntryNumber, const Give*>;

Gives by_entry(const ReviewAnswer& review) {
    Gives out;
    for (const auto& row : review.doses) out[row.entry] = &row;
    return out;
}

/// Ascends from what is found of a dose that may count to what is found of one that does not.
int weight(Finding finding) { return -static_cast<int>(finding); }

Remark becomes(Finding before, Finding after) {
    return words::becomes(said::finding_name_words(before), said::finding_name_words(after));
}

/// A finding that is worse than before, one more reason, or further out of range: said of it; none where it is none.
std::optional<Remark> worse(const Product* product, const Give& was, const Give& is,
                            const std::vector<Reason>& lost_ones, const std::optional<Remark>& followed) {
    const auto gained = gone(is.reasons, was.reasons);
    const auto how_far = further(product, was.history.total, is.history.total);
    if (gained.empty() && !how_far && weight(is.finding) <= weight(was.finding)) return std::nullopt;
    std::vector<Remark> parts = {was.finding == is.finding
                                     ? words::as_before(said::finding_name_words(was.finding))
                                     : becomes(was.finding, is.finding)};
    if (!gained.empty()) parts.push_back(words::reasons_new(said::reasons_words(gained)));
    if (how_far) parts.push_back(*how_far);
    if (!lost_ones.empty()) parts.push_back(words::reasons_gone(said::reasons_words(lost_ones)));
    if (followed) parts.push_back(*followed);
    return words::in_brackets(words::entry(is.entry), which(parts));
}

/// What is said of gives, sentence by sentence.
struct Found {
    std::vector<Field> cleared, better, known, between, lesser, worse;
    std::map<EntryNumber, Remark> followed = {};  ///< by the give, what was done about it

    std::optional<Remark> step_of(EntryNumber give) const {
        const auto it = followed.find(give);
        return it == followed.end() ? std::nullopt : std::optional(it->second);
    }
};

/// The last steps that are noted of gives.
std::map<EntryNumber, Remark> steps_of_gives(World& w) {
    std::map<EntryNumber, Remark> out;
    for (const auto& e : duties(w, FollowUp::kind)) {
        const auto& step = std::get<FollowUp>(e.fact);
        const auto standing = std::ranges::find(follow_up_standings(), std::string_view(step.step), standing_name);
        if (standing != follow_up_standings().end())
            out.insert_or_assign(step.give, words::followed_already(said::standing_words(*standing)));
    }
    return out;
}

/// `is`: null where it is listed no more.
void compare(const Comparison& c, const Give& was, const Give* is, Found& found) {
    const Remark entry = words::entry(was.entry);
    const auto lost_ones = is ? gone(was.reasons, is->reasons) : std::vector<Reason>();
    const bool is_better = !is || weight(is->finding) < weight(was.finding);
    const bool off = was.finding != Finding::clear && (!is || is->finding == Finding::clear);
    if (is && !is_better)
        if (auto said = worse(c.w.known.product(was.holding.product), was, *is, lost_ones,
                              found.step_of(was.entry))) {
            found.worse.emplace_back(std::move(*said));
            if (lost_ones.empty() || only_unknown(lost_ones)) return;
        }
    std::vector<Field> said_already;  // with the incident whose time in doubt it leaves
    auto& known = c.left_doubt.contains(was.entry)                                    ? said_already
                  : is && more_between_checks(was.history.total, is->history.total) ? found.between
                                                                                     : found.known;
    if (is_better && c.touched.only_adds() && only_unknown(was.reasons) && was.finding != Finding::expired)
        known.emplace_back(entry);
    else if (is_better && off)
        found.cleared.emplace_back(was.entry);
    else if (is_better && is)
        found.better.emplace_back(words::in_brackets(entry, becomes(was.finding, is->finding)));
    else if (!lost_ones.empty())
        (c.touched.only_adds() && only_unknown(lost_ones) ? known : found.better)
            .emplace_back(words::in_brackets(entry, words::loses_reasons(said::reasons_words(lost_ones))));
    bool seen = false;
    if (is && weight(is->finding) <= weight(was.finding))
        if (const auto what = less(c.w.known.product(was.holding.product), was.history.total, is->history.total, seen);
            what && seen)
            found.lesser.emplace_back(words::in_brackets(entry, *what));
}

/// What was learnt, and of which doses: of one place it is the same for many. In the order in which it is met.
class Learnt {
public:
    void add(const std::vector<Remark>& is, const std::vector<Remark>* was, const Remark& whose) {
        for (const auto& one : is) {
            if (!one.is(words::learnt_after_guidance)) continue;
            if (was && std::ranges::find(*was, one) != was->end()) continue;
            const auto it = std::ranges::find(all_, one, &Of::what);
            if (it == all_.end())
                all_.push_back({one, {whose}});
            else
                it->whose.emplace_back(whose);
        }
    }
    std::vector<Remark> said() const {
        std::vector<Remark> out;
        for (const auto& [what, whose] : all_) out.push_back(words::colon(what, first_of(whose)));
        return out;
    }

private:
    struct Of {
        Remark what;
        std::vector<Field> whose;
    };
    std::vector<Of> all_;
};

}  // namespace

void compare_gives(Comparison& c) {
    const Gives is = by_entry(c.after.snapshot.review);
    Found found;
    found.followed = steps_of_gives(c.w);
    for (const auto& was : c.before.snapshot.review.doses) {
        const auto it = is.find(was.entry);
        compare(c, was, it == is.end() ? nullptr : it->second, found);
    }
    const auto say = [](const std::vector<Field>& gives, const auto& says) {
        return says(gives.size(), first_of(gives));
    };
    if (!found.cleared.empty()) c.ask(say(found.cleared, words::gives_come_off));
    if (!found.better.empty()) c.ask(say(found.better, words::gives_better));
    if (!found.lesser.empty()) c.ask(say(found.lesser, words::gives_less_before));
    if (!found.known.empty()) c.say(say(found.known, words::gives_known_now));
    if (!found.between.empty()) c.say_between(say(found.between, words::gives_between_checks));
    c.worse_gives = std::move(found.worse);
}

std::vector<Remark> learnt(const Comparison& c) {
    Learnt all;
    for (const auto& [key, is] : c.is) {
        const auto it = c.was.find(key);
        all.add(is->beside, it == c.was.end() ? nullptr : &it->second->beside,
                words::in_brackets(quoted_holding(key), words::doses(is->doses.count())));
    }
    const Gives was = by_entry(c.before.snapshot.review);
    for (const auto& row : c.after.snapshot.review.doses) {
        const auto it = was.find(row.entry);
        all.add(row.beside, it == was.end() ? nullptr : &it->second->beside, words::given_by_entry(row.entry));
    }
    return all.said();
}

}  // namespace coldtally::answers
