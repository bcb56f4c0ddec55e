#include <algorithm>

#include "forms/incident_form.hpp"
#include "words/history.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::forms {

using Paint = TableLayout::Paint;
using ToTell = IncidentAnswer::ToTell;

Json told_json(const ToTell& t) {
    return {{"place", t.place},
            {"product", t.product},
            {"lot", t.lot},
            {"fund", t.fund},
            {"mark", t.mark},
            {"doses", t.doses.count()},
            {"given", t.given},
            {"out_of_range_s", t.figures.out_of_range.seconds()},
            {"beyond_s", t.beyond_s.text()},
            {"at_most_s", t.at_most_s.text()},
            {"checked_s", t.checked_s.text()},
            {"over", list_json(t.over,
                               [](const auto& o) {
                                   return Json{{"allowance", o.allowance + 1},
                                               {"seconds", o.permitted.seconds()},
                                               {"over_s", o.over_s.text()},
                                               {"source", o.source}};
                               })},
            {"unmonitored_s", t.figures.unmonitored.seconds()},
            {"points", t.figures.points}};
}

namespace {

std::string time(const Rational& seconds) { return duration_words(seconds, true); }

Remark doses_words(const ToTell& t) {
    const Remark here = words::doses(t.doses.count());
    if (t.given == 0) return here;
    const Remark given = words::given_out_of_it(words::doses(t.given));
    return t.doses.count() == 0 ? given : words::both(here, given);
}

/// How much of it an allowance covers.
Remark out_of_range(const ToTell& t) {
    const Rational seconds(t.figures.out_of_range.seconds());
    const Remark out = words::out_of_range_for(time(seconds));
    if (seconds.sign() == 0) return out;
    return words::in_brackets(out, t.beyond_s.sign() == 0                       ? words::all_in_allowance()
                                   : t.beyond_s.ceil() == seconds.floor() ? words::none_in_allowance()
                                                                          : words::in_no_allowance(time(t.beyond_s)));
}

Remark figures_words(const ToTell& t) {
    std::vector<Field> out{doses_words(t), out_of_range(t)};
    for (const auto& o : t.over)
        out.push_back(words::more_than_allowance(
            time(o.over_s), duration_words(Rational(o.permitted.seconds()), false), o.allowance + 1, o.source));
    if (Rational(t.at_most_s.ceil()) > Rational(t.figures.out_of_range.seconds()))
        out.push_back(words::at_most_since_receipt(time(t.at_most_s)));
    out.push_back(words::unknown_for(time(Rational(t.figures.unmonitored.seconds()))));
    out.push_back(words::points_uncovered(words::readings(t.figures.points)));
    if (t.checked_s.sign() > 0) out.push_back(words::unknown_since_receipt(time(t.checked_s)));
    return words::colon(holding_words({t.place, t.product, t.lot, t.fund, t.mark}), words::listed(out));
}

}  // namespace

void add_figures(TableLayout& table, const IncidentAnswer& a) {
    add_heading(table, words::heading_figures);
    const bool unread = a.unread_s.sign() > 0;
    if (unread) table.text(words::not_yet_read(time(a.unread_s)), 2, 2, Paint::wait);
    Rational between;
    for (const auto& u : a.units)
        between = std::max(between, u.exposure.seconds[static_cast<std::size_t>(Class::checked)]);
    if (a.told.empty() && between.sign() > 0)
        table.text(words::between_checks_uncounted(time(between)), 2, 2, Paint::wait);
    if (a.told.empty() && !unread && between.sign() == 0) {
        const bool perhaps_more = std::ranges::any_of(a.now, [](const auto& r) { return !r.beside.empty(); });
        table.text(perhaps_more ? words::nothing_open_by_estimate() : words::nothing_open(), 2);
    }
    for (const auto& t : a.told) table.text(figures_words(t), 2, 2);
}

}  // namespace coldtally::forms
