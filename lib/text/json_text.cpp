#include "text/json_text.hpp"

#include "coldtally/error.hpp"
#include "text/limits.hpp"
#include "text/utf8.hpp"

namespace coldtally::text {

namespace {

/// Builds the value as it is read. The library's own parser with a callback looks through a whole list for each object
/// that ends in it; and this one need not.
class Builder : public nlohmann::json_sax<Json> {
public:
    explicit Builder(const std::string& where) : where_(where) {}

    bool null() override { return add(nullptr); }
    bool boolean(bool value) override { return add(value); }
    bool number_integer(number_integer_t value) override { return add(value); }
    bool number_unsigned(number_unsigned_t value) override { return add(value); }
    bool number_float(number_float_t value, const string_t&) override { return add(value); }
    bool string(string_t& value) override {
        check_text(value);
        return add(std::move(value));
    }
    bool binary(binary_t&) override { return false; }  // JSON text has none
    bool start_object(std::size_t) override { return open(Json::object()); }
    bool start_array(std::size_t) override { return open(Json::array()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& name) override {
        if (open_.back()->contains(name))
            throw Error(Code::bad_json, where_ + ": key " + text::quoted(name) + " twice in one object");
        check_text(name);
        key_ = std::move(name);
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& e) override {
        std::string what = e.what();  // "[json.exception.parse_error.101] parse error at line 1, column 9: ..."
        const auto bracket = what.find("] ");
        if (bracket != std::string::npos) what.erase(0, bracket + 2);
        // what was read last may be anything, a patient's token, too
        if (const auto last = what.find("; last read: '"); last != std::string::npos) {
            const auto rest = what.rfind("'; expected ");
            what.erase(last, rest != std::string::npos && rest > last ? rest + 1 - last : std::string::npos);
        }
        what = beginning(what, 200);  // a number stands in it whole
        for (char& c : what)
            if (static_cast<unsigned char>(c) < 0x20) c = ' ';
        throw Error(Code::bad_json, where_ + ": not JSON: " + what);
    }

    Json take() { return std::move(whole_); }

private:
    void check_text(const std::string& value) const {
        if (value.find('\0') != std::string::npos) throw Error(Code::bad_text, where_ + ": a text holds NUL");
    }
    template <class Value>
    bool add(Value&& value) {
        place(Json(std::forward<Value>(value)));
        return true;
    }
    bool open(Json empty) {
        if (open_.size() >= limits::nesting) throw Error(Code::bad_json, where_ + ": nested deeper than 32");
        open_.push_back(place(std::move(empty)));
        return true;
    }
    bool close() {
        open_.pop_back();
        return true;
    }
    /// Where it stands until the list or object around it ends: nothing is added beside one that is open.
    Json* place(Json value) {
        if (open_.empty()) {
            whole_ = std::move(value);
            return &whole_;
        }
        Json& around = *open_.back();
        if (around.is_object()) return &(around[key_] = std::move(value));
        around.push_back(std::move(value));
        return &around.back();
    }

    const std::string& where_;
    Json whole_;
    std::vector<Json*> open_;
    std::string key_;
};

}  // namespace

Json parse_json(std::string_view text, const std::string& where) {
    if (text.size() > limits::line_bytes) throw Error(Code::bad_text, where + ": longer than 16 MiB; split it");
    if (!valid_utf8(text)) throw Error(Code::bad_text, where + ": must be UTF-8 without NUL");
    Builder builder(where);
    Json::sax_parse(text, &builder);
    return builder.take();
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

std::string quoted(std::string_view text) {
    const std::string start = beginning(text, limits::shown_characters);
    const std::string out = with_marks_shown(Json(start).dump(-1, ' ', false, Json::error_handler_t::replace));
    return characters(text) <= limits::shown_characters
               ? out
               : out + " (" + std::to_string(characters(text)) + " characters)";
}

std::string quoted_list(const std::vector<std::string>& names) {
    std::string out;
    for (const auto& name : names) out += (out.empty() ? "" : " and ") + text::quoted(name);
    return out;
}

}  // namespace coldtally::text
