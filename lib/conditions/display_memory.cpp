#include "conditions/display_memory.hpp"

#include <algorithm>

#include "conditions/fit.hpp"
#include "exposure/limits.hpp"
#include "text/json_text.hpp"
#include "trace/calibration.hpp"
#include "words/conditions.hpp"

namespace coldtally::answers {

namespace {

bool is_out(const Range& range, const Check& check) {
    const Scale scale = check.temperature.scale();
    return !is_in(range, scale, check.min->thousandths()) || !is_in(range, scale, check.max->thousandths());
}

bool is_cold_or_frozen(const FirstDisplay& d, const Range& range, const std::optional<Limit>& freeze_limit) {
    const exposure::LimitsOf limits(range);
    const auto lowest = exposure::ticks(d.lowest);
    return limits.in(d.scale).is_cold(lowest) || (freeze_limit && lowest <= exposure::ticks(*freeze_limit, d.scale));
}

bool is_warm(const FirstDisplay& d, const Range& range) {
    return exposure::LimitsOf(range).in(d.scale).is_warm(exposure::ticks(d.highest));
}

Remark showed(const World& w, const FirstDisplay& d, const std::string& place, bool cold, bool warm) {
    const auto degrees = [](const Temperature& t) { return t.text() + " °" + scale_letter(t.scale()); };
    const std::string lowest = degrees(d.shown_lowest), highest = degrees(d.shown_highest);
    return words::display_showed(
        cold && warm ? Field(words::both_shown(lowest, highest)) : Field(cold ? lowest : highest), text::quoted(place),
        w.known.zone().local_text(Instant(d.at)), d.entry,
        cold && warm ? words::the_minimum_and_maximum
        : cold       ? words::the_minimum
                     : words::the_maximum);
}

}  // namespace

const FirstDisplay* first_display(World& w, const std::string& place) {
    const auto [kept, fresh] = w.displays.try_emplace(place);
    if (!fresh) return kept->second.get();
    const auto row = w.store.first_check(place, [&](EntryNumber n) { return w.known.is_known(n); });
    if (!row || !row->lowest || !row->highest || row->at > w.at) return nullptr;
    const Certificate* c = row->probe ? trace::Calibration(w.known, *row->probe).at(row->at) : nullptr;
    kept->second = std::make_shared<const FirstDisplay>(
        FirstDisplay{row->at, row->entry, row->scale, trace::corrected(c, *row->lowest),
                     trace::corrected(c, *row->highest), Temperature(row->scale, *row->lowest),
                     Temperature(row->scale, *row->highest)});
    return kept->second.get();
}

std::optional<Remark> shown_out(const World& w, const FirstDisplay& d, const std::string& place, const Range& range,
                                const std::optional<Limit>& freeze_limit) {
    const bool cold = is_cold_or_frozen(d, range, freeze_limit), warm = is_warm(d, range);
    return cold || warm ? std::optional(showed(w, d, place, cold, warm)) : std::nullopt;
}

std::optional<Remark> shown_out(World& w, const std::string& place) {
    const FirstDisplay* d = first_display(w, place);
    return d ? shown_out(w, *d, place, w.place(place).range, std::nullopt) : std::nullopt;
}

std::vector<Remark> shown_before(World& w, const std::string& place, const Window& window) {
    std::vector<Remark> out;
    const FirstDisplay* d = window.empty ? nullptr : first_display(w, place);
    if (d && window.from < d->at)
        if (auto said = shown_out(w, place)) out.push_back(std::move(*said));
    return out;
}

std::optional<Remark> display_memory(World& w, const Check& check) {
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
    const auto when = [&](const ledger::CheckRow& row) { return w.known.zone().local_text(Instant(row.at)); };
    return words::display_not_reset(
        when(*before), before->entry,
        with ? words::last_check_that_states(when(*with), with->entry) : words::last_reset());
}

}  // namespace coldtally::answers
