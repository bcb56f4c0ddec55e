#include "words/python_call.hpp"

namespace coldtally::words {

namespace {

std::string literal(const std::string& value) {
    std::string out = "'";
    for (const char c : value) {
        if (c == '\\' || c == '\'') out += '\\';
        out += c;
    }
    return out + "'";
}

/// Most parameters take a text, or are a switch.
std::string value(const Suggestion& of, const Suggestion::Argument& a) {
    const bool is_first = &a == &of.arguments.front();
    if (is_first && (of.task == "handover" || of.task == "takeback")) return a.value;  // an entry
    if (a.name == "told") return "[" + a.value + "]";  // entries
    if (a.name == "without") return "[" + literal(a.value) + "]";
    return a.value.empty() && !a.is_empty ? "True" : literal(a.value);
}

}  // namespace

std::string python_call(const Suggestion& of) {
    if (of.task == "site") return "coldtally.Ledger(PATH)";  // what makes a ledger
    std::string inside;
    for (const auto& a : of.arguments) {
        if (a.name == "ledger") continue;
        if (!inside.empty()) inside += ", ";
        if (!a.name.empty()) inside += a.name + "=";
        inside += value(of, a);
    }
    return of.task.empty() ? inside : "ledger." + of.task + "(" + inside + ")";
}

}  // namespace coldtally::words
