#include "layout_options.hpp"

#include <algorithm>

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
            throw Error(Code::bad_value,
                        "--columns: \"" + part + "\" is not of the form NAME=NUMBER, such as temperature=3");
        const std::string name = part.substr(0, equals);
        if (columns.contains(name)) throw Error(Code::bad_value, "--columns: \"" + name + "\" is there twice");
        columns[name] = read_whole("--columns: " + name, part.substr(equals + 1), most_columns);
        from = end + 1;
    }
    return columns;
}

// What is not UTF-8 is left for the reader to refuse.
std::string as_json(const nlohmann::json& object) {
    return object.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

/// A clock of a line that is stated again is as it was stated last.
void set_clock(std::vector<ClockFrom>& clocks, const ClockFrom& clock) {
    std::erase_if(clocks, [&](const ClockFrom& c) { return c.line == clock.line; });
    clocks.insert(std::find_if(clocks.begin(), clocks.end(), [&](const ClockFrom& c) { return c.line > clock.line; }),
                  clock);
}

// "250=America/Chicago", "250=-06:00", "250=2026-03-02 08:30"
nlohmann::json clock_of(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
        throw Error(
            Code::bad_value,
            "--clock-from: \"" + text +
                "\" is not of the form LINE=CLOCK, such as 250=America/Chicago, 250=-06:00 or '250=2026-03-02 08:30'");
    const std::string what = text.substr(equals + 1);
    const char* field = what[0] == '+' || what[0] == '-' ? "offset" : what[0] >= '0' && what[0] <= '9' ? "at" : "zone";
    return {{"line", read_whole("--clock-from: line", text.substr(0, equals), 1'000'000'000)}, {field, what}};
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
    set("resolution", options.resolution);
    std::vector<ClockFrom> clocks;
    for (const auto& text : options.clock_from) {
        nlohmann::json one;
        one["clocks"].push_back(clock_of(text));
        set_clock(clocks, LoggerLayout::parse(as_json(one)).clocks.front());
    }
    if (!options.no_reading.empty()) out["no_reading"] = options.no_reading;
    if (!options.ignore.empty()) out["ignore_rows"] = options.ignore;
    LoggerLayout layout = LoggerLayout::parse(as_json(out));
    layout.clocks = std::move(clocks);
    return layout;
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
    option("--resolution", options.resolution,
           "0.1, 0.01 or 0.001 degrees: readings are rounded to it, halves away from zero");
    option("--scale", options.scale, "C or F; not given: the probe's, where the file does not say otherwise");
    const auto list = [&](const char* name, std::vector<std::string>& values, const char* help) {
        command.add_option(name, values, help)
            ->allow_extra_args(false)
            ->group("How the files are laid out (what is not given is guessed)");
    };
    list("--clock-from", options.clock_from,
         "LINE=CLOCK: from this line on the clock is another: a zone, an offset, or the right time of this row; may be "
         "repeated");
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
    replace(layout.resolution, given.resolution);
    for (const ClockFrom& clock : given.clocks) set_clock(layout.clocks, clock);
    layout.no_reading.insert(layout.no_reading.end(), given.no_reading.begin(), given.no_reading.end());
    layout.ignore_rows.insert(layout.ignore_rows.end(), given.ignore_rows.begin(), given.ignore_rows.end());
    return LoggerLayout::parse(layout.text());  // together they may contradict
}

namespace {

/// " --no-reading 'N/A'", as a POSIX shell takes it.
std::string option_word(const std::string& name, const std::string& value) {
    constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/+:,=-";
    std::string word = value;
    if (value.empty() || value.find_first_not_of(plain) != std::string::npos) {
        word = "'";
        for (const char c : value) word += c == '\'' ? std::string("'\\''") : std::string(1, c);
        word += "'";
    }
    return " " + name + (value.starts_with('-') ? "=" : " ") + word;
}

std::string options_of(const LoggerLayout& layout) {
    const nlohmann::json fields = nlohmann::json::parse(layout.text());
    std::string out;
    for (const char* field : {"resolution", "zone", "offset"})
        if (fields.contains(field)) out += option_word(std::string("--") + field, fields[field]);
    for (const auto& clock : fields.value("clocks", nlohmann::json::array())) {
        std::string what = clock.contains("zone")     ? clock["zone"]
                           : clock.contains("offset") ? clock["offset"]
                                                      : clock["at"];
        if (clock.contains("at")) {
            what[10] = ' ';
            if (what.size() == 19 && what.ends_with(":00")) what.resize(16);
        }
        out += option_word("--clock-from", std::to_string(clock["line"].get<int>()) + "=" + what);
    }
    for (const auto& text : layout.no_reading) out += option_word("--no-reading", text);
    for (const auto& text : layout.ignore_rows) out += option_word("--ignore", text);
    return out;
}

}  // namespace

std::vector<std::string> lines_of(const LoggerRefusal& refusal) {
    const auto& facts = refusal.facts();
    if (facts.can_accept)
        return {facts.found +
                ". If the first is right, accept it (--yes); else give a layout, changed from this one: " +
                facts.remedies.front().layout.text()};
    std::vector<std::string> out = {facts.found};
    if (facts.unreadable > 1) {
        const bool one_file = std::all_of(facts.rows.begin(), facts.rows.end(),
                                          [&](const auto& row) { return row.file == facts.rows.front().file; });
        for (const auto& row : facts.rows)
            out.push_back("  " + (one_file ? "" : row.file + ": ") + "line " + std::to_string(row.line) + ": " +
                          row.what);
        if (const auto more = facts.unreadable - std::ssize(facts.rows); more > 0)
            out.push_back("  and " + std::to_string(more) + " more");
    }
    for (const Remedy& r : facts.remedies) {
        const bool leaves_out = !r.layout.no_reading.empty() || !r.layout.ignore_rows.empty();
        const std::string what = r.when.empty()
                                     ? facts.unreadable > 1 ? "The rest can be read with" : "It can be read with"
                                     : "If " + r.when + ":";
        out.push_back("  " + what + options_of(r.layout) +
                      (leaves_out ? "   (of what they leave out, nothing is known afterwards)" : ""));
    }
    if (facts.without_remedy > 0)
        out.push_back("  No option lets " +
                      (facts.unreadable == 1 ? "it" : std::to_string(facts.without_remedy) + " of them") + " through.");
    return out;
}

}  // namespace coldtally::cli
