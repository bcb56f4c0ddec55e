// Tables of what is said in lines: explanation, verification, import report.
#include <algorithm>

#include "forms/table.hpp"

namespace coldtally {

using namespace forms;

namespace {

constexpr std::size_t deepest_indent = 12;

/// Of the binary fractions between logger and file; what changes more was written finer.
constexpr std::string_view noise = "0.00001";

std::string yes_new(const ImportedFile& file) {
    if (file.known_already) return "the same file is in the ledger already; nothing was added";
    return std::to_string(file.rows_kept) + " new of " + counted(file.rows_read, "reading");
}

}  // namespace

std::string to_table(const Explanation& answer, const TableStyle& style) {
    TableLayout table;
    add_head(table, answer.head, "why " + holding_words(answer.holding) + " is on its list", style);
    table.blank();
    for (const auto& line : answer.lines) {
        const std::size_t indent = std::min(line.find_first_not_of(' '), deepest_indent);
        table.text(line, static_cast<int>(indent), 4);
    }
    add_caution(table);
    return render(table, style);
}

namespace {

void add_link_to_note(TableLayout& table, const Verification& found) {
    if (const auto to_note = link_to_note(found))
        table.text(
            "Write down on paper: " + to_note->text() +
                ". Later, `coldtally verify --against` with these words shows whether the whole file was replaced.",
            0, 2);
}

}  // namespace

std::string to_table(const Verification& found, const TableStyle& style) {
    TableLayout table;
    if (found.findings.empty())
        table.text("The ledger is as it was posted.", 0, 0, TableLayout::Paint::go);
    else
        table.text(
            "NOT AS IT WAS POSTED: " +
                counted(std::max(found.findings_in_all, static_cast<std::int64_t>(found.findings.size())), "finding"),
            0, 0, TableLayout::Paint::stop);
    for (const auto& finding : found.findings) table.text("- " + finding, 0, 2);
    if (found.chain.empty()) return render(table, style);  // nothing could be read
    table.text("Entries " + std::to_string(found.entries) + ", readings " + std::to_string(found.readings) + ".");
    table.text("Chain " + found.chain, 0, 2);
    add_link_to_note(table, found);
    return render(table, style);
}

std::string to_table(const LedgerCopy& copy, const TableStyle& style) {
    TableLayout table;
    table.text(copy.path + ": made, and it verifies.", 0, 0, TableLayout::Paint::go);
    if (copy.format != copy.format_now)
        table.text("From a ledger of format " + std::to_string(copy.format) +
                       ", which stays as it is; entries and chain are the same.",
                   0, 2);
    table.text("Entries " + std::to_string(copy.verified.entries) + ", readings " +
               std::to_string(copy.verified.readings) + ".");
    table.text("Chain " + copy.verified.chain, 0, 2);
    add_link_to_note(table, copy.verified);
    return render(table, style);
}

std::string to_table(const ImportReport& report, const TableStyle& style, bool dry_run) {
    TableLayout table;
    if (dry_run)
        table.text("DRY RUN: nothing has been written. This is what would be.", 0, 2, TableLayout::Paint::wait);
    bool first = true;
    for (const auto& file : report.files) {
        if (!first) table.blank();
        first = false;
        const auto line = [&](const std::string& text) { table.text(text, 2, 2); };

        table.text(file.name + ": " + yes_new(file), 0, 2, TableLayout::Paint::bold);
        line("SHA-256 " + file.sha256);
        if (!file.known_already) {
            if (file.from && file.until)
                line("Readings from " + style.zone.local_text(*file.from) + " to " +
                     style.zone.local_text(*file.until) + " (" + style.zone.name() + ")" +
                     (file.longest_step
                          ? ", longest step " + duration_words(Rational(file.longest_step->seconds()), true)
                          : ""));
            line("Rows: " + std::to_string(file.rows_read) + " read, " + std::to_string(file.rows_kept) + " new, " +
                 std::to_string(file.rows_repeated) + " repeated, 0 refused, " +
                 std::to_string(file.rows_without_reading) + " without a reading, " +
                 std::to_string(file.rows_ignored) + " ignored");
            if (file.layout.resolution)
                line("Rounded to " + file.layout.resolution->text() +
                     " degrees: " + counted(file.rows_rounded, "reading") +
                     (file.largest_change ? ", by at most " + *file.largest_change : "") +
                     (file.largest_change && *file.largest_change > noise
                          ? "; of readings beside a limit, rounding may decide on which side they are"
                          : ""));
            for (const auto& guess : file.guesses) line("Guessed: " + guess);
            for (const auto& doubt : file.ambiguous) line("COULD BE OTHERWISE: " + doubt);
            for (const auto& remark : file.remarks) line("Remark: " + remark);
            if (!file.entries.empty()) {
                std::string entries;
                for (const auto entry : file.entries) entries += (entries.empty() ? "" : ", ") + std::to_string(entry);
                line((dry_run ? "Would be posted as entry " : "Posted as entry ") + entries);
            } else {
                line("Nothing was posted.");
            }
        }
    }
    for (const auto& warning : report.warnings)
        table.text("WARNING: " + warning + ".", 0, 2, TableLayout::Paint::stop);
    if (!report.warnings.empty()) add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
