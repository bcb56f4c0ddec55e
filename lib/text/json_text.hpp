// JSON text, read strictly: what RFC 8259 leaves open or a lenient reader lets pass is refused.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace coldtally::text {

using Json = nlohmann::json;

/// One JSON value. `where` ("line 3") begins the message of a refusal.
/// Code::bad_text: invalid UTF-8, NUL, too long; Code::bad_json: not JSON, a lone surrogate, a key twice in one object,
/// nested over 32 deep.
Json parse_json(std::string_view text, const std::string& where);

struct Line {
    std::size_t number;  ///< from 1
    std::string_view text;
};
/// The lines of a JSON Lines text that are not blank, each without its end (LF or CR LF). They borrow from `text`.
std::vector<Line> lines_of(std::string_view text);

/// A JSON string literal of `text`, quotes included, for a message; UTF-8 stays as it is. Of a text over
/// limits::shown_characters its beginning, with how long it is.
std::string quoted(std::string_view text);
/// "a" and "b"
std::string quoted_list(const std::vector<std::string>& names);

}  // namespace coldtally::text
