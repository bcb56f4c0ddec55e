#include "start/describe.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "coldtally/error.hpp"
#include "start/cells.hpp"
#include "start/programme_rows.hpp"
#include "text/json_text.hpp"
#include "words/start.hpp"

namespace coldtally::start {

namespace {

using Rows = std::vector<const SheetRow*>;

class Describer {
public:
    Describer(const StartRequest& request, const Sheet& sheet, const std::optional<Zone>& zone, Instant now)
        : request_(request), sheet_(sheet), zone_(zone ? *zone : Zone("UTC")), now_(now), is_new_(!zone) {}

    Description describe() {
        out_.mistakes = sheet_.mistakes;
        site();
        for (const auto* row : of("places")) place(*row);
        products();
        for (const auto* row : of("probes")) probe(*row);
        for (const auto* row : of("certificates")) certificate(*row);
        lots();
        for (const auto* row : of("trained")) trained(*row);
        plan();
        rules();
        if (sheet_.latin1) out_.said.push_back({{}, words::start_read_as_latin1()});
        std::ranges::stable_sort(out_.mistakes, {}, &StartMistake::line);
        return std::move(out_);
    }

private:
    Rows of(std::string_view name) const {
        Rows out;
        for (const auto& row : sheet_.rows)
            if (row.table->name == name) out.push_back(&row);
        return out;
    }
    /// What there is one of; null where the file has none, or nothing is filled in.
    const SheetRow* only(std::string_view name) const {
        const Rows rows = of(name);
        return rows.empty() || (rows.front()->cells.empty() && !rows.front()->bad) ? nullptr : rows.front();
    }

    void mistake(const SheetRow& row, std::string_view column, Code code, std::string text) {
        const auto cell = row.cells.find(column);
        const std::string value = cell == row.cells.end() ? std::string() : cell->second;
        out_.mistakes.push_back({sheet_.line_of(row, column), std::string(row.table->name), std::string(column), value,
                                 code, without_cell(std::move(text), value)});
    }

    // ---- cells

    static std::string text(const SheetRow& row, std::string_view column) {
        const auto it = row.cells.find(column);
        return it == row.cells.end() ? std::string() : it->second;
    }
    /// Calls take(JSON) of a cell that is there; what cannot be read is a mistake.
    template <class Read, class Take>
    void read(RowDraft& draft, const SheetRow& row, std::string_view column, Read how, Take take) {
        const auto it = row.cells.find(column);
        if (it == row.cells.end()) return;
        try {
            take(how(it->second));
        } catch (const Error& e) {
            mistake(row, column, e.code(), e.what());
            draft.bad = true;
        }
    }
    template <class Read>
    void set(RowDraft& draft, const SheetRow& row, std::string_view column, const char* field, Read how) {
        read(draft, row, column, how, [&](Json value) { draft.fields[field] = std::move(value); });
    }
    void set(RowDraft& draft, const SheetRow& row, std::string_view column, const char* field) {
        set(draft, row, column, field, [](const std::string& cell) { return Json(cell); });
    }
    auto date() const {
        return [this](const std::string& cell) { return date_cell(cell, zone_, now_); };
    }
    auto instant() const {
        return [this](const std::string& cell) { return instant_cell(cell, zone_, now_); };
    }

    RowDraft begin(const SheetRow& row, const char* kind) {
        RowDraft out{row.line, row.table, Json{{"kind", kind}, {"by", request_.by}}, {}, {}, row.cells, row.bad};
        set(out, row, "note", "note");
        return out;
    }
    void happened(RowDraft& draft, const SheetRow& row, std::string_view column) {
        if (request_.at) draft.fields["at"] = *request_.at;
        set(draft, row, column, "at", instant());
    }
    void finish(RowDraft draft) {
        if (!draft.makes.empty()) {
            const auto [first, is_new] = made_.emplace(draft.makes, draft.line);
            if (!is_new) {
                out_.mistakes.push_back({draft.line, std::string(draft.table->name),
                                         std::string(draft.table->columns.front().name),
                                         draft.cells[draft.table->columns.front().name], Code::contradiction,
                                         "line " + std::to_string(first->second) + " defines it already"});
                draft.bad = true;
            }
        }
        out_.rows.push_back(std::move(draft));
    }

    // ---- tables

    void site() {
        const SheetRow* row = only("site");
        if (!row) {
            if (is_new_)
                out_.mistakes.push_back({0, "site", {}, {}, Code::no_site,
                                         "is missing: a new ledger begins with the clinic's name and zone"});
            return;
        }
        RowDraft draft = begin(*row, "site");
        for (const char* needed : {"name", "zone"})
            if (is_new_ && text(*row, needed).empty()) {
                mistake(*row, needed, Code::missing_field, "must be stated");
                draft.bad = true;
            }
        set(draft, *row, "name", "name");
        read(draft, *row, "zone",
             [&](const std::string& cell) {
                 zone_ = Zone(cell);
                 return Json(cell);
             },
             [&](Json value) { draft.fields["zone"] = std::move(value); });
        set(draft, *row, "unmonitored limit", "unmonitored_limit_s", duration_cell);
        set(draft, *row, "stale after", "stale_after_s", duration_cell);
        draft.makes = "site";
        finish(std::move(draft));
    }

    void range(RowDraft& draft, const SheetRow& row) {
        for (const char* side : {"low", "high"})
            read(draft, row, side, limit_cell, [&](Json limit) { draft.fields["range"][side] = std::move(limit); });
    }

    void place(const SheetRow& row) {
        RowDraft draft = begin(row, "place");
        set(draft, row, "place", "place");
        set(draft, row, "name", "name");
        set(draft, row, "type", "type", place_type_cell);
        range(draft, row);
        set(draft, row, "max gap", "max_gap_s", duration_cell);
        set(draft, row, "max check gap", "max_check_gap_s", duration_cell);
        set(draft, row, "near", "near_s", duration_cell);
        draft.makes = "place " + text(row, "place");
        finish(std::move(draft));
    }

    /// A product is what all tables say of it.
    void products() {
        std::map<std::string, RowDraft> more;  // of a product that is known, what is stated besides
        const auto draft_of = [&](const SheetRow& row) -> RowDraft& {
            const std::string id = text(row, "product");
            const auto it =
                std::ranges::find(stated_, id, [](const RowDraft& d) { return d.fields.value("product", ""); });
            if (it != stated_.end()) return *it;
            const auto [other, is_new] = more.try_emplace(id);
            if (is_new) {
                other->second = begin(row, "product");
                other->second.fields["product"] = id;
            }
            return other->second;
        };
        for (const auto* row : of("products")) product(*row);
        for (const auto* row : of("allowances")) {
            RowDraft& draft = draft_of(*row);
            Json allowance{{"source", text(*row, "source")}};
            for (const char* side : {"low", "high"})
                read(draft, *row, side, limit_cell, [&](Json limit) { allowance["band"][side] = std::move(limit); });
            read(draft, *row, "time", duration_cell, [&](Json time) { allowance["seconds"] = std::move(time); });
            draft.fields["allowances"].push_back(std::move(allowance));
            draft.bad = draft.bad || row->bad;
        }
        for (const auto* row : of("after opening")) {
            RowDraft& draft = draft_of(*row);
            read(draft, *row, "time", duration_cell,
                 [&](Json time) { draft.fields["beyond_use"][text(*row, "event")] = std::move(time); });
            draft.bad = draft.bad || row->bad;
        }
        for (auto& draft : stated_) finish(std::move(draft));
        for (auto& [id, draft] : more) {
            draft.needs = {"product " + id};
            finish(std::move(draft));
        }
        for (const auto* row : of("products")) maker(*row);
        for (const auto* row : of("makers"))
            if (!used_makers_.contains(row) && !row->bad)
                mistake(*row, "maker", Code::not_defined, "no row of [products] has this name as its maker");
    }

    void product(const SheetRow& row) {
        RowDraft draft = begin(row, "product");
        set(draft, row, "product", "product");
        set(draft, row, "name", "name");
        range(draft, row);
        set(draft, row, "freeze limit", "freeze_limit", limit_cell);
        set(draft, row, "doses per vial", "doses_per_vial", whole_cell);
        set(draft, row, "cvx", "cvx");
        read(draft, row, "gtin",
             [](const std::string& cell) {
                 Json all = Json::array();
                 for (const auto& one : several(cell, " ;,")) all.push_back(number_text_cell(one));
                 return all;
             },
             [&](Json all) { draft.fields["gtin"] = std::move(all); });
        draft.makes = "product " + text(row, "product");
        stated_.push_back(std::move(draft));
    }

    void maker(const SheetRow& row) {
        const std::string name = text(row, "maker");
        if (name.empty()) return;
        RowDraft draft = begin(row, "maker");
        draft.fields.erase("note");  // it is the product's
        draft.fields["product"] = text(row, "product");
        draft.fields["name"] = name;
        for (const auto* one : of("makers"))
            if (plain_name(text(*one, "maker")) == plain_name(name)) {
                set(draft, *one, "contact", "contact");
                set(draft, *one, "phone", "phone");
                set(draft, *one, "email", "email");
                used_makers_.insert(one);
            }
        draft.needs = {"product " + text(row, "product")};
        draft.bad = false;
        finish(std::move(draft));
    }

    void probe(const SheetRow& row) {
        RowDraft draft = begin(row, "probe");
        const std::string id = text(row, "probe"), place = text(row, "place");
        set(draft, row, "probe", "probe");
        set(draft, row, "scale", "scale", scale_cell);
        set(draft, row, "serial", "serial");
        draft.makes = "probe " + id;
        finish(std::move(draft));
        if (place.empty()) return;
        RowDraft assign = begin(row, "assign");
        assign.fields.erase("note");
        assign.fields["probe"] = id;
        assign.fields["place"] = place;
        happened(assign, row, "since");
        assign.needs = {"probe " + id, "place " + place};
        finish(std::move(assign));
    }

    void certificate(const SheetRow& row) {
        RowDraft draft = begin(row, "certificate");
        set(draft, row, "probe", "probe");
        set(draft, row, "expires", "expires", date());
        set(draft, row, "number", "number");
        set(draft, row, "tolerance", "tolerance", degrees_cell);
        set(draft, row, "corrections", "correction", corrections_cell);
        happened(draft, row, "since");
        draft.needs = {"probe " + text(row, "probe")};
        finish(std::move(draft));
    }

    void lots() {
        const Rows rows = of("lots");
        const bool funds =
            std::ranges::any_of(rows, [](const SheetRow* row) { return row->cells.contains("fund"); });
        for (const auto* one : rows) {
            const SheetRow& row = *one;
            RowDraft draft = begin(row, "receive");
            set(draft, row, "product", "product");
            set(draft, row, "lot", "lot", number_text_cell);
            set(draft, row, "expiry", "expiry",
                [this](const std::string& cell) { return expiry_cell(cell, zone_, now_); });
            set(draft, row, "place", "place");
            set(draft, row, "doses", "doses", whole_cell);
            set(draft, row, "mark", "mark");
            const std::string fund = text(row, "fund");
            if (funds && fund.empty() && !row.bad) {
                mistake(row, "fund", Code::missing_field,
                        "must be stated, since other rows state one; a minus sign where it is nobody's in particular");
                draft.bad = true;
            } else if (!fund.empty()) {
                draft.fields["fund"] = fund == "-" || fund == "\xE2\x80\x93" ? std::string() : fund;
            }
            happened(draft, row, "received");
            if (const auto id = text(row, "product"); !id.empty()) draft.needs.push_back("product " + id);
            if (const auto id = text(row, "place"); !id.empty()) draft.needs.push_back("place " + id);
            finish(std::move(draft));
        }
    }

    void trained(const SheetRow& row) {
        RowDraft draft = begin(row, "training");
        set(draft, row, "person", "person");
        set(draft, row, "topic", "topic");
        set(draft, row, "due", "due", date());
        set(draft, row, "reference", "reference");
        happened(draft, row, "on");
        finish(std::move(draft));
    }

    /// One entry of all tables of the plan; those that the file has none of are kept when it is posted.
    void plan() {
        RowDraft draft;
        const auto open = [&](const SheetRow& row) {
            if (!draft.table) {
                draft = begin(row, "plan");
                if (request_.at) draft.fields["at"] = *request_.at;
            }
            draft.bad = draft.bad || row.bad;
        };
        const auto texts = [&](const SheetRow& row, Json& out) {
            for (const Column& c : row.table->columns) {
                std::string field(c.name);
                std::ranges::replace(field, ' ', '_');
                const bool is_date = field == "agreed" || field == "agreed_until" || field == "signed";
                read(draft, row, c.name,
                     [&](const std::string& cell) {
                         return is_date ? date_cell(cell, zone_, now_)
                                : field == "alternate" ? yes_cell(cell) : Json(cell);
                     },
                     [&](Json value) { out[field] = std::move(value); });
            }
        };
        constexpr std::pair<const char*, const char*> lists[] = {{"people", "people"},
                                                                 {"backup places", "backups"},
                                                                 {"services", "services"},
                                                                 {"notify", "notify"},
                                                                 {"signatures", "signatures"}};
        for (const auto& [name, field] : lists)
            for (const auto* row : of(name)) {
                open(*row);
                Json item = Json::object();
                texts(*row, item);
                draft.fields[field].push_back(std::move(item));
            }
        if (const SheetRow* row = only("plan")) {
            open(*row);
            for (const char* name : {"containers", "packing", "steps"}) set(draft, *row, name, name);
            set(draft, *row, "reviewed", "reviewed", date());
            set(draft, *row, "reviewed by", "reviewed_by");
            set(draft, *row, "review due", "review_due", date());
        }
        if (draft.table) finish(std::move(draft));
    }

    void rules() {
        RowDraft draft;
        ProgrammeRows rows(zone_, now_, [&](const SheetRow& row, std::string_view column, Code code, std::string why) {
            mistake(row, column, code, std::move(why));
            draft.bad = true;
        });
        const SheetRow* head = only("rules");
        for (const auto& row : sheet_.rows)
            if (ProgrammeRows::takes(row) && (row.table->name != "rules" || &row == head)) {
                if (!draft.table) draft = begin(head ? *head : row, "rules");
                draft.bad = draft.bad || row.bad;
                rows.add(row, draft.fields);
            }
        if (!draft.table) return;
        for (const char* needed : {"programme", "source", "dated"})
            if (!draft.cells.contains(needed) || !head) {
                out_.mistakes.push_back({head ? head->line : 0, "rules", needed, {}, Code::missing_field,
                                         "must be stated: whose rules these are, where they stand, and of which date "
                                         "that is"});
                draft.bad = true;
            }
        finish(std::move(draft));
    }

    const StartRequest& request_;
    const Sheet& sheet_;
    Zone zone_;
    Instant now_;
    bool is_new_;
    Description out_;
    std::vector<RowDraft> stated_;              // products, in the order of their rows
    std::map<std::string, std::int64_t> made_;  // what is defined, with its line
    std::set<const SheetRow*> used_makers_;
};

}  // namespace

Description describe(const StartRequest& request, const std::optional<Zone>& zone, Instant now) {
    const Sheet sheet = read_sheet(request.name, request.text);
    return Describer(request, sheet, zone, now).describe();
}

}  // namespace coldtally::start
