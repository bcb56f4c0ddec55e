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

/// "K0123,state,bin 2=DOSES" as an item of a dict.
std::string counted(const std::string& value) {
    const auto equals = value.rfind('=');
    return literal(value.substr(0, equals)) + ": " + (equals == value.npos ? "" : value.substr(equals + 1));
}

/// Most parameters take a text, or are a switch.
std::string value(const Suggestion& of, const Suggestion::Argument& a) {
    const bool is_first = &a == &of.arguments.front();
    if (is_first && (of.task == "handover" || of.task == "takeback")) return a.value;  // an entry
    if (a.name == "give" || a.name == "vial_doses") return a.value;  // an entry; doses
    if (a.name == "told") return "[" + a.value + "]";  // entries
    if (a.name == "without") return "[" + literal(a.value) + "]";
    return a.value.empty() && !a.is_empty ? "True" : literal(a.value);
}

/// A definition is posted as an object of its kind.
std::string defined(std::string kind) {
    kind.front() = static_cast<char>(kind.front() - 'a' + 'A');
    return "ledger.post_draft(coldtally." + kind + "(...))";
}

}  // namespace

std::string python_call(const Suggestion& of) {
    if (of.task == "site") return "coldtally.Ledger(PATH)";  // what makes a ledger
    if (of.task == "assign" || of.task == "certificate" || of.task == "maker") return defined(of.task);
    std::string inside;
    for (const auto& a : of.arguments) {
        if (a.name == "ledger") continue;
        if (!inside.empty()) inside += ", ";
        if (of.task.empty() && a.name == "count") {  // of a container that is unpacked
            inside += "counts={" + counted(a.value) + "}";
            continue;
        }
        const bool is_keyword = a.name == "from" || a.name == "with";
        if (!a.name.empty()) inside += a.name + (is_keyword ? "_=" : "=");
        inside += value(of, a);
    }
    return of.task.empty() ? inside : "ledger." + of.task + "(" + inside + ")";
}

}  // namespace coldtally::words
