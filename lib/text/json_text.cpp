#include "text/json_text.hpp"

#include <set>

#include "coldtally/error.hpp"
#include "text/utf8.hpp"

namespace coldtally::text {

Json parse_json(std::string_view text, const std::string& where) {
    if (text.size() > max_line_bytes) throw Error(Code::bad_text, where + ": longer than 16 MiB; split it");
    if (!valid_utf8(text)) throw Error(Code::bad_text, where + ": must be UTF-8 without NUL");

    std::vector<std::set<std::string>> keys;  // of the objects that are open
    const auto look = [&](int depth, Json::parse_event_t event, Json& parsed) {
        using E = Json::parse_event_t;
        if ((event == E::object_start || event == E::array_start) && depth >= max_nesting)
            throw Error(Code::bad_json, where + ": nested deeper than 32");
        if (event == E::object_start) keys.emplace_back();
        if (event == E::object_end) keys.pop_back();
        if (event == E::key) {
            const auto& key = parsed.get_ref<const std::string&>();
            if (!keys.back().insert(key).second) throw Error(Code::bad_json, where + ": key " + text::quoted(key) + " twice in one object");
        }
        if (parsed.is_string() && parsed.get_ref<const std::string&>().find('\0') != std::string::npos)
            throw Error(Code::bad_text, where + ": a text holds NUL");
        return true;
    };
    try {
        return Json::parse(text, look);
    } catch (const Json::exception& e) {
        std::string what = e.what();  // "[json.exception.parse_error.101] parse error at line 1, column 9: ..."
        const auto bracket = what.find("] ");
        if (bracket != std::string::npos) what.erase(0, bracket + 2);
        for (char& c : what)
            if (static_cast<unsigned char>(c) < 0x20) c = ' ';
        throw Error(Code::bad_json, where + ": not JSON: " + what);
    }
}

std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> out;
    std::size_t number = 1;
    for (std::size_t from = 0; from < text.size(); ++number) {
        auto end = text.find('\n', from);
        if (end == std::string_view::npos) end = text.size();
        std::string_view line = text.substr(from, end - from);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        if (line.find_first_not_of(" \t") != std::string_view::npos) out.push_back({number, line});
        from = end + 1;
    }
    return out;
}

std::string quoted(std::string_view text) { return Json(std::string(text)).dump(-1, ' ', false, Json::error_handler_t::replace); }

}  // namespace coldtally::text
