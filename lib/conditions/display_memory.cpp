#include "conditions/display_memory.hpp"

#include <algorithm>

#include "conditions/fit.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

bool is_out(const Range& range, const Check& check) {
    const Scale scale = check.temperature.scale();
    return !is_in(range, scale, check.min->thousandths()) || !is_in(range, scale, check.max->thousandths());
}

}  // namespace

std::optional<std::string> display_memory(World& w, const Check& check) {
    if (!check.min || !check.max) return std::nullopt;
    bool out = is_out(w.place(check.place).range, check);
    for (const auto& lot : w.store.lots_in_place(check.place))
        if (const Product* product = w.known.product(lot.product))
            out = out || is_out(product->range, check) ||
                  (product->freeze_limit && check.min->celsius() <= product->freeze_limit->in(Scale::C));
    if (!out) return std::nullopt;

    std::optional<ledger::CheckRow> before, with;  // the last before it, and the last with minimum and maximum
    w.store.for_each_check(check.place, -trace::forever, [&](const ledger::CheckRow& row) {
        if (row.at >= w.at || !w.known.is_known(row.entry)) return;
        before = row;
        if (row.lowest) with = row;
    });
    if (!before || before->lowest) return std::nullopt;
    const auto said = [&](const ledger::CheckRow& row) {
        return "of " + w.known.zone().local_text(Instant(row.at)) + " (entry " + std::to_string(row.entry) + ")";
    };
    return "THE DISPLAY MAY HAVE SEEN IT EARLIER: the minimum and maximum count since the check " + said(*before) +
           ", which states none: a glance does not reset the display. They can be of any time since " +
           (with ? "the last check that states them, that " + said(*with)
                 : std::string("the display was reset last; no check before states them")) +
           ", or since a reset after it: take back the check that was a glance, if no reset came with it";
}

}  // namespace coldtally::answers
