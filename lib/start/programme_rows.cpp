#include "start/programme_rows.hpp"

#include <algorithm>

#include "question/typed_clock.hpp"

namespace coldtally::start {

namespace {

Json as_text(const std::string& cell) { return cell; }

/// "Monday" of "Mon"
Json weekday_cell(const std::string& cell) {
    const std::vector<std::string> days = {"Monday", "Tuesday", "Wednesday", "Thursday",
                                           "Friday", "Saturday", "Sunday"};
    const std::string word = plain_name(cell);
    if (word.size() >= 3)
        for (const auto& day : days)
            if (plain_name(day).starts_with(word)) return day;
    return name_cell(cell, days);
}

/// "16:30" of "4:30PM"
Json time_cell(const std::string& cell) {
    const auto time = typed_time(cell);
    if (!time) throw Error(Code::bad_value, "must be times of the day: write 09:00 16:30");
    return time->substr(0, 5);
}

}  // namespace

bool ProgrammeRows::takes(const SheetRow& row) {
    const auto name = row.table->name;
    return name == "rules" || name == "report when" || name == "due" || name == "keep" || name == "checks" ||
           name == "every";
}

template <class Read, class Take>
void ProgrammeRows::read(const SheetRow& row, std::string_view column, Read how, Take take) {
    const auto it = row.cells.find(column);
    if (it == row.cells.end()) return;
    try {
        take(how(it->second));
    } catch (const Error& e) {
        mistake_(row, column, e.code(), e.what());
    }
}

void ProgrammeRows::places(const SheetRow& row, Json& out) {
    read(row, "places",
         [](const std::string& cell) {
             Json all = Json::array();
             for (const auto& one : several(cell, ";")) all.push_back(place_type_cell(one));
             return all;
         },
         [&](Json all) { out["places"] = std::move(all); });
}

void ProgrammeRows::head(const SheetRow& row, Json& rules) {
    const auto date = [&](const std::string& cell) { return date_cell(cell, zone_, now_); };
    read(row, "programme", as_text, [&](Json v) { rules["programme"] = std::move(v); });
    read(row, "source", as_text, [&](Json v) { rules["source"] = std::move(v); });
    read(row, "dated", date, [&](Json v) { rules["dated"] = std::move(v); });
    read(row, "longest trip", duration_cell, [&](Json v) { rules["longest_trip_s"] = std::move(v); });
    read(row, "repay loans within",
         [](const std::string& cell) { return whole_cell(several(cell, " ").front()); },
         [&](Json v) { rules["repay_loans_within_days"] = std::move(v); });
}

Json ProgrammeRows::condition(const SheetRow& row) {
    Json out = Json::object();
    read(row, "rule", as_text, [&](Json v) { out["rule"] = std::move(v); });
    read(row, "text", as_text, [&](Json v) { out["text"] = std::move(v); });
    read(row, "form", [](const std::string& c) { return name_cell(c, {"run", "sum", "reading", "pattern"}); },
         [&](Json v) { out["form"] = std::move(v); });
    read(row, "temperature",
         [](const std::string& c) { return name_cell(c, {"above", "at or above", "below", "at or below"}); },
         [&](Json v) { out["temperature"]["is"] = std::move(v); });
    read(row, "limit", limit_cell, [&](Json v) { out["temperature"]["limit"] = std::move(v); });
    const bool pattern = out.value("form", "") == "pattern";
    const auto amount = [&](const std::string& c) { return pattern ? whole_cell(c) : duration_cell(c); };
    read(row, "at least", amount, [&](Json v) { out[pattern ? "at_least" : "at_least_s"] = std::move(v); });
    read(row, "more than", amount, [&](Json v) { out[pattern ? "more_than" : "more_than_s"] = std::move(v); });
    read(row, "within", duration_cell, [&](Json v) { out["within_s"] = std::move(v); });
    places(row, out);
    read(row, "products",
         [](const std::string& cell) {
             Json all = Json::array();
             for (const auto& one : several(cell, ";")) all.push_back(one);
             return all;
         },
         [&](Json v) { out["products"] = std::move(v); });
    const std::string form = out.value("form", "");
    const auto need = [&](std::string_view column, const std::string& why) {
        if (!form.empty() && !row.cells.contains(column)) mistake_(row, column, Code::missing_field, why);
    };
    if (!pattern) need("temperature", "must be stated of a " + form + ": above, at or above, below or at or below");
    if (form == "sum") need("within", "must be stated of a sum: the time in which they add up");
    if (form != "reading" && row.cells.contains("at least") == row.cells.contains("more than"))
        if (!form.empty())
            mistake_(row, "at least", Code::contradiction, "must be stated, or more than, and not both");
    return out;
}

Json ProgrammeRows::checks(const SheetRow& row) {
    Json out = Json::object();
    places(row, out);
    const auto each = [](std::string_view between, auto how) {
        return [between, how](const std::string& cell) {
            Json all = Json::array();
            for (const auto& one : several(cell, between)) all.push_back(how(one));
            return all;
        };
    };
    read(row, "days", each(" ,;", weekday_cell), [&](Json v) { out["weekdays"] = std::move(v); });
    read(row, "per day", whole_cell, [&](Json v) { out["per_day"] = std::move(v); });
    read(row, "by", each(" ;", time_cell), [&](Json v) { out["by"] = std::move(v); });
    read(row, "min max", yes_cell, [&](Json v) { out["min_max"] = std::move(v); });
    return out;
}

void ProgrammeRows::add(const SheetRow& row, Json& rules) {
    const auto name = row.table->name;
    if (name == "rules") return head(row, rules);
    if (name == "report when") return rules["report"].push_back(condition(row));
    if (name == "checks") return rules["checks"].push_back(checks(row));
    if (name == "keep") {
        Json kept = Json::object();
        read(row, "records", as_text, [&](Json v) { kept["records"] = std::move(v); });
        read(row, "years", whole_cell, [&](Json v) { kept["years"] = std::move(v); });
        return rules["retention"].push_back(std::move(kept));
    }
    if (name == "every") {
        std::string what;
        read(row, "what",
             [](const std::string& c) {
                 return name_cell(c, {"plan review", "backup agreement", "training", "count", "logger reading",
                                      "log review", "certificate", "service", "self-audit"});
             },
             [&](Json v) { what = v; });
        if (!what.empty()) read(row, "days", whole_cell, [&](Json v) { rules["every_days"][what] = std::move(v); });
        return;
    }
    Json duty = Json::object();
    read(row, "step",
         [](const std::string& c) {
             return name_cell(c, {"supervisor told", "health department told", "manufacturer told", "answer", "cause",
                                  "action", "closed"});
         },
         [&](Json v) { duty["step"] = std::move(v); });
    read(row, "within", duration_cell, [&](Json v) { duty["within_s"] = std::move(v); });
    read(row, "if reportable", yes_cell, [&](Json v) { duty["if_reportable"] = std::move(v); });
    rules["duties"].push_back(std::move(duty));
}

}  // namespace coldtally::start
