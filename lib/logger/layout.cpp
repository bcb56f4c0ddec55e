#include "coldtally/logger.hpp"

#include "entries/fields.hpp"
#include "logger/cell.hpp"
#include "logger/ignore_rows.hpp"
#include "logger/layout_check.hpp"
#include "logger/message.hpp"
#include "logger/pattern.hpp"
#include "quantities/digits.hpp"
#include "text/limits.hpp"

namespace coldtally {

namespace logger {

namespace {

[[noreturn]] void refuse(const std::string& where, const std::string& field, const std::string& what) {
    throw Error(Code::bad_value, where + ": " + field + ": " + what);
}

bool delimiter_fits(char c) {
    // letters, digits and the signs of numbers and dates stand inside cells, a quotation mark around them
    return c == '\t' || (c >= ' ' && c < 0x7F && std::string_view("\"'+-./:%").find(c) == std::string_view::npos &&
                         !(c >= '0' && c <= '9') && !((c | 0x20) >= 'a' && (c | 0x20) <= 'z'));
}

}  // namespace

std::string offset_text(Duration offset) {
    const auto seconds = offset.seconds() < 0 ? -offset.seconds() : offset.seconds(), minutes = seconds / 60;
    std::string out = offset.seconds() < 0 ? "-00:00" : "+00:00";
    digits::write2(out, 1, static_cast<int>(minutes / 60));
    digits::write2(out, 4, static_cast<int>(minutes % 60));
    if (seconds % 60 != 0) {
        out += ":00";
        digits::write2(out, 7, static_cast<int>(seconds % 60));
    }
    return out;
}

Instant right_time(const std::string& text, const Zone& site_zone) {
    std::string whole = text;
    if (whole.size() >= 16 && whole[10] == ' ') whole[10] = 'T';
    if (whole.size() == 16) whole += ":00";
    return parse_instant(whole, site_zone);
}

namespace {

constexpr std::int64_t widest_offset_s = 14 * 3600;

void check_zone(const std::string& zone, const std::string& where, const std::string& field) {
    try {
        const Zone known(zone);
    } catch (const Error& e) {
        refuse(where, field, e.what());
    }
}

void check_clocks(const LoggerLayout& l, const std::string& where, bool rows_state_offset) {
    int before = 0;
    for (std::size_t i = 0; i < l.clocks.size(); ++i) {
        const ClockFrom& c = l.clocks[i];
        const std::string field = "clocks[" + std::to_string(i) + "]: ";
        if (c.line < 1 || c.line > limits::layout_lines)
            refuse(where, field + "line", std::to_string(c.line) + ": must be a line from 1");
        if (c.line <= before)
            refuse(where, field + "line",
                   std::to_string(c.line) + ": must be below that of the clock before, " + std::to_string(before));
        before = c.line;
        if (c.zone.has_value() + c.offset.has_value() + c.at.has_value() != 1)
            refuse(where, field + "zone",
                   "the clock is in a \"zone\", at an \"offset\", or right with \"at\" for its row: must be one of the "
                   "three");
        if (rows_state_offset && !c.at)
            refuse(where, field + "zone",
                   "each row states its offset (%z), so the clock can only be right with \"at\"");
        if (c.zone) check_zone(*c.zone, where, field + "zone");
        if (c.offset && (c.offset->seconds() > widest_offset_s || c.offset->seconds() < -widest_offset_s))
            refuse(where, field + "offset", std::to_string(c.offset->seconds()) + " s: must be up to 14 hours");
        if (!c.at) continue;
        try {
            right_time(*c.at, Zone("UTC"));  // its form; what it means in the site's zone is seen with the file
        } catch (const Error& e) {
            refuse(where, field + "at", e.what());
        }
    }
}

}  // namespace

void check_layout(const LoggerLayout& l, const std::string& where) {
    if (l.delimiter && !delimiter_fits(*l.delimiter))
        refuse(where, "delimiter",
               shown(std::string(1, *l.delimiter)) + ": must be one character such as \",\", \";\", \"|\" or a tab");
    if (l.decimal && *l.decimal != '.' && *l.decimal != ',')
        refuse(where, "decimal", shown(std::string(1, *l.decimal)) + ": must be \".\" or \",\"");
    if (l.skip_lines && (*l.skip_lines < 0 || *l.skip_lines > limits::logger_skip_lines))
        refuse(where, "skip_lines", std::to_string(*l.skip_lines) + ": must be a number of lines from 0 to 1000000");

    std::vector<int> used;
    const auto column = [&](const std::optional<int>& number, const char* name) {
        if (!number) return;
        const std::string field = std::string("columns: ") + name;
        if (*number < 1 || *number > limits::logger_columns)
            refuse(where, field, std::to_string(*number) + ": must be a column from 1 to 1000");
        for (const int other : used)
            if (other == *number)
                refuse(where, field, std::to_string(*number) + ": is the column of another field already");
        used.push_back(*number);
    };
    column(l.date_column, "date");
    column(l.time_column, "time");
    column(l.instant_column, "instant");
    column(l.temperature_column, "temperature");
    column(l.scale_column, "scale");
    const bool two = l.date_column || l.time_column || l.date_pattern || l.time_pattern;
    if (two && (l.instant_column || l.instant_pattern))
        refuse(where, l.instant_column ? "columns: instant" : "instant_pattern",
               "date and time are in one column (\"instant\") or in two (\"date\" and \"time\"), not both");

    if (l.date_pattern) Pattern::compile(*l.date_pattern, Pattern::Of::date, where + ": date_pattern");
    if (l.time_pattern) Pattern::compile(*l.time_pattern, Pattern::Of::time, where + ": time_pattern");
    if (l.zone && l.offset) refuse(where, "offset", "the clock is in a \"zone\" or at an \"offset\", not both");
    const bool rows_state_offset =
        l.instant_pattern &&
        Pattern::compile(*l.instant_pattern, Pattern::Of::instant, where + ": instant_pattern").has_offset();
    if (rows_state_offset && (l.zone || l.offset))
        refuse(where, "instant_pattern",
               "has %z: each row states its offset, so neither \"zone\" nor \"offset\" can be given");
    if (l.zone) check_zone(*l.zone, where, "zone");
    if (l.offset && (l.offset->seconds() % 60 != 0 || l.offset->seconds() > widest_offset_s ||
                     l.offset->seconds() < -widest_offset_s))
        refuse(where, "offset", std::to_string(l.offset->seconds()) + " s: must be whole minutes up to 14 hours");
    if (l.scale && l.scale_column) refuse(where, "scale", "is given for all rows, or by a column, not both");
    if (l.resolution && !places_of(l.resolution))
        refuse(where, "resolution", shown(l.resolution->text()) + ": must be \"0.1\", \"0.01\" or \"0.001\"");
    if (l.clocks.size() > limits::layout_texts) refuse(where, "clocks", "must be at most 100");
    check_clocks(l, where, rows_state_offset);
    const std::pair<const char*, const std::vector<std::string>&> lists[] = {{"no_reading", l.no_reading},
                                                                             {"ignore_rows", l.ignore_rows}};
    for (const auto& [field, texts] : lists) {
        if (texts.size() > limits::layout_texts) refuse(where, field, "must be at most 100 texts");
        for (const auto& text : texts)
            if (text.size() > limits::layout_text_bytes)
                refuse(where, field, shown(text) + ": must be a list of texts of at most 200 bytes");
    }
    const IgnoreRows compiles(l.ignore_rows, where);
}

}  // namespace logger

namespace {

using entries::Fields;

std::optional<char> character(Fields& fields, const char* field) {
    if (!fields.has(field)) return std::nullopt;
    const std::string text = fields.free_text(field);
    if (text.size() != 1) fields.refuse_value(field, text, "must be one ASCII character");
    return text[0];
}

std::optional<std::string> pattern(Fields& fields, const char* field) {
    if (!fields.has(field)) return std::nullopt;
    return fields.free_text(field);
}

std::vector<std::string> texts(Fields& fields, const char* field) {
    std::vector<std::string> out;
    if (!fields.has(field)) return out;
    for (const auto& text : fields.array(field)) {
        if (!text.is_string() || text.get_ref<const std::string&>().size() > limits::layout_text_bytes)
            fields.refuse_value(field, text, "must be a list of texts of at most 200 bytes");
        out.push_back(text);
    }
    if (out.size() > limits::layout_texts) fields.refuse(Code::bad_value, field, "must be at most 100 texts");
    return out;
}

/// With seconds: of a clock that is a little off.
Duration parse_offset(Fields& fields, bool with_seconds) {
    const std::string t = fields.free_text("offset");
    const bool whole = t.size() == 6, fine = with_seconds && t.size() == 9 && t[6] == ':';
    const int hours = whole || fine ? digits::read(t, 1, 2) : -1, minutes = whole || fine ? digits::read(t, 4, 2) : -1,
              seconds = fine ? digits::read(t, 7, 2) : 0;
    const std::int64_t all = (hours * 60 + minutes) * 60 + seconds;
    if (hours < 0 || minutes < 0 || minutes > 59 || seconds < 0 || seconds > 59 || all > logger::widest_offset_s ||
        t[3] != ':' || (t[0] != '+' && t[0] != '-'))
        fields.refuse_value("offset", t, "must be an offset from UTC such as \"-06:00\", up to 14 hours");
    return Duration(t[0] == '-' ? -all : all);
}

std::vector<ClockFrom> parse_clocks(Fields& fields) {
    std::vector<ClockFrom> out;
    if (!fields.has("clocks")) return out;
    for (const auto& one : fields.array("clocks")) {
        Fields c(one, fields.name_of("clocks[" + std::to_string(out.size()) + "]"));
        ClockFrom from;
        from.line = static_cast<int>(c.whole("line", 1, limits::layout_lines));
        if (c.has("zone")) from.zone = c.free_text("zone");
        if (c.has("offset")) from.offset = parse_offset(c, true);
        if (c.has("at")) from.at = c.free_text("at");
        c.done();
        out.push_back(std::move(from));
    }
    if (out.size() > limits::layout_texts) fields.refuse(Code::bad_value, "clocks", "must be at most 100");
    return out;
}

}  // namespace

LoggerLayout LoggerLayout::parse(std::string_view json) {
    const std::string where = "layout";
    const text::Json parsed = text::parse_json(json, where);
    Fields fields(parsed, where);
    LoggerLayout l;
    l.delimiter = character(fields, "delimiter");
    l.decimal = character(fields, "decimal");
    if (fields.has("skip_lines"))
        l.skip_lines = static_cast<int>(fields.whole("skip_lines", 0, limits::logger_skip_lines));
    if (fields.has("columns")) {
        Fields columns = fields.object("columns");
        const auto number = [&](const char* name) -> std::optional<int> {
            if (!columns.has(name)) return std::nullopt;
            return static_cast<int>(columns.whole(name, 1, limits::logger_columns));
        };
        l.date_column = number("date");
        l.time_column = number("time");
        l.instant_column = number("instant");
        l.temperature_column = number("temperature");
        l.scale_column = number("scale");
        columns.done();
    }
    l.date_pattern = pattern(fields, "date_pattern");
    l.time_pattern = pattern(fields, "time_pattern");
    l.instant_pattern = pattern(fields, "instant_pattern");
    if (fields.has("zone")) l.zone = fields.free_text("zone");
    if (fields.has("offset")) l.offset = parse_offset(fields, false);
    if (fields.has("scale")) l.scale = fields.scale("scale");
    if (fields.has("resolution")) l.resolution = fields.difference("resolution");
    l.clocks = parse_clocks(fields);
    l.no_reading = texts(fields, "no_reading");
    l.ignore_rows = texts(fields, "ignore_rows");
    fields.done();
    logger::check_layout(l, where);
    return l;
}

std::string LoggerLayout::text() const {
    nlohmann::ordered_json out = nlohmann::ordered_json::object();
    if (delimiter) out["delimiter"] = std::string(1, *delimiter);
    if (decimal) out["decimal"] = std::string(1, *decimal);
    if (skip_lines) out["skip_lines"] = *skip_lines;
    nlohmann::ordered_json columns = nlohmann::ordered_json::object();
    if (date_column) columns["date"] = *date_column;
    if (time_column) columns["time"] = *time_column;
    if (instant_column) columns["instant"] = *instant_column;
    if (temperature_column) columns["temperature"] = *temperature_column;
    if (scale_column) columns["scale"] = *scale_column;
    if (!columns.empty()) out["columns"] = columns;
    if (date_pattern) out["date_pattern"] = *date_pattern;
    if (time_pattern) out["time_pattern"] = *time_pattern;
    if (instant_pattern) out["instant_pattern"] = *instant_pattern;
    if (zone) out["zone"] = *zone;
    if (offset) out["offset"] = logger::offset_text(*offset);
    if (scale) out["scale"] = std::string(1, scale_letter(*scale));
    if (resolution) out["resolution"] = resolution->text();
    for (const ClockFrom& c : clocks) {
        nlohmann::ordered_json one = {{"line", c.line}};
        if (c.zone) one["zone"] = *c.zone;
        if (c.offset) one["offset"] = logger::offset_text(*c.offset);
        if (c.at) one["at"] = *c.at;
        out["clocks"].push_back(std::move(one));
    }
    if (!no_reading.empty()) out["no_reading"] = no_reading;
    if (!ignore_rows.empty()) out["ignore_rows"] = ignore_rows;
    return out.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

}  // namespace coldtally
