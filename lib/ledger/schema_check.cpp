#include "ledger/schema_check.hpp"

#include <map>
#include <string_view>

#include "ledger/schema.hpp"
#include "words/file.hpp"

namespace coldtally::ledger {

namespace {

constexpr std::string_view schema(schema_sql);

/// Name and text of the CREATE statements of schema.sql, which SQLite keeps as they are written there. Each begins a
/// line, and its last line ends with ";" before an empty line or the end: those inside a trigger are followed by their
/// own END.
std::map<std::string, std::string_view, std::less<>> statements() {
    std::map<std::string, std::string_view, std::less<>> out;
    for (std::size_t at = schema.find("CREATE "); at != std::string_view::npos; at = schema.find("\nCREATE ", at + 1)) {
        const std::size_t begin = schema[at] == '\n' ? at + 1 : at;
        const std::size_t next = schema.find("\nCREATE ", begin);
        std::string_view text = schema.substr(begin, next == std::string_view::npos ? next : next + 1 - begin);
        text = text.substr(0, text.rfind(";\n"));  // comments follow, which end no line so
        std::size_t name = text.find(' ') + 1;         // TABLE, INDEX or TRIGGER
        name = text.find(' ', name) + 1;
        out.emplace(text.substr(name, text.find_first_of(" (", name) - name), text);
    }
    return out;
}

}  // namespace

std::vector<Remark> schema_findings(Database& database) {
    std::vector<Remark> out;
    auto missing = statements();
    auto s = database.statement("SELECT type, name, sql FROM sqlite_schema ORDER BY rowid");
    while (s.step()) {
        if (s.is_null(2) && s.text(1).starts_with("sqlite_autoindex_")) continue;  // made by a constraint of its table
        const auto it = missing.find(s.text(1));
        if (it == missing.end())
            out.push_back(words::schema_has(s.text(0), s.text(1)));
        else if (it->second != s.text(2))
            out.push_back(words::schema_differs(s.text(0), s.text(1)));
        if (it != missing.end()) missing.erase(it);
    }
    for (const auto& [name, text] : missing) out.push_back(words::schema_lacks(name));
    return out;
}

}  // namespace coldtally::ledger
