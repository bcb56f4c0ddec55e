#include "table.hpp"

#include <array>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>

namespace published {

namespace {

const std::set<std::string> standings = {"read", "reported by a second source", "from memory", "own computing",
                                         "common practice, no source"};

[[noreturn]] void refuse(int line, const std::string& why) {
    throw std::runtime_error("line " + std::to_string(line) + ": " + why);
}

std::string trimmed(const std::string& s) {
    const auto from = s.find_first_not_of(' ');
    return from == std::string::npos ? "" : s.substr(from, s.find_last_not_of(' ') - from + 1);
}

/// What stands before and after a separator; both must say something.
std::pair<std::string, std::string> split(const std::string& s, const std::string& separator, int line) {
    const auto at = s.find(separator);
    if (at == std::string::npos) refuse(line, "no '" + separator + "'");
    const auto before = trimmed(s.substr(0, at)), after = trimmed(s.substr(at + separator.size()));
    if (before.empty() || after.empty()) refuse(line, "nothing before or after '" + separator + "'");
    return {before, after};
}

Row row_of(const std::string& text, int line) {
    Row row;
    row.line = line;
    std::tie(row.input, row.expected) = split(text, "=>", line);
    if (row.expected.find(" ! ") == std::string::npos) return row;
    std::string mark;
    std::tie(row.expected, mark) = split(row.expected, " ! ", line);
    if (mark.rfind("here ", 0) != 0) refuse(line, "after '!' comes 'here ANSWER: reason'");
    std::tie(row.here, row.because) = split(mark.substr(5), ": ", line);
    return row;
}

void check(const Block& b) {
    const std::array<std::pair<const char*, const std::string*>, 7> needed = {{{"question", &b.question},
                                                                               {"publication", &b.publication},
                                                                               {"edition", &b.edition},
                                                                               {"where", &b.where},
                                                                               {"seen", &b.seen},
                                                                               {"unit", &b.unit},
                                                                               {"tolerance", &b.tolerance}}};
    for (const auto& [name, value] : needed)
        if (value->empty()) refuse(b.line, std::string("the block does not say its '") + name + "'");
    if (!standings.count(b.seen)) refuse(b.line, "'" + b.seen + "' is not a way in which a value was seen");
    if (b.publication.rfind("none:", 0) == 0 && b.seen != "own computing" && b.seen != "common practice, no source")
        refuse(b.line, "what nobody published was not '" + b.seen + "'");
    if (b.rows.empty()) refuse(b.line, "the block has no cases");
}

}  // namespace

std::vector<Block> read(const std::string& text) {
    std::vector<Block> out;
    Block block;
    const auto close = [&] {
        if (block.line == 0) return;
        check(block);
        out.push_back(std::move(block));
        block = Block();
    };
    std::istringstream in(text);
    std::string s;
    for (int line = 1; std::getline(in, s); ++line) {
        if (s.rfind('#', 0) == 0) continue;
        if (trimmed(s).empty()) {
            close();
            continue;
        }
        if (block.line == 0) block.line = line;
        if (s[0] == ' ') {
            block.rows.push_back(row_of(s, line));
            continue;
        }
        const auto [name, value] = split(s, ":", line);
        const std::map<std::string, std::string*> fields = {
            {"question", &block.question},   {"publication", &block.publication},
            {"edition", &block.edition},     {"where", &block.where},
            {"seen", &block.seen},           {"unit", &block.unit},
            {"tolerance", &block.tolerance}, {"given", &block.given}};
        const auto field = fields.find(name);
        if (field == fields.end()) refuse(line, "'" + name + "' is no line of a block");
        if (!field->second->empty()) refuse(line, "'" + name + "' stands twice in its block");
        if (!block.rows.empty()) refuse(line, "'" + name + "' stands after a case");
        *field->second = value;
    }
    close();
    if (out.empty()) throw std::runtime_error("no blocks");
    return out;
}

}  // namespace published
