#include "entries/fields.hpp"

#include <algorithm>

#include "text/limits.hpp"
#include "text/utf8.hpp"

namespace coldtally::entries {

namespace {

const char* type_words(const Json& value) {
    return value.is_object()   ? "an object"
           : value.is_array()  ? "a list"
           : value.is_string() ? "a text"
           : value.is_number() ? "a number"
           : value.is_null()   ? "null"
                               : "true or false";
}

}  // namespace

std::string shown(const Json& value) {
    std::string s = value.dump(-1, ' ', false, Json::error_handler_t::replace);
    if (value.is_structured() && s.find("\"patient\"") != std::string::npos)
        return type_words(value);  // with a token in it
    std::string start = text::beginning(s, limits::shown_characters);
    start = text::with_marks_shown(start);
    return text::characters(s) <= limits::shown_characters
               ? start
               : start + " (" + std::to_string(text::characters(s)) + " characters)";
}

std::string number_text(const Json& value) {
    if (value.is_string()) return value.get<std::string>();
    if (value.is_number_unsigned()) return std::to_string(value.get<std::uint64_t>());
    if (value.is_number_integer()) return std::to_string(value.get<std::int64_t>());
    return {};
}

namespace {

/// "line 3: patient: identifier: value": a token may stand there, and stands in no message.
bool is_of_patient(std::string_view name) {
    constexpr std::string_view patient = "patient", between = ": ";
    for (std::size_t from = 0; from <= name.size();) {
        const auto end = std::min(name.find(between, from), name.size());
        if (name.substr(from, end - from) == patient) return true;
        from = end + between.size();
    }
    return false;
}

}  // namespace

void check_id(const std::string& value, const std::string& field, bool may_be_empty, bool may_have_slash, bool kept) {
    if (value.empty() && may_be_empty) return;
    const auto refuse = [&](const char* why) {
        throw Error(Code::bad_value, field + ": " + shown(Json(value)) + ": " + why);
    };
    if (value.empty() || text::length(value) > limits::id_characters) refuse("must be 1 to 64 characters");
    if (!text::printable(value)) refuse("must be printable characters");
    if (!kept && text::turns_direction(value)) refuse("must not hold marks that turn the direction of writing");
    if (text::has_outer_blanks(value)) refuse("must not begin or end with a blank");
    if (!may_have_slash && value.find('/') != std::string::npos) refuse("must not hold '/'");
}

void check_sha256(const std::string& value, const std::string& field) {
    if (value.size() != 64 || value.find_first_not_of("0123456789abcdef") != std::string::npos)
        throw Error(Code::bad_value, field + ": " + shown(Json(value)) + ": must be 64 digits of 0-9 and a-f");
}

void check_row_count(std::size_t rows, const std::string& field) {
    if (rows == 0 || rows > limits::rows_of_entry)
        throw Error(Code::bad_value, field + ": " + std::to_string(rows) + " rows: must be 1 to 100000");
}

Fields::Fields(const Json& object, std::string where, bool kept)
    : object_(object), where_(std::move(where)), kept_(kept) {
    if (!object.is_object())
        throw Error(Code::bad_value, where_ + ": " + type_words(object) + ": must be a JSON object");
}

void Fields::check_id(const std::string& value, const char* field, bool may_be_empty, bool may_have_slash) const {
    entries::check_id(value, name_of(field), may_be_empty, may_have_slash, kept_);
}

void Fields::refuse(Code code, const std::string& field, const std::string& why) const {
    throw Error(code, name_of(field) + ": " + why);
}

void Fields::refuse_value(const std::string& field, const Json& value, const std::string& why) const {
    refuse(Code::bad_value, field, (is_of_patient(name_of(field)) ? "" : shown(value) + ": ") + why);
}

bool Fields::has(const char* field) {
    asked_.insert(field);
    return object_.contains(field);
}

const Json& Fields::value(const char* field) {
    if (!has(field)) refuse(Code::missing_field, field, "is missing");
    return object_.at(field);
}

const Json& Fields::array(const char* field) {
    const Json& v = value(field);
    if (!v.is_array()) refuse_value(field, v, "must be a JSON array");
    return v;
}

std::string Fields::free_text(const char* field) {
    const Json& v = value(field);
    if (!v.is_string()) refuse_value(field, v, "must be text");
    auto s = v.get<std::string>();
    if (text::length(s) > limits::free_text_characters) refuse_value(field, v, "must be at most 4000 characters");
    return s;
}

std::string Fields::id(const char* field) {
    const Json& v = value(field);
    if (!v.is_string()) refuse_value(field, v, "must be text");
    auto s = v.get<std::string>();
    check_id(s, field, false, true);
    return s;
}

std::string Fields::label(const char* field) {
    const Json& v = value(field);
    if (!v.is_string()) refuse_value(field, v, "must be text");
    auto s = v.get<std::string>();
    check_id(s, field, true, true);
    return s;
}

std::string Fields::place_id(const char* field) {
    auto s = id(field);
    check_id(s, field, false, false);
    return s;
}

std::int64_t Fields::whole(const char* field, std::int64_t least, std::int64_t most) {
    const Json& v = value(field);
    const std::string why = "must be a whole number from " + std::to_string(least) + " to " + std::to_string(most);
    if (!v.is_number_integer()) refuse_value(field, v, why);
    if (v.is_number_unsigned() && v.get<std::uint64_t>() > static_cast<std::uint64_t>(most))
        refuse_value(field, v, why);
    const auto n = v.get<std::int64_t>();
    if (n < least || n > most) refuse_value(field, v, why);
    return n;
}

bool Fields::truth(const char* field) {
    const Json& v = value(field);
    if (!v.is_boolean()) refuse_value(field, v, "must be true or false");
    return v.get<bool>();
}

template <class F>
auto Fields::parsed(const char* field, const char* form, F parse) {
    const Json& v = value(field);
    if (!v.is_string()) refuse_value(field, v, form);
    try {
        return parse(v.get_ref<const std::string&>());
    } catch (const Error& e) {
        throw Error(e.code(), name_of(field) + ": " + e.what());
    }
}

Instant Fields::instant(const char* field, const Zone& zone) {
    return parsed(field, "must be an instant as text", [&](const std::string& s) { return parse_instant(s, zone); });
}

Date Fields::date(const char* field) {
    return parsed(field, "must be a date as text", [](const std::string& s) { return Date::parse(s); });
}

Rational Fields::rational(const char* field) {
    return parsed(field, "must be an exact number as text, \"n\" or \"n/d\"",
                  [](const std::string& s) { return Rational::parse(s); });
}

Rational Fields::not_negative(const char* field) {
    const Rational r = rational(field);
    if (r.sign() < 0) refuse_value(field, value(field), "must not be negative");
    return r;
}

Scale Fields::scale(const char* field) { return choice(field, {"C", "F"}) == 0 ? Scale::C : Scale::F; }

Temperature Fields::temperature(const char* field, Scale scale) {
    const Json& v = value(field);
    const std::string s = number_text(v);
    if (s.empty()) refuse_value(field, v, "must be degrees as text (\"4.2\") or a whole number");
    try {
        return Temperature::parse(s, scale);
    } catch (const Error& e) {
        throw Error(e.code(), name_of(field) + ": " + e.what());
    }
}

TemperatureDifference Fields::difference(const char* field) {
    const Json& v = value(field);
    const std::string s = number_text(v);
    if (s.empty()) refuse_value(field, v, "must be degrees as text (\"0.2\") or a whole number");
    try {
        return TemperatureDifference::parse(s);
    } catch (const Error& e) {
        throw Error(e.code(), name_of(field) + ": " + e.what());
    }
}

Limit Fields::limit(const char* field) {
    Fields f = object(field);
    Limit out;
    if (f.has("C")) out.C = f.temperature("C", Scale::C);
    if (f.has("F")) out.F = f.temperature("F", Scale::F);
    f.done();
    if (!out.C && !out.F)
        refuse_value(field, value(field), "must state the limit in C, in F, or in both: {\"C\": \"8\", \"F\": \"46\"}");
    return out;
}

std::size_t Fields::choice(const char* field, std::span<const char* const> names) {
    const Json& v = value(field);
    std::string all;
    std::size_t i = 0;
    for (const char* name : names) {
        if (v.is_string() && v.get_ref<const std::string&>() == name) return i;
        all += (i++ == 0 ? "" : ", ") + text::quoted(name);
    }
    refuse_value(field, v, "must be one of " + all);
}

void Fields::done() const {
    for (const auto& [key, unused] : object_.items()) {
        if (asked_.contains(key)) continue;
        std::string fields;
        for (const auto& name : asked_) fields += (fields.empty() ? "" : ", ") + std::string(name);
        refuse(Code::unknown_field, shown(Json(key)), "is not a field here; the fields are " + fields);
    }
}

}  // namespace coldtally::entries
