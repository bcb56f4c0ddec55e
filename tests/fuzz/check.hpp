// Check: what every target holds of an error, and of what it was given back.
#pragma once

#include <string>

#include "coldtally/error.hpp"
#include "fuzz/targets.hpp"

namespace fuzz {

constexpr std::size_t longest_message = 4096;  // a line for people, whatever was given

inline void must(bool so, const std::string& what) {
    if (!so) throw Find(what);
}

/// Runs a call. An Error is an answer, if it is one line; every other exception is a find.
template <class Call>
void refusing(Call call) {
    try {
        call();
    } catch (const coldtally::Error& e) {
        const std::string message = e.what();
        must(!message.empty(), "an error without words");
        must(message.find('\n') == std::string::npos && message.find('\r') == std::string::npos,
             "an error of two lines: " + message);
        must(message.find("[json.exception") == std::string::npos || given.find("[json.") != std::string_view::npos,
             "another library's words: " + message);
        must(message.size() <= longest_message,
             "an error of " + std::to_string(message.size()) + " bytes: " + message.substr(0, 200));
    }
}

}  // namespace fuzz
