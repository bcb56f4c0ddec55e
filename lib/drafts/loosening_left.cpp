// Of loosening: doses that left the site. Who has them goes by what was told.
#include "drafts/comparison.hpp"
#include "question/said.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

void compare_left(Comparison& c) {
    std::vector<Remark> better, known;
    for (const auto& [was, is] : c.out.changes.left) {
        const Remark name = left_words(is.departure, c.w.known.zone());
        const auto more = news_of(was, is);
        if (!more.empty())
            c.worse_left.push_back(words::colon(words::in_brackets(name, which(more)), left_advice(is.departure)));
        const auto lost_ones = gone(was.reasons, is.reasons);
        bool seen = false;
        const auto what = less(c.w.known.product(is.departure.holding.product), was.history.total, is.history.total,
                               seen);
        if (lost_ones.empty() && is.list <= was.list && !(seen && more.empty())) continue;
        const bool said = (c.touched.only_adds() || !more.empty()) && only_unknown(lost_ones);
        if (said && !more.empty()) continue;  // what is worse is said of them
        std::vector<Remark> parts;
        if (!lost_ones.empty()) parts.push_back(words::reasons_gone(said::reasons_words(lost_ones)));
        if (seen && what) parts.push_back(*what);
        (said ? known : better).push_back(words::in_brackets(name, which(parts)));
    }
    if (!better.empty()) c.ask(words::left_less_known(which(better)));
    if (!known.empty()) c.say(words::left_known_now(which(known)));
}

}  // namespace coldtally::answers
