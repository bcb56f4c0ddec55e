// What a refusal says by itself: all in one line, remedies as a layout states them.
#include <algorithm>

#include "coldtally/logger.hpp"

namespace coldtally {

namespace {

std::string in_one_line(const LoggerRefusal::Facts& facts) {
    std::string out = facts.found;
    const char* sign = ": ";
    for (const auto& row : facts.unreadable > 1 ? facts.rows : std::vector<LoggerRefusal::Row>()) {
        const bool named = out.find(row.file) != std::string::npos;
        out += sign + (named ? "" : row.file + ": ") + "line " + std::to_string(row.line) + ": " + row.what;
        sign = "; ";
    }
    if (const auto more = facts.unreadable - std::ssize(facts.rows); more > 0)
        out += "; and " + std::to_string(more) + " more";
    if (facts.can_accept)
        out += ". If the first is right, accept the guess; else give a layout, changed from this one: " +
               facts.remedies.front().layout.text();
    else
        for (const Remedy& r : facts.remedies)
            out += (r.when.empty() ? "; the rest can be read with a layout that states "
                                   : "; if " + r.when + ", state in a layout ") +
                   r.layout.text();
    if (facts.without_remedy > 0 && facts.unreadable > 1)
        out += "; no layout lets " + std::to_string(facts.without_remedy) + " of them through";
    return out;
}

}  // namespace

LoggerRefusal::LoggerRefusal(Code code, Facts facts)
    : Error(code, in_one_line(facts)), facts_(std::make_shared<const Facts>(std::move(facts))) {}

}  // namespace coldtally
