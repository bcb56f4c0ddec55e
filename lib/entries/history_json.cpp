#include "entries/history_json.hpp"

namespace coldtally::entries {

using Json = nlohmann::ordered_json;

namespace {

Json side_json(const SideExposure& side) {
    return {{"at_least_s", side.at_least.text()},
            {"estimate_s", side.estimate.text()},
            {"at_most_s", side.at_most.text()},
            {"degree_Cs", side.degree_s.text()}};
}

Json optional_text(const std::optional<Rational>& r) { return r ? Json(r->text()) : Json(nullptr); }

/// With `open`, also what stands open beside the totals.
Json sums_json(const Exposure& e, const std::vector<Duration>& allowance_seconds, const OpenExposure* open) {
    Json out;
    out["warm"] = side_json(e.warm);
    out["cold"] = side_json(e.cold);
    out["frozen"] = side_json(e.frozen);
    if (open) {
        out["warm"]["open_s"] = open->warm.text();
        out["cold"]["open_s"] = open->cold.text();
        out["frozen"]["open_s"] = open->frozen.text();
    }
    out["allowances"] = Json::array();
    for (std::size_t i = 0; i < allowance_seconds.size(); ++i) {
        Json a{{"seconds", allowance_seconds[i].seconds()},
               {"used_s", i < e.allowances.size() ? e.allowances[i].text() : "0"}};
        if (open) a["open_s"] = i < open->allowances.size() ? open->allowances[i].text() : "0";
        out["allowances"].push_back(std::move(a));
    }
    out["beyond"]["warm_s"] = e.beyond_warm.text();
    if (open) out["beyond"]["warm_open_s"] = open->beyond_warm.text();
    out["beyond"]["cold_s"] = e.beyond_cold.text();
    if (open) out["beyond"]["cold_open_s"] = open->beyond_cold.text();
    out["points"] = e.points;
    if (open) out["points_open"] = open->points;
    Json coverage;
    for (int c = 0; c < class_count; ++c)
        coverage[std::string(class_name(Class(c))) + "_s"] = e.seconds[static_cast<std::size_t>(c)].text();
    if (open) coverage["unmonitored_open_s"] = open->unmonitored.text();
    out["coverage"] = std::move(coverage);
    out["lowest_C"] = optional_text(e.lowest_C);
    out["highest_C"] = optional_text(e.highest_C);
    return out;
}

}  // namespace

Json exposure_json(const Exposure& exposure, const std::vector<Duration>& allowance_seconds) {
    return sums_json(exposure, allowance_seconds, nullptr);
}

Json history_json(const History& h, const std::vector<Duration>& allowance_seconds) {
    Json out = sums_json(h.total, allowance_seconds, &h.open);
    out["places"] = h.places;  // a std::set: sorted as bytes
    out["condemned_by"] = h.condemned_by;
    out["held_by"] = h.held_by;
    out["use_by"] = h.use_by ? Json(h.use_by->text()) : Json(nullptr);
    return out;
}

}  // namespace coldtally::entries
