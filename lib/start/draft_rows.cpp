#include "start/draft_rows.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "coldtally/error.hpp"
#include "drafts/draft.hpp"
#include "drafts/redefine.hpp"
#include "entries/print.hpp"
#include "ledger/posting.hpp"
#include "question/said.hpp"
#include "start/cells.hpp"
#include "start/missing.hpp"
#include "stock/loans.hpp"
#include "text/json_text.hpp"
#include "trace/assignment.hpp"
#include "upkeep/plan.hpp"
#include "words/drafts.hpp"
#include "words/conditions.hpp"
#include "words/lists.hpp"
#include "words/start.hpp"

namespace coldtally::start {

namespace {

/// What an entry says, whoever says it and when.
std::string said_by(const Fact& fact) {
    Entry bare;
    bare.by = "-";
    bare.fact = fact;
    return to_json(bare);
}

bool concerns_this_computer(Code code) { return is_machine_failure(code) || code == Code::damaged; }

/// The column that a message of an entry begins with, and the rest of it: people know no fields of JSON.
void name_column(StartMistake& out, const RowDraft& row) {
    std::string& text = out.text;
    for (const char* prefix : {"draft: ", "range: "})
        if (text.starts_with(prefix)) text.erase(0, std::string_view(prefix).size());
    const std::size_t colon = text.find(": ");
    if (colon == text.npos) return;
    std::string field = text.substr(0, colon);
    if (field.ends_with("_s")) field.resize(field.size() - 2);
    constexpr std::pair<std::string_view, std::string_view> called[] = {
        {"correction", "corrections"}, {"at", "since"}, {"expiry", "expiry"}};
    for (const auto& [from, to] : called)
        if (field == from) field = to;
    const Column* column = find_column(*row.table, field);
    if (!column) return;
    out.column = column->name;
    if (const auto cell = row.cells.find(column->name); cell != row.cells.end()) out.value = cell->second;
    text = without_cell(text.substr(colon + 2), out.value);
}

class Batch {
public:
    Batch(ledger::Store& store, const StartRequest& request, Instant now)
        : store_(store), request_(request), now_(now) {
        out_.is_new = store.tip().entry == 0;
    }

    void add(RowDraft row) {
        if (store_.tip().entry == 0 && (row.bad || row.makes != "site")) provisional_site();
        const bool waits = std::ranges::any_of(row.needs, [&](const auto& name) { return refused_.contains(name); });
        if (row.bad || waits) {
            if (!row.makes.empty()) refused_.insert(row.makes);
            out_.not_looked_at += !row.bad;
            return;
        }
        try {
            take(row);
        } catch (const Error& e) {
            if (concerns_this_computer(e.code())) throw;
            StartMistake mistake{row.line, std::string(row.table->name), {}, {}, e.code(), e.what()};
            name_column(mistake, row);
            out_.mistakes.push_back(std::move(mistake));
            if (!row.makes.empty()) refused_.insert(row.makes);
        }
    }

    StartDraft finish(Description description) {
        out_.mistakes.insert(out_.mistakes.end(), description.mistakes.begin(), description.mistakes.end());
        std::ranges::stable_sort(out_.mistakes, {}, &StartMistake::line);
        out_.warnings.insert(out_.warnings.begin(), description.said.begin(), description.said.end());
        ask_of_stock();
        for (auto& [holding, stock] : stock_) out_.stock.push_back(stock);
        if (store_.tip().entry == 0 || provisional_) return std::move(out_);
        const AnswerHead head = answers::head_of(store_, Question{}, now_);
        const auto known = ledger::Known::load(store_, head.last_entry);
        out_.site = known.site().name;
        out_.zone = known.site().zone;
        if (!out_.mistakes.empty()) return std::move(out_);
        answers::World world(store_, head, known);
        out_.missing = missing(world);
        return std::move(out_);
    }

private:
    /// In place of one that cannot be taken, so that all else of the file is looked at too.
    void provisional_site() {
        provisional_ = true;
        Entry site;
        site.by = request_.by;
        site.fact = Site{"?", "UTC", {}, {}};
        post({site});
    }

    ledger::Posting& posting() {
        if (!posting_) posting_.emplace(store_);
        return *posting_;
    }

    void post(const std::vector<Entry>& entries) {
        store_.database().execute("SAVEPOINT row");
        try {
            for (Entry entry : entries) {
                const auto last = posting().last_recorded();
                entry.number = posting().last_entry() + 1;
                entry.recorded = last ? std::max(now_, *last) : now_;
                posting().post(entry, "draft");
            }
        } catch (...) {
            posting_.reset();
            store_.database().execute("ROLLBACK TO row");
            store_.database().execute("RELEASE row");
            throw;
        }
        store_.database().execute("RELEASE row");
    }

    void take(RowDraft& row) {
        const bool first = store_.tip().entry == 0;
        if (row.fields["kind"] == "plan" && !first) keep_parts(row);
        Drafted drafted = answers::draft(first ? nullptr : &store_, row.fields.dump(), now_);
        if (!first && holds_already(drafted.entries, row)) {
            ++out_.unchanged;
            return;
        }
        std::optional<Twice> twice;
        for (const Entry& entry : drafted.entries)
            if (const auto* r = std::get_if<Receive>(&entry.fact)) twice = stock_twice(*r, row.line);
        post(drafted.entries);
        if (twice) twice_.push_back(std::move(*twice));
        for (Entry& entry : drafted.entries) {
            if (const auto* r = std::get_if<Receive>(&entry.fact)) add_stock(*r);
            out_.drafted.entries.push_back(std::move(entry));
            out_.lines.push_back(row.line);
        }
        for (auto& one : drafted.filled)
            if (!one.is(words::at_instant) && !one.is(words::lot_is_new)) say(out_.filled, std::move(one), row.line);
        for (auto& one : drafted.warnings) say(out_.warnings, std::move(one), row.line);
        auto& looser = out_.drafted.looser;
        looser.insert(looser.end(), drafted.looser.begin(), drafted.looser.end());
        auto& next = out_.drafted.next_steps;
        next.insert(next.end(), drafted.next_steps.begin(), drafted.next_steps.end());
        out_.drafted.may_change_answers = out_.drafted.may_change_answers || drafted.may_change_answers;
    }

    /// What is said of many rows is said once.
    static void say(std::vector<StartRemark>& all, Remark what, std::int64_t line) {
        const auto it = std::ranges::find(all, what, &StartRemark::text);
        if (it == all.end())
            all.push_back({{line}, std::move(what)});
        else if (it->lines.back() != line)
            it->lines.push_back(line);
    }

    /// The parts of the plan that the file has none of stay as they are.
    void keep_parts(RowDraft& row) {
        const AnswerHead head = answers::head_of(store_, Question{}, now_);
        const auto known = ledger::Known::load(store_, head.last_entry);
        answers::World world(store_, head, known);
        const PlanAnswer before = answers::plan(world);
        if (!before.entry) return;
        nlohmann::ordered_json parts = nlohmann::ordered_json::object();
        entries::print_plan(parts, before.plan);
        std::vector<Field> kept;
        for (const auto& [name, part] : parts.items())
            if (!row.fields.contains(name)) {
                row.fields[name] = Json::parse(part.dump());
                std::string said = name;
                std::ranges::replace(said, '_', ' ');
                kept.emplace_back(said);
            }
        if (!kept.empty()) say(out_.filled, words::kept_as_it_was(words::listed(kept)), row.line);
    }

    bool holds_already(const std::vector<Entry>& entries, const RowDraft& row) {
        if (entries.size() != 1) return false;
        const Fact& fact = entries.front().fact;
        const auto same_time = [&](std::int64_t at) {
            return !row.fields.contains("at") || entries.front().at == Instant(at);
        };
        const std::string wanted = said_by(fact);
        const ledger::Known& known = posting().known();
        if (const auto* assign = std::get_if<Assign>(&fact)) {
            const ledger::Dated<Assign>* last = nullptr;
            for (const auto& a : known.assigns)
                if (a.fact.probe == assign->probe) last = &a;
            return last && last->fact.place == assign->place && same_time(last->at);
        }
        if (const auto* certificate = std::get_if<Certificate>(&fact)) {
            const auto all = known.certificates.find(certificate->probe);
            return all != known.certificates.end() && !all->second.empty() &&
                   said_by(all->second.back().fact) == wanted && same_time(all->second.back().at);
        }
        if (std::holds_alternative<ProgrammeRules>(fact))
            return known.rules() && said_by(known.rules()->fact) == wanted;
        if (std::holds_alternative<Training>(fact) || std::holds_alternative<Plan>(fact)) {
            const AnswerHead head = answers::head_of(store_, Question{}, now_);
            answers::World world(store_, head, known);
            const auto all = answers::duties(world, kind_of(entries.front()));
            if (std::holds_alternative<Plan>(fact)) return !all.empty() && said_by(all.back().fact) == wanted;
            return std::ranges::any_of(all, [&](const Entry& e) {
                return said_by(e.fact) == wanted && same_time(e.at->seconds_since_1970());
            });
        }
        if (!is_definition(entries.front())) return false;
        const auto before = answers::held(known, store_, fact);
        return before && said_by(*before) == wanted;
    }

    /// Doses of a holding that has some already.
    struct Twice {
        HoldingKey holding;
        std::int64_t before = 0, more = 0, line = 0;
    };
    std::optional<Twice> stock_twice(const Receive& r, std::int64_t line) const {
        const auto lot = store_.lot(r.product, r.lot);
        const auto holding = lot ? store_.holding(*lot, r.place, r.fund, r.mark) : std::nullopt;
        const std::int64_t before = holding ? store_.balance(*holding).doses : 0;
        if (before <= 0) return std::nullopt;
        return Twice{{r.place, r.product, r.lot, r.fund, r.mark}, before, r.doses.count(), line};
    }

    /// A file that is given a second time would count all stock twice.
    void ask_of_stock() {
        constexpr std::size_t most = 4;  // of more, how many, and where they stand
        if (twice_.size() <= most) {
            for (const auto& t : twice_)
                out_.asks.push_back(words::start_stock_twice(answers::said::holding_words(t.holding),
                                                             words::doses(t.before), t.more, t.line));
            return;
        }
        std::vector<Field> lines;
        std::int64_t more = 0;
        for (const auto& t : twice_) {
            lines.emplace_back(t.line);
            more += t.more;
        }
        out_.asks.push_back(words::start_stock_twice_of_many(
            words::holdings(static_cast<std::int64_t>(twice_.size())), words::doses(more), words::listed(lines)));
    }

    void add_stock(const Receive& r) {
        auto& stock = stock_[{r.place, r.fund}];
        const auto lot = store_.lot(r.product, r.lot);
        const Date expiry = Date::parse_expiry(posting().known().expiry(store_.lot_definitions(*lot)));
        stock.place = r.place;
        stock.fund = r.fund;
        stock.first_expiry = stock.doses == Doses() ? expiry : std::min(stock.first_expiry, expiry);
        stock.lots += lots_.insert({r.place, r.fund, r.product, r.lot}).second;
        stock.doses = stock.doses + r.doses;
    }

    ledger::Store& store_;
    const StartRequest& request_;
    Instant now_;
    StartDraft out_;
    std::optional<ledger::Posting> posting_;
    bool provisional_ = false;
    std::vector<Twice> twice_;
    std::set<std::string> refused_;
    std::map<std::pair<std::string, std::string>, StartStock> stock_;
    std::set<std::tuple<std::string, std::string, std::string, std::string>> lots_;
};

}  // namespace

StartDraft draft_rows(ledger::Store& store, Description description, const StartRequest& request, Instant now) {
    Batch batch(store, request, now);
    for (auto& row : description.rows) batch.add(std::move(row));
    return batch.finish(std::move(description));
}

}  // namespace coldtally::start
