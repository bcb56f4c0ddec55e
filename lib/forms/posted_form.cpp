// What was posted, as JSON and in lines.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;

namespace {

nlohmann::ordered_json opening_json(const Opening& o) {
    nlohmann::ordered_json out = holding_json(o.from);
    out["noted"] = o.noted;
    out["vial"] = o.noted ? nlohmann::ordered_json(o.mark) : nlohmann::ordered_json();
    out["vial_doses"] = o.doses.count() > 0 ? nlohmann::ordered_json(o.doses.count()) : nlohmann::ordered_json();
    out["opened"] = o.at.text();
    out["event"] = o.event;
    out["period_s"] = o.period.seconds();
    out["last_use"] = last_use_json(o.last_use);
    return out;
}

nlohmann::ordered_json posted_json(const Drafted& what, bool dry_run) {
    nlohmann::ordered_json out;
    out["dry_run"] = dry_run;
    out["entries"] = nlohmann::ordered_json::array();
    for (const auto& entry : what.entries) out["entries"].push_back(entries::entry_json(entry));
    if (!what.read_back.empty()) out["read_back"] = what.read_back;
    out["filled"] = what.filled;
    out["warnings"] = what.warnings;
    out["next_steps"] = what.next_steps;
    out["opening"] = what.opening ? opening_json(*what.opening) : nlohmann::ordered_json();
    out["caution"] = caution;
    return out;
}

void add_entries(TableLayout& table, const std::vector<Entry>& entries, bool dry_run, const TableStyle& style) {
    if (dry_run)
        table.text("DRY RUN: nothing has been written. This is what would be.", 0, 2, TableLayout::Paint::wait);
    for (const auto& entry : entries)
        table.text("Entry " + std::to_string(entry.number) + ": " + entry_words(entry, style.zone) + ".", 0, 2,
                   TableLayout::Paint::bold);
}

}  // namespace

std::string to_json(const Posted& posted) { return json_line(posted_json(posted.what, posted.dry_run)); }

std::string to_json(const PostedRecords& posted) {
    auto out = posted_json(posted.records.what, posted.dry_run);
    out["left_out"] = nlohmann::ordered_json::array();
    for (const auto& left : posted.records.left_out)
        out["left_out"].push_back({{"where", left.where},
                                   {"id", left.id ? nlohmann::ordered_json(*left.id) : nlohmann::ordered_json()},
                                   {"reason", left.reason}});
    return json_line(out);
}

std::string to_table(const PostedRecords& posted, const TableStyle& style) {
    TableLayout table;
    const auto& [what, left_out] = posted.records;
    add_entries(table, what.entries, posted.dry_run, style);
    const auto records = [](std::size_t n) { return counted(static_cast<std::int64_t>(n), "record"); };
    table.text(records(what.entries.size()) + (posted.dry_run ? " would be noted, " : " noted, ") +
               records(left_out.size()) + " left out" + (left_out.empty() ? "." : ":"));
    for (const auto& left : left_out)
        table.text(left.where + (left.id ? ", Immunization/" + *left.id : "") + ": " + left.reason +
                       (left.reason.ends_with('?') ? "" : "."),
                   2, 2);
    for (const auto& warning : what.warnings) table.text("WARNING: " + warning + ".", 0, 2, TableLayout::Paint::stop);
    if (!what.warnings.empty()) add_caution(table);
    return render(table, style);
}

std::string to_table(const Posted& posted, const TableStyle& style) {
    TableLayout table;
    add_entries(table, posted.what.entries, posted.dry_run, style);
    for (const auto& line : posted.what.read_back) table.text(line, 2, 4);
    std::string filled;
    for (const auto& what : posted.what.filled) filled += (filled.empty() ? "" : "; ") + what;
    if (!filled.empty()) table.text("Filled in: " + filled + ".", 2, 2);
    for (const auto& warning : posted.what.warnings)
        table.text("WARNING: " + warning + ".", 0, 2, TableLayout::Paint::stop);
    for (std::size_t i = 0; i < posted.what.next_steps.size(); ++i)
        table.text(std::to_string(i + 1) + ". " + posted.what.next_steps[i], 2, 3);
    if (!posted.what.warnings.empty()) add_caution(table);
    return render(table, style);
}

std::string to_json(const Posted& posted, const Changes& changes) {
    auto out = posted_json(posted.what, posted.dry_run);
    out["changes"] = nlohmann::ordered_json::parse(to_json(changes));
    return json_line(out);
}

std::string to_table(const Posted& posted, const Changes& changes, const TableStyle& style) {
    // of a certificate, and of where a probe is, only what changes is said
    const bool is_event = std::none_of(posted.what.entries.begin(), posted.what.entries.end(),
                                       [](const Entry& e) { return is_definition(e); });
    const bool takes_back = std::any_of(posted.what.entries.begin(), posted.what.entries.end(),
                                        [](const Entry& e) { return std::holds_alternative<Void>(e.fact); });
    const bool says = !changes.holdings.empty() || !changes.doses.empty() || !is_event || takes_back;
    return to_table(posted, style) + (says ? to_table(changes, style) : "");
}

}  // namespace coldtally
