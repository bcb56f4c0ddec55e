// Answer JSON: what the JSON of answers begins with, and how it ends.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "coldtally/answers.hpp"

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

/// Beside the fields that an answer has of its own.
inline Json last_use_json(const LastUse& use) {
    return {{"day", use.day.text()},
            {"whole_day", use.whole_day},
            {"until", use.until.text()},
            {"set_by", use.set_by},
            {"entry", json_or_null(use.entry)}};
}

/// UTF-8 stays as it is. What is not, in the name of a file or in a damaged ledger, becomes U+FFFD.
inline std::string json_line(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace coldtally::forms
