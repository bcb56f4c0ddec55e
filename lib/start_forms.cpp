// What was understood of a clinic's file, as JSON and in tables.
#include <algorithm>

#include "coldtally/work.hpp"
#include "drafts/read_back.hpp"
#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/changes_form.hpp"
#include "forms/table.hpp"
#include "question/said.hpp"
#include "words/drafts.hpp"
#include "words/definitions.hpp"
#include "words/lists.hpp"
#include "words/start.hpp"
#include "words/work.hpp"

namespace coldtally {

using namespace forms;
using Paint = TableLayout::Paint;
using Kind = TableLayout::Column::Kind;

namespace {

Json said_json(const std::vector<StartRemark>& all) {
    return list_json(all, [](const StartRemark& one) {
        Json out{{"lines", one.lines}};
        set_remark(out, "text", one.text);
        return out;
    });
}

Json mistake_json(const StartMistake& m) {
    return {{"line", m.line},   {"table", m.table},           {"column", m.column},
            {"value", m.value}, {"code", code_name(m.code)}, {"text", m.text}};
}

/// "12, 13, 14, and 30 more"
Field lines_of(const std::vector<std::int64_t>& lines) {
    constexpr std::size_t most = 8;
    std::vector<Field> shown;
    for (std::size_t i = 0; i < std::min(lines.size(), most); ++i) shown.emplace_back(lines[i]);
    const Field listed = words::listed(shown);
    return lines.size() > most ? Field(words::start_more_of_them(listed, lines.size() - most)) : listed;
}

Field with_lines(const StartRemark& said) {
    if (said.lines.empty()) return said.text;
    if (said.lines.size() == 1) return words::colon(words::line_named(said.lines.front()), said.text);
    return words::start_lines(lines_of(said.lines), said.text);
}

/// What a definition says, but for what stands in its row already.
std::optional<Remark> details(const Fact& fact, std::initializer_list<Remark> but, Scale scale = Scale::C) {
    std::vector<Remark> out;
    for (const auto& line : answers::read_back(fact, scale))
        if (std::ranges::find(but, line.name) == but.end()) out.push_back(line.text());
    return words::semicolons(out);
}

template <class T>
std::vector<const T*> all_of(const std::vector<Entry>& entries) {
    std::vector<const T*> out;
    for (const Entry& e : entries)
        if (const T* fact = std::get_if<T>(&e.fact)) out.push_back(fact);
    return out;
}

/// The last that says something of a thing.
template <class T, class Of>
const T* last_of(const std::vector<Entry>& entries, Of of) {
    const T* out = nullptr;
    for (const T* fact : all_of<T>(entries))
        if (of(*fact)) out = fact;
    return out;
}

std::string places_table(const std::vector<Entry>& entries, const TableStyle& style) {
    const auto places = all_of<Place>(entries);
    if (places.empty()) return {};
    TableLayout table(*style.book, {{words::title_place()}, {words::title_name()}, {words::title_type()},
                                    {words::title_range()}});
    table.blank();
    table.titles();
    for (const Place* p : places) {
        table.row({p->place, p->name, answers::said::place_type_words(p->type), answers::both_scales(p->range)});
        if (p->max_gap || p->max_check_gap || p->near)
            table.text(*details(*p, {words::stated_name(), words::stated_type(), words::stated_range()}), 4, 2);
    }
    return render(table, style);
}

std::string products_table(const std::vector<Entry>& entries, const TableStyle& style) {
    const auto products = all_of<Product>(entries);
    if (products.empty()) return {};
    TableLayout table(*style.book, {{words::title_product()}, {words::title_name()}, {words::title_range()}});
    table.blank();
    table.titles();
    for (const Product* p : products) {
        table.row({p->product, p->name, answers::both_scales(p->range)});
        table.text(*details(*p, {words::stated_name(), words::stated_range()}), 4, 2);
        const Maker* maker = last_of<Maker>(entries, [&](const Maker& m) { return m.product == p->product; });
        if (!maker) continue;
        std::vector<Field> said{maker->name};
        for (const auto& more : {maker->contact, maker->phone, maker->email})
            if (more) said.emplace_back(*more);
        table.text(words::start_made_by(words::listed(said)), 4, 2);
    }
    return render(table, style);
}

std::string probes_table(const std::vector<Entry>& entries, const TableStyle& style) {
    const auto probes = all_of<Probe>(entries);
    if (probes.empty()) return {};
    TableLayout table(*style.book, {{words::title_probe()}, {words::title_reads_in()}, {words::title_place()},
                                    {words::title_certificate()}});
    table.blank();
    table.titles();
    for (const Probe* p : probes) {
        const auto* in = last_of<Assign>(entries, [&](const Assign& a) { return a.probe == p->probe; });
        const auto* c = last_of<Certificate>(entries, [&](const Certificate& a) { return a.probe == p->probe; });
        table.row({p->probe, std::string("°") + scale_letter(p->scale),
                   in && in->place ? Field(*in->place) : Field(words::start_none_here()),
                   c ? Field(c->expires.text()) : Field(words::start_none_here())});
        if (c) table.text(*details(*c, {words::stated_last_day()}, p->scale), 4, 2);
    }
    return render(table, style);
}

std::string stock_table(const std::vector<StartStock>& stock, const TableStyle& style) {
    if (stock.empty()) return {};
    TableLayout table(*style.book, {{words::title_place()},
                                    {words::title_fund()},
                                    {words::title_lots(), Kind::number},
                                    {words::title_doses(), Kind::number},
                                    {words::title_first_expiry(), Kind::fixed}});
    table.blank();
    table.titles();
    std::int64_t doses = 0;
    for (const auto& s : stock) {
        table.row({s.place, s.fund.empty() ? Field(words::start_no_fund()) : Field(s.fund), s.lots, s.doses.count(),
                   s.first_expiry.text()});
        doses += s.doses.count();
    }
    table.text(words::sentence(words::doses(doses)));
    return render(table, style);
}

/// What has no table of its own: the site, the plan, the rules, training, and definitions that stand alone.
void add_others(TableLayout& table, const std::vector<Entry>& entries, const TableStyle& style) {
    for (const Entry& e : entries) {
        if (const auto* site = std::get_if<Site>(&e.fact))
            table.text(words::sentence(*details(*site, {words::stated_name()})), 2, 2);
        if (std::holds_alternative<Plan>(e.fact) || std::holds_alternative<ProgrammeRules>(e.fact) ||
            std::holds_alternative<Training>(e.fact))
            table.text(words::sentence(entry_words(e, style.zone)), 2, 2);
    }
}

void add_mistakes(TableLayout& table, const StartDone& done) {
    const auto& d = done.draft;
    table.text(words::start_mistakes_head(d.mistakes.size()), 0, 2, Paint::stop);
    for (const auto& m : d.mistakes) table.text(mistake_words(m), 2, 4);
    if (d.not_looked_at > 0) table.text(words::start_not_looked_at(d.not_looked_at), 2, 2);
}

void add_written(TableLayout& table, const StartDone& done) {
    const auto& entries = done.draft.drafted.entries;
    if (entries.empty()) return table.text(words::start_nothing_new(done.file), 0, 2, Paint::bold);
    if (done.dry_run) {
        table.text(words::start_dry_run(), 0, 2, Paint::wait);
        table.text(words::start_would_post(entries.size()));
        return;
    }
    const EntryNumber first = entries.front().number, last = entries.back().number;
    table.text(words::start_posted(first == last ? words::entry(first) : words::entries_from_to(first, last)), 0, 2,
               Paint::bold);
}

}  // namespace

std::string to_json(const StartDone& done) {
    const StartDraft& d = done.draft;
    Json out{{"dry_run", done.dry_run}, {"file", done.file}, {"site", d.site}, {"zone", d.zone}};
    out["entries"] = Json::array();
    for (const auto& entry : d.drafted.entries) out["entries"].push_back(entries::entry_json(entry));
    out["lines"] = d.lines;
    out["mistakes"] = list_json(d.mistakes, mistake_json);
    out["not_looked_at"] = d.not_looked_at;
    out["unchanged"] = d.unchanged;
    out["stock"] = list_json(d.stock, [](const StartStock& s) {
        return Json{{"place", s.place},
                    {"fund", s.fund},
                    {"lots", s.lots},
                    {"doses", s.doses.count()},
                    {"first_expiry", s.first_expiry.text()}};
    });
    out["filled"] = said_json(d.filled);
    auto warnings = d.warnings;
    for (const auto& one : d.drafted.warnings) warnings.push_back({{}, one});
    out["warnings"] = said_json(warnings);
    set_remarks(out, "asks", done.asks);
    set_remarks(out, "missing", d.missing);
    out["changes"] = done.changes ? changes_json(*done.changes) : Json(nullptr);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const StartDone& done, const TableStyle& style) {
    const StartDraft& d = done.draft;
    TableLayout head(*style.book);
    if (!d.mistakes.empty()) {
        add_mistakes(head, done);
        return render(head, style);
    }
    if (d.drafted.entries.empty() && d.unchanged == 0) return {};
    if (!d.site.empty()) head.text(words::start_understood(d.site, done.file), 0, 2, Paint::bold);
    add_others(head, d.drafted.entries, style);
    if (d.unchanged > 0) head.text(words::start_unchanged(d.unchanged), 2, 2);

    TableLayout tail(*style.book);
    tail.blank();
    for (const auto& one : d.filled) tail.text(words::filled_in(with_lines(one)), 0, 2);
    for (const auto& one : d.drafted.warnings) tail.text(words::warning_line(one), 0, 2, Paint::stop);
    for (const auto& one : d.warnings) tail.text(words::warning_line(with_lines(one)), 0, 2, Paint::stop);
    if (done.asks.empty()) add_written(tail, done);
    if (!d.missing.empty()) {
        tail.blank();
        tail.text(words::start_missing(), 0, 2, Paint::bold);
        for (const auto& one : d.missing) tail.text(words::sentence(one), 2, 2);
    }
    add_caution(tail);
    const auto& entries = d.drafted.entries;
    return render(head, style) + places_table(entries, style) + probes_table(entries, style) +
           products_table(entries, style) + stock_table(d.stock, style) +
           (done.changes ? "\n" + to_table(*done.changes, style) : std::string()) + render(tail, style);
}

}  // namespace coldtally
