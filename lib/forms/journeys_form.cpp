// Move lists and trips, as JSON and as tables.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

std::string fit_words(const std::optional<Fit>& fit) {
    if (!fit) return "";
    return *fit == Fit::suited ? "yes" : *fit == Fit::allowance ? "USES UP ITS ALLOWANCE" : "NOT SUITED";
}

/// The place is out of range, and which doses are out of their own, by the last that was read: before anything else.
void add_alarm(TableLayout& table, const MoveListAnswer& answer) {
    std::int64_t doses = 0;
    for (const auto& row : answer.holdings)
        if (row.must_go) doses += row.doses.count();
    const auto stop = [&](const std::string& text) { table.text(text, 0, 2, TableLayout::Paint::stop); };
    if (answer.out_of_range)
        stop("OUT OF RANGE NOW: the last that was read in " + answer.place + " is " + *answer.out_of_range + ".");
    if (doses > 0)
        stop(doses_words(doses) + " MUST GO NOW: what was read last there is out of the range of their own product. "
                                  "Move them to a unit that suits them (what has thawed is not frozen again), mark "
                                  "them DO NOT USE, throw nothing away.");
    else if (answer.out_of_range &&
             std::ranges::any_of(answer.holdings, [](const auto& row) { return row.list != List::discard; }))
        stop("It is in the range of each product that is in it and not to be discarded.");
}

}  // namespace

std::string to_json(const MoveListAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["container"] = json_or_null(answer.container);
    out["out_of_range"] = json_or_null(answer.out_of_range);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) {
        Json one = holding_json(row.holding);
        one["doses"] = row.doses.count();
        one["expiry"] = row.expiry.text();
        one["last_use"] = last_use_json(row.last_use);
        one["unusable_from"] = row.last_use.until.text();
        one["list"] = list_name(row.list);
        one["do_not_use"] = do_not_use(row.list, row.in_doubt);
        one["reasons"] = row.reasons;
        one["frozen"] = row.frozen;
        one["in_doubt"] = row.in_doubt;
        one["must_go"] = row.must_go;
        one["notes"] = row.notes;
        one["container_fit"] = row.fit ? Json(fit_name(*row.fit)) : Json(nullptr);
        out["holdings"].push_back(std::move(one));
    }
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const MoveListAnswer& answer, const TableStyle& style) {
    TableLayout table({{"", Kind::number},
                       {"Product"},
                       {"Lot"},
                       {"Fund"},
                       {"Mark"},
                       {"Doses", Kind::number},
                       {"Last day", Kind::fixed},
                       {"List"},
                       {"Now"},
                       {"Container"}});
    add_head(table, answer.head,
             "what is in " + answer.place + ", in the order in which to move it" +
                 (answer.container ? ", into " + *answer.container : ""),
             style);
    add_alarm(table, answer);
    table.blank();
    if (answer.holdings.empty())
        table.text("No doses in it.");
    else
        table.titles();
    std::int64_t number = 0, doses = 0;
    for (const auto& row : answer.holdings) {
        doses += row.doses.count();
        const std::string list =
            std::string(list_cell(row.list, row.in_doubt)) + and_in_doubt(row.list, row.in_doubt);
        table.row({std::to_string(++number), row.holding.product + (row.frozen ? " (frozen)" : ""), row.holding.lot,
                   row.holding.fund, row.holding.mark, std::to_string(row.doses.count()),
                   answers::last_day_words(row.last_use.until, style.zone), list, row.must_go ? "MUST GO" : "",
                   fit_words(row.fit)});
        add_expiry(table, row.last_use, row.expiry);
        for (const auto& note : row.notes) table.text("Note: " + note, 6, 2, TableLayout::Paint::wait);
    }
    table.text(doses_words(doses) + " in " + counted(number, "holding") + ".");
    add_caution(table);
    return render(table, style);
}

std::string to_json(const TripAnswer& answer) {
    Json out = json_head(answer.head);
    out["container"] = answer.container;
    out["destination"] = answer.destination;
    out["reason"] = answer.reason;
    out["packed_by"] = json_or_null(answer.packed_by);
    out["approval"] = json_or_null(answer.approval);
    out["coolant"] = json_or_null(answer.coolant);
    out["conditioning"] = json_or_null(answer.conditioning);
    out["received_by"] = json_or_null(answer.received_by);
    out["departure_entry"] = answer.departure;
    out["departed"] = answer.departed.text();
    out["arrived"] = answer.arrived ? Json(answer.arrived->text()) : Json(nullptr);
    out["lasted_s"] = answer.lasted.seconds();
    out["limit_s"] = answer.limit ? Json(answer.limit->seconds()) : Json(nullptr);
    out["over_limit"] = answer.limit ? Json(answer.lasted > *answer.limit) : Json(nullptr);
    out["events"] = Json::array();
    for (const auto& event : answer.events) out["events"].push_back({{"at", event.at.text()}, {"what", event.what}});
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) {
        Json one = holding_json(row.holding);
        one["loaded"] = row.loaded.count();
        one["given"] = row.given.count();
        one["wasted"] = row.wasted.count();
        one["sent"] = row.sent.count();
        one["unloaded"] = row.unloaded.count();
        one["missing"] = row.missing.count();
        one["aboard"] = row.aboard.count();
        one["from"] = row.from.text();
        one["until"] = row.until.text();
        one["exposure"] = entries::exposure_json(row.exposure, row.allowance_seconds);
        out["holdings"].push_back(std::move(one));
    }
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const TripAnswer& answer, const TableStyle& style) {
    TableLayout table({{"Product"},
                       {"Lot"},
                       {"Fund"},
                       {"Mark"},
                       {"Out", Kind::number},
                       {"Given", Kind::number},
                       {"Wasted", Kind::number},
                       {"Sent", Kind::number},
                       {"Back", Kind::number},
                       {"Missing", Kind::number},
                       {"Aboard", Kind::number}});
    add_head(table, answer.head,
             "journey of " + answer.container + " to " + answer.destination + " (" + answer.reason + ")", style);
    const auto line = [&](const char* what, const std::optional<std::string>& value) {
        if (value) table.text(std::string(what) + *value, 0, 2);
    };
    line("Packed by ", answer.packed_by);
    line("Approval: ", answer.approval);
    line("Coolant: ", answer.coolant);
    line("Conditioning: ", answer.conditioning);
    line("Received by ", answer.received_by);
    const std::string lasted = duration_words(Rational(answer.lasted.seconds()), true);
    std::string time = answer.arrived ? "Lasted " + lasted : "ON THE WAY for " + lasted;
    if (answer.limit)
        time += answer.lasted > *answer.limit
                    ? ", OVER the limit of " + duration_words(Rational(answer.limit->seconds()), false)
                    : ", limit " + duration_words(Rational(answer.limit->seconds()), false);
    table.text(time + ".", 0, 2,
               answer.limit && answer.lasted > *answer.limit ? TableLayout::Paint::stop : TableLayout::Paint::plain);
    table.blank();
    for (const auto& event : answer.events) table.text(style.zone.local_text(event.at) + "  " + event.what, 0, 18);
    table.blank();
    table.titles();
    const auto number = [](Doses doses) { return std::to_string(doses.count()); };
    for (const auto& row : answer.holdings) {
        table.row({row.holding.product, row.holding.lot, row.holding.fund, row.holding.mark, number(row.loaded),
                   number(row.given), number(row.wasted), number(row.sent), number(row.unloaded), number(row.missing),
                   number(row.aboard)});
        const std::string out_of_range = out_of_range_words(row.exposure),
                          coverage = coverage_words(row.exposure.seconds);
        table.text("in the container: " + (coverage.empty() ? std::string("no time") : coverage), 4, 2);
        table.text(out_of_range.empty() ? "out of range: nothing known" : "out of range: " + out_of_range, 4, 2);
        if (row.exposure.lowest_C)
            table.text("lowest " + temperature_words(*row.exposure.lowest_C, style.scale, Rounding::down) +
                           ", highest " + temperature_words(*row.exposure.highest_C, style.scale, Rounding::up),
                       4, 2);
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
