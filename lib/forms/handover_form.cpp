// Handovers as JSON, as what a receive takes in, and as the sheet that goes with the doses.
#include <algorithm>

#include "coldtally/error.hpp"
#include "coldtally/forms.hpp"
#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "text/json_text.hpp"
#include "words/history.hpp"
#include "words/journeys.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally {

using namespace forms;

namespace {

void refuse_condemned(const HandoverAnswer& a) {
    if (a.condemned)
        throw Error(Code::contradiction, "handover: guidance says discard for these doses, lot " +
                                             text::quoted(a.holding.lot) + ": must not be handed over for use");
}

}  // namespace

std::string handover_file(const HandoverAnswer& a) {
    refuse_condemned(a);
    return to_json(a);
}

std::string handover_json(const HandoverAnswer& a) {
    refuse_condemned(a);
    return json_line(entries::history_json(a.handover.history, a.handover.allowance_seconds));
}

std::string to_json(const HandoverAnswer& a) {
    Json out = json_head(a.head);
    out["transfer"] = a.transfer;
    out["left"] = a.left.text();
    out["by"] = a.by;
    out["to"] = a.to;
    out["reason"] = a.reason;
    out.update(holding_json(a.holding));
    out["product_name"] = a.product_name;
    out["doses"] = a.doses.count();
    out["expiry"] = a.expiry.text();
    out["last_use"] = last_use_json(a.last_use);
    out["exposed"] = a.exposed;
    out["needed"] = a.needed;
    out["list"] = list_name(a.list);
    out["reasons"] = reasons_json(a.reasons);
    set_remarks(out, "notes", a.notes);
    set_remarks(out, "beside", a.beside);
    set_remarks(out, "to_hold", a.to_hold);
    out["handover"] = a.condemned ? Json() : entries::history_json(a.handover.history, a.handover.allowance_seconds);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

/// Which doses, out of where, and until when they may be used.
void add_doses(TableLayout& table, const HandoverAnswer& a, const TableStyle& style) {
    table.text(words::handed_over(words::doses(a.doses.count()), a.holding.product, a.product_name, a.holding.lot), 0,
               2, TableLayout::Paint::bold);
    table.text(words::handed_over_from(place_words(a.holding), a.head.ledger, style.zone.local_text(a.left),
                                       a.left.text(), a.transfer, a.by, a.reason),
               2, 2);
    if (std::ranges::any_of(a.beside, [](const Remark& r) { return r.is(words::handover_vial_not_noted); })) {
        table.text(words::usable_not_known(a.expiry.text()), 2, 2);
        return;
    }
    const Remark until = answers::last_use_words(a.last_use, style.zone);
    table.text(a.last_use.set_by == UseLimitKind::expiry ? words::usable_until(until)
                                                         : words::usable_until_expiry(until, a.expiry.text()),
               2, 2);
}

void add_list(TableLayout& table, const HandoverAnswer& a, const TableStyle& style) {
    if (a.list == List::keep) return;
    table.text(list_heading(a.list), 0, 2,
               a.list == List::discard ? TableLayout::Paint::stop : TableLayout::Paint::wait);
    const ReasonContext context{a.history, a.handover.allowance_seconds, style.zone, a.left, a.expiry};
    for (const auto& line : reason_lines(a.reasons, context)) table.text(words::why(line), 2, 2);
    table.blank();
}

void add_history(TableLayout& table, const HandoverAnswer& a, const TableStyle& style) {
    table.text(a.exposed ? words::were_out_of_range() : words::been_through(), 0, 2,
               a.exposed ? TableLayout::Paint::wait : TableLayout::Paint::bold);
    const bool later = a.history.use_by && a.last_use.set_by == UseLimitKind::expiry &&
                       *a.history.use_by > a.last_use.until;
    for (const auto& line : history_lines(a.history, a.handover.allowance_seconds, style.zone, style.scale))
        table.text(later && line.is(words::use_by_is) ? words::expiry_decides(line) : line, 2, 2);
    const auto& places = a.handover.history.places;
    table.text(words::they_were_in(places.empty() ? Field() : words::names(places)), 2, 2);
    for (const auto& note : a.notes) table.text(words::note(note), 2, 2);
}

void add_steps(TableLayout& table, const HandoverAnswer& a) {
    table.text(words::receiver_does(), 0, 2, TableLayout::Paint::bold);
    int number = 0;
    for (const Remark& step :
         {a.condemned ? words::receiver_keeps_apart() : words::receiver_takes_file(), words::receiver_notes_way(),
          words::receiver_marks(), words::receiver_counts_allowances()})
        table.text(words::numbered(++number, step), 2, 3);
}

}  // namespace

std::string to_table(const HandoverAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, a.head, words::title_handover(a.to), style);
    table.blank();
    add_doses(table, a, style);
    table.blank();
    add_list(table, a, style);
    add_history(table, a, style);
    table.blank();
    for (const auto& line : a.beside)
        table.text(words::sentence(line), 0, 2,
                   line.is(words::history_ends) ? TableLayout::Paint::plain : TableLayout::Paint::wait);
    table.blank();
    add_steps(table, a);
    table.blank();
    table.text(words::handover_signatures());
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
