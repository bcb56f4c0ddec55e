#include <nlohmann/json.hpp>

#include "coldtally/forms.hpp"
#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/words.hpp"

namespace coldtally {

using namespace forms;

namespace {

/// Without the end of the line.
std::string dump(const Json& json) {
    std::string out = forms::json_line(json);
    out.pop_back();
    return out;
}
std::string line(const Json& json) { return forms::json_line(json); }

void set_place(Json& out, const HoldingKey& key) { out["place"] = key.place; }

void set_doses_of_place(Json& out, const HoldingKey& key) {
    out["product"] = key.product;
    out["lot"] = key.lot;
    out["fund"] = key.fund;
    out["mark"] = key.mark;
}

Json strings(const std::vector<std::string>& texts) {
    Json out = Json::array();
    for (const auto& text : texts) out.push_back(text);
    return out;
}

template <typename Numbers>
Json numbers(const Numbers& from) {
    Json out = Json::array();
    for (const auto number : from) out.push_back(number);
    return out;
}

Json coverage(const std::array<Rational, class_count>& seconds) {
    return {{"logged_s", seconds[static_cast<int>(Class::logged)].text()},
            {"bounded_s", seconds[static_cast<int>(Class::bounded)].text()},
            {"checked_s", seconds[static_cast<int>(Class::checked)].text()},
            {"near_s", seconds[static_cast<int>(Class::near)].text()},
            {"awaiting_s", seconds[static_cast<int>(Class::awaiting)].text()},
            {"unmonitored_s", seconds[static_cast<int>(Class::unmonitored)].text()}};
}

Json listed(const ListsAnswer::Row& row) {
    Json one;
    set_place(one, row.holding);
    set_doses_of_place(one, row.holding);
    one["doses"] = row.doses.count();
    one["expiry"] = row.expiry.text();
    one["last_use"] = forms::last_use_json(row.last_use);
    one["list"] = list_name(row.list);
    one["do_not_use"] = do_not_use(row.list, row.in_doubt);
    one["reasons"] = strings(row.reasons);
    one["notes"] = strings(row.notes);
    one["in_doubt"] = strings(row.in_doubt);
    one["history"] = entries::history_json(row.history, row.allowance_seconds);
    return one;
}

}  // namespace

std::string to_json(const History& history, const std::vector<Duration>& allowance_seconds) {
    return dump(entries::history_json(history, allowance_seconds));
}

std::string to_json(const StockAnswer& answer) {
    Json out = json_head(answer.head);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) {
        Json one;
        set_place(one, row.holding);
        set_doses_of_place(one, row.holding);
        one["doses"] = row.doses.count();
        one["expiry"] = row.expiry.text();
        one["last_use"] = forms::last_use_json(row.last_use);
        one["list"] = list_name(row.list);
        one["do_not_use"] = do_not_use(row.list, row.in_doubt);
        one["in_doubt"] = strings(row.in_doubt);
        one["beside"] = strings(row.beside);
        out["holdings"].push_back(std::move(one));
    }
    const auto& of = answer.accounts;
    out["accounts"] = {{"supplier", of.supplier}, {"patient", of.patient},         {"wasted", of.wasted},
                       {"returned", of.returned}, {"transferred", of.transferred}, {"variance", of.variance},
                       {"on_hand", of.on_hand}};
    out["caution"] = std::string(forms::stock_caution) + " " + caution;
    return line(out);
}

std::string to_json(const ListsAnswer& answer) {
    Json out = json_head(answer.head);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) out["holdings"].push_back(listed(row));
    out["caution"] = caution;
    return line(out);
}

std::string to_json(const ScanAnswer& answer) {
    Json out = json_head(answer.head);
    const Gs1Scan& scan = answer.scan;
    out["symbology"] = scan.symbology;
    out["elements"] = Json::array();
    for (const auto& e : scan.elements)
        out["elements"].push_back({{"ai", e.ai}, {"title", e.title}, {"value", e.value}});
    out["gtin"] = json_or_null(scan.gtin);
    out["lot"] = json_or_null(scan.lot);
    out["serial"] = json_or_null(scan.serial);
    out["expiry"] = json_or_null(scan.expiry);
    out["product"] = json_or_null(answer.product);
    out["known_expiry"] = json_or_null(answer.expiry);
    out["remarks"] = strings(answer.remarks);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) out["holdings"].push_back(listed(row));
    out["caution"] = std::string(forms::scan_caution) + " " + caution;
    return line(out);
}

std::string to_json(const ReviewAnswer& answer) {
    Json out = json_head(answer.head);
    out["doses"] = Json::array();
    for (const auto& row : answer.doses) {
        Json one = {{"entry", row.entry}, {"at", row.at.text()}, {"patient", row.patient}};
        set_place(one, row.holding);
        set_doses_of_place(one, row.holding);
        one["doses"] = row.doses.count();
        one["certain"] = row.certain;
        one["finding"] = row.finding;
        one["reasons"] = strings(row.reasons);
        one["guidance"] = json_or_null(row.guidance);
        one["history"] = entries::history_json(row.history, row.allowance_seconds);
        one["beside"] = strings(row.beside);
        out["doses"].push_back(std::move(one));
    }
    out["not_listed"] = strings(answer.not_listed);
    out["caution"] = std::string(caution) + " " + review_caution;
    return line(out);
}

std::string to_json(const ExcursionsAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["from"] = answer.from.text();
    out["until"] = answer.until.text();
    out["window"] = answer.head.window;
    out["coverage"] = coverage(answer.seconds);
    out["not_seen"] = forms::may_hide;
    out["excursions"] = Json::array();
    for (const auto& row : answer.excursions) {
        Json one = {{"side", side_name(row.side)},
                    {"kind", excursion_kind_name(row.kind)},
                    {"from", forms::nearest_instant(row.from_s)},
                    {"from_s", row.from_s.text()},
                    {"until", forms::nearest_instant(row.until_s)},
                    {"until_s", row.until_s.text()},
                    {"duration_s", row.duration_s.text()},
                    {"degree_Cs", row.degree_s.text()},
                    {"peak_C", row.peak_C.text()},
                    {"checked_s", row.checked_s.text()},
                    {"open", row.open}};
        one["marks"] = strings(row.marks);
        one["holdings"] = Json::array();
        for (const auto& inside : row.holdings) {
            Json holding;
            set_doses_of_place(holding, inside.holding);
            holding["doses"] = inside.doses.count();
            holding["exposure"] = entries::exposure_json(inside.exposure, inside.allowance_seconds);
            one["holdings"].push_back(std::move(holding));
        }
        out["excursions"].push_back(std::move(one));
    }
    out["beside"] = strings(answer.beside);
    out["caution"] = caution;
    return line(out);
}

std::string to_json(const ConditionsAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["from"] = answer.from.text();
    out["until"] = answer.until.text();
    out["window"] = answer.head.window;
    out["coverage"] = coverage(answer.seconds);
    out["lowest_C"] = json_or_null(answer.lowest_C);
    out["highest_C"] = json_or_null(answer.highest_C);
    out["mean_C"] = json_or_null(answer.mean_C);
    out["mean_kinetic_C"] = json_or_null(answer.mean_kinetic_C);
    out["excursions"] = answer.excursions;
    out["marks"] = strings(answer.marks);
    out["beside"] = strings(answer.beside);
    out["caution"] = std::string(forms::mean_caution) + " " + caution;
    return line(out);
}

std::string to_json(const Explanation& answer) {
    Json out = json_head(answer.head);
    Json holding;
    set_place(holding, answer.holding);
    set_doses_of_place(holding, answer.holding);
    out["holding"] = std::move(holding);
    out["lines"] = strings(answer.lines);
    out["caution"] = caution;
    return line(out);
}

std::string to_json(const Verification& found) {
    const auto to_note = link_to_note(found);
    return line({{"entries", found.entries},
                 {"readings", found.readings},
                 {"chain", found.chain},
                 {"to_note", to_note ? Json(to_note->text()) : Json()},
                 {"findings", strings(found.findings)},
                 {"findings_in_all", found.findings_in_all}});
}

std::string to_json(const LedgerCopy& copy) {
    const auto to_note = link_to_note(copy.verified);
    return line({{"copy", copy.path},
                 {"from_format", copy.format},
                 {"format", copy.format_now},
                 {"entries", copy.verified.entries},
                 {"readings", copy.verified.readings},
                 {"chain", copy.verified.chain},
                 {"to_note", to_note ? Json(to_note->text()) : Json()}});
}

std::string to_json(const ImportReport& report, bool dry_run, const IncidentsAnswer* found) {
    Json out;
    out["dry_run"] = dry_run;
    out["files"] = Json::array();
    for (const auto& file : report.files) {
        Json one = {{"name", file.name}, {"sha256", file.sha256}, {"known_already", file.known_already}};
        one["layout"] = Json::parse(file.layout.text());
        one["guesses"] = strings(file.guesses);
        one["ambiguous"] = strings(file.ambiguous);
        one["rows_read"] = file.rows_read;
        one["rows_kept"] = file.rows_kept;
        one["rows_repeated"] = file.rows_repeated;
        one["rows_refused"] = 0;  // a file with a refused row is refused whole, and there is no report
        one["rows_without_reading"] = file.rows_without_reading;
        one["rows_ignored"] = file.rows_ignored;
        one["rows_rounded"] = file.rows_rounded;
        one["largest_change"] = file.largest_change ? Json(*file.largest_change) : Json(nullptr);
        one["remarks"] = strings(file.remarks);
        one["from"] = json_or_null(file.from);
        one["until"] = json_or_null(file.until);
        one["longest_step_s"] = file.longest_step ? Json(file.longest_step->seconds()) : Json(nullptr);
        one["entries"] = numbers(file.entries);
        out["files"].push_back(std::move(one));
    }
    out["warnings"] = strings(report.warnings);
    if (found) {
        out["found"] = Json::parse(to_json(*found));
        out["found_in_short"] = Json::parse(to_json(in_short(*found)));
    }
    out["caution"] = caution;
    return line(out);
}

}  // namespace coldtally
