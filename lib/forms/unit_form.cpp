#include <algorithm>
#include <functional>
#include <set>

#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/conditions.hpp"
#include "words/history.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Figures = UnitAnswer::Figures;
using Disagreement = UnitAnswer::Disagreement;

namespace {

Json side_json(const SideExposure& s) {
    return {{"at_least_s", s.at_least.text()},
            {"estimate_s", s.estimate.text()},
            {"at_most_s", s.at_most.text()},
            {"degree_Cs", s.degree_s.text()}};
}

Json figures_json(const Figures& f) {
    Json out;
    out["excursions"] = f.excursions;
    out["longest_s"] = json_or_null(f.longest_s);
    out["warm"] = side_json(f.warm);
    out["cold"] = side_json(f.cold);
    out["out_of_range_s"] = f.out_of_range_s.text();
    Json coverage;
    for (int i = 0; i < class_count; ++i)
        coverage[std::string(class_name(static_cast<Class>(i))) + "_s"] = f.seconds[static_cast<std::size_t>(i)].text();
    out["coverage"] = std::move(coverage);
    out["known_s"] = f.known_s().text();
    out["measured_s"] = f.measured_s().text();
    out["measured_out_s"] = f.measured_out_s.text();
    out["in_range"] = json_or_null(f.in_range);
    out["lowest_C"] = json_or_null(f.lowest_C);
    out["highest_C"] = json_or_null(f.highest_C);
    out["mean_C"] = json_or_null(f.mean_C);
    out["mean_kinetic_C"] = json_or_null(f.mean_kinetic_C);
    out["disagreements"] = f.disagreements;
    return out;
}

Json hour_json(const UnitAnswer::Hour& h) {
    return {{"excursions", h.excursions}, {"warm_s", h.warm_s.text()}, {"cold_s", h.cold_s.text()}};
}

Json device_json(const UnitAnswer::Device& d) {
    return {{"probe", json_or_null(d.probe)},
            {"check", json_or_null(d.check)},
            {"at", d.at.text()},
            {"temperature_C", d.C.text()},
            {"tolerance_C", json_or_null(d.tolerance_C)}};
}

std::string two_digits(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }
std::string month_name(const UnitAnswer::Month& m) { return std::to_string(m.year) + "-" + two_digits(m.month); }

std::string time_or_dash(const Rational& seconds) {
    return seconds.sign() > 0 ? duration_words(seconds, true) : std::string("-");
}

Field degrees(const std::optional<Rational>& c, Scale scale, Rounding rounding) {
    return c ? temperature_words(*c, scale, rounding) : Field("?");
}

// A decimal with 6 places: an exact number of millionths.
std::optional<Rational> kinetic(const Figures& f) {
    if (!f.mean_kinetic_C) return std::nullopt;
    std::string digits = *f.mean_kinetic_C;
    std::erase(digits, '.');
    return Rational(std::stoll(digits), 1'000'000);
}

// Rounded down.
std::string percent(const Rational& share) {
    const std::int64_t tenths = (share * Rational(1000)).floor();
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
}

// How much of the time the share of time in range is of; not made more than it is.
std::string measured_share(const Figures& f) {
    Rational all;
    for (const auto& s : f.seconds) all += s;
    if (f.measured_s().sign() == 0) return "-";
    return percent(f.measured_s() / all);
}

Field share_words(const Figures& f) {
    return f.in_range ? Field(percent(*f.in_range)) : Field(words::not_measured());
}

Rational unknown_s(const Figures& f) {
    return f.seconds[static_cast<std::size_t>(Class::near)] + f.seconds[static_cast<std::size_t>(Class::awaiting)] +
           f.seconds[static_cast<std::size_t>(Class::unmonitored)];
}

std::vector<Field> cells(const Field& name, const Figures& f, Scale scale) {
    const Field longest = !f.longest_s               ? Field("-")
                          : f.longest_s->sign() > 0 ? Field(duration_words(*f.longest_s, true))
                                                    : Field(words::a_point());
    return {name,
            f.excursions ? Field(f.excursions) : Field("-"),
            longest,
            time_or_dash(f.warm.estimate),
            time_or_dash(f.cold.estimate),
            measured_share(f),
            share_words(f),
            time_or_dash(unknown_s(f)),
            degrees(f.mean_C, scale, Rounding::nearest),
            degrees(kinetic(f), scale, Rounding::nearest),
            degrees(f.lowest_C, scale, Rounding::down),
            degrees(f.highest_C, scale, Rounding::up),
            f.disagreements ? Field(f.disagreements) : Field()};
}

/// `when`: where it says so at another time than the other device.
Remark device_words(const UnitAnswer::Device& d, Scale scale, const std::optional<std::string>& when = {}) {
    const Field degrees = temperature_words(d.C, scale, Rounding::nearest);
    const Field shown = when ? Field(words::degrees_at(degrees, *when)) : degrees;
    const auto says = [&]() -> Remark {
        if (d.check && d.probe) return words::check_by_probe_says(*d.check, *d.probe, shown);
        if (d.check) return words::check_says(*d.check, shown);
        return d.probe ? words::logger_says(*d.probe, shown) : words::some_logger_says(shown);
    };
    return d.tolerance_C ? says() : words::tolerance_not_known(says());
}

Remark differ_words(const Disagreement& d, const TableStyle& style) {
    const std::string at = style.zone.local_text(d.until), from = style.zone.local_text(d.from);
    const Remark check = device_words(d.check, style.scale);
    const Remark other = device_words(
        d.other, style.scale,
        d.other.at != d.until ? std::optional(style.zone.local_text(d.other.at)) : std::nullopt);
    switch (d.what) {
        case Disagreement::What::reading: break;
        case Disagreement::What::minimum: return words::differ_minimum(at, from, check, other);
        case Disagreement::What::maximum: return words::differ_maximum(at, from, check, other);
    }
    return words::differ_at(at, check, other);
}

/// Time out of range by the probes' tolerances.
void add_bounds(TableLayout& table, const Figures& f) {
    const auto add = [&](const auto& phrase, const SideExposure& s) {
        const auto time = [](const Rational& t) {
            return t.sign() == 0 ? std::string("0 s") : duration_words(t, true);
        };
        if (s.at_most.sign() != 0) table.text(phrase(time(s.estimate), time(s.at_least), time(s.at_most)), 0, 2);
    };
    add(words::warm_by_tolerances, f.warm);
    add(words::cold_by_tolerances, f.cold);
}

void add_hours(TableLayout& table, const UnitAnswer& a) {
    table.blank();
    table.text(words::by_the_hour());
    table.titles();
    for (std::size_t h = 0; h < a.hours.size(); ++h) {
        const auto& hour = a.hours[h];
        if (hour.excursions == 0 && hour.warm_s.sign() == 0 && hour.cold_s.sign() == 0) continue;
        table.row({two_digits(static_cast<int>(h)) + ":00", hour.excursions, time_or_dash(hour.warm_s),
                   time_or_dash(hour.cold_s)});
    }
    if (a.hour_not_known.excursions > 0)
        table.row({words::hour_not_known(), a.hour_not_known.excursions, time_or_dash(a.hour_not_known.warm_s),
                   time_or_dash(a.hour_not_known.cold_s)});
}

Remark month_words(int month) {
    static const Phrase* const names[] = {
        &words::january.phrase, &words::february.phrase, &words::march.phrase,     &words::april.phrase,
        &words::may.phrase,     &words::june.phrase,     &words::july.phrase,      &words::august.phrase,
        &words::september.phrase, &words::october.phrase, &words::november.phrase, &words::december.phrase};
    return {names[month - 1], {}};
}

/// A row a month, a column a year; where not all have room, the earlier ones go below.
std::string compared_table(const UnitAnswer& a, const TableStyle& style, const Remark& title,
                           const std::function<Field(const Figures&)>& cell) {
    std::set<int> years;
    for (const auto& same : a.compared)
        for (const auto i : same.months) years.insert(a.months[i].year);
    std::vector<TableLayout::Column> columns{{words::title_month(), Kind::fixed}};
    for (int falls = static_cast<int>(years.size()); const int year : years)
        columns.push_back({std::to_string(year), Kind::number, falls--});
    TableLayout table(*style.book, columns);
    table.blank();
    table.text(title);
    table.titles();
    for (const auto& same : a.compared) {
        if (std::none_of(same.months.begin(), same.months.end(),
                         [&](std::size_t i) { return a.months[i].figures.known_s().sign() > 0; }))
            continue;
        std::vector<Field> row{month_words(same.month)};
        for (const int year : years) {
            const auto m = std::find_if(same.months.begin(), same.months.end(),
                                        [&](std::size_t i) { return a.months[i].year == year; });
            row.push_back(m == same.months.end()                       ? Field()
                          : a.months[*m].figures.known_s().sign() == 0 ? Field("?")
                                                                       : cell(a.months[*m].figures));
        }
        table.row(row);
    }
    return render(table, style);
}

std::string compared_tables(const UnitAnswer& a, const TableStyle& style) {
    if (a.compared.empty()) return {};
    return compared_table(a, style, words::same_months_in_range, share_words) +
           compared_table(a, style, words::same_months_kinetic, [&](const Figures& f) {
               return degrees(kinetic(f), style.scale, Rounding::nearest);
           });
}

}  // namespace

std::string to_json(const UnitAnswer& a) {
    Json out = json_head(a.head);
    out["place"] = a.place;
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    set_window(out, a.head);
    out["whole"] = figures_json(a.whole);
    out["months"] = Json::array();
    for (const auto& m : a.months) {
        Json one{{"month", month_name(m)}, {"from", m.from.text()}, {"until", m.until.text()}};
        one.update(figures_json(m.figures));
        out["months"].push_back(std::move(one));
    }
    out["hours"] = Json::array();
    for (std::size_t h = 0; h < a.hours.size(); ++h) {
        Json one{{"hour", h}};
        one.update(hour_json(a.hours[h]));
        out["hours"].push_back(std::move(one));
    }
    out["hour_not_known"] = hour_json(a.hour_not_known);
    out["compared"] = Json::array();
    for (const auto& same : a.compared) {
        Json one{{"calendar_month", same.month}, {"months", Json::array()}};
        for (const auto k : same.months) one["months"].push_back(month_name(a.months[k]));
        out["compared"].push_back(std::move(one));
    }
    out["disagreements"] = Json::array();
    for (const auto& d : a.disagreements)
        out["disagreements"].push_back({{"what", disagreement_name(d.what)},
                                        {"from", d.from.text()},
                                        {"until", d.until.text()},
                                        {"check", device_json(d.check)},
                                        {"other", device_json(d.other)},
                                        {"difference_C", d.difference_C.text()},
                                        {"allowed_C", d.allowed_C.text()}});
    std::vector<Remark> marks = a.marks;
    marks.insert(marks.end(), a.cut.begin(), a.cut.end());
    set_remarks(out, "marks", marks);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

TableLayout months_table(const UnitAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_month(), Kind::fixed},
                                    {words::title_excursions(), Kind::number},
                                    {words::title_longest()},
                                    {words::title_warm()},
                                    {words::title_cold()},
                                    {words::title_logged(), Kind::number, 1},
                                    {words::title_in_range(), Kind::number},
                                    {words::title_unknown()},
                                    {words::title_mean(), Kind::number, 2},
                                    {words::title_kinetic(), Kind::number, 3},
                                    {words::title_lowest(), Kind::number},
                                    {words::title_highest(), Kind::number},
                                    {words::title_differ(), Kind::number}});
    add_head(table, a.head, words::unit_title(a.place), style);
    table.text(words::window_line(window_words(a.from, a.until, a.head.at, style.zone)), 0, 2);
    table.blank();
    if (a.months.empty()) {
        table.text(words::no_time_to_tell_of());
        return table;
    }
    table.titles();
    for (const auto& m : a.months) table.row(cells(month_name(m), m.figures, style.scale));
    table.row(cells(words::all_of_them(), a.whole, style.scale));
    return table;
}

TableLayout hours_table(const UnitAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_hour()},
                                    {words::title_begun(), Kind::number},
                                    {words::title_warm(), Kind::number},
                                    {words::title_cold(), Kind::number}});
    table.blank();
    const auto rests = coverage_words(a.whole.seconds);
    table.text(words::in_range_is_of(rests ? *rests : words::no_time(), duration_words(a.whole.measured_s(), false)),
               0, 2);
    add_bounds(table, a.whole);
    if (a.whole.excursions > 0) add_hours(table, a);
    return table;
}

void add_disagreements(TableLayout& table, const UnitAnswer& a, const TableStyle& style) {
    if (a.disagreements.empty()) {
        if (a.months.empty()) return;
        table.blank();
        table.text(words::no_disagreement());
        return;
    }
    table.blank();
    table.text(words::disagreements_head(), 0, 2, TableLayout::Paint::stop);
    constexpr std::size_t most = 40;
    const std::size_t first = a.disagreements.size() - std::min(most, a.disagreements.size());
    if (first > 0)
        table.text(words::last_of_disagreements(most, a.disagreements.size(), words::parameter("from"),
                                                words::parameter("format", "json")),
                   0, 2);
    for (std::size_t i = first; i < a.disagreements.size(); ++i)
        table.text(differ_words(a.disagreements[i], style), 0, 4);
}

}  // namespace

std::string to_table(const UnitAnswer& a, const TableStyle& style) {
    TableLayout rest(*style.book);
    add_disagreements(rest, a, style);
    for (const auto& cut : a.cut) rest.text(words::marked(cut), 0, 2);
    for (const auto& mark : a.marks) rest.text(words::marked(words::uncertified_readings(mark)), 0, 2);
    add_caution(rest);
    return render(months_table(a, style), style) + render(hours_table(a, style), style) + compared_tables(a, style) +
           render(rest, style);
}

}  // namespace coldtally
