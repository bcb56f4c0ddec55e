// The history of a unit as JSON and as a table.
#include <algorithm>
#include <functional>
#include <set>

#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

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

std::string time_or_none(const Rational& seconds) {
    return seconds.sign() > 0 ? duration_words(seconds, true) : std::string("-");
}

std::string celsius(const std::optional<Rational>& c, Scale scale, Rounding rounding) {
    return c ? temperature_words(*c, scale, rounding) : std::string("?");
}

// A decimal with 6 places: an exact number of millionths.
std::optional<Rational> kinetic(const Figures& f) {
    if (!f.mean_kinetic_C) return std::nullopt;
    std::string digits = *f.mean_kinetic_C;
    std::erase(digits, '.');
    return Rational(std::stoll(digits), 1'000'000);
}

// How much of the time the share of time in range is of; not made more than it is.
std::string measured_share(const Figures& f) {
    Rational all;
    for (const auto& s : f.seconds) all += s;
    if (f.measured_s().sign() == 0) return "-";
    const std::int64_t tenths = (f.measured_s() * Rational(1000) / all).floor();
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
}

std::string share_words(const Figures& f) {
    if (!f.in_range) return "not measured";
    const std::int64_t tenths = (*f.in_range * Rational(1000)).floor();
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
}

Rational unknown_s(const Figures& f) {
    return f.seconds[static_cast<std::size_t>(Class::near)] + f.seconds[static_cast<std::size_t>(Class::awaiting)] +
           f.seconds[static_cast<std::size_t>(Class::unmonitored)];
}

std::vector<std::string> cells(const std::string& name, const Figures& f, Scale scale) {
    return {name,
            f.excursions ? std::to_string(f.excursions) : "-",
            f.longest_s ? (f.longest_s->sign() > 0 ? duration_words(*f.longest_s, true) : "a point") : "-",
            time_or_none(f.warm.estimate),
            time_or_none(f.cold.estimate),
            measured_share(f),
            share_words(f),
            time_or_none(unknown_s(f)),
            celsius(f.mean_C, scale, Rounding::nearest),
            celsius(kinetic(f), scale, Rounding::nearest),
            celsius(f.lowest_C, scale, Rounding::down),
            celsius(f.highest_C, scale, Rounding::up),
            f.disagreements ? std::to_string(f.disagreements) : ""};
}

std::string bounds_words(const char* side, const SideExposure& s) {
    if (s.at_most.sign() == 0) return {};
    return std::string(side) + " " + time_or_none(s.estimate) + " (at least " + time_or_none(s.at_least) +
           ", at most " + time_or_none(s.at_most) + ")";
}

std::string device_words(const UnitAnswer::Device& d, Scale scale) {
    const std::string tolerance = d.tolerance_C ? "" : ", tolerance not known";
    if (!d.check)
        return "logger" + (d.probe ? " " + *d.probe : std::string()) + " " +
               temperature_words(d.C, scale, Rounding::nearest) + tolerance;
    return "check " + std::to_string(*d.check) + (d.probe ? " (" + *d.probe + ")" : std::string()) + " " +
           temperature_words(d.C, scale, Rounding::nearest) + tolerance;
}

std::string disagreement_words(const Disagreement& d, const TableStyle& style) {
    std::string out = style.zone.local_text(d.until) + ": ";
    if (d.what == Disagreement::What::reading) {
        out += "at one time, ";
    } else {
        out += std::string(disagreement_name(d.what)) + " since " + style.zone.local_text(d.from) + ", ";
    }
    out += device_words(d.check, style.scale) + "; " + device_words(d.other, style.scale);
    if (d.other.at != d.until) out += " at " + style.zone.local_text(d.other.at);
    return out;
}

void add_hours(TableLayout& table, const UnitAnswer& a) {
    table.blank();
    table.text("By the hour of the day (local), over all of the time:");
    table.titles();
    for (std::size_t h = 0; h < a.hours.size(); ++h) {
        const auto& hour = a.hours[h];
        if (hour.excursions == 0 && hour.warm_s.sign() == 0 && hour.cold_s.sign() == 0) continue;
        table.row({two_digits(static_cast<int>(h)) + ":00", std::to_string(hour.excursions), time_or_none(hour.warm_s),
                   time_or_none(hour.cold_s)});
    }
    if (a.hour_not_known.excursions > 0)
        table.row({"hour not known: minimum or maximum alone", std::to_string(a.hour_not_known.excursions),
                   time_or_none(a.hour_not_known.warm_s), time_or_none(a.hour_not_known.cold_s)});
}

/// A row a month, a column a year; the last years, where not all have room.
std::string compared_table(const UnitAnswer& a, const TableStyle& style, const char* title,
                           const std::function<std::string(const Figures&)>& cell) {
    static const char* const names[] = {"January", "February", "March",     "April",   "May",      "June",
                                        "July",    "August",   "September", "October", "November", "December"};
    std::set<int> years;
    for (const auto& same : a.compared)
        for (const auto i : same.months) years.insert(a.months[i].year);
    const auto room = static_cast<std::size_t>(std::max(2, (style.columns - 12) / 9));
    while (years.size() > room) years.erase(years.begin());
    std::vector<TableLayout::Column> columns{{"Month", Kind::fixed}};
    for (const int year : years) columns.push_back({std::to_string(year), Kind::number});
    TableLayout table(columns);
    table.blank();
    table.text(title);
    table.titles();
    for (const auto& same : a.compared) {
        if (std::none_of(same.months.begin(), same.months.end(),
                         [&](std::size_t i) { return a.months[i].figures.known_s().sign() > 0; }))
            continue;
        std::vector<std::string> row{names[same.month - 1]};
        for (const int year : years) {
            const auto m = std::find_if(same.months.begin(), same.months.end(),
                                        [&](std::size_t i) { return a.months[i].year == year; });
            row.push_back(m == same.months.end()                       ? ""
                          : a.months[*m].figures.known_s().sign() == 0 ? "?"
                                                                       : cell(a.months[*m].figures));
        }
        table.row(std::move(row));
    }
    return render(table, style);
}

std::string compared_words(const UnitAnswer& a, const TableStyle& style) {
    if (a.compared.empty()) return {};
    return compared_table(a, style,
                          "The same month over the years, in range, of the time that a logger measured:", share_words) +
           compared_table(a, style, "The same month over the years, mean kinetic temperature:", [&](const Figures& f) {
               return celsius(kinetic(f), style.scale, Rounding::nearest);
           });
}

}  // namespace

std::string to_json(const UnitAnswer& a) {
    Json out = json_head(a.head);
    out["place"] = a.place;
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    out["window"] = a.head.window;
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
    out["marks"] = a.marks;
    for (const auto& cut : a.cut) out["marks"].push_back(cut);
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const UnitAnswer& a, const TableStyle& style) {
    TableLayout table({{"Month", Kind::fixed},
                       {"Exc.", Kind::number},
                       {"Longest"},
                       {"Warm"},
                       {"Cold"},
                       {"Logged", Kind::number},
                       {"In range", Kind::number},
                       {"Unknown"},
                       {"Mean", Kind::number},
                       {"Kinetic", Kind::number},
                       {"Lowest", Kind::number},
                       {"Highest", Kind::number},
                       {"Differ", Kind::number}});
    add_head(table, a.head, "history of " + a.place, style);
    table.text("Time " + window_words(a.from, a.until, a.head.at, style.zone) + ".", 0, 2);
    table.blank();
    if (a.months.empty()) table.text("No time to tell of.");
    else table.titles();
    for (const auto& m : a.months) table.row(cells(month_name(m), m.figures, style.scale));
    if (!a.months.empty()) table.row(cells("all", a.whole, style.scale));

    TableLayout hours({{"Hour"}, {"Exc. begun", Kind::number}, {"Warm", Kind::number}, {"Cold", Kind::number}});
    hours.blank();
    std::string rests = coverage_words(a.whole.seconds);
    hours.text("Known how: " + (rests.empty() ? std::string("no time") : rests) +
                   ". In range is the share of the time that a logger measured, which is " +
                   duration_words(a.whole.measured_s(), false) +
                   "; between plain checks nothing is known, and such time counts as neither.",
               0, 2);
    for (const auto& line : {bounds_words("Too warm", a.whole.warm), bounds_words("Too cold", a.whole.cold)})
        if (!line.empty()) hours.text(line + ", by the probes' tolerances.", 0, 2);
    if (a.whole.excursions > 0) add_hours(hours, a);

    TableLayout rest;
    if (!a.disagreements.empty()) {
        rest.blank();
        rest.text(
            "DEVICES THAT DISAGREE: at least one of the two is wrong. Have both looked at; they are not averaged.", 0,
            2, TableLayout::Paint::stop);
        constexpr std::size_t most = 40;
        const std::size_t first = a.disagreements.size() - std::min(most, a.disagreements.size());
        if (first > 0)
            rest.text("The last " + std::to_string(most) + " of " + std::to_string(a.disagreements.size()) +
                          "; a shorter time (--from) or --format json shows the others.",
                      0, 2);
        for (std::size_t i = first; i < a.disagreements.size(); ++i)
            rest.text(disagreement_words(a.disagreements[i], style), 0, 4);
    } else if (!a.months.empty()) {
        rest.blank();
        rest.text("No two devices were seen to disagree beyond their tolerances.");
    }
    for (const auto& cut : a.cut) rest.text("Marked: " + cut, 0, 2);
    for (const auto& mark : a.marks) rest.text("Marked: readings without a valid certificate: " + mark, 0, 2);
    add_caution(rest);
    return render(table, style) + render(hours, style) + compared_words(a, style) + render(rest, style);
}

}  // namespace coldtally
