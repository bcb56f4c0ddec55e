#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/conditions.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const ConditionsAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["from"] = answer.from.text();
    out["until"] = answer.until.text();
    set_window(out, answer.head);
    out["coverage"] = coverage_json(answer.seconds);
    out["lowest_C"] = json_or_null(answer.lowest_C);
    out["highest_C"] = json_or_null(answer.highest_C);
    out["mean_C"] = json_or_null(answer.mean_C);
    out["mean_kinetic_C"] = json_or_null(answer.mean_kinetic_C);
    out["excursions"] = answer.excursions;
    set_remarks(out, "marks", answer.marks);
    set_remarks(out, "beside", answer.beside);
    out["caution"] = cautions({words::caution_mean, words::caution});
    return json_line(out);
}

namespace {

// Known time is not made more than it is, unknown time not less.
std::string share_text(const Rational& part, const Rational& whole, bool up) {
    if (whole.sign() == 0) return "";
    const Rational tenths = part * Rational(1000) / whole;
    const std::int64_t n = up ? tenths.ceil() : tenths.floor();
    return std::to_string(n / 10) + "." + std::to_string(n % 10) + " %";
}

Field or_unknown(const std::optional<Rational>& celsius, Scale scale, Rounding rounding) {
    return celsius ? Field(temperature_words(*celsius, scale, rounding)) : Field(words::value_not_known());
}

// A decimal with 6 places: an exact number of millionths.
Rational decimal(const std::string& text) {
    std::string digits;
    for (const char c : text)
        if (c != '.') digits += c;
    return Rational(std::stoll(digits), 1'000'000);
}

void add_coverage(TableLayout& table, const ConditionsAnswer& answer) {
    Rational sum;
    for (const auto& seconds : answer.seconds) sum += seconds;
    table.titles();
    for (int i = 0; i < class_count; ++i) {
        const Class c = static_cast<Class>(i);
        const bool unknown = c >= Class::near;
        table.row({class_words(c), duration_words(answer.seconds[i], unknown),
                   share_text(answer.seconds[i], sum, unknown)});
    }
}

void add_values(TableLayout& values, const ConditionsAnswer& answer, Scale scale) {
    std::optional<Rational> kinetic;
    if (answer.mean_kinetic_C) kinetic = decimal(*answer.mean_kinetic_C);
    values.titles();
    values.row({words::lowest_known(), or_unknown(answer.lowest_C, scale, Rounding::down)});
    values.row({words::highest_known(), or_unknown(answer.highest_C, scale, Rounding::up)});
    values.row({words::mean_of_known(), or_unknown(answer.mean_C, scale, Rounding::nearest)});
    values.row({words::kinetic_of_known(), or_unknown(kinetic, scale, Rounding::nearest)});
}

/// What the values rest on.
void add_basis(TableLayout& table, const ConditionsAnswer& answer) {
    const std::string measured = duration_words(answer.seconds[static_cast<int>(Class::logged)], false);
    const auto& checked = answer.seconds[static_cast<int>(Class::checked)];
    if (answer.lowest_C) table.text(words::window_cuts_lines(), 0, 2);
    if (!answer.mean_C) return;
    table.text(checked.sign() > 0 ? words::means_rest_on_checks(measured, duration_words(checked, true))
                                  : words::means_rest_on(measured),
               0, 2);
}

}  // namespace

std::string to_table(const ConditionsAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book,
                      {{words::title_known_how()}, {words::title_time()}, {words::title_share(), Kind::number}});
    add_head(table, answer.head, words::conditions_title(answer.place), style);
    table.text(words::window_line(window_words(answer.from, answer.until, answer.head.at, style.zone)), 0, 2);
    table.blank();
    add_coverage(table, answer);

    TableLayout values(*style.book, {{words::title_temperature()}, {words::title_value(), Kind::number}});
    values.blank();
    add_values(values, answer, style.scale);
    values.blank();
    add_basis(values, answer);
    values.text(words::excursions_of_range(answer.excursions, words::caution_mean));
    for (const auto& line : answer.beside) values.text(words::sentence(line), 0, 2, TableLayout::Paint::wait);
    for (const auto& mark : answer.marks) values.text(words::marked(words::uncertified_readings(mark)), 0, 2);
    add_caution(values);
    return render(table, style) + render(values, style);
}

}  // namespace coldtally
