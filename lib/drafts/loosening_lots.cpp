// Of loosening: doses that an entry puts elsewhere, in time before what they would have had part in: of the lot as a
// whole.
#include <functional>

#include "drafts/comparison.hpp"
#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/last_use.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

using Row = Comparison::Row;
using Rows = std::vector<const Row*>;

template <class Has>
std::int64_t doses_with(const Rows& rows, Has has) {
    std::int64_t out = 0;
    for (const Row* row : rows)
        if (has(*row)) out += row->doses.count();
    return out;
}

/// The doses of a product, lot and fund, wherever they are.
struct Flow {
    Rows before, after;

    /// By how many fewer doses have it. Those that leave the site take what they have with them.
    template <class Has>
    std::int64_t fewer(Has has) const {
        const auto every = [](const Row&) { return true; };
        const std::int64_t leave = std::max<std::int64_t>(0, doses_with(before, every) - doses_with(after, every));
        return doses_with(before, has) - doses_with(after, has) - leave;
    }
};

/// Each of them once, by its name.
template <class T, class Name>
std::vector<T> once(std::vector<T> all, Name name) {
    std::ranges::sort(all, {}, name);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

/// What fewer doses have against their use; none where it is nothing.
std::optional<Remark> lose(const HoldingKey& lot, const Flow& flow) {
    Against all, fewer;
    for (const Row* row : flow.before) {
        all.reasons.insert(all.reasons.end(), row->reasons.begin(), row->reasons.end());
        all.in_doubt.insert(all.in_doubt.end(), row->in_doubt.begin(), row->in_doubt.end());
    }
    std::int64_t most = 0;
    for (const Reason r : once(all.reasons, reason_name)) {
        const auto n =
            flow.fewer([&](const Row& row) { return std::ranges::find(row.reasons, r) != row.reasons.end(); });
        if (n > 0) fewer.reasons.push_back(r);
        most = std::max(most, n);
    }
    for (const auto& d : once(all.in_doubt, std::identity())) {
        const auto n =
            flow.fewer([&](const Row& row) { return std::ranges::find(row.in_doubt, d) != row.in_doubt.end(); });
        if (n > 0) fewer.in_doubt.push_back(d);
        most = std::max(most, n);
    }
    if (fewer.empty()) return std::nullopt;
    const Field what = against_words(fewer);
    const std::int64_t kept = flow.fewer([](const Row& row) { return row.list != List::keep; });
    return words::so_many_of(
        lot_named(lot), most,
        kept > 0 ? Field(words::semicolon(what, words::becomes(kept, said::list_words(List::keep)))) : what);
}

std::optional<Remark> less_of(const Flow& flow) {
    std::vector<Remark> out;
    for (const auto& [name, side] : sides_of_exposure())
        for (const Row* row : flow.before) {
            const Rational most = (row->history.total.*side).at_most;
            if (most.sign() == 0) continue;
            const std::int64_t n =
                flow.fewer([&, of = side](const Row& r) { return (r.history.total.*of).at_most >= most; });
            if (n <= 0) continue;
            out.push_back(words::so_many_so_far(n, name, duration_words(most, true)));
            break;
        }
    return words::semicolons(out);
}

/// That doses may be used longer; none where they may not.
std::optional<Remark> longer(const HoldingKey& lot, const Flow& flow, const Zone& zone) {
    for (const Row* row : flow.before) {
        const Instant until = row->last_use.until;
        const std::int64_t n = flow.fewer([&](const Row& r) { return r.last_use.until <= until; });
        if (n > 0) return words::so_many_of(lot_named(lot), n, words::so_far(usable_words(until, zone)));
    }
    return std::nullopt;
}

}  // namespace

void compare_lots(Comparison& c) {
    std::map<HoldingKey, Flow> all;
    for (const auto& [key, row] : c.was) all[lot_of(key)].before.push_back(row);
    for (const auto& [key, row] : c.is) all[lot_of(key)].after.push_back(row);
    std::vector<Remark> losing, usable, lesser;
    for (const auto& [lot, flow] : all) {
        if (!c.told.contains(lot)) {
            if (const auto what = lose(lot, flow)) losing.push_back(*what);
            if (const auto what = less_of(flow)) lesser.push_back(words::in_brackets(lot_named(lot), *what));
        }
        if (c.told_longer.contains(lot)) continue;
        if (const auto what = longer(lot, flow, c.w.known.zone())) usable.push_back(*what);
    }
    if (!losing.empty()) c.ask(words::not_where_they_come(which(losing)));
    if (!usable.empty()) c.ask(words::some_usable_longer(which(usable)));
    if (!lesser.empty()) c.ask(words::less_out_of_range(which(lesser)));
}

}  // namespace coldtally::answers
