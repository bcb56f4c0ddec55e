// Handovers as JSON, as what a receive takes in, and as the sheet that goes with the doses.
#include "coldtally/error.hpp"
#include "coldtally/forms.hpp"
#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "text/json_text.hpp"

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
    out["reasons"] = a.reasons;
    out["notes"] = a.notes;
    out["beside"] = a.beside;
    out["to_hold"] = a.to_hold;
    out["handover"] = a.condemned ? Json() : entries::history_json(a.handover.history, a.handover.allowance_seconds);
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const HandoverAnswer& a, const TableStyle& style) {
    TableLayout table;
    add_head(table, a.head, "handover of doses that leave for " + a.to, style);
    table.blank();
    table.text(
        doses_words(a.doses.count()) + " of " + a.holding.product + " (" + a.product_name + "), lot " + a.holding.lot,
        0, 2, TableLayout::Paint::bold);
    table.text("Out of " + place_words(a.holding) + " of " + a.head.ledger + ", at " + style.zone.local_text(a.left) +
                   " (" + a.left.text() + "), entry " + std::to_string(a.transfer) + " by " + a.by + ": " + a.reason,
               2, 2);
    table.text("Usable " + answers::last_use_words(a.last_use, style.zone) +
                   (a.last_use.set_by == "expiry" ? "" : "; expiry on the box " + a.expiry.text()),
               2, 2);
    table.blank();
    if (a.list != List::keep) {
        table.text(std::string(list_heading(a.list)), 0, 2,
                   a.list == List::discard ? TableLayout::Paint::stop : TableLayout::Paint::wait);
        const ReasonContext context{a.history, a.handover.allowance_seconds, style.zone, a.left, a.expiry};
        for (const auto& line : reason_lines(a.reasons, context)) table.text("Why: " + line, 2, 2);
        table.blank();
    }
    table.text(a.exposed ? "THESE DOSES WERE OUT OF RANGE, or may have been. All they have been through so far:"
                         : "All that these doses have been through so far:",
               0, 2, a.exposed ? TableLayout::Paint::wait : TableLayout::Paint::bold);
    for (const auto& line : history_lines(a.history, a.handover.allowance_seconds, style.zone, style.scale))
        table.text(line, 2, 2);
    std::string places;
    for (const auto& place : a.handover.history.places) places += (places.empty() ? "" : ", ") + place;
    table.text("They were in: " + places, 2, 2);
    for (const auto& note : a.notes) table.text("Note: " + note, 2, 2);
    table.blank();
    for (const auto& line : a.beside)
        table.text(line + ".", 0, 2, line.starts_with("The ") ? TableLayout::Paint::plain : TableLayout::Paint::wait);
    table.blank();
    table.text("The receiver:", 0, 2, TableLayout::Paint::bold);
    int number = 0;
    const auto step = [&](const std::string& text) { table.text(std::to_string(++number) + ". " + text, 2, 3); };
    if (a.condemned)
        step("Does not use these doses, keeps them apart and marked DO NOT USE, and asks the sender.");
    else
        step(
            "Notes them as received with their history: the file that came with this sheet is what the receive entry "
            "takes as its handover; without it they would count as never exposed.");
    step(
        "Notes the way, too: received at the instant above into the container they travel in, with its readings or "
        "checks, they lose no time of it. Otherwise no figure "
        "of theirs holds it: that nothing is known of it is noted beside the doses.");
    step(
        "Gives them a mark of their own where doses of this lot are there already: joined, all of them count as "
        "exposed to the worse of the two.");
    step("Counts what is left of each allowance from the numbers above, not from nothing.");
    table.blank();
    table.text("Sent by ______________________   Received by ______________________   Date and time ________________");
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
