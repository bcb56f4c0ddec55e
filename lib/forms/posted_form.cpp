// What was posted, as JSON and in lines.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/drafts.hpp"
#include "words/drafts_records.hpp"
#include "words/lists.hpp"

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
    if (!what.read_back.empty()) set_remarks(out, "read_back", what.read_back);
    set_remarks(out, "filled", what.filled);
    set_remarks(out, "warnings", what.warnings);
    set_remarks(out, "next_steps", what.next_steps);
    out["opening"] = what.opening ? opening_json(*what.opening) : nlohmann::ordered_json();
    out["caution"] = cautions({words::caution});
    return out;
}

nlohmann::ordered_json left_out_json(const DraftedRecords::LeftOut& left) {
    nlohmann::ordered_json out{{"where", left.where}, {"id", json_or_null(left.id)}};
    set_remark(out, "reason", left.reason);
    return out;
}

void add_entries(TableLayout& table, const std::vector<Entry>& entries, bool dry_run, const TableStyle& style) {
    if (dry_run) table.text(words::dry_run_would_be(), 0, 2, TableLayout::Paint::wait);
    for (const auto& entry : entries)
        table.text(words::entry_line(entry.number, entry_words(entry, style.zone)), 0, 2, TableLayout::Paint::bold);
}

void add_warnings(TableLayout& table, const std::vector<Remark>& warnings) {
    for (const auto& warning : warnings)
        table.text(words::warning_line(warning), 0, 2, TableLayout::Paint::stop);
    if (!warnings.empty()) add_caution(table);
}

void add_left_out(TableLayout& table, const DraftedRecords::LeftOut& left) {
    const Field where = left.id ? Field(words::record_at(left.where, *left.id)) : Field(left.where);
    const Remark said = words::colon(where, left.reason);
    table.text(left.reason.is(words::lot_never_here_is_it) ? said : words::sentence(said), 2, 2);
}

}  // namespace

std::string to_json(const Posted& posted) { return json_line(posted_json(posted.what, posted.dry_run)); }

std::string to_json(const PostedRecords& posted) {
    auto out = posted_json(posted.records.what, posted.dry_run);
    out["left_out"] = nlohmann::ordered_json::array();
    for (const auto& left : posted.records.left_out)
        out["left_out"].push_back(left_out_json(left));
    return json_line(out);
}

std::string to_table(const PostedRecords& posted, const TableStyle& style) {
    TableLayout table(*style.book);
    const auto& [what, left_out] = posted.records;
    add_entries(table, what.entries, posted.dry_run, style);
    const auto& numbers = left_out.empty() ? posted.dry_run ? words::records_would_be_noted : words::records_noted
                          : posted.dry_run ? words::records_would_be_noted_but
                                           : words::records_noted_but;
    table.text(numbers(words::records(what.entries.size()), words::records(left_out.size())));
    for (const auto& left : left_out) add_left_out(table, left);
    add_warnings(table, what.warnings);
    return render(table, style);
}

std::string to_table(const Posted& posted, const TableStyle& style) {
    TableLayout table(*style.book);
    add_entries(table, posted.what.entries, posted.dry_run, style);
    for (const auto& line : posted.what.read_back) table.text(line, 2, 4);
    if (const auto filled = words::semicolons(posted.what.filled)) table.text(words::filled_in(*filled), 2, 2);
    const auto& warnings = posted.what.warnings;
    for (const auto& warning : warnings)
        table.text(words::warning_line(warning), 0, 2, TableLayout::Paint::stop);
    for (std::size_t i = 0; i < posted.what.next_steps.size(); ++i)
        table.text(words::numbered(i + 1, posted.what.next_steps[i]), 2, 3);
    if (!warnings.empty()) add_caution(table);
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
    const bool judges = std::any_of(posted.what.entries.begin(), posted.what.entries.end(),
                                    [](const Entry& e) { return std::holds_alternative<Guidance>(e.fact); });
    const bool changes_any = !changes.holdings.empty() || !changes.doses.empty() || !changes.left.empty();
    const bool says = changes_any || !is_event || takes_back || judges;
    return to_table(posted, style) + (says ? to_table(changes, style) : "");
}

}  // namespace coldtally
