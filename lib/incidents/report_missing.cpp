#include <algorithm>

#include "conditions/disagreements.hpp"
#include "incidents/investigation.hpp"
#include "question/said.hpp"
#include "stock/notes.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"

namespace coldtally::answers {

namespace {

/// What such reports ask and no ledger holds.
void add_always(std::vector<Remark>& out) {
    for (const Remark& one :
         {words::lacks_site(), words::lacks_reporter(), words::lacks_model(), words::lacks_position(),
          words::lacks_room(), words::lacks_labels(), words::lacks_value(), words::lacks_decision()})
        out.push_back(one);
}

void add_story(const IncidentAnswer& a, std::vector<Remark>& out) {
    const auto has = [&](IncidentStep step) {
        return std::ranges::find(a.steps, step, &IncidentAnswer::Step::step) != a.steps.end();
    };
    if (!a.noticed) out.push_back(words::lacks_notice);
    if (!has(IncidentStep::cause)) out.push_back(words::lacks_cause);
    if (!has(IncidentStep::action)) out.push_back(words::lacks_action);
    if (a.units.empty()) out.push_back(words::lacks_place);
}

/// "4 °C to 38 °C", with minimum and maximum.
Field shown(const ledger::CheckRow& row) {
    const auto degrees = [&](std::int32_t value) {
        return Temperature(row.scale, value).text() + " °" + scale_letter(row.scale);
    };
    if (!row.lowest || !row.highest) return degrees(row.temperature);
    return words::from_to(degrees(*row.lowest), degrees(*row.highest));
}

/// Checks of one instant of which the later holds, though the earlier may be the right one.
void add_twice_checked(Investigation& i, const std::string& place, std::vector<Remark>& out) {
    const auto in_doubt = [&](std::int64_t t) {
        return std::ranges::any_of(i.windows.at(place), [&](const Window& w) { return w.from <= t && t <= w.until; });
    };
    std::map<std::int64_t, ledger::CheckRow> last;  // in the order of their numbers
    auto rows = i.w.store.checks(place, -trace::forever);
    std::erase_if(rows, [&](const auto& r) { return !i.w.known.is_known(r.entry) || !in_doubt(r.at); });
    std::ranges::sort(rows, {}, &ledger::CheckRow::entry);
    for (const auto& row : rows) {
        const auto [it, fresh] = last.try_emplace(row.at, row);
        if (fresh) continue;
        const ledger::CheckRow& older = it->second;
        if (!(shown(older) == shown(row)))
            out.push_back(words::lacks_which_check(place, i.w.known.zone().local_text(Instant(row.at)), older.entry,
                                                   shown(older), row.entry, shown(row)));
        it->second = row;
    }
}

void add_unit(Investigation& i, const IncidentAnswer::Unit& u, std::vector<Remark>& out) {
    if (!u.last_good) out.push_back(words::lacks_last_good(u.place));
    if (!u.back_in_range) out.push_back(words::lacks_back(u.place));
    if (const Rational unknown = unknown_seconds(u); unknown.sign() > 0)
        out.push_back(words::lacks_temperature(u.place, duration_words(unknown, true)));
    if (const Rational& checked = seconds_of(u.exposure, Class::checked); checked.sign() > 0)
        out.push_back(words::lacks_between_checks(u.place, duration_words(checked, true)));
    if (u.devices.empty()) out.push_back(words::lacks_device(u.place));
    std::vector<UnitAnswer::Disagreement> differ;
    for (const Window& window : i.windows.at(u.place))
        for (auto& d : disagreements(i.w, u.place, window))
            if (std::ranges::find(differ, d.until, &UnitAnswer::Disagreement::until) == differ.end())
                differ.push_back(std::move(d));
    if (!differ.empty()) {
        const std::string first = i.w.known.zone().local_text(differ.front().until);
        out.push_back(differ.size() == 1 ? words::lacks_which_right(u.place, first)
                                         : words::lacks_which_right_often(u.place, differ.size(), first));
    }
    add_twice_checked(i, u.place, out);
    for (const auto& d : u.devices) {
        if (!d.serial) out.push_back(words::lacks_serial(d.probe));
        if (!d.certified_until) out.push_back(words::lacks_certificate(d.probe));
    }
}

void add_answers(const IncidentAnswer::Asked& maker, std::vector<Remark>& out) {
    if (maker.maker.empty()) out.push_back(words::lacks_maker(maker.products.front()));
    for (const auto& x : maker.answers) {
        const Remark lot = words::lot_of(x.product, x.lot);
        if (x.guidance.empty())
            out.push_back(words::lacks_answer(lot));
        else if (x.waits)
            out.push_back(words::lacks_whole_answer(lot));
    }
}

}  // namespace

void add_missing(Investigation& i) {
    const IncidentAnswer& a = i.out;
    std::vector<Remark> out;
    add_always(out);
    add_story(a, out);
    for (const auto& u : a.units) add_unit(i, u, out);
    for (const auto& row : a.now)
        if (const Rational awaiting = awaited(i.w, row); awaiting.sign() > 0)
            out.push_back(words::lacks_readings(
                duration_words(awaiting, true),
                words::holding(row.holding.product, row.holding.lot, row.holding.place)));
    for (const auto& maker : a.makers) add_answers(maker, out);
    for (const auto& l : a.lines)
        if (!l.counted) out.push_back(words::lacks_count(said::holding_words(l.holding)));
    for (const auto& none : a.not_judged) out.push_back(words::lacks_judgement(none));
    if (!a.rules_entry) out.push_back(words::lacks_rules);
    i.out.missing = std::move(out);
}

}  // namespace coldtally::answers
