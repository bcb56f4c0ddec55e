#include <algorithm>

#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/file.hpp"

namespace coldtally {

using namespace forms;

namespace {

void add_contents(TableLayout& table, const Verification& found) {
    table.text(words::entries_readings(found.entries, found.readings));
    table.text(words::chain_is(found.chain), 0, 2);
    if (const auto to_note = link_to_note(found))
        table.text(words::write_down_link(to_note->text(), words::task("verify", {{"against", ""}})), 0, 2);
}

}  // namespace

std::string to_json(const Verification& found) {
    const auto to_note = link_to_note(found);
    Json out{{"entries", found.entries},
             {"readings", found.readings},
             {"chain", found.chain},
             {"to_note", to_note ? Json(to_note->text()) : Json()}};
    set_remarks(out, "findings", found.findings);
    out["findings_in_all"] = found.findings_in_all;
    return json_line(out);
}

std::string to_json(const LedgerCopy& copy) {
    const auto to_note = link_to_note(copy.verified);
    return json_line({{"copy", copy.path},
                 {"from_format", copy.format},
                 {"format", copy.format_now},
                 {"entries", copy.verified.entries},
                 {"readings", copy.verified.readings},
                 {"chain", copy.verified.chain},
                 {"to_note", to_note ? Json(to_note->text()) : Json()}});
}

std::string to_table(const Verification& found, const TableStyle& style) {
    TableLayout table(*style.book);
    if (found.findings.empty())
        table.text(words::as_posted(), 0, 0, TableLayout::Paint::go);
    else
        table.text(words::not_as_posted(words::findings(
                       std::max(found.findings_in_all, static_cast<std::int64_t>(found.findings.size())))),
                   0, 0, TableLayout::Paint::stop);
    for (const auto& finding : found.findings) table.text(words::list_item(finding), 0, 2);
    if (found.chain.empty()) return render(table, style);  // nothing could be read
    add_contents(table, found);
    return render(table, style);
}

std::string to_table(const LedgerCopy& copy, const TableStyle& style) {
    TableLayout table(*style.book);
    table.text(words::copy_made(copy.path), 0, 0, TableLayout::Paint::go);
    if (copy.format != copy.format_now) table.text(words::copy_of_older(copy.format), 0, 2);
    add_contents(table, copy.verified);
    return render(table, style);
}

}  // namespace coldtally
