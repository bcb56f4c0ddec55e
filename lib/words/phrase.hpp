// Phrase: how the phrases of the phrasebook are written down, and said.
#pragma once

#include <string_view>
#include <utility>

#include "coldtally/words.hpp"

namespace coldtally::words {

/// How many different fields in braces a text has. A brace without its other does not compile.
consteval std::size_t count_fields(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t open = text.find('{'); open != text.npos; open = text.find('{', open + 1)) {
        const std::size_t close = text.find('}', open);
        if (close == text.npos || close == open + 1) throw "a field has no name, or no end";
        const std::string_view name = text.substr(open, close - open + 1);
        if (text.find(name) == open) ++count;
    }
    return count;
}

/// A phrase with that many fields; calling it says it. That the number is the text's, and that of what it is called
/// with, is seen by the compiler.
template <std::size_t fields>
struct Says {
    Phrase phrase;

    consteval Says(const char* code, const char* english) : phrase{code, english} {
        if (count_fields(english) != fields) throw "a phrase has another number of fields than it says";
    }

    Says(const Says&) = delete;  // a remark points to the phrase, which a copy would not outlive

    template <class... F>
        requires(sizeof...(F) == fields)
    Remark operator()(F&&... field) const {
        return {&phrase, {Field(std::forward<F>(field))...}};
    }
    /// Where a phrase without fields stands for what it says.
    operator Remark() const
        requires(fields == 0)
    {
        return {&phrase, {}};
    }
    operator const Phrase&() const noexcept { return phrase; }
};

/// A task as a field of a phrase: `task("follow_up", {{"lot", lot}})`.
inline Suggestion task(std::string name, std::vector<Suggestion::Argument> arguments = {}) {
    return {std::move(name), std::move(arguments)};
}
/// A parameter of the task at hand: `parameter("despite", "WHY")`; a switch where no value stands.
inline Suggestion parameter(std::string name, std::string value = {}) {
    return {{}, {{std::move(name), std::move(value)}}};
}
/// The same with a value that is the empty text.
inline Suggestion empty_parameter(std::string name) { return {{}, {{std::move(name), {}, true}}}; }

}  // namespace coldtally::words
