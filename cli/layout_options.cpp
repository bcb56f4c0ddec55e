#include "layout_options.hpp"

#include <nlohmann/json.hpp>

#include "files.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

constexpr std::int64_t most_lines = 1'000'000;
constexpr std::int64_t most_columns = 1000;

std::string delimiter_character(const std::string& text) {
    if (text == "comma") return ",";
    if (text == "semicolon") return ";";
    if (text == "tab" || text == "\\t") return "\t";
    if (text == "blank") return " ";
    return text;
}

std::string decimal_character(const std::string& text) {
    if (text == "point") return ".";
    if (text == "comma") return ",";
    return text;
}

// "date=1,time=2,temperature=4"
nlohmann::json column_numbers(const std::string& text) {
    nlohmann::json columns = nlohmann::json::object();
    std::size_t from = 0;
    while (from <= text.size()) {
        const std::size_t end = std::min(text.find(',', from), text.size());
        const std::string part = text.substr(from, end - from);
        const std::size_t equals = part.find('=');
        if (equals == std::string::npos || equals == 0)
            throw Error(Code::bad_value, "--columns: \"" + part + "\" is not of the form NAME=NUMBER, such as temperature=3");
        const std::string name = part.substr(0, equals);
        if (columns.contains(name)) throw Error(Code::bad_value, "--columns: \"" + name + "\" is there twice");
        columns[name] = read_whole("--columns: " + name, part.substr(equals + 1), most_columns);
        from = end + 1;
    }
    return columns;
}

// What the options state, as a layout file would: one reader then judges both.
LoggerLayout stated(const LayoutOptions& options) {
    nlohmann::json out = nlohmann::json::object();
    const auto set = [&](const char* field, const std::string& text) {
        if (!text.empty()) out[field] = text;
    };
    set("delimiter", delimiter_character(options.delimiter));
    set("decimal", decimal_character(options.decimal));
    if (!options.skip_lines.empty()) out["skip_lines"] = read_whole("--skip-lines", options.skip_lines, most_lines);
    if (!options.columns.empty()) out["columns"] = column_numbers(options.columns);
    set("date_pattern", options.date_pattern);
    set("time_pattern", options.time_pattern);
    set("instant_pattern", options.instant_pattern);
    set("zone", options.zone);
    set("offset", options.offset);
    set("scale", options.scale);
    if (!options.no_reading.empty()) out["no_reading"] = options.no_reading;
    if (!options.ignore.empty()) out["ignore_rows"] = options.ignore;
    // What is not UTF-8 is left for the reader to refuse.
    return LoggerLayout::parse(out.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

template <typename T>
void replace(std::optional<T>& with, const std::optional<T>& stated) {
    if (stated) with = stated;
}

}  // namespace

void add_layout_options(CLI::App& command, LayoutOptions& options) {
    const auto option = [&](const char* name, std::string& value, const char* help) {
        command.add_option(name, value, help)->group("How the files are laid out (what is not given is guessed)");
    };
    option("--layout", options.file, "a layout file (JSON); the options below go before it");
    option("--delimiter", options.delimiter, "between columns: one character, or comma, semicolon, tab, blank");
    option("--decimal", options.decimal, "decimal sign: point or comma");
    option("--skip-lines", options.skip_lines, "lines before the first row, column titles among them");
    option("--columns", options.columns, "from 1: date=1,time=2,temperature=3 or instant=1,temperature=2; scale=N");
    option("--date-pattern", options.date_pattern, "of %Y %y %m %d %b, such as %d/%m/%Y");
    option("--time-pattern", options.time_pattern, "of %H %I %M %S %p, such as %H:%M");
    option("--instant-pattern", options.instant_pattern, "date and time in one column; also %z");
    option("--zone", options.zone, "IANA zone of the logger's clock; not given: the site's");
    option("--offset", options.offset, "or its fixed offset from UTC, such as -06:00");
    option("--scale", options.scale, "C or F; not given: the probe's, where the file does not say otherwise");
    const auto list = [&](const char* name, std::vector<std::string>& values, const char* help) {
        command.add_option(name, values, help)
            ->allow_extra_args(false)
            ->group("How the files are laid out (what is not given is guessed)");
    };
    list("--no-reading", options.no_reading, "a text that means that nothing was measured; may be repeated");
    list("--ignore", options.ignore, "a regular expression; a line that matches is no row; may be repeated");
}

LoggerLayout read_layout(const LayoutOptions& options) {
    LoggerLayout layout;
    if (!options.file.empty()) {
        const std::string json = read_file(options.file);
        try {
            layout = LoggerLayout::parse(json);
        } catch (const Error& error) {
            throw Error(error.code(), file_name(options.file) + ": " + error.what());
        }
    }
    const LoggerLayout given = stated(options);
    replace(layout.delimiter, given.delimiter);
    replace(layout.decimal, given.decimal);
    replace(layout.skip_lines, given.skip_lines);
    if (!options.columns.empty()) {  // all of them: columns of two layouts do not mix
        layout.date_column = given.date_column;
        layout.time_column = given.time_column;
        layout.temperature_column = given.temperature_column;
        layout.instant_column = given.instant_column;
        layout.scale_column = given.scale_column;
        if (given.instant_column) {
            layout.date_pattern.reset();
            layout.time_pattern.reset();
        } else if (given.date_column || given.time_column) {
            layout.instant_pattern.reset();
        }
    }
    replace(layout.date_pattern, given.date_pattern);
    replace(layout.time_pattern, given.time_pattern);
    replace(layout.instant_pattern, given.instant_pattern);
    if (given.zone || given.offset) {  // one goes instead of the other
        layout.zone = given.zone;
        layout.offset = given.offset;
    }
    replace(layout.scale, given.scale);
    layout.no_reading.insert(layout.no_reading.end(), given.no_reading.begin(), given.no_reading.end());
    layout.ignore_rows.insert(layout.ignore_rows.end(), given.ignore_rows.begin(), given.ignore_rows.end());
    return LoggerLayout::parse(layout.text());  // together they may contradict
}

}  // namespace coldtally::cli
