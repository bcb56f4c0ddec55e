#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

// Known time is not made more than it is, unknown time not less.
std::string share_words(const Rational& part, const Rational& whole, bool up) {
    if (whole.sign() == 0) return "";
    const Rational tenths = part * Rational(1000) / whole;
    const std::int64_t n = up ? tenths.ceil() : tenths.floor();
    return std::to_string(n / 10) + "." + std::to_string(n % 10) + " %";
}

std::string or_unknown(const std::optional<Rational>& celsius, Scale scale, Rounding rounding) {
    return celsius ? temperature_words(*celsius, scale, rounding) : std::string("not known");
}

// A decimal with 6 places: an exact number of millionths.
Rational decimal(const std::string& text) {
    std::string digits;
    for (const char c : text)
        if (c != '.') digits += c;
    return Rational(std::stoll(digits), 1'000'000);
}

}  // namespace

std::string to_table(const ConditionsAnswer& answer, const TableStyle& style) {
    TableLayout table({{"How it is known"}, {"Time"}, {"Share", Kind::number}});
    add_head(table, answer.head, "conditions of " + answer.place, style);
    table.text("Time " + window_words(answer.from, answer.until, answer.head.at, style.zone) + ".", 0, 2);
    table.blank();

    Rational sum;
    for (const auto& seconds : answer.seconds) sum += seconds;
    table.titles();
    for (int i = 0; i < class_count; ++i) {
        const Class c = static_cast<Class>(i);
        const bool unknown = c >= Class::near;
        table.row({std::string(class_words(c)), duration_words(answer.seconds[i], unknown),
                   share_words(answer.seconds[i], sum, unknown)});
    }

    TableLayout values({{"Temperature"}, {"Value", Kind::number}});
    values.blank();
    values.titles();
    values.row({"lowest known", or_unknown(answer.lowest_C, style.scale, Rounding::down)});
    values.row({"highest known", or_unknown(answer.highest_C, style.scale, Rounding::up)});
    values.row({"mean of the logged and checked time", or_unknown(answer.mean_C, style.scale, Rounding::nearest)});
    const auto& measured = answer.seconds[static_cast<int>(Class::logged)];
    const auto& checked = answer.seconds[static_cast<int>(Class::checked)];
    std::optional<Rational> kinetic;
    if (answer.mean_kinetic_C) kinetic = decimal(*answer.mean_kinetic_C);
    values.row({"mean kinetic temperature of that time", or_unknown(kinetic, style.scale, Rounding::nearest)});
    values.blank();
    if (answer.lowest_C)
        values.text("Lowest and highest count the straight line between two readings or checks where the window cuts "
                    "it: nobody read that value.",
                    0, 2);
    if (answer.mean_C)
        values.text("The means rest on " + duration_words(measured, false) + " that a logger measured" +
                        (checked.sign() > 0 ? " and " + duration_words(checked, true) +
                                                  " on a line between plain checks, where nothing is known."
                                            : "."),
                    0, 2);
    values.text(counted(answer.excursions, "excursion") + " out of the place's range. " + mean_caution);
    for (const auto& line : answer.beside) values.text(line + ".", 0, 2, TableLayout::Paint::wait);
    for (const auto& mark : answer.marks) values.text("Marked: readings without a valid certificate: " + mark, 0, 2);
    add_caution(values);
    return render(table, style) + render(values, style);
}

}  // namespace coldtally
