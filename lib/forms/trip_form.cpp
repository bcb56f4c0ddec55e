// Trips, as JSON and as tables.
#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/journeys.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

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
    out["events"] = list_json(answer.events, [](const auto& event) {
        Json one{{"at", event.at.text()}};
        set_remark(one, "what", event.what);
        return one;
    });
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
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

void add_papers(TableLayout& table, const TripAnswer& answer) {
    const auto line = [&](const words::Says<1>& phrase, const std::optional<std::string>& value) {
        if (value) table.text(phrase(*value), 0, 2);
    };
    line(words::packed_by, answer.packed_by);
    line(words::approval_is, answer.approval);
    line(words::coolant_is, answer.coolant);
    line(words::conditioning_is, answer.conditioning);
    line(words::received_by, answer.received_by);
}

void add_time(TableLayout& table, const TripAnswer& answer) {
    const std::string time = duration_words(Rational(answer.lasted.seconds()), true);
    Remark lasted = answer.arrived ? words::trip_lasted(time) : words::trip_on_the_way(time);
    const bool over = answer.limit && answer.lasted > *answer.limit;
    if (answer.limit)
        lasted = (over ? words::trip_over_limit : words::trip_with_limit)(
            lasted, duration_words(Rational(answer.limit->seconds()), false));
    table.text(words::sentence(lasted), 0, 2, over ? TableLayout::Paint::stop : TableLayout::Paint::plain);
}

void add_row(TableLayout& table, const TripAnswer::Row& row, const TableStyle& style) {
    table.row({row.holding.product, row.holding.lot, row.holding.fund, row.holding.mark, row.loaded.count(),
               row.given.count(), row.wasted.count(), row.sent.count(), row.unloaded.count(), row.missing.count(),
               row.aboard.count()});
    table.text(words::in_container(coverage_words(row.exposure.seconds).value_or(words::no_time)), 4, 2);
    table.text(words::out_of_range_there(out_of_range_words(row.exposure).value_or(words::nothing_known)), 4, 2);
    if (row.exposure.lowest_C)
        table.text(
            words::comma(words::lowest(temperature_words(*row.exposure.lowest_C, style.scale, Rounding::down)),
                         words::highest(temperature_words(*row.exposure.highest_C, style.scale, Rounding::up))),
            4, 2);
}

}  // namespace

std::string to_table(const TripAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_fund(), Kind::fixed, 1},
                                    {words::title_mark(), Kind::fixed, 2},
                                    {words::title_out(), Kind::number},
                                    {words::title_given(), Kind::number},
                                    {words::title_wasted(), Kind::number},
                                    {words::title_sent(), Kind::number},
                                    {words::title_back(), Kind::number},
                                    {words::title_missing(), Kind::number},
                                    {words::title_aboard(), Kind::number}});
    add_head(table, answer.head, words::title_trip(answer.container, answer.destination, answer.reason), style);
    add_papers(table, answer);
    add_time(table, answer);
    table.blank();
    for (const auto& event : answer.events)
        table.text(words::trip_event(style.zone.local_text(event.at), event.what), 0, 18);
    table.blank();
    table.titles();
    for (const auto& row : answer.holdings) add_row(table, row, style);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
