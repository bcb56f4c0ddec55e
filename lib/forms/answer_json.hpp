// Answer JSON: what the JSON of answers begins with, and how it ends.
#pragma once

#include <array>
#include <initializer_list>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "coldtally/conditions.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/words.hpp"
#include "words/general.hpp"
#include "words/tables.hpp"

namespace coldtally::forms {

using Json = nlohmann::ordered_json;  // keeps the order in which fields are set: part of "the same bytes"

inline Json json_head(const AnswerHead& head) {
    return {{"ledger", head.ledger},
            {"at", head.at.text()},
            {"known_on", head.known_on.text()},
            {"last_entry", head.last_entry}};
}

inline Json holding_json(const HoldingKey& k) {
    return {{"place", k.place}, {"product", k.product}, {"lot", k.lot}, {"fund", k.fund}, {"mark", k.mark}};
}

template <typename T>
Json json_or_null(const std::optional<T>& value) {
    if (!value) return nullptr;
    if constexpr (requires { value->text(); })
        return value->text();
    else
        return *value;
}

template <class List, class Make>
Json list_json(const List& list, Make make) {
    Json out = Json::array();
    for (const auto& item : list) out.push_back(make(item));
    return out;
}

inline Json reasons_json(const std::vector<Reason>& reasons) { return list_json(reasons, reason_name); }

/// Of each Class.
inline Json coverage_json(const std::array<Rational, class_count>& seconds) {
    return {{"logged_s", seconds[static_cast<int>(Class::logged)].text()},
            {"bounded_s", seconds[static_cast<int>(Class::bounded)].text()},
            {"checked_s", seconds[static_cast<int>(Class::checked)].text()},
            {"near_s", seconds[static_cast<int>(Class::near)].text()},
            {"awaiting_s", seconds[static_cast<int>(Class::awaiting)].text()},
            {"unmonitored_s", seconds[static_cast<int>(Class::unmonitored)].text()}};
}

/// Beside the fields that an answer has of its own.
inline Json last_use_json(const LastUse& use) {
    return {{"day", use.day.text()},
            {"whole_day", use.whole_day},
            {"until", use.until.text()},
            {"set_by", use_limit_name(use.set_by)},
            {"entry", json_or_null(use.entry)}};
}

inline Json remark_json(const Remark& remark);

inline Json field_json(const Field& field) {
    if (!field.remark.empty()) return remark_json(field.remark.front());
    if (field.suggestion.empty()) return field.text;
    Json arguments = Json::array();
    for (const auto& a : field.suggestion.front().arguments)
        arguments.push_back({{"name", a.name}, {"value", a.value.empty() && !a.is_empty ? Json(true) : Json(a.value)}});
    return {{"task", field.suggestion.front().task}, {"arguments", std::move(arguments)}};
}

/// The code with its fields, each by its name: a text, a remark as this one, or a task with its arguments.
inline Json remark_json(const Remark& remark) {
    const auto names = field_names(*remark.phrase);
    Json fields = Json::object();
    for (std::size_t i = 0; i < names.size(); ++i) fields[names[i]] = field_json(remark.fields.at(i));
    return {{"code", remark.code()}, {"fields", std::move(fields)}};
}

/// What is said under that name, in English, and beside it the codes: "notes", "notes_codes".
inline void set_remarks(Json& out, const std::string& name, const std::vector<Remark>& remarks) {
    out[name] = english().say(remarks);
    out[name + "_codes"] = list_json(remarks, remark_json);
}

/// The same of one; null where there is none.
inline void set_remark(Json& out, const std::string& name, const std::optional<Remark>& remark) {
    out[name] = remark ? Json(english().say(*remark)) : Json(nullptr);
    out[name + "_code"] = remark ? remark_json(*remark) : Json(nullptr);
}
/// "window", empty where the answer is not about one.
inline void set_window(Json& out, const AnswerHead& head) {
    out["window"] = head.window ? english().say(*head.window) : std::string();
    out["window_code"] = head.window ? remark_json(*head.window) : Json(nullptr);
}

/// What an answer says at its end, in English.
inline std::string cautions(std::initializer_list<Remark> all) {
    std::string out;
    for (const Remark& one : all) out += (out.empty() ? "" : " ") + english().say(one);
    return out;
}

/// UTF-8 stays as it is. What is not, in the name of a file or in a damaged ledger, becomes U+FFFD.
inline std::string json_line(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coldtally::forms
