#include "start/cells.hpp"

#include <algorithm>

#include "coldtally/entries.hpp"
#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "coldtally/question.hpp"
#include "logger/cell.hpp"
#include "question/typed_clock.hpp"
#include "start/tables.hpp"

namespace coldtally::start {

namespace {

using logger::trimmed;

[[noreturn]] void must_be(const std::string& what) { throw Error(Code::bad_value, "must be " + what); }

bool all_digits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == text.npos;
}

/// With a point for a decimal comma and a minus sign as on keyboards; what typesetters and spreadsheets put for them.
std::string plain_number(std::string_view cell) {
    std::string out(trimmed(cell));
    for (const char* minus : {"\xE2\x88\x92", "\xE2\x80\x93"})  // U+2212, U+2013
        if (out.starts_with(minus)) out.replace(0, 3, "-");
    if (std::count(out.begin(), out.end(), ',') == 1 && out.find('.') == out.npos) out[out.find(',')] = '.';
    if (out.starts_with('+')) out.erase(0, 1);
    return out;
}

/// One side of a limit: the number, and the scale behind it.
bool one_scale(std::string_view part, Json& out) {
    part = trimmed(part);
    const std::size_t end = part.find_last_of("0123456789");
    if (end == part.npos) return false;
    const auto scale = logger::unit_of(trimmed(part.substr(end + 1)));
    if (!scale) return false;
    const std::string number = plain_number(part.substr(0, end + 1));
    static_cast<void>(Temperature::parse(number, *scale));
    const std::string letter(1, scale_letter(*scale));
    if (out.contains(letter)) return false;
    out[letter] = number;
    return true;
}

}  // namespace

std::string without_cell(std::string message, const std::string& cell) {
    const std::string quoted = text::quoted(cell) + ": ";
    return message.starts_with(quoted) ? message.substr(quoted.size()) : message;
}

Json limit_cell(std::string_view cell) {
    Json out = Json::object();
    for (const auto& part : several(cell, "/"))
        if (!one_scale(part, out)) must_be("a temperature with its scale: 2C, 36F, or both: 2C/36F");
    if (out.empty()) must_be("a temperature with its scale: 2C, 36F, or both: 2C/36F");
    return out;
}

Json duration_cell(std::string_view cell) { return typed_duration(trimmed(cell)).seconds(); }

Json whole_cell(std::string_view cell) {
    cell = trimmed(cell);
    if (!all_digits(cell) || cell.size() > 10 || (cell.size() > 1 && cell.front() == '0'))
        must_be("a whole number in digits alone, such as 40");
    return std::stoll(std::string(cell));
}

Json degrees_cell(std::string_view cell) {
    const std::string number = plain_number(cell);
    static_cast<void>(TemperatureDifference::parse(number));
    return number;
}

Json scale_cell(std::string_view cell) {
    const auto scale = logger::unit_of(trimmed(cell));
    if (!scale) must_be("C or F");
    return std::string(1, scale_letter(*scale));
}

Json yes_cell(std::string_view cell) {
    const std::string word = plain_name(trimmed(cell));
    for (const char* yes : {"yes", "y", "x", "true", "1"})
        if (word == yes) return true;
    for (const char* no : {"no", "n", "false", "0"})
        if (word == no) return false;
    must_be("yes or no");
}

Json name_cell(std::string_view cell, const std::vector<std::string>& names) {
    const std::string word = plain_name(trimmed(cell));
    std::string all;
    std::vector<std::string> plain;
    for (const auto& name : names) {
        if (plain_name(name) == word) return name;
        all += (all.empty() ? "" : name == names.back() ? " or " : ", ") + name;
        plain.push_back(plain_name(name));
    }
    std::vector<std::string> near;  // in their own spelling
    for (const auto& n : nearest(word, plain))
        near.push_back(names[static_cast<std::size_t>(std::ranges::find(plain, n) - plain.begin())]);
    must_be(all + did_you_mean(near));
}

Json place_type_cell(std::string_view cell) {
    std::vector<std::string> names;
    for (const auto type : {PlaceType::refrigerator, PlaceType::freezer, PlaceType::ultra_cold_freezer,
                            PlaceType::transport_container, PlaceType::room})
        names.emplace_back(place_type_name(type));
    // what people call them; only offered, since a unit with a freezer compartment is called so, too
    constexpr std::pair<std::string_view, PlaceType> called[] = {
        {"fridge", PlaceType::refrigerator},          {"icebox", PlaceType::transport_container},
        {"cooler", PlaceType::transport_container},   {"carrier", PlaceType::transport_container},
        {"cool box", PlaceType::transport_container}, {"container", PlaceType::transport_container},
        {"ult", PlaceType::ultra_cold_freezer},       {"deep freezer", PlaceType::ultra_cold_freezer},
        {"ambient", PlaceType::room},                 {"cabinet", PlaceType::room},
    };
    const std::string word = plain_name(trimmed(cell));
    for (const auto& [name, type] : called)
        if (word == name)
            must_be("refrigerator, freezer, ultra-cold freezer, transport container or room" +
                    did_you_mean({std::string(place_type_name(type))}));
    return name_cell(cell, names);
}

std::vector<std::string> several(std::string_view cell, std::string_view between) {
    std::vector<std::string> out;
    for (std::size_t from = 0; from <= cell.size();) {
        const std::size_t end = std::min(cell.find_first_of(between, from), cell.size());
        if (const auto part = trimmed(cell.substr(from, end - from)); !part.empty()) out.emplace_back(part);
        from = end + 1;
    }
    return out;
}

Json date_cell(std::string_view cell, const Zone& zone, Instant now) {
    const auto date = typed_date(trimmed(cell), zone, now);
    if (!date) must_be("a date: write 2027-05-31");
    return date->text();
}

Json expiry_cell(std::string_view cell, const Zone& zone, Instant now) {
    cell = trimmed(cell);
    const auto month_first = several(cell, "/.-");
    if (month_first.size() == 2 && all_digits(month_first[0]) && all_digits(month_first[1])) {
        const bool year_first = month_first[0].size() == 4;
        const std::string& year = month_first[year_first ? 0 : 1];
        std::string month = month_first[year_first ? 1 : 0];
        if (month.size() == 1) month.insert(0, "0");
        if (year.size() == 4 && month.size() == 2) {
            static_cast<void>(Date::parse_expiry(year + "-" + month));
            return year + "-" + month;
        }
    }
    const auto date = typed_date(cell, zone, now);
    if (!date)
        must_be("the last day on the box: write 2027-05-31 or, where it has the month alone, 2027-05; a spreadsheet "
                "that writes it otherwise needs the column as text");
    return date->text();
}

Json instant_cell(std::string_view cell, const Zone& zone, Instant now) {
    return typed_from(trimmed(cell), zone, now).text();
}

Json corrections_cell(std::string_view cell) {
    Json out = Json::array();
    for (const auto& row : several(cell, " ;")) {
        const auto parts = several(row, "=");
        if (parts.size() != 2) must_be("what is indicated and what to add, as 0=0.2 5=0.1");
        out.push_back({plain_number(parts[0]), degrees_cell(parts[1])});
    }
    return out;
}

Json number_text_cell(std::string_view cell) {
    cell = trimmed(cell);
    const std::size_t e = cell.find("E+");
    const auto is_number = [](std::string_view text) {
        return !text.empty() && text.find_first_not_of("0123456789.,") == text.npos;
    };
    if (e != cell.npos && is_number(cell.substr(0, e)) && all_digits(cell.substr(e + 2)))
        must_be("the number as it is on the box: this is what a spreadsheet made of it; make the column text, and type "
                "it again");
    return std::string(cell);
}

}  // namespace coldtally::start
