#include "words/shell.hpp"

#include <algorithm>

#include "text/shell_word.hpp"

namespace coldtally::words {

namespace {

std::string with_hyphens(std::string name) {
    std::replace(name.begin(), name.end(), '_', '-');
    return name;
}

}  // namespace

std::string shell_line(const Suggestion& of) {
    std::string out;
    if (!of.task.empty()) out = "coldtally " + with_hyphens(of.task);
    for (const auto& a : of.arguments) {
        if (!a.name.empty() && a.name != "ledger") out += (out.empty() ? "--" : " --") + with_hyphens(a.name);
        if (!a.value.empty() || a.is_empty) out += (out.empty() ? "" : " ") + text::shell_word(a.value);
    }
    return out;
}

}  // namespace coldtally::words
