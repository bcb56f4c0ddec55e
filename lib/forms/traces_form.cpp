#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"

namespace coldtally {

using namespace forms;

namespace {

Json limit(const std::optional<Limit>& l) {
    if (!l) return nullptr;
    Json out = Json::object();
    if (l->C) out["C"] = l->C->text();
    if (l->F) out["F"] = l->F->text();
    return out;
}

std::string letter(Scale scale) { return std::string(1, scale_letter(scale)); }

}  // namespace

std::string to_json(const ReadingsAnswer& answer) {
    Json out = json_head(answer.head);
    out["probe"] = answer.probe;
    out["scale"] = letter(answer.scale);
    out["rows"] = Json::array();
    for (const auto& row : answer.rows)
        out["rows"].push_back(Json::array({row.at.text(), Temperature(answer.scale, row.thousandths).text()}));
    set_window(out, answer.head);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_json(const TraceAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["from"] = answer.from.text();
    out["until"] = answer.until.text();
    out["range"] = {{"low", limit(answer.range.low)}, {"high", limit(answer.range.high)}};
    out["readings"] = Json::array();
    for (const auto& p : answer.readings)
        out["readings"].push_back({{"at", p.at.text()},
                                   {"temperature", p.temperature.text()},
                                   {"scale", letter(p.temperature.scale())},
                                   {"tolerance", p.tolerance.text()},
                                   {"joined", p.joined}});
    out["checks"] = Json::array();
    for (const auto& c : answer.checks)
        out["checks"].push_back({{"entry", c.entry},
                                 {"at", c.at.text()},
                                 {"temperature", c.temperature.text()},
                                 {"scale", letter(c.temperature.scale())},
                                 {"min", json_or_null(c.lowest)},
                                 {"max", json_or_null(c.highest)},
                                 {"tolerance", c.tolerance.text()}});
    out["parts"] = Json::array();
    for (const auto& p : answer.parts)
        out["parts"].push_back({{"class", class_name(p.kind)}, {"from", p.from.text()}, {"until", p.until.text()}});
    set_window(out, answer.head);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_json(const StaysAnswer& answer) {
    Json out = json_head(answer.head);
    out["product"] = answer.product;
    out["lot"] = answer.lot;
    out["stays"] = Json::array();
    for (const auto& row : answer.stays)
        out["stays"].push_back({{"place", row.holding.place},
                                {"fund", row.holding.fund},
                                {"mark", row.holding.mark},
                                {"from", row.from.text()},
                                {"until", json_or_null(row.until)},
                                {"doses", row.most.count()}});
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

}  // namespace coldtally
