// Training as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/upkeep.hpp"

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
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const TrainingAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_entry(), Kind::number},
                                    {words::title_person()},
                                    {words::title_topic()},
                                    {words::title_trained(), Kind::fixed},
                                    {words::title_lapses(), Kind::fixed},
                                    {words::title_state()},
                                    {words::title_proof(), Kind::text, 1, 12}});
    add_head(table, a.head, words::matter_training(), style);
    table.text(a.every_days ? words::training_every(*a.every_days) : words::training_no_period(), 0, 2);
    table.blank();
    if (a.training.empty()) table.text(words::training_none());
    else table.titles();
    for (const auto& r : a.training)
        table.row({r.entry, r.person, r.topic, style.zone.local_text(r.at),
                   r.due ? style.zone.local_text(*r.due) : "",
                   r.lapsed ? words::training_lapsed()
                   : r.due  ? words::training_good()
                            : words::training_not_said(),
                   r.reference ? Field(*r.reference) : Field(words::not_stated())});
    if (!a.without.empty()) table.blank();
    for (const auto& name : a.without) table.text(words::not_trained(name), 0, 2, TableLayout::Paint::wait);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
