// Of loosening: each holding that has doses before and after.
#include "drafts/comparison.hpp"
#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/last_use.hpp"
#include "words/journeys.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

using Row = Comparison::Row;

/// Holdings of which the same is said, and their doses.
struct Holdings {
    std::vector<Remark> all;
    std::int64_t doses = 0;

    void add(const HoldingKey& key, std::int64_t n, const Field& what) {
        all.push_back(words::so_many_of(quoted_holding(key), n, what));
        doses += n;
    }
};

/// What is said of holdings, sentence by sentence.
struct Found {
    Holdings off, fewer, known, between, longer;
    std::vector<Remark> lesser, slighter;
};

/// `gained`: the reasons and doubts that are new.
Remark worse(const HoldingKey& key, const Row& was, const Row& is, const Against& gained) {
    const Remark before = said::list_words(was.list), after = said::list_words(is.list);
    const Field reasons = against_words(gained);
    const auto change = [&]() -> Remark {
        if (is.list < was.list)
            return gained.empty() ? words::becomes(before, after) : words::becomes_for(before, after, reasons);
        return gained.empty() ? words::still_on(after) : words::still_on_new(after, reasons);
    };
    return words::so_many_of(quoted_holding(key), is.doses.count(), change());
}

Remark loses(const Row& is, const Against& lost) {
    const Field reasons = against_words(lost);
    const Remark list = said::list_words(is.list);
    return is.reasons.empty() ? words::loses_reasons_on(reasons, list)
                              : words::loses_reasons_on_for(reasons, list, said::reasons_words(is.reasons));
}

void compare(Comparison& c, const HoldingKey& key, const Row& was, const Row& is, Found& found) {
    const std::int64_t n = is.doses.count();
    const bool comes_off = is.list > was.list;  // discard, quarantine, keep
    const Against lost_ones = lost(was, is), gained = lost(is, was);
    const bool tighter = is.list < was.list || (!comes_off && !gained.empty());
    if (tighter) c.tighter.push_back(worse(key, was, is, gained));
    // what is read as it goes on says so itself
    if (!tighter && c.touched.of_the_past())
        if (const auto what = further(c.w.known.product(key.product), was.history.total, is.history.total))
            c.further.push_back(words::so_many_of(quoted_holding(key), is.doses.count(), *what));
    if (comes_off || !lost_ones.empty()) {
        // what was not known and is known now lets nothing be used where it shows something worse
        const bool said = only_unknown(lost_ones) && (c.touched.only_adds() || tighter);
        auto& known = more_between_checks(was.history.total, is.history.total) ? found.between : found.known;
        (said ? known : comes_off ? found.off : found.fewer)
            .add(key, n,
                 comes_off ? words::becomes(said::list_words(was.list), said::list_words(is.list))
                           : loses(is, lost_ones));
        c.told.insert(lot_of(key));
    }
    if (is.last_use.until > was.last_use.until) {
        const Zone& zone = c.w.known.zone();
        found.longer.add(key, n,
                         words::becomes(usable_words(was.last_use.until, zone), usable_words(is.last_use.until, zone)));
        c.told_longer.insert(lot_of(key));
    }
    bool seen = false;
    const Product* product = c.w.known.product(key.product);
    if (const auto what = less(product, was.history.total, is.history.total, seen)) {
        (seen && !tighter ? found.lesser : found.slighter)
            .push_back(words::in_brackets(quoted_holding(key), *what));
        c.told.insert(lot_of(key));
    }
}

}  // namespace

void compare_holdings(Comparison& c) {
    Found found;
    for (const auto& [key, was] : c.was)
        if (const auto it = c.is.find(key); it != c.is.end()) compare(c, key, *was, *it->second, found);
    const auto ask = [&](const Holdings& holdings, const auto& says) {
        if (!holdings.all.empty()) c.ask(says(words::doses(holdings.doses), which(holdings.all)));
    };
    ask(found.off, words::would_come_off);
    ask(found.fewer, words::would_lose_a_reason);
    ask(found.longer, words::would_be_usable_longer);
    if (!found.lesser.empty()) c.ask(words::less_out_of_range(which(found.lesser)));
    if (!found.known.all.empty())
        c.say(words::come_off_known_now(found.known.doses, which(found.known.all)));
    if (!found.between.all.empty())
        c.say_between(words::come_off_between_checks(found.between.doses, which(found.between.all)));
    if (!found.slighter.empty()) c.say(words::less_at_most(which(found.slighter)));
}

}  // namespace coldtally::answers
