// What was posted, as JSON and in lines.
#include <nlohmann/json.hpp>

#include "entries/print.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;

std::string to_json(const Posted& posted) {
    nlohmann::ordered_json out;
    out["dry_run"] = posted.dry_run;
    out["entries"] = nlohmann::ordered_json::array();
    for (const auto& entry : posted.what.entries) out["entries"].push_back(entries::entry_json(entry));
    out["filled"] = posted.what.filled;
    out["warnings"] = posted.what.warnings;
    out["next_steps"] = posted.what.next_steps;
    return out.dump() + "\n";
}

std::string to_table(const Posted& posted, const TableStyle& style) {
    TableLayout table;
    if (posted.dry_run) table.text("DRY RUN: nothing has been written. This is what would be.", 0, 2, TableLayout::Paint::wait);
    for (const auto& entry : posted.what.entries) table.text("Entry " + std::to_string(entry.number) + ": " + entry_words(entry, style.zone) + ".", 0, 2, TableLayout::Paint::bold);
    std::string filled;
    for (const auto& what : posted.what.filled) filled += (filled.empty() ? "" : "; ") + what;
    if (!filled.empty()) table.text("Filled in: " + filled + ".", 2, 2);
    for (const auto& warning : posted.what.warnings) table.text("WARNING: " + warning + ".", 0, 2, TableLayout::Paint::stop);
    for (std::size_t i = 0; i < posted.what.next_steps.size(); ++i) table.text(std::to_string(i + 1) + ". " + posted.what.next_steps[i], 2, 3);
    if (!posted.what.warnings.empty()) add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
