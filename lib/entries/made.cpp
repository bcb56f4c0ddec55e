#include "entries/made.hpp"

#include "entries/fields.hpp"
#include "text/limits.hpp"
#include "text/utf8.hpp"

namespace coldtally::entries {

namespace {

void check_utf8(const std::string& text, const std::string& where) {
    if (!text::valid_utf8(text)) throw Error(Code::bad_text, where + ": not valid UTF-8, or a NUL");
}

void check_free_text(const std::string& text, const std::string& where, const char* field) {
    check_utf8(text, where);
    if (text::length(text) > limits::free_text_characters)
        throw Error(Code::bad_value,
                    where + ": " + field + ": " + shown(Json(text)) + ": must be at most 4000 characters");
}

}  // namespace

bool has_rows(const Entry& entry) { return std::holds_alternative<Readings>(entry.fact); }

void check_made(const Entry& e, const std::string& where) {
    const auto& r = std::get<Readings>(e.fact);
    check_utf8(e.by, where);
    check_id(e.by, where + ": by", false, true);
    if (e.note) check_free_text(*e.note, where, "note");
    check_utf8(r.probe, where);
    check_id(r.probe, where + ": probe", false, true);
    if (r.source) {
        check_free_text(r.source->file, where + ": source", "file");
        check_utf8(r.source->sha256, where);
        check_sha256(r.source->sha256, where + ": source: sha256");
    }
    check_row_count(r.rows.size(), where + ": rows");
    const auto bad = [&](std::size_t i, const std::string& what) {
        throw Error(Code::bad_value, where + ": rows[" + std::to_string(i) + "]: " + what);
    };
    // what every thermometer can show; beyond, the parser of temperatures decides
    constexpr std::int32_t lowest = -200'000, highest = 900'000;
    for (std::size_t i = 0; i < r.rows.size(); ++i) {
        const auto at = r.rows[i].at.seconds_since_1970();
        if (at < limits::first_second || at > limits::last_second)
            bad(i, std::to_string(at) + " s since 1970: no such date in the years 1970 to 2199");
        if (r.rows[i].thousandths < lowest || r.rows[i].thousandths > highest) {
            try {
                Temperature::parse(Temperature(r.scale, r.rows[i].thousandths).text(), r.scale);
            } catch (const Error& e_of_text) {
                bad(i, e_of_text.what());
            }
        }
    }
    if (e.at) throw Error(Code::unknown_field, where + ": \"at\": is not a field of this kind");
}

}  // namespace coldtally::entries
