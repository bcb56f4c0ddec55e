// Training as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const TrainingAnswer& a) {
    Json out = json_head(a.head);
    out["every_days"] = json_or_null(a.every_days);
    out["training"] = Json::array();
    for (const auto& r : a.training)
        out["training"].push_back({{"entry", r.entry},
                                   {"at", r.at.text()},
                                   {"person", r.person},
                                   {"topic", r.topic},
                                   {"reference", json_or_null(r.reference)},
                                   {"due", json_or_null(r.due)},
                                   {"lapsed", r.lapsed}});
    out["without"] = a.without;
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const TrainingAnswer& a, const TableStyle& style) {
    TableLayout table({{"Entry", Kind::number},
                       {"Person"},
                       {"Topic"},
                       {"Trained", Kind::fixed},
                       {"Lapses", Kind::fixed},
                       {"State"},
                       {"Proof"}});
    add_head(table, a.head, "training", style);
    table.text(a.every_days ? "The programme wants it every " + std::to_string(*a.every_days) + " days."
                            : "No programme's period for training is known here: only what an entry states lapses.",
               0, 2);
    table.blank();
    if (a.training.empty()) table.text("No training is known.");
    else table.titles();
    for (const auto& r : a.training)
        table.row({std::to_string(r.entry), r.person, r.topic, style.zone.local_text(r.at),
                   r.due ? style.zone.local_text(*r.due) : "",
                   r.lapsed ? "LAPSED"
                   : r.due  ? "good"
                            : "not said how long",
                   r.reference.value_or("not stated")});
    if (!a.without.empty()) table.blank();
    for (const auto& name : a.without)
        table.text("NOT TRAINED as far as is known here: " + name + ", of the contingency plan", 0, 2,
                   TableLayout::Paint::wait);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
