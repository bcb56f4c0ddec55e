#include "forms/departed_form.hpp"

#include "forms/table.hpp"

namespace coldtally::forms {

Json departed_state_json(const DepartedDoses& d) {
    Json out{{"list", list_name(d.list)}, {"reasons", d.reasons}, {"in_doubt", d.in_doubt}, {"since", Json::array()}};
    for (const auto& one : d.since) out["since"].push_back({{"entry", one.entry}, {"text", one.text}});
    return out;
}

Json departed_json(const DepartedDoses& d) {
    Json out{{"entry", d.departure.entry}, {"at", d.departure.at.text()}};
    out.update(holding_json(d.departure.holding));
    out["doses"] = d.departure.doses.count();
    out["to"] = d.departure.to.empty() ? Json() : Json(d.departure.to);
    out["reason"] = d.departure.reason;
    out["told"] = json_or_null(d.departure.told);
    out.update(departed_state_json(d));
    return out;
}

std::string departed_words(const DepartedDoses& d) {
    std::string out(list_name(d.list));
    for (std::size_t i = 0; i < d.reasons.size(); ++i) out += (i ? ", " : ": ") + d.reasons[i];
    return out + and_in_doubt(d.list, d.in_doubt);
}

}  // namespace coldtally::forms
