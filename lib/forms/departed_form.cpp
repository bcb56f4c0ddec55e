#include "forms/departed_form.hpp"

#include "forms/table.hpp"

namespace coldtally::forms {

Json departed_state_json(const DepartedDoses& d) {
    Json out{{"list", list_name(d.list)}, {"reasons", reasons_json(d.reasons)}, {"in_doubt", d.in_doubt}};
    out["since"] = list_json(d.since, [](const auto& one) {
        Json since{{"entry", one.entry}};
        set_remark(since, "text", one.text);
        return since;
    });
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

Remark departed_words(const DepartedDoses& d) {
    Remark out = list_words(d.list);
    if (!d.reasons.empty()) out = words::colon(out, reasons_words(d.reasons));
    if (is_kept_in_doubt(d.list, d.in_doubt)) out = words::semicolon(out, in_doubt_words(d.in_doubt));
    return out;
}

}  // namespace coldtally::forms
