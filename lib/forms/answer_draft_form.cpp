#include <algorithm>

#include "entries/print.hpp"
#include "forms/changes_form.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally {

using namespace forms;
using Paint = TableLayout::Paint;

namespace {

/// Holdings and doses that wait, and that no change takes from where they are.
bool waits_on(const Changes& c, const ListsAnswer::Row& row) {
    return std::none_of(c.holdings.begin(), c.holdings.end(), [&](const auto& h) {
        return h.holding == row.holding && h.after && h.after->list != List::quarantine;
    });
}
bool waits_on(const Changes& c, const ReviewAnswer::Row& row) {
    return std::none_of(c.doses.begin(), c.doses.end(),
                        [&](const auto& d) { return d.entry == row.entry && d.after != row.finding; });
}

}  // namespace

std::string to_json(const AnswerDraft& d, const std::vector<EntryNumber>& posted) {
    const Changes& c = d.changes;
    Json out = changes_json(c);
    out["entries"] = list_json(d.entries, [](const Entry& e) { return entries::entry_json(e); });
    out["posted"] = posted;
    set_remarks(out, "concerns", d.concerns);
    set_remarks(out, "besides", d.besides);
    out["not_covered"] = {{"holdings", Json::array()}, {"doses", Json::array()}};
    for (const auto& row : d.quarantined)
        if (waits_on(c, row)) out["not_covered"]["holdings"].push_back(holding_json(row.holding));
    for (const auto& row : d.pending)
        if (waits_on(c, row)) out["not_covered"]["doses"].push_back(row.entry);
    return json_line(out);
}

namespace {

/// What was posted, or what would post it.
Remark how_it_stands(const AnswerDraft& d, const std::vector<EntryNumber>& posted) {
    if (!posted.empty()) return words::posted_entries(words::entries_of(posted));
    if (d.concerns.empty()) return words::not_posted(words::parameter("yes"));
    return words::not_posted_not_all(words::parameter("yes"), words::parameter("despite", "WHY"));
}

std::vector<Remark> not_covered(const AnswerDraft& d, const Zone& zone) {
    std::vector<Remark> out = d.concerns;
    out.insert(out.end(), d.besides.begin(), d.besides.end());
    for (const auto& row : d.quarantined)
        if (waits_on(d.changes, row))
            out.push_back(words::stay_in_quarantine(row.doses.count(), holding_words(row.holding)));
    for (const auto& row : d.pending)
        if (waits_on(d.changes, row)) out.push_back(words::dose_still_waits(zone.local_text(row.at), row.entry));
    return out;
}

}  // namespace

std::string to_table(const AnswerDraft& d, const std::vector<EntryNumber>& posted, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, d.changes.head, words::answer_draft_title(), style);
    table.text(how_it_stands(d, posted), 0, 0, posted.empty() ? Paint::wait : Paint::bold);
    table.blank();
    table.text(words::heading_changes(), 0, 0, Paint::bold);
    add_changes(table, d.changes, style);
    table.blank();
    table.text(words::heading_not_covered(), 0, 0, Paint::bold);
    const auto open = not_covered(d, style.zone);
    for (const auto& what : open) table.text(what, 2, 2, Paint::wait);
    if (open.empty()) table.text(words::nothing_left_waiting(), 2);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
